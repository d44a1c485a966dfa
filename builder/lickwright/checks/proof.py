"""The proof of a course: every rule over every piece, one finding a cause, stets applied.

Pure: a course, its music and what reading found go in; the proof comes out.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from lickwright.checks.catalogue import rules
from lickwright.checks.confirmation import Words, take_in
from lickwright.checks.entries import merge_counts
from lickwright.checks.limits import set_limits
from lickwright.checks.moved_change import mend_changes
from lickwright.checks.repair import mend
from lickwright.checks.stets import Standing, apply_stets
from lickwright.checks.subject import Subject
from lickwright.checks.suppression import drop_miscounts, keep_causes
from lickwright.checks.survey import Survey
from lickwright.checks.word_repair import mend_by_words
from lickwright.findings import Finding, Severity
from lickwright.model.address import Address
from lickwright.model.blocks import Lick
from lickwright.model.course import Course
from lickwright.model.music import Piece
from lickwright.model.timeline import Book

Place = tuple[str, str, int, int]
"""What has been told, and where: rule, file, start, end."""
Broken = frozenset[int]
"""Numbers of bars that could not be read whole: nothing further is judged in them."""


COUNTING = frozenset({"course/link-address", "course/change-address", "course/excerpt-address"})
"""Rules about an address that no sound has."""
ONCE_A_PLACE = frozenset({"harmony/shifted-chord", "spelling/chord-root"})
"""Rules that mark a chord symbol: several licks, and several bars, may stand under the same one."""


@dataclass(frozen=True, slots=True)
class Proof:
    """What the proof of a course comes to.

    Attributes:
        findings: By file and place.
        standing: Findings that the author lets stand, each with its reason and seal.
        broken: By the name of a piece, the bars of which not all could be read.
    """

    findings: tuple[Finding, ...]
    standing: tuple[Standing, ...] = ()
    broken: Mapping[str, Broken] = field(default_factory=dict)

    def count(self, severity: Severity) -> int:
        """How many findings are of a severity."""
        return sum(finding.severity is severity for finding in self.findings)

    @property
    def errors(self) -> int:
        """Findings that stop publishing."""
        return self.count(Severity.ERROR)

    @property
    def queries(self) -> int:
        """Findings put to the author."""
        return self.count(Severity.QUERY)

    @property
    def notes(self) -> int:
        """Findings worth knowing."""
        return self.count(Severity.NOTE)


def proof(course: Course, book: Book, findings: Iterable[Finding] = ()) -> Proof:
    """Proofread a course.

    Args:
        course: As read.
        book: The same, resolved.
        findings: What reading and resolving it found.

    Returns:
        All findings, those given among them, but for those another one explains and those
        that a stet lets stand.
    """
    given: dict[str, list[Finding]] = defaultdict(list)
    for finding in findings:
        given[finding.lick].append(finding)
    limits = set_limits(course.settings.limits)
    unread = _unread(f for found in given.values() for f in found)
    broken: dict[str, Broken] = {}
    found: dict[str, list[Finding]] = {}
    spoken: dict[str, tuple[Finding, ...]] = {}  # with what a variation has from its base
    repeated: list[Finding] = []
    told: set[Place] = set()
    subjects: dict[str, Subject] = {}
    for piece in _in_order_of_making(book):
        subject = subjects[piece.name] = Subject(piece, limits, subjects.get(piece.of))
        broken[piece.name] = _broken(piece, unread) | broken.get(piece.of, frozenset())
        own = [f for f in subject.found if _bar(f) not in broken[piece.name]]
        fresh, again = _part(piece, own, told, spoken.get(piece.of, ()))
        counted = [f for f in given.pop(piece.name, ()) if not _counts_in(broken[piece.name], f)]
        resolved, known = _part_given(counted, spoken.get(piece.of, ()))
        again += known
        repeated += again
        found[piece.name] = [*resolved, *fresh]
        spoken[piece.name] = (*found[piece.name], *again)
    scales = {piece.name: Subject(piece, limits) for piece in book.pieces if piece.kind == "scale"}
    survey = Survey(course, book, limits, scales | subjects, broken)
    surveyed = [f for rule in rules().values() if rule.survey is not None for f in rule.survey(survey)]
    loose = [f for rest in given.values() for f in rest]
    for finding in (*loose, *surveyed):
        found.setdefault(finding.lick, []).append(finding)
    everything = _tell_once(_keep(found, subjects, survey, repeated), repeated)
    kept, standing = apply_stets(course, book, everything, repeated)
    return Proof(tuple(sorted(drop_miscounts(kept), key=lambda f: f.sort_key)), standing, broken)


def _keep(
    found: Mapping[str, list[Finding]],
    subjects: Mapping[str, Subject],
    survey: Survey,
    repeated: Sequence[Finding],
) -> list[Finding]:
    """Leave out what another finding explains, in the piece or in what it is made of, and try repairs."""
    kept: list[Finding] = []
    firm = frozenset(rule.id for rule in rules().values() if not rule.stettable)
    stets = {block.name: block.stets for block in survey.course.blocks if isinstance(block, Lick)}
    beyond: dict[str, tuple[Finding, ...]] = {}
    for name, subject in subjects.items():
        piece, own = subject.piece, found.get(name, [])
        beyond[name] = tuple(_reach_on(piece, found, beyond))
        words = Words.of(name, survey.claims, stets.get(name, ()))
        causes = keep_causes(own, beyond[name], stands=words.stands, firm=firm)
        mended = mend(subject, merge_counts(piece, causes), words)
        again = (f for f in repeated if f.lick == name)
        kept += mend_by_words(subject, take_in(mend_changes(subject, mended), words, again), words)
    for name, rest in found.items():
        if name not in subjects:
            kept += keep_causes(rest) if name else rest
    return kept


def _reach_on(
    piece: Piece, found: Mapping[str, list[Finding]], beyond: Mapping[str, tuple[Finding, ...]]
) -> Iterator[Finding]:
    """What is found in the base of a variation, and in the licks of a chorus, where it may be a cause here.

    In a variation it stands at the same place, unless that was changed; in a chorus bars have other numbers,
    and only a cause that reaches through its whole piece goes on.
    """
    for made_of in dict.fromkeys((piece.of, *(section.lick for section in piece.sections))):
        for finding in (*found.get(made_of, ()), *beyond.get(made_of, ())) if made_of else ():
            if piece.kind == "chorus":
                yield replace(finding, address="")
            elif Address.parse(finding.address) not in piece.changed:
                yield finding


def _tell_once(findings: Iterable[Finding], repeated: list[Finding]) -> list[Finding]:
    """Tell a fault of the course that shows in several places once; it is then no piece's alone."""
    told: list[Finding] = []
    by_place: dict[tuple[Place, str], list[Finding]] = defaultdict(list)
    for finding in findings:
        if rules()[finding.rule].survey is None:
            told.append(finding)
        else:
            span = finding.span
            place = finding.rule, span.source.path, span.start, span.end
            by_place[place, finding.message].append(finding)
    for alike in by_place.values():
        if len({finding.lick for finding in alike}) == 1:
            told.append(alike[0])
        else:
            told.append(replace(alike[0], lick="", address=""))
            repeated += alike
    return told


