"""The seal of a stet: a short mark of all that its rule judged when the author let its finding stand.

Every rule judges the music of the bar, its key and its chords; what else a rule or its group reads is a row
of ``READS``. The thresholds that a course sets for a rule belong to it as well, and how severe the finding
was. Neither the bar's number nor its place in the text is marked; a default that nobody changed is left out,
so that seals in lessons outlast a rule that begins to read more.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from lickwright.checks.catalogue import rules
from lickwright.checks.limits import LIMITS
from lickwright.findings import Finding, Severity
from lickwright.model.address import Address
from lickwright.model.canonical import lasting_digest
from lickwright.model.course import Course
from lickwright.model.fields import Picking
from lickwright.model.music import MusicBar, Piece
from lickwright.model.timeline.tempi import quarters
from lickwright.model.unnumbered import unnumbered
from lickwright.text import Span

SEAL_LENGTH = 4
"""Hexadecimal digits of a seal."""
STYLE = "country"
"""The default, which is not marked."""


@dataclass(frozen=True, slots=True)
class Read:
    """What a rule reads besides the music of its bar; a field that it does not read keeps its default.

    Attributes:
        tempo: Quarters a minute. ``slow``, ``ladder``: likewise.
        level, style: Of the course.
        positions: Frets of the positions claimed. ``picking``: as the field says.
        beside: The other bars that the finding points at.
        limits: Thresholds of the rule that the course sets: name and value.
        words: The sentences found fault with.
        severity: A word, where it is less than the rule's utmost.
    """

    tempo: Fraction | None = None
    slow: Fraction | None = None
    ladder: tuple[Fraction, ...] = ()
    level: str = ""
    style: str = ""
    positions: tuple[int, ...] = ()
    picking: Picking = Picking()
    beside: tuple[MusicBar, ...] = ()
    limits: tuple[tuple[str, float], ...] = ()
    words: tuple[str, ...] = ()
    severity: str = ""


@dataclass(frozen=True, slots=True)
class Judged:
    """What one stet lets stand, or would.

    Attributes:
        course: Whose thresholds and words count.
        piece: The music that the stet stands in.
        rule: ``group/fault``.
        at: Where it found something; None for the whole piece.
        found: What it found there, at least one.
    """

    course: Course
    piece: Piece
    rule: str
    at: Address | None
    found: tuple[Finding, ...]

    @property
    def bars(self) -> tuple[MusicBar, ...]:
        """The bars that are sealed."""
        bars, at = self.piece.music.bars, self.at
        return bars if at is None else tuple(bar for bar in bars if bar.number == at.bar)

    @property
    def severity(self) -> Severity:
        """Of the gravest."""
        return max(finding.severity for finding in self.found)


def _tempo(judged: Judged) -> Fraction:
    return quarters(judged.piece.tempo, judged.piece.music.bars[0].meter)


def _slow(judged: Judged) -> Fraction:
    return quarters(judged.piece.slow, judged.piece.music.bars[0].meter)


def _ladder(judged: Judged) -> tuple[Fraction, ...]:
    meter = judged.piece.music.bars[0].meter
    return tuple(quarters(tempo, meter) for tempo in judged.piece.ladder)


def _style(judged: Judged) -> str:
    return "" if judged.piece.style == STYLE else judged.piece.style


def _beside(judged: Judged) -> tuple[MusicBar, ...]:
    """The bars in which the labels of what was found stand, but those that are sealed anyway."""
    labels = [label.span for finding in judged.found for label in finding.labels]
    others = (bar for bar in judged.piece.music.bars if bar not in judged.bars)
    return tuple(unnumbered(bar) for bar in others if any(_holds(bar.span, span) for span in labels))


def _words(judged: Judged) -> tuple[str, ...]:
    """The sentences of what was found, wherever their lines break."""
    lessons = (*judged.course.lessons, *judged.course.drafts)
    spans = [finding.span for finding in judged.found]
    paths = {span.source.path for span in spans}
    links = (link for lesson in lessons if lesson.source.path in paths for link in lesson.links)
    passages = {id(link.passage): link.passage for link in links}
    return tuple(
        " ".join(passage.text.split())
        for passage in passages.values()
        if any(_holds(passage.span(0, len(passage.text)), span) for span in spans)
    )


def _holds(whole: Span, part: Span) -> bool:
    return whole.source.path == part.source.path and whole.start <= part.start <= whole.end


PARTS: Mapping[str, Callable[[Judged], object]] = {
    "tempo": _tempo,
    "slow": _slow,
    "ladder": _ladder,
    "level": lambda judged: judged.piece.level,
    "style": _style,
    "positions": lambda judged: tuple(fret for _, fret in judged.piece.music.positions),
    "picking": lambda judged: judged.piece.music.picking,
    "beside": _beside,
    "words": _words,
}
"""How each part of ``Read`` is taken."""

READS: Mapping[str, tuple[str, ...]] = {
    "hands/position": ("positions",),
    "hands/shift": ("tempo", "beside"),
    "course/difficulty-jump": ("tempo",),
    "harmony": ("style",),
    "open-strings": ("style",),
    "picking": ("picking",),
    "picking/one-finger": ("tempo",),
    "prose": ("words",),
    "rhythm/cut-time-tempo": ("tempo",),
    "rhythm/slow-tempo": ("tempo", "slow"),
    "speed": ("tempo",),
    "speed/strokes": ("tempo", "ladder", "level"),
}
"""What a rule reads besides the music, its own row before that of its group: names of ``PARTS``."""


def seal(judged: Judged, severity: Severity | None = None) -> str:
    """Return the mark of what is judged, or as it would be if it were as grave as said."""
    rule, grave = judged.rule, judged.severity if severity is None else severity
    parts = READS.get(rule, READS.get(rule.partition("/")[0], ()))
    taken: dict[str, Any] = {part: PARTS[part](judged) for part in parts}
    read = Read(
        **taken, limits=_limits(judged), severity="" if grave >= rules()[rule].severity else grave.word
    )
    music = (judged.piece.music.key, tuple(map(unnumbered, judged.bars)))
    return lasting_digest(music if read == Read() else (*music, read))[:SEAL_LENGTH]


def _limits(judged: Judged) -> tuple[tuple[str, float], ...]:
    """The thresholds the rule goes by that the course sets to something else than the default."""
    own = {name: limit.value for name, limit in LIMITS.items() if judged.rule in limit.rules}
    values = ((name, float(value)) for name, value in sorted(judged.course.settings.limits))
    return tuple((name, value) for name, value in values if own.get(name, value) != value)


def holds(mark: str, judged: Judged) -> bool:
    """Whether a seal is of what is judged now: the same, and no graver than it was."""
    return any(mark == seal(judged, each) for each in Severity if each >= judged.severity)


def grew(mark: str, judged: Judged) -> Severity | None:
    """How grave the finding was when it was sealed, if all else is as it was; else None."""
    return next((each for each in Severity if each < judged.severity and mark == seal(judged, each)), None)
