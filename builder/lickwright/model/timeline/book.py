"""The whole course resolved: every lick, chorus and excerpt as a piece, every progression as a grid."""

from __future__ import annotations

from dataclasses import dataclass, field

from lickwright.findings import Finding
from lickwright.instrument.guitar import Guitar
from lickwright.model.blocks import Chorus, Excerpt, Lick, NeckBlock, ScaleBlock
from lickwright.model.course import Course, Lesson, LickLink
from lickwright.model.music import Piece
from lickwright.model.timeline.chorus import resolve_chorus
from lickwright.model.timeline.excerpt import has_part, resolve_excerpt
from lickwright.model.timeline.faults import Faults
from lickwright.model.timeline.harmony import Grid, resolve_progression
from lickwright.model.timeline.licks import LickResolver
from lickwright.model.timeline.necks import check_neck
from lickwright.model.timeline.scale import resolve_scale
from lickwright.model.timeline.wording import Names, missing_end, missing_part


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
        placed: Licks, choruses, scales and excerpts in the order of study (drafts last).
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
    for block in course.scales.values():
        faults = Faults(block.name)
        piece = resolve_scale(block, course.settings, faults)
        findings += faults
        if piece is not None:
            pieces.setdefault(block.name, piece)
    placed = [
        placed
        for lesson in (*course.lessons, *course.drafts)
        for placed in _place(lesson, pieces, course.settings.guitar, findings, names)
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
    resolver = LickResolver(licks, grids, course.settings, names)
    for lick in licks.values():
        resolver.resolve(lick)
    for name in licks:
        findings += resolver.findings[name]
    return {name: resolver.pieces[name] for name in licks if name in resolver.pieces}


def _place(
    lesson: Lesson, pieces: dict[str, Piece], guitar: Guitar, findings: list[Finding], names: Names
) -> list[PlacedPiece]:
    placed = []
    shown: dict[str, int] = {}
    for place in lesson.blocks:
        block = place.block
        piece: Piece | None = None
        if isinstance(block, Lick | Chorus | ScaleBlock):
            piece = pieces.get(block.name)
            piece = piece if piece is not None and piece.span == block.span else None
        elif isinstance(block, NeckBlock):
            findings += check_neck(block, pieces, guitar, names)
        elif isinstance(block, Excerpt):
            piece = _excerpt(block, _excerpt_name(block, shown), pieces, findings, names)
        if piece is not None:
            placed.append(PlacedPiece(lesson.name, place.line, piece))
    return placed


def _excerpt_name(block: Excerpt, shown: dict[str, int]) -> str:
    """Name an excerpt for what it shows: one more before it renames none, and ``@`` is in no lick's name."""
    name = f"{block.of}@{block.show or 'all'}"
    shown[name] = shown.get(name, 0) + 1
    return name if shown[name] == 1 else f"{name}@{shown[name]}"


def _excerpt(
    block: Excerpt, name: str, pieces: dict[str, Piece], findings: list[Finding], names: Names
) -> Piece | None:
    faults = Faults(block.of)
    base = pieces.get(block.of)
    piece: Piece | None = None
    if base is None:
        message, hint = names.missing(block.of, "lick", "chorus")
        faults.add("course/unknown-lick", message, dict(block.places).get("of", block.span), help=hint)
    else:
        piece = resolve_excerpt(block, base, name, faults)
    findings += faults
    return piece


def _check_link(link: LickLink, pieces: dict[str, Piece], names: Names) -> list[Finding]:
    faults = Faults(link.target)
    piece = pieces.get(link.target)
    if piece is None:
        if not names.has(link.target, "lick", "chorus"):  # else what keeps it from playing is told there
            message, hint = names.missing(link.target, "lick", "chorus")
            faults.add("course/link-target", message, link.span, help=hint)
    elif link.at is not None and not has_part(piece.music, link.at):
        faults.add(
            "course/link-address",
            f"“{link.target}” has {missing_part(piece.music, link.at)}",
            link.span,
            help="An address is bar, point, sound: 2.3; 2 is a bar, 2-3 bars, 1.3-2.1 sounds",
            address=missing_end(piece.music, link.at),
        )
    return list(faults)