def _in_order_of_making(book: Book) -> list[Piece]:
    """The licks, those first that others are variations of, then the choruses.

    What the builder itself cut or fingered is left out.
    """
    first = {piece.name: piece for piece in reversed(book.pieces) if piece.kind in ("lick", "chorus")}
    depths: dict[str, int] = {"": -1}
    for piece in first.values():
        chain = [piece.name]
        while (base := first.get(chain[-1])) is not None and base.of not in depths and base.of not in chain:
            chain.append(base.of)
        known = first.get(chain[-1])
        depth = depths.get(known.of, -1) if known is not None else -1
        for name in reversed(chain):
            depth = depths.setdefault(name, depth + 1)
    return sorted(first.values(), key=lambda piece: (piece.kind == "chorus", depths[piece.name]))


def _bar(finding: Finding) -> int | None:
    address = Address.parse(finding.address)
    return None if address is None else address.bar


def _unread(findings: Iterable[Finding]) -> Mapping[str, Sequence[Finding]]:
    """The faults of the text itself, by file."""
    unread: dict[str, list[Finding]] = defaultdict(list)
    for finding in findings:
        if finding.severity is Severity.ERROR and finding.rule.startswith("syntax/"):
            unread[finding.span.source.path].append(finding)
    return unread


def _broken(piece: Piece, unread: Mapping[str, Sequence[Finding]]) -> Broken:
    if not unread:
        return frozenset()
    return frozenset(
        bar.number
        for bar in piece.music.bars
        for finding in unread.get(bar.span.source.path, ())
        if bar.span.start <= finding.span.start <= bar.span.end
    )


def _counts_in(broken: Broken, finding: Finding) -> bool:
    """Whether a finding counts the sounds of a bar of which one could not be read."""
    address = Address.parse(finding.address) if finding.rule in COUNTING else None
    return address is not None and address.sound is not None and address.bar in broken


def _part_given(given: Iterable[Finding], base: Sequence[Finding]) -> tuple[list[Finding], list[Finding]]:
    """Part what resolving found in a variation into its own and what its base has already."""
    inherited = {(f.rule, f.address, f.message) for f in base if f.address}
    known = [f for f in given if (f.rule, f.address, f.message) in inherited]
    return [f for f in given if f not in known], known


def _part(
    piece: Piece, own: Iterable[Finding], told: set[Place], base: Sequence[Finding]
) -> tuple[list[Finding], list[Finding]]:
    """Part a piece's findings into new ones and those that its base or a lick of the chorus has already."""
    inherited = {(f.rule, f.address, f.message) for f in base}
    places = {(f.rule, f.span) for f in base}
    changed = set(map(str, piece.changed))
    taken_over = {(f.rule, f.address) for f in base if f.address and f.address not in changed}
    fresh: list[Finding] = []
    again: list[Finding] = []
    for finding in own:
        # One place, one finding: a chorus adds only where its lick is clean by itself.
        key = (finding.rule, finding.span.source.path, finding.span.start, finding.span.end)
        known = (finding.rule, finding.address, finding.message) in inherited
        known = known or (finding.rule, finding.span) in places
        known = known or (piece.kind == "lick" and (finding.rule, finding.address) in taken_over)
        once = piece.kind == "chorus" or finding.rule in ONCE_A_PLACE
        if known or (once and key in told):
            again.append(finding)
        else:
            told.add(key)
            fresh.append(finding)
    return fresh, again
