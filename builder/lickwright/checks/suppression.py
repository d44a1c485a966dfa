"""One cause, one finding: which rule makes which others pointless, and how far.

A bar whose sum does not come out has no harmony worth judging; two notes on one string have
no stretch. The reach is the sound or the bar of the cause.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable
from dataclasses import dataclass
from fnmatch import fnmatchcase
from typing import Literal

from lickwright.findings import Finding, Severity
from lickwright.model.address import Address
from lickwright.text import Span

Reach = Literal["sound", "bar", "piece"]
REACHES: dict[str, Reach] = {"sound": "sound", "bar": "bar", "piece": "piece"}


@dataclass(frozen=True, slots=True)
class Cause:
    """A rule that silences others.

    Attributes:
        rule: Id.
        silences: Ids, or patterns with ``*``.
        reach: Within one sound, the whole bar, or the whole piece.
        fields: Where not empty, it acts only at the line of one of these fields.
        row: As it stands in the table.
    """

    rule: str
    silences: tuple[str, ...]
    reach: Reach
    fields: frozenset[str] = frozenset()
    row: str = ""


NOTES = (
    "harmony/unexplained harmony/third-and-seventh harmony/bend-target harmony/release harmony/unchanged-note"
    " harmony/unresolved-tension harmony/avoid-note harmony/loose-chromatic harmony/ending harmony/clash"
)
"""The rules that judge a note by its chord and its line; ``NOTES`` in the table."""

PITCHES = (
    f"{NOTES} harmony/shifted-chord harmony/doubtful-key witness/names witness/degrees witness/moved-bar"
    " witness/shifted-row spelling/* prose/* open-strings/* hands/range"
)
"""The rules that go by what sounds; ``PITCHES`` in the table."""

CHORDS = (
    "harmony/chord-disagrees harmony/chord-colour harmony/chorus-chord harmony/shifted-chord"
    " harmony/over-repeat"
)
"""The rules that hold a bar against the chord it stands over; ``CHORDS`` in the table."""

GROUPS = {"NOTES": NOTES, "PITCHES": PITCHES, "CHORDS": CHORDS}
"""Entries of the table that stand for several rules."""

# rule, and fields in parentheses | reach | silences
_TABLE = """
rhythm/bar-length | bar | NOTES harmony/shifted-chord witness/degrees
harmony/shifted-chord | bar | NOTES harmony/foreign-chord
hands/late-bend-direction | sound | NOTES
harmony/chord-disagrees | bar | NOTES witness/degrees
witness/names | sound | witness/degrees NOTES
witness/degrees | sound | NOTES hands/falling-hammer hands/rising-pull hands/stray-note hands/finger
harmony/third-and-seventh | sound | harmony/unexplained
harmony/bend-target | sound | harmony/unexplained
harmony/release | sound | harmony/unexplained
harmony/unchanged-note | sound | NOTES
harmony/unexplained | sound | harmony/unresolved-tension harmony/clash
harmony/doubtful-key | piece | NOTES harmony/foreign-chord
harmony/doubtful-key | piece | prose/*
witness/moved-bar | bar | harmony/*
witness/names | sound | spelling/degree
hands/range | sound | NOTES witness/* hands/stretch hands/bend-reach
hands/one-note-a-string | sound | hands/* NOTES
hands/open-string | sound | hands/falling-hammer NOTES
hands/harmonic-node | sound | NOTES witness/*
hands/slide | sound | hands/finger
syntax/field-value (step meter pickup) | piece | rhythm/bar-length rhythm/pickup-* speed/*
syntax/unknown-field (step meter pickup) | piece | rhythm/bar-length rhythm/pickup-* speed/*
rhythm/step | piece | rhythm/bar-length
harmony/chord-symbol | piece | harmony/no-chord-stated
harmony/chord-symbol | bar | CHORDS NOTES witness/degrees
rhythm/over-count | piece | CHORDS NOTES
course/progression-bars | piece | rhythm/over-length
course/unknown-progression | piece | harmony/no-chord-stated
hands/open-string | sound | hands/finger
open-strings/chromatic | bar | open-strings/clash
harmony/unexplained | sound | open-strings/clash
hands/contradiction | sound | hands/falling-hammer hands/open-string
hands/range | sound | hands/shift hands/stray-note hands/slur-reach
hands/slur-reach | sound | hands/stretch hands/needless-shift
hands/stretch | sound | hands/finger hands/ringing-finger
hands/finger | sound | hands/ringing-finger hands/needless-shift
hands/ringing-finger | sound | hands/needless-shift
hands/rising-pull | sound | hands/finger hands/slur-reach
hands/falling-hammer | sound | hands/finger hands/slur-reach
hands/falling-hammer | sound | prose/pitch
hands/rising-pull | sound | prose/pitch
syntax/row-count | bar | hands/ringing-finger hands/needless-shift hands/position
syntax/row-count | bar | witness/* hands/slide hands/stretch hands/finger picking/*
picking/stroke-on-slur | piece | picking/pendulum picking/economy
picking/claim | piece | picking/alternate
hands/one-note-a-string | sound | picking/*
syntax/nesting | bar | rhythm/too-short
rhythm/too-short | piece | speed/*
witness/names | sound | prose/*
witness/names | sound | hands/falling-hammer hands/rising-pull hands/stray-note hands/finger
witness/names | sound | hands/join-stands-still
witness/degrees | sound | hands/join-stands-still
syntax/row-count | bar | prose/*
hands/stray-note | sound | hands/shift
hands/stray-note | sound | hands/finger
hands/needless-shift | sound | hands/shift
harmony/chord-disagrees | bar | harmony/foreign-chord
hands/bend-reach | sound | NOTES
witness/degrees | sound | prose/*
hands/range | sound | prose/*
witness/capo | piece | PITCHES course/chorus-guitar
witness/tuning | piece | PITCHES course/chorus-guitar
course/progression-order | bar | CHORDS NOTES
rhythm/over-shifted | piece | CHORDS
course/chorus-order | piece | CHORDS NOTES
rhythm/pickup-missing | piece | CHORDS NOTES rhythm/bar-length rhythm/over-count rhythm/over-length \
rhythm/chorus-length harmony/no-chord-stated hands/position prose/* course/link-address \
course/excerpt-address course/field-bars
"""


def _spell_out(silences: str) -> tuple[str, ...]:
    return tuple(rule for entry in silences.split() for rule in GROUPS.get(entry, entry).split())


def _read_row(row: str) -> Cause:
    cause, reach, silences = (cell.strip() for cell in row.split("|"))
    rule, _, fields = cause.partition(" ")
    return Cause(
        rule,
        _spell_out(silences),
        REACHES[reach],
        frozenset(fields.strip("()").split()),
        row,
    )


CAUSES: tuple[Cause, ...] = tuple(map(_read_row, _TABLE.strip().splitlines()))


SEEN_TWICE = frozenset({"syntax/repeat", "syntax/join"})
"""Faults that the text alone shows, and the resolved music again."""


def keep_causes(
    findings: Iterable[Finding],
    beyond: Iterable[Finding] = (),
    *,
    stands: Callable[[Finding], bool] | None = None,
    firm: Container[str] = (),
) -> tuple[Finding, ...]:
    """Return the findings of one piece without those that another one explains.

    Of two findings by the same rule at places that overlap the first is kept: reading and
    resolving may each have come upon the same fault.

    Args:
        findings: Of the piece.
        beyond: Of what the piece is made of: causes too, told there.
        stands: Whether the author lets a finding stand.
        firm: Rules that cannot be let stand: a cause that stands does not explain them away.
    """
    given = _once(findings)
    acting = [
        (finding, cause) for finding in (*given, *beyond) for cause in CAUSES if cause.rule == finding.rule
    ]
    if not acting:
        return given

    def explained(finding: Finding) -> bool:
        reasons = (because for because, cause in acting if _silences(finding, because, cause))
        if stands is None or finding.rule not in firm:
            return any(True for _ in reasons)
        return any(not stands(because) for because in reasons)

    return tuple(finding for finding in given if not explained(finding))


# What leaves a block or a lesson out of the count.
_LEFT_OUT = (
    "syntax/*",
    "course/unknown-lick",
    "course/vary-circle",
    "course/duplicate-name",
    "course/missing-file",
    "course/unreadable-file",
    "course/encoding",
    "course/path",
)


_ASKED = {"keys": "harmony/doubtful-key"}
"""What is promised, and the rule that asks whether it is another."""


def drop_miscounts(findings: Iterable[Finding]) -> list[Finding]:
    """Return the findings of a course without promises that nobody can count yet.

    None is counted while something could not be read, the keys not while one of them is in doubt. A doubt
    that the author lets stand is none.
    """
    given = _counted(list(findings))
    unread = {finding.rule for finding in given if finding.severity is not Severity.NOTE}
    if any(fnmatchcase(rule, pattern) for rule in unread for pattern in _LEFT_OUT):
        return [finding for finding in given if finding.rule != "course/promise"]
    return given


def _counted(given: list[Finding]) -> list[Finding]:
    rules = {finding.rule for finding in given}
    return [f for f in given if f.rule != "course/promise" or _ASKED.get(_setting(f)) not in rules]


def _setting(finding: Finding) -> str:
    """The name in the line of a manifest at which a finding stands."""
    source = finding.span.source
    return source.line(source.line_column(finding.span.start)[0]).partition("=")[0].strip()


def _once(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    kept: list[Finding] = []
    for finding in findings:
        if finding.rule in SEEN_TWICE and any(
            finding.rule == other.rule and _overlap(finding.span, other.span) for other in kept
        ):
            continue
        kept.append(finding)
    return tuple(kept)


def _overlap(a: Span, b: Span) -> bool:
    return a.source.path == b.source.path and a.start <= b.end and b.start <= a.end


def _field(finding: Finding) -> str:
    """The field at whose line a finding stands; of a misspelled one, the field that is meant."""
    if finding.fix is not None and finding.rule == "syntax/unknown-field":
        return finding.fix.edits[0].text
    source = finding.span.source
    return source.line(source.line_column(finding.span.start)[0]).partition(":")[0].strip()


def _silences(finding: Finding, because: Finding, cause: Cause) -> bool:
    if finding.rule == because.rule or not any(fnmatchcase(finding.rule, p) for p in cause.silences):
        return False
    if cause.fields and _field(because) not in cause.fields:
        return False
    if cause.reach == "piece":
        return True
    address, at = Address.parse(finding.address), Address.parse(because.address)
    if address is None or at is None:
        return False
    return address == at or (cause.reach == "bar" and address.bar == at.bar)
