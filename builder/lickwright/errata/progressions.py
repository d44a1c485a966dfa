"""The progressions of two editions: what the band plays, bar by bar as written."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from difflib import SequenceMatcher
from itertools import zip_longest

from lickwright.errata.bars import chord_change, say_chords
from lickwright.errata.errata import BarChange, Detail, FieldChange, GridChange, Kind
from lickwright.errata.fields import say_order, say_tempo
from lickwright.errata.renamed import find_renamed
from lickwright.model.timeline import Grid, GridBar


def compare_progressions(old: Iterable[Grid], new: Iterable[Grid]) -> Iterator[GridChange]:
    """Yield the progressions that are not as they were, those taken out last."""
    before, after = ({grid.name: grid for grid in grids} for grids in (old, new))
    renamed = find_renamed(before, after, lambda grid: replace(grid, name="", title=""))
    for name, now in after.items():
        was = before.get(name) or renamed.get(name)
        if was is None:
            yield GridChange(name, None, now)
            continue
        fields, bars = tuple(_compare_fields(was, now)), tuple(_compare_bars(was, now))
        if fields or bars or was.name != name:
            yield GridChange(name, was, now, fields, bars)
    taken = {grid.name for grid in renamed.values()}
    for name, was in before.items():
        if name not in after and name not in taken:
            yield GridChange(name, was, None)


def chord_changes(old: Grid, new: Grid) -> Iterator[Detail]:
    """Yield what is told of a lick's bar under each bar of a progression whose chords are others."""
    for was, now in _differing(old, new):
        if was is not None and now is not None and _chords(was[1]) != _chords(now[1]):
            yield chord_change(_chords(was[1]), _chords(now[1]))


def _compare_fields(old: Grid, new: Grid) -> Iterator[FieldChange]:
    orders = ("", "")
    if len({*old.written}) == len(
        {*new.written}
    ):  # else bars are put in or taken out, and it is told of them
        orders = say_order(old.written), say_order(new.written)
    for kind, field, before, after in (
        (Kind.DRAWING, "title", old.title, new.title),
        (Kind.MUSIC, "key", old.key.display, new.key.display),
        (Kind.MUSIC, "feel", old.feel, new.feel),
        (Kind.MUSIC, "tempo", say_tempo(old.tempo), say_tempo(new.tempo)),
        (Kind.MUSIC, "bars as played", *orders),
    ):
        if before != after and not (field == "title" and old.name != new.name):
            yield FieldChange(kind, field, before, after)


def _compare_bars(old: Grid, new: Grid) -> Iterator[BarChange]:
    for was, now in _differing(old, new):
        if was is None and now is not None:
            yield BarChange(None, now[0], (Detail(Kind.MUSIC, f"{_chords(now[1])} is put in"),))
        elif now is None and was is not None:
            yield BarChange(was[0], None, (Detail(Kind.MUSIC, f"{_chords(was[1])} is taken out"),))
        elif was is not None and now is not None and (details := tuple(_compare_bar(was[1], now[1]))):
            yield BarChange(was[0], now[0], details)


def _compare_bar(old: GridBar, new: GridBar) -> Iterator[Detail]:
    if old.meter != new.meter:
        yield Detail(Kind.MUSIC, f"the meter {old.meter} is now {new.meter}")
    empty = old.chords[-1].carried and new.chords[-1].carried  # it follows the bar before, and is told there
    if not empty and _chords(old) != _chords(new):
        yield chord_change(_chords(old), _chords(new))


_Bar = tuple[int, GridBar]


def _differing(old: Grid, new: Grid) -> Iterator[tuple[_Bar | None, _Bar | None]]:
    """Yield the written bars that differ, laid against each other; None where one has no partner."""
    was, now = _as_written(old), _as_written(new)
    one, two = ([(str(bar.meter), _chords(bar)) for _, bar in bars] for bars in (was, now))
    for kind, i1, i2, j1, j2 in SequenceMatcher(None, one, two, autojunk=False).get_opcodes():
        if kind != "equal":
            yield from zip_longest(was[i1:i2], now[j1:j2])


def _as_written(grid: Grid) -> list[_Bar]:
    """Each written bar as it is first played."""
    bars: dict[int, GridBar] = {}
    for number, bar in zip(grid.written, grid.bars, strict=True):
        bars.setdefault(number, bar)
    return sorted(bars.items(), key=lambda item: item[0])


def _chords(bar: GridBar) -> str:
    return say_chords(bar.chords, bar.meter.beat)
