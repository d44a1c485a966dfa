"""One cause, one line: what a lick only takes from elsewhere is told there, and the lick is named.

A lick takes fields from the course, fields and chords from the progression it is played over, and from the
lick it varies what it does not change itself. A chorus is silent about what its licks say.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from lickwright.errata.errata import (
    BarChange,
    CourseChange,
    Detail,
    FieldChange,
    GridChange,
    Kind,
    LickChange,
)
from lickwright.errata.progressions import chord_changes
from lickwright.terms.lengths import LENGTHS

Told = frozenset[FieldChange | str | tuple[int | None, int | None, str]]
"""What is told of a cause: fields; what is said in any bar of those who take from it; what, in which bar."""
TAKEN = frozenset({"source", "key", "feel", "tempo", "tuning", "capo"})
"""Fields that may come from elsewhere; a title never does."""
_Change = TypeVar("_Change", LickChange, GridChange)


@dataclass(frozen=True, slots=True)
class Settled:
    """Changes, each told where it was made."""

    course: tuple[CourseChange, ...]
    progressions: tuple[GridChange, ...]
    licks: tuple[LickChange, ...]


def settle(
    fields: Iterable[FieldChange], grids: Iterable[GridChange], licks: Sequence[LickChange]
) -> Settled:
    """Take out of each change what is told of the course, of a progression or of the lick it varies.

    Args:
        fields: The lines of the manifest that differ.
        grids: The progressions that are not as they were.
        licks: The licks and choruses, with everything that shows in them.
    """
    course = {field: frozenset(_as_taken(field)) for field in fields}
    progressions = [_leave(grid, frozenset().union(*course.values())) for grid in grids]
    told = {grid.name: _told_by_grid(grid) for grid in progressions}
    others = {name for lick in licks if lick.bars or lick.before is None for name in _names(lick)}
    left: dict[str, LickChange] = {}
    shown: defaultdict[tuple[object, ...], list[str]] = defaultdict(list)
    for lick in _bases_first(licks):
        rest = lick
        for cause, shows in _causes(lick, course, told, left):
            before, rest = rest, _leave(rest, shows)
            if rest != before:
                shown[cause].append(lick.name)
        left[lick.name] = _leave_to_licks(rest, others)
    in_order = {lick.name: number for number, lick in enumerate(licks)}

    def reached(*cause: object) -> tuple[str, ...]:
        return tuple(sorted(shown[cause], key=in_order.__getitem__))

    return Settled(
        tuple(CourseChange(field, reached("course", field)) for field in course),
        tuple(
            replace(grid, licks=reached("progression", grid.name))
            for grid in progressions
            if not _nothing(grid)
        ),
        tuple(
            replace(left[lick.name], licks=reached("lick", lick.name))
            for lick in licks
            if not _nothing(left[lick.name])
        ),
    )


def _causes(
    lick: LickChange,
    course: Mapping[FieldChange, Told],
    progressions: Mapping[str, Told],
    licks: Mapping[str, LickChange],
) -> Iterator[tuple[tuple[object, ...], Told]]:
    """Yield what a lick may take a change from, and what is told of it there."""
    for field, told in course.items():
        yield ("course", field), told
    if lick.after is not None and lick.after.over in progressions:
        yield ("progression", lick.after.over), progressions[lick.after.over]
    if (base := _base(lick)) in licks:
        yield ("lick", base), _told_by_lick(licks[base])


def _leave(change: _Change, told: Told) -> _Change:
    fields = tuple(field for field in change.fields if field not in told)
    bars = (_leave_bar(bar, told) for bar in change.bars)
    return replace(change, fields=fields, bars=tuple(bar for bar in bars if bar.details))


def _leave_bar(bar: BarChange, told: Told) -> BarChange:
    def known(detail: Detail) -> bool:
        return detail.said in told or (bar.old, bar.new, detail.said) in told

    return replace(bar, details=tuple(detail for detail in bar.details if not known(detail)))


def _leave_to_licks(chorus: LickChange, others: set[str]) -> LickChange:
    """Return a chorus without its bars when its licks changed, or others stand in their place."""
    if chorus.before is None or chorus.after is None or chorus.after.kind != "chorus":
        return chorus
    was, now = ([section.lick for section in piece.sections] for piece in (chorus.before, chorus.after))
    if was == now and others.isdisjoint(now):
        return chorus
    fields = tuple(field for field in chorus.fields if field.field != "bars as played")
    return replace(chorus, fields=fields, bars=())


def _names(lick: LickChange) -> Iterator[str]:
    yield from {piece.name for piece in (lick.before, lick.after) if piece is not None}


def _as_taken(field: FieldChange) -> Iterator[FieldChange]:
    """Yield a field of the course or a progression as it shows in what takes it from there."""
    if field.field in TAKEN:
        yield field
    if field.field == "tempo":
        for beat in LENGTHS.values():  # a bare number counts the beat of each lick's meter
            was, now = (said if "=" in said else f"{beat} = {said}" for said in (field.old, field.new))
            yield FieldChange(field.kind, field.field, was, now)


def _told_by_grid(grid: GridChange) -> Told:
    if grid.before is None or grid.after is None:
        return frozenset()
    chords = (detail.said for detail in chord_changes(grid.before, grid.after))
    name = FieldChange(Kind.MUSIC, "over", grid.before.name, grid.after.name)
    fields = (taken for field in grid.fields for taken in _as_taken(field))
    return frozenset((*fields, *chords, name))


def _told_by_lick(base: LickChange) -> Told:
    return frozenset(
        (*base.fields, *((bar.old, bar.new, detail.said) for bar in base.bars for detail in bar.details))
    )


def _nothing(change: LickChange | GridChange) -> bool:
    """Whether nothing is left to tell: it is in both editions under one name, and all of it as it was."""
    if change.fields or change.bars:
        return False
    return change.before is not None and change.after is not None and change.before.name == change.after.name


def _base(lick: LickChange) -> str:
    piece = lick.after
    return piece.of if piece is not None and piece.kind == "lick" else ""


def _bases_first(licks: Sequence[LickChange]) -> Iterator[LickChange]:
    """Yield each lick after the one it varies."""
    by_name = {lick.name: lick for lick in licks}
    given: set[str] = set()

    def give(lick: LickChange) -> Iterator[LickChange]:
        if lick.name in given:
            return
        given.add(lick.name)
        if (base := _base(lick)) in by_name:
            yield from give(by_name[base])
        yield lick

    for lick in licks:
        yield from give(lick)
