"""Stet: the findings an author lets stand, each with a reason, sealed to what it was given for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from lickwright.checks.catalogue import rules
from lickwright.checks.seals import Judged, grew, holds, seal
from lickwright.findings import Finding, Label, Severity
from lickwright.model.address import Address
from lickwright.model.blocks import Chorus, Lick, Progression, ScaleBlock
from lickwright.model.course import Course
from lickwright.model.fields import Stet
from lickwright.model.music import Piece
from lickwright.model.timeline import Book


@dataclass(frozen=True, slots=True)
class Standing:
    """A finding that stands.

    Attributes:
        finding: What was found.
        stet: The author's line, with the reason.
        seal: The mark of what the rule judged, as it is now.
    """

    finding: Finding
    stet: Stet
    seal: str


def apply_stets(
    course: Course, book: Book, findings: Iterable[Finding], repeated: Iterable[Finding] = ()
) -> tuple[tuple[Finding, ...], tuple[Standing, ...]]:
    """Part the findings into those that count and those that stand.

    Stets that match nothing, and sealed ones for what has changed since, come back as findings.

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
            odd += _judge(stet, block.name, covered, piece, course, standing)
    return (*(f for found in left.values() for f in found), *odd), tuple(standing)


def _judge(
    stet: Stet,
    name: str,
    covered: list[Finding],
    piece: Piece | None,
    course: Course,
    standing: list[Standing],
) -> list[Finding]:
    rule = rules().get(stet.rule)
    address = "" if stet.address is None else str(stet.address)
    if rule is None:
        near = get_close_matches(stet.rule, rules(), n=1)
        hint = f"Did you mean {near[0]}?" if near else "The handbook lists the rules"
        return [_unused(f"there is no rule {stet.rule} to let stand", stet, name, address, hint)]
    if not rule.stettable and covered:
        why = rule.no_stet or "it leaves no music to play"
        message = f"{stet.rule} cannot be let stand: {why}"
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
    judged = None if piece is None else Judged(course, piece, stet.rule, stet.address, tuple(covered))
    mark = "" if judged is None else seal(judged)
    if stet.seal and judged is not None and not holds(stet.seal, judged):
        worst = max(covered, key=lambda f: f.severity)
        before = grew(stet.seal, judged)
        what = (
            "something else" if before is None else f"a {before.word}, and this is an {worst.severity.word}"
        )
        message = f"this stet was sealed for {what}: {worst.message}"
        hint = f"Listen and read again; when it is to stand as it is now, seal it #{mark}"
        labels = (Label(worst.span, "found here"),)
        return [Finding("stet/stale", worst.severity, message, stet.span, labels, hint, None, name, address)]
    standing.extend(Standing(finding, stet, mark) for finding in covered)
    return []


def _unused(message: str, stet: Stet, name: str, address: str, hint: str) -> Finding:
    return Finding("stet/unused", Severity.QUERY, message, stet.span, (), hint, None, name, address)


class Offers:
    """The stets by which findings could stand, each sealed for all that it would cover."""

    def __init__(self, course: Course, book: Book, findings: Iterable[Finding]) -> None:
        self._course, self._book = course, book
        self._found: dict[tuple[str, str], list[Finding]] = defaultdict(list)
        for finding in findings:
            self._found[finding.lick, finding.rule].append(finding)

    def seal(self, finding: Finding) -> str:
        """Return the seal, or nothing where the finding cannot be let stand."""
        rule, piece = rules().get(finding.rule), self._book.piece(finding.lick)
        if rule is None or not rule.stettable or piece is None or piece.kind == "excerpt":
            return ""
        at = Address.parse(finding.address)
        stet = Stet(rule.id, "", at)
        alike = self._found.get((finding.lick, finding.rule), ())
        covered = tuple(other for other in alike if covers(stet, other)) or (finding,)
        return seal(Judged(self._course, piece, rule.id, at, covered))

    def stet(self, finding: Finding, reason: str = "…") -> str:
        """Return the author's line, ``stet: RULE 2.3 #a41f "…"``, or nothing."""
        mark, at = self.seal(finding), Address.parse(finding.address)
        where = "" if at is None else f" {at}"
        return f'stet: {finding.rule}{where} #{mark} "{reason}"' if mark else ""


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
