"""Margins held against the progression they stand over: which one slip makes them all agree.

A margin that names another chord than the progression is one fault; several that do may have one cause:
two bars of the progression exchanged, the bars of ``over`` off by a few, two licks of a chorus exchanged.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from lickwright.checks.survey import Survey
from lickwright.model.blocks import Lick
from lickwright.model.music import ChordAt, MusicBar, Piece
from lickwright.model.timeline import Grid
from lickwright.model.timeline.harmony import disagreement, place_chords

FARTHEST = 4
"""Bars that an ``over`` is tried off by."""
Chords = Sequence[ChordAt]


@dataclass(frozen=True, slots=True)
class Meeting:
    """A bar of a lick over a bar of a progression.

    Attributes:
        lick: Name. ``bar``: its number there.
        at: Index of the progression's bar as played.
        chords: Of its margin; none where it states none.
    """

    lick: str
    bar: int
    at: int
    chords: Chords


@dataclass(frozen=True, slots=True)
class Exchange:
    """Two bars of a progression as written, from 1, in each other's place; ``licks`` whose margins say so."""

    first: int
    second: int
    licks: tuple[str, ...]


def agrees(ours: Chords, theirs: Chords) -> bool:
    """Whether the chords of a bar are those it stands over, but for their colour."""
    return all(
        disagreement(
            chord.symbol, next((c for c in reversed(theirs) if c.onset <= chord.onset), theirs[0]).symbol
        )
        != "harmony/chord-disagrees"
        for chord in ours
    )


def list_meetings(lick: Lick, piece: Piece, grid: Grid) -> tuple[Meeting, ...]:
    """Return the bars of a lick as played, the pickup left out, each with its bar of the progression."""
    wanted = None if lick.over is None else lick.over.bars
    theirs = [
        index
        for index, number in enumerate(grid.written)
        if wanted is None or wanted.first.bar <= number <= wanted.last.bar
    ]
    played = [index for index in piece.music.order if piece.music.bars[index].number > 0]
    if not theirs:
        return ()
    return tuple(
        Meeting(
            lick.name,
            piece.music.bars[index].number,
            theirs[place % len(theirs)],
            _stated(lick, piece.music.bars[index], index),
        )
        for place, index in enumerate(played)
    )


def _stated(lick: Lick, bar: MusicBar, index: int) -> Chords:
    if index >= len(lick.bars):  # a variation takes its margins over
        return ()
    return place_chords(lick.bars[index].margin.chords, bar.meter, bar.offset, bar.length)


def list_all_meetings(survey: Survey, grid: Grid) -> dict[str, tuple[Meeting, ...]]:
    """Return the meetings of every lick that is over a progression, by its name."""
    met: dict[str, tuple[Meeting, ...]] = {}
    for name, lick in survey.course.licks.items():
        subject = survey.subject(name)
        if subject is not None and subject.piece.over == grid.name:
            met[name] = list_meetings(lick, subject.piece, grid)
    return met


def differing(meetings: Iterable[Meeting], grid: Grid) -> list[Meeting]:
    """Return those whose margins name other chords."""
    return [m for m in meetings if not agrees(m.chords, grid.bars[m.at].chords)]


def find_shift(meetings: Sequence[Meeting], grid: Grid) -> int:
    """Return by how many bars an ``over`` is early (positive) or late, 0 where that explains nothing."""
    wrong = differing(meetings, grid)
    if len(wrong) < 2 or len({m.chords[0].symbol for m in meetings if m.chords}) < 2:
        return 0
    for away in sorted(range(-FARTHEST, FARTHEST + 1), key=abs):
        moved = [m.at + away for m in meetings]
        if (
            away
            and all(0 <= at < len(grid.bars) for at in moved)
            and all(agrees(m.chords, grid.bars[at].chords) for m, at in zip(meetings, moved, strict=True))
        ):
            return away
    return 0


def find_exchange(survey: Survey, grid: Grid) -> Exchange | None:
    """Return the two bars of a progression that its licks have the other way round."""
    met = list_all_meetings(survey, grid)
    meetings = [m for each in met.values() for m in each]
    wrong = differing(meetings, grid)
    licks = tuple(dict.fromkeys(m.lick for m in wrong))
    if len(wrong) < 2 or (len(licks) == 1 and find_shift(met[licks[0]], grid)):
        return None
    cells = {number: grid.bars[index] for index, number in enumerate(grid.written)}
    accused = {grid.written[m.at] for m in wrong}
    for first, second in combinations(sorted(accused), 2):
        turned = {first: second, second: first}
        if cells[first].meter == cells[second].meter and all(
            agrees(m.chords, cells[turned.get(grid.written[m.at], grid.written[m.at])].chords)
            for m in meetings
        ):
            return Exchange(first, second, licks)
    return None


def list_standing_over(survey: Survey, grid: Grid, cells: Iterable[int]) -> Iterator[tuple[str, int]]:
    """Yield piece and number of every bar over some written bars of a progression, in choruses too."""
    wanted = set(cells)
    for name, meetings in list_all_meetings(survey, grid).items():
        bars = dict.fromkeys(m.bar for m in meetings if grid.written[m.at] in wanted)
        yield from ((name, bar) for bar in bars)
    for name in survey.course.choruses:
        subject = survey.subject(name)
        if subject is not None and subject.piece.over == grid.name:
            for bar in subject.piece.music.bars:
                if bar.number > 0 and grid.written[(bar.number - 1) % len(grid.bars)] in wanted:
                    yield name, bar.number
