"""Stet: the findings an author lets stand, each with a reason, sealed to the music it was given for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from lickwright.checks.catalogue import rules
from lickwright.findings import Finding, Label, Severity
from lickwright.model.address import Address
from lickwright.model.blocks import Chorus, Lick, Progression, ScaleBlock
from lickwright.model.canonical import lasting_digest
from lickwright.model.course import Course
from lickwright.model.fields import Stet
from lickwright.model.music import Music
from lickwright.model.timeline import Book
from lickwright.model.unnumbered import unnumbered

SEAL_LENGTH = 4
"""Hexadecimal digits of a seal."""


@dataclass(frozen=True, slots=True)
class Standing:
    """A finding that stands.

    Attributes:
        finding: What was found.
        stet: The author's line, with the reason.
        seal: The mark of the music as it is now.
    """

    finding: Finding
    stet: Stet
    seal: str


def apply_stets(
    course: Course, book: Book, findings: Iterable[Finding], repeated: Iterable[Finding] = ()
) -> tuple[tuple[Finding, ...], tuple[Standing, ...]]:
    """Part the findings into those that count and those that stand.

    Stets that match nothing, and sealed ones whose bar has changed, come back as findings.

    Args:
        course: As read.
        book: The same, resolved: seals are made of its music.
        findings: All of the course.
        repeated: Those that were told in another block; a stet may have been written for them.
    """
    left: dict[str, list[Finding]] = defaultdict(list)
    for finding in findings:
        left[finding.lick].append(finding)
    spoken: dict[str, list[Finding]] = defaultdict(list)
    for finding in repeated:
        spoken[finding.lick].append(finding)
    standing: list[Standing] = []
    odd: list[Finding] = []
    seen: set[str] = set()
    for block in course.blocks:
        if not isinstance(block, Lick | Chorus | Progression | ScaleBlock) or block.name in seen:
            continue
        seen.add(block.name)
        for stet in block.stets:
            covered = [f for f in left[block.name] if covers(stet, f)]
            if not covered and any(covers(stet, f) for f in spoken[block.name]):
                continue
            left[block.name] = [f for f in left[block.name] if not covers(stet, f)]
            piece = book.piece(block.name)
            mark = "" if piece is None else seal(piece.music, stet.address)
            odd += _judge(stet, block.name, covered, mark, standing)
    return (*(f for found in left.values() for f in found), *odd), tuple(standing)


def _judge(
    stet: Stet, name: str, covered: list[Finding], mark: str, standing: list[Standing]
) -> list[Finding]:
    rule = rules().get(stet.rule)
    address = "" if stet.address is None else str(stet.address)
    if rule is None:
        near = get_close_matches(stet.rule, rules(), n=1)
        hint = f"Did you mean {near[0]}?" if near else "The handbook lists the rules"
        return [_unused(f"there is no rule {stet.rule} to let stand", stet, name, address, hint)]
    if not rule.stettable and covered:
        message = f"{stet.rule} cannot be let stand: it leaves no music to play"
        return [*covered, _unused(message, stet, name, address, "Mend the fault, and take the stet out")]
    if not covered:
        where = f" at {address}" if address else ""
        return [
            _unused(
                f"there is nothing{where} for {stet.rule} to let stand",
                stet,
                name,
                address,
                "Take the line out",
            )
        ]
    if stet.seal and stet.seal != mark:
        worst = max(covered, key=lambda f: f.severity)
        message = f"this stet was sealed for other music: {worst.message}"
        hint = f"Listen again; when it is to stand as it is now, seal it #{mark}"
        labels = (Label(worst.span, "found here"),)
        return [Finding("stet/stale", worst.severity, message, stet.span, labels, hint, None, name, address)]
    standing.extend(Standing(finding, stet, mark) for finding in covered)
    return []


def _unused(message: str, stet: Stet, name: str, address: str, hint: str) -> Finding:
    return Finding("stet/unused", Severity.QUERY, message, stet.span, (), hint, None, name, address)


def offer(book: Book, finding: Finding) -> str:
    """Return the sealed stet that would let a finding stand, ``stet: RULE 2.3 #a41f "…"``, or nothing."""
    rule, piece = rules().get(finding.rule), book.piece(finding.lick)
    if rule is None or not rule.stettable or piece is None or piece.kind == "excerpt":
        return ""
    at = Address.parse(finding.address)
    where = f" {at}" if at is not None else ""
    return f'stet: {finding.rule}{where} #{seal(piece.music, at)} "…"'


def covers(stet: Stet, finding: Finding) -> bool:
    """Whether a stet is about a finding of its own block: the rule, and the place if it names one."""
    if stet.rule != finding.rule:
        return False
    if stet.address is None:
        return True
    at = Address.parse(finding.address)
    if at is None:
        return False
    if stet.address.sound is None and at.sound is not None:
        return stet.address.bar == at.bar and (not stet.address.lower or at.lower)
    return stet.address == at


def seal(music: Music, address: Address | None) -> str:
    """Return the mark of a bar's music, or of all bars where no address is given.

    What is marked is what is played and over which chords, in which key; neither the bar's
    number nor its place in the text.
    """
    bars = music.bars if address is None else tuple(b for b in music.bars if b.number == address.bar)
    return lasting_digest((music.key, tuple(map(unnumbered, bars))))[:SEAL_LENGTH]
