"""The whole course resolved: every lick, chorus and excerpt as a piece, every progression as a grid."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TypeVar

from lickwright.findings import Finding
from lickwright.model.blocks import Chorus, Excerpt, Lick, NeckBlock
from lickwright.model.course import Course, Lesson, LickLink
from lickwright.model.music import Line, Piece
from lickwright.model.timeline.chorus import resolve_chorus
from lickwright.model.timeline.excerpt import excerpt_music, resolve_excerpt
from lickwright.model.timeline.faults import Faults
from lickwright.model.timeline.harmony import Grid, resolve_progression
from lickwright.model.timeline.piece import resolve_lick
from lickwright.model.timeline.variation import vary
from lickwright.model.timeline.wording import Names, missing_part

L = TypeVar("L", Line, "Line | None")


@dataclass(frozen=True, slots=True)
class PlacedPiece:
    """A piece and where its block stands: lesson name and 0-based line of the fence."""

    lesson: str
    line: int
    piece: Piece


@dataclass(frozen=True, slots=True)
class Book:
    """A course's music.

    Attributes:
        placed: Licks, choruses and excerpts in the order of study (drafts last).
        grids: Progressions in the order of study.
    """

    placed: tuple[PlacedPiece, ...] = ()
    grids: tuple[Grid, ...] = ()
    _names: dict[str, Piece] = field(init=False, compare=False, repr=False)
    _places: dict[tuple[str, int], Piece] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        names: dict[str, Piece] = {}
        for placed in self.placed:
            names.setdefault(placed.piece.name, placed.piece)
        object.__setattr__(self, "_names", names)
        places = {(placed.lesson, placed.line): placed.piece for placed in self.placed}
        object.__setattr__(self, "_places", places)

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """Every piece in the order of study."""
        return tuple(placed.piece for placed in self.placed)

    def piece(self, name: str) -> Piece | None:
        """The lick, chorus or excerpt of that name."""
        return self._names.get(name)

    def at(self, lesson: str, line: int) -> Piece | None:
        """The piece whose fence opens at a line of a lesson."""
        return self._places.get((lesson, line))

    def grid(self, name: str) -> Grid | None:
        """The progression of that name."""
        return next((grid for grid in self.grids if grid.name == name), None)


def resolve(course: Course) -> tuple[Book, tuple[Finding, ...]]:
    """Resolve every reference of a course, and report all that leads nowhere."""
    findings: list[Finding] = []
    names = Names.of(course.blocks)
    grids = _grids(course)
    by_name = {grid.name: grid for grid in grids}
    pieces = _licks(course, by_name, findings, names)
    for chorus in course.choruses.values():
        faults = Faults(chorus.name)
        piece = resolve_chorus(chorus, pieces, by_name, course.settings, faults, names)
        findings += faults
        if piece is not None:
            pieces.setdefault(chorus.name, piece)
    placed = [
        placed for lesson in (*course.lessons, *course.drafts) for placed in _place(lesson, pieces, findings)
    ]
    for lesson in (*course.lessons, *course.drafts):
        for link in lesson.links:
            findings += _check_link(link, pieces, names)
    return Book(tuple(placed), tuple(grids)), tuple(findings)


def _grids(course: Course) -> list[Grid]:
    settings = course.settings
    return [
        resolve_progression(block, settings.key, settings.feel, settings.tempo)
        for block in course.progressions.values()
    ]


def _licks(course: Course, grids: dict[str, Grid], findings: list[Finding], names: Names) -> dict[str, Piece]:
    licks = course.licks
    pieces: dict[str, Piece] = {}
    for lick in licks.values():
        faults = Faults(lick.name)
        varied = vary(lick, licks, faults)
        if varied is not None and varied[0].bars:
            piece = resolve_lick(varied[0], grids, course.settings, faults, names)
            if lick.vary is not None:
                piece = replace(piece, changed=varied[1])
                piece = without_stale_degrees(piece, pieces.get(lick.vary))
            pieces[lick.name] = piece
        # the reader has seen the joins of written bars; only a change can break one unseen
        findings += (f for f in faults if lick.vary is not None or f.rule != "syntax/join")
    return pieces


def without_stale_degrees(piece: Piece, base: Piece | None) -> Piece:
    """A variation drops the ``degrees`` of bars whose chord is not the base's."""
    if base is None:
        return piece
    bars = []
    for bar in piece.music.bars:
        old = base.music.bar(bar.number)
        same = old is not None and [(c.onset, c.symbol) for c in old.chords] == [
            (c.onset, c.symbol) for c in bar.chords
        ]
        bars.append(bar if same else replace(bar, upper=_undegreed(bar.upper), lower=_undegreed(bar.lower)))
    return replace(piece, music=replace(piece.music, bars=tuple(bars)))


