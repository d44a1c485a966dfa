"""The strokes of the pick through the upper voice: as the rh row gives them, and as the hand would swing.

Conventions: ``d`` and ``u``; places are quarters from the start of the music as written.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache

from lickwright.checks.onsets import picked
from lickwright.checks.strings import walk
from lickwright.model.address import Address
from lickwright.model.fields import Picking
from lickwright.model.music import Music, MusicBar, Sound, Tuplet
from lickwright.model.timeline import play
from lickwright.performance.picking import choose_strokes
from lickwright.terms.strokes import OTHER
from lickwright.text import Span

BOTH = frozenset("du")
NAMES = {"d": "a downstroke", "u": "an upstroke"}
_STROKES = {"down": frozenset("d"), "up": frozenset("u")}
_BEGINS_ANEW = Fraction(1)
"""A rest of a quarter, or of a shorter beat, lets the hand begin again."""


@dataclass(frozen=True, slots=True)
class PickStroke:
    """A picked sound; ``given`` is ``d``, ``u`` or None where the row does not say."""

    bar: MusicBar
    sound: Sound
    at: Fraction
    given: str | None

    @property
    def span(self) -> Span:
        """Where the row speaks of it, else the sound."""
        return next((span for kind, span in self.sound.entries if kind == "rh"), self.sound.span)


Run = Sequence[PickStroke]
"""Picked sounds with no rest between them that would let the hand begin again."""


@dataclass(frozen=True, slots=True)
class Slip:
    """Strokes in a row that are not as the hand should go: one cause.

    Attributes:
        before: The stroke before the first of them in its run, if any. ``stroke``: the first.
        count: How many there are.
        swung: Whether they go against the swing of the hand; else they do not take turns.
    """

    before: PickStroke | None
    stroke: PickStroke
    count: int
    swung: bool

    @property
    def given(self) -> str:
        """What the row says of the first."""
        return self.stroke.given or "d"

    @property
    def wanted(self) -> str:
        """What was expected."""
        return OTHER[self.given]

    @property
    def more(self) -> int:
        """How many follow the first that are worth telling; a single one is not."""
        return self.count - 1 if self.count > 2 else 0


def list_out_of_turn(
    music: Music, first: str | None = None, within: Collection[Address] | None = None
) -> list[Slip]:
    """Return where a piece is not picked alternately, by turns or by a hand in steady swing.

    Each run is read the way that asks for less (see :func:`find_out_of_turn`). Nothing is found where no
    stroke is given.

    Args:
        music: With an rh row.
        first: What the first stroke has to be, where that is said.
        within: Addresses of the sounds that are looked at; None for all.
    """
    runs = _runs_within(music, within)
    if not is_given(runs):
        return []
    swing = cache(lambda: find_swing(music))
    slips: list[Slip] = []
    for number, strokes in enumerate(runs):
        out, swung = find_out_of_turn(strokes, swing, first if number == 0 else None)
        slips += _slips(strokes, out, swung=swung)
    return slips


def list_against_swing(music: Music, within: Collection[Address] | None = None) -> list[Slip]:
    """Return where strokes go against the steady swing of the hand, bars that keep the lick's pace left out.

    Args:
        music: With an rh row.
        within: Addresses of the sounds that are looked at; None for all.
    """
    runs = _runs_within(music, within)
    if not is_given(runs):
        return []
    steady = find_steady_bars(music, runs)
    if all(stroke.given is None or stroke.bar.number in steady for strokes in runs for stroke in strokes):
        return []
    swing = find_swing(music)
    slips: list[Slip] = []
    for strokes in runs:
        against = [p for p in list_against(strokes, swing) if strokes[p].bar.number not in steady]
        slips += _slips(strokes, first_of_each(against), swung=True)
    return slips


def _runs_within(music: Music, within: Collection[Address] | None) -> list[list[PickStroke]]:
    runs = list_runs(music)
    if within is None:
        return runs
    return [[stroke for stroke in run if stroke.sound.address in within] for run in runs]


def _slips(run: Run, places: Iterable[tuple[int, int]], *, swung: bool) -> Iterator[Slip]:
    for place, count in places:
        yield Slip(run[place - 1] if place else None, run[place], count, swung)


def list_runs(music: Music) -> list[list[PickStroke]]:
    """Return the picked sounds of the upper voice, parted where the hand may begin again.

    That is after a rest of a beat, after a tremolo, after grace notes that take strokes of their own,
    and where an ending follows another on the page only.
    """
    runs: list[list[PickStroke]] = []
    last: MusicBar | None = None
    end: Fraction | None = None
    anew = True
    for bar, sound, at in walk(music, lower=False):
        if bar is not last and bar.endings and last is not None and last.closes:
            anew = True
        last = bar
        anew = anew or end is None or at - end >= min(bar.meter.beat, _BEGINS_ANEW)
        end = at + sound.duration
        if not (picked(sound) or sound.grace) or _by_finger(sound):
            continue
        if anew:
            runs.append([])
            anew = False
        given = sound.stroke if sound.stroke in OTHER else None
        runs[-1].append(PickStroke(bar, sound, at, given))
        anew = "tremolo" in sound.signs or (bool(sound.grace) and sound.grace[-1].leads is None)
    return runs


def _by_finger(sound: Sound) -> bool:
    return any(tone.hand not in (None, "P") for tone in sound.tones)


def is_given(runs: Iterable[Run]) -> bool:
    """Whether a row gives any stroke at all."""
    return any(stroke.given is not None for run in runs for stroke in run)


def find_swing(music: Music) -> Mapping[Address, frozenset[str]]:
    """Return the strokes that a hand in steady swing may take at each sound of the upper voice.

    In tuplets, where the swing is not told, and where bars of an odd number of eighths turn it round, both;
    in compound meters the hand may begin each beat with a downstroke.
    """
    bare = [replace(p, sound=replace(p.sound, stroke=None)) for p in play(music) if not p.sound.address.lower]
    swing: dict[Address, frozenset[str]] = {}
    for played, stroke in zip(bare, choose_strokes(bare, Picking("pendulum")), strict=True):
        at = played.sound.onset
        strokes = _STROKES.get(stroke or "", BOTH)
        if played.bar.meter.is_compound:
            beat = played.bar.meter.beat
            strokes |= frozenset("d" if (played.bar.offset + at) % beat / beat * 3 % 2 < 1 else "u")
        odd = played.bar.meter.unit >= 8 and played.bar.meter.count % 2 == 1
        if odd or any(e.onset <= at < e.onset + e.duration for e in _tuplets(played.bar)):
            strokes = BOTH
        swing.setdefault(played.sound.address, strokes)
    return swing


GRIDS = (Fraction(1), Fraction(1, 2), Fraction(1, 4), Fraction(1, 8))
"""Even values a hand may swing in, in quarters."""


def find_steady_bars(music: Music, runs: Iterable[Run]) -> frozenset[int]:
    """Return the numbers of the bars that follow a swing at the shortest even value of the whole lick."""
    finest = min((_grid(bar) for bar in music.bars), default=GRIDS[0])
    strokes = [stroke for run in runs for stroke in run if stroke.given is not None]
    against = {
        stroke.bar.number
        for stroke in strokes
        if stroke.given != ("d" if (stroke.bar.offset + stroke.sound.onset) / finest % 2 < 1 else "u")
    }
    return frozenset(stroke.bar.number for stroke in strokes) - against


def _grid(bar: MusicBar) -> Fraction:
    """The longest even value that every sound of a bar falls on, tuplets left out."""
    inside = [(t.onset, t.onset + t.duration) for t in _tuplets(bar)]
    onsets = [s.onset for s in bar.upper.sounds if not any(a <= s.onset < b for a, b in inside)]
    return next((g for g in GRIDS if all(onset % g == 0 for onset in onsets)), GRIDS[-1])


def _tuplets(bar: MusicBar) -> Iterator[Tuplet]:
    return (element for element in bar.upper.elements if isinstance(element, Tuplet))


def list_against(run: Run, swing: Mapping[Address, frozenset[str]]) -> list[int]:
    """Return the places in a run whose stroke goes against the swing of the hand."""
    return [
        place
        for place, stroke in enumerate(run)
        if stroke.given is not None and stroke.given not in swing.get(stroke.sound.address, BOTH)
    ]


def list_breaks(run: Run, first: str | None = None) -> list[int]:
    """Return the places in a run where down and up do not take turns; what is not given is filled in.

    Args:
        run: Of strokes.
        first: What the first has to be, where that is said.
    """
    breaks: list[int] = []
    wanted = first
    for place, stroke in enumerate(run):
        taken = stroke.given or wanted
        if wanted is not None and taken != wanted:
            breaks.append(place)
        wanted = OTHER[taken] if taken is not None else None
    return breaks


def find_out_of_turn(
    run: Run, swing: Callable[[], Mapping[Address, frozenset[str]]], first: str | None = None
) -> tuple[list[tuple[int, int]], bool]:
    """Return where a run is no alternate picking: by turns, or by the steady swing of the hand.

    Some players mean that down and up take turns, others that the hand swings on; the reading that asks for
    less is the one that was meant.

    Args:
        run: Of strokes.
        swing: What :func:`find_swing` gives; asked for only where the strokes do not take turns.
        first: What the first has to be, where that is said.

    Returns:
        The first of each row of places that are out, and how many there are; whether it is the swing.
    """
    breaks = list_breaks(run, first)
    if not breaks:
        return [], False
    against = breaks if first and breaks[0] == 0 else list_against(run, swing())
    turns, swings = list(first_of_each(breaks)), list(first_of_each(against))
    return (swings, True) if len(swings) < len(turns) else (turns, False)


def first_of_each(places: Iterable[int]) -> Iterator[tuple[int, int]]:
    """Yield the first of each row of places that follow one another, and how many there are: one cause."""
    row: list[int] = []
    for place in places:
        if row and place > row[-1] + 1:
            yield row[0], len(row)
            row = []
        row.append(place)
    if row:
        yield row[0], len(row)
