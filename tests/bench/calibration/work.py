"""A work of the calibration: one piece of music that is taken to be right, ready for the rules."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from corpus_setting import STEP, Tune, set_tune

from lickwright.checks.limits import set_limits
from lickwright.checks.subject import Subject
from lickwright.findings import Finding, Severity
from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.music import ChordAt, MusicBar, Piece
from lickwright.model.timeline import resolve
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.chord import ChordSymbol
from lickwright.theory.key import parse_key

LIMITS = set_limits(())
STYLES = ("plain", "country")
TEMPO, SLOW = "tempo: quarter = 96", "tempo: quarter = 60"
Changes = Sequence[Sequence[tuple[Fraction, ChordSymbol]]]
"""For each bar, the chords that begin in it: onset in quarters, symbol."""


class LeftOut(ValueError):  # noqa: N818 - no fault: a work that does not qualify
    """Why a work is not used; the text is counted."""


@dataclass(frozen=True, slots=True)
class Work:
    """A piece with what reading and resolving it found.

    Attributes:
        name: In its material.
        group: The row of the table it counts in.
        findings: Of reading and resolving.
    """

    name: str
    group: str
    piece: Piece
    findings: tuple[Finding, ...] = ()


def set_work(tune: Tune, group: str) -> Work:
    """Put a tune on the neck and read it as an author's lick, note names under it; no chords yet.

    Where the repeat signs do not fit together as printed it is read straight through.
    """
    straight = replace(
        tune,
        measures=tuple(replace(bar, opens=False, closes=False, endings="") for bar in tune.measures),
    )
    faults: set[str] = set()
    for each in (tune, straight):
        try:
            text = set_tune(each, Guitar()).replace(TEMPO, _tempo(each))
        except AssertionError as reason:
            raise LeftOut(str(reason)) from None
        piece, findings = _read(text)
        faults = {finding.rule for finding in findings if finding.severity is Severity.ERROR}
        if piece is not None and not faults:
            return Work(tune.title, group, piece, findings)
    raise LeftOut(f"does not fit together as printed: {', '.join(sorted(faults))}")


def _tempo(tune: Tune) -> str:
    """None is printed: slower where there are notes shorter than a sixteenth."""
    shortest = min((event.length for bar in tune.measures for event in bar.events), default=STEP)
    return TEMPO if shortest >= STEP else SLOW


def _read(text: str) -> tuple[Piece | None, tuple[Finding, ...]]:
    key = parse_key("A major")
    assert key is not None
    settings = Settings(key, "straight", Tempo(96), Guitar(), Provenance("own"))
    lesson, read = read_lesson(Source("lessons/one.md", text), "one")
    course = Course("Calibration", "us", settings, (Unit("Unit", (lesson,)),))
    book, resolved = resolve(course)
    findings = tuple(f for f in (*read, *resolved) if f.rule != "harmony/no-chord-stated")
    return (book.pieces[0] if book.pieces else None), findings


def put_chords(work: Work, changes: Changes) -> Work:
    """Put chords over the bars; one goes on until the next."""
    music = work.piece.music
    bars: list[MusicBar] = []
    last: ChordSymbol | None = None
    for bar, chords in zip(music.bars, changes, strict=True):
        placed = [ChordAt(onset, symbol) for onset, symbol in chords if onset < bar.length]
        if not placed or placed[0].onset > 0:
            before = last if last is not None else bar.chords[0].symbol
            placed.insert(0, ChordAt(Fraction(0), before, carried=True))
        last = placed[-1].symbol
        bars.append(replace(bar, chords=tuple(placed)))
    return replace(work, piece=replace(work.piece, music=replace(music, bars=tuple(bars))))


def in_style(piece: Piece, style: str) -> Subject:
    """Put a piece under proof in a style."""
    return Subject(replace(piece, style=style), LIMITS)