def _undegreed(line: L) -> L:
    if line is None:
        return line
    sounds = tuple(
        replace(sound, tones=tuple(replace(tone, degree=None) for tone in sound.tones))
        for sound in line.sounds
    )
    return replace(line, sounds=sounds)


def _place(lesson: Lesson, pieces: dict[str, Piece], findings: list[Finding]) -> list[PlacedPiece]:
    placed = []
    shown: dict[str, int] = {}
    for place in lesson.blocks:
        block = place.block
        piece: Piece | None = None
        if isinstance(block, Lick | Chorus):
            piece = pieces.get(block.name)
            piece = piece if piece is not None and piece.span == block.span else None
        elif isinstance(block, NeckBlock):
            findings += _check_neck(block, pieces)
        elif isinstance(block, Excerpt):
            shown[block.of] = shown.get(block.of, 0) + 1
            piece = _excerpt(block, f"{block.of}-{lesson.name}-{shown[block.of]}", pieces, findings)
        if piece is not None:
            placed.append(PlacedPiece(lesson.name, place.line, piece))
    return placed


def _excerpt(block: Excerpt, name: str, pieces: dict[str, Piece], findings: list[Finding]) -> Piece | None:
    faults = Faults(block.of)
    base = pieces.get(block.of)
    piece: Piece | None = None
    if base is None:
        faults.add(
            "course/unknown-lick",
            f"there is no lick or chorus “{block.of}” to show a part of",
            dict(block.places).get("of", block.span),
        )
    else:
        piece = resolve_excerpt(block, base, name, faults)
    findings += faults
    return piece


def _check_neck(block: NeckBlock, pieces: dict[str, Piece]) -> list[Finding]:
    faults = Faults(block.of)
    if block.of and block.of not in pieces:
        place = dict(block.places).get("of", block.span)
        faults.add("course/unknown-lick", f"there is no lick “{block.of}” to show on the neck", place)
    elif block.of and block.bars is not None:
        numbers = [bar.number for bar in pieces[block.of].music.bars]
        if block.bars.first.bar not in numbers or block.bars.last.bar not in numbers:
            place = dict(block.places).get("bars", block.span)
            faults.add("course/field-bars", f"“{block.of}” has no bars {block.bars}", place)
    return list(faults)


def _check_link(link: LickLink, pieces: dict[str, Piece], names: Names) -> list[Finding]:
    faults = Faults(link.target)
    piece = pieces.get(link.target)
    if piece is None:
        if not names.has(link.target, "lick", "chorus"):  # else what keeps it from playing is told there
            message, hint = names.missing(link.target, "lick", "chorus")
            faults.add("course/link-target", message, link.span, help=hint)
    elif link.at is not None and excerpt_music(piece.music, link.at) is None:
        faults.add(
            "course/link-address",
            f"“{link.target}” has {missing_part(piece.music, link.at)}",
            link.span,
            help="An address is bar, point, sound: 2.3; 2 is a bar, 2-3 bars, 1.3-2.1 sounds",
        )
    return list(faults)
