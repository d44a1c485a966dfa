"""A scale as its author asks for it, fingered; or the reason why it cannot be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lickwright.instrument.scale_fingering.plain import plain_path
from lickwright.instrument.scale_fingering.ringing import HELD, ringing_path
from lickwright.instrument.scale_fingering.step import Place, Step, pitches_between

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from lickwright.instrument.guitar import Guitar

_OCTAVES = 24
"""How far a scale goes whose ends are not said, in half steps, where the neck is long enough."""
_COVERS = 4
_SHARE = 4
"""One note in so many at least is an open string, and one at most lies on the string of the note before."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What is asked for.

    Attributes:
        semitones: Pitch classes of the scale; ``tonic`` the first of them.
        start, stop: Places of the first and the last note, or None.
        position: Fret of the index finger, 0 = open position, or None.
        notes_a_string: So many on each, or None.
        ringing: Open strings wherever the scale has them.
    """

    semitones: Collection[int]
    tonic: int
    start: Place | None = None
    stop: Place | None = None
    position: int | None = None
    notes_a_string: int | None = None
    ringing: bool = False


@dataclass(frozen=True, slots=True)
class Fingered:
    """A scale under the hand.

    Attributes:
        way: ``ringing`` when every note sounds on under the next, but for a few that must share a string.
    """

    steps: tuple[Step, ...]
    way: Literal["plain", "ringing"]


@dataclass(frozen=True, slots=True)
class Unplayable:
    """Why there is no fingering.

    Attributes:
        reason: ``outside``: an end is no note of the scale (``midi`` says which sounds there);
            ``short``: it holds fewer than two notes; ``no way``: the hand cannot play it so.
        place: The end in question, or None.
    """

    reason: Literal["outside", "short", "no way"]
    place: Place | None = None
    midi: int | None = None


def finger_scale(wish: Wish, guitar: Guitar) -> Fingered | Unplayable:
    """Finger a scale.

    Args:
        wish: As asked for.
        guitar: The instrument.

    Returns:
        The fingering; a scale that cannot ring is fingered plainly. Or what stands in the way.
    """
    for place in (wish.start, wish.stop):
        if place is not None and (midi := guitar.midi(*place)) % 12 not in wish.semitones:
            return Unplayable("outside", place, midi)
    ends = _ends(wish, guitar)
    midis = pitches_between(wish.semitones, *ends) if ends else ()
    if len(midis) < 2:
        return Unplayable("short")
    if wish.ringing:
        for held in range(HELD, 1, -1):
            steps = ringing_path(midis, guitar, start=wish.start, stop=wish.stop, held=held)
            if steps is not None and _rings(steps):
                return Fingered(steps, "ringing")
    steps = plain_path(
        midis,
        guitar,
        start=wish.start,
        stop=wish.stop,
        position=wish.position,
        notes_a_string=wish.notes_a_string,
    )
    return Unplayable("no way") if steps is None else Fingered(steps, "plain")


def steps_on_one_string(steps: Sequence[Step]) -> tuple[int, ...]:
    """Return which notes (from 0) lie on the string of the note before."""
    return tuple(k for k in range(1, len(steps)) if steps[k].string == steps[k - 1].string)


def _rings(steps: Sequence[Step]) -> bool:
    opens = sum(not step.fret for step in steps)
    return len(steps_on_one_string(steps)) * _SHARE <= len(steps) <= opens * _SHARE


def _ends(wish: Wish, guitar: Guitar) -> tuple[int, int] | None:
    """The first and the last pitch."""
    if wish.start is not None and wish.stop is not None:
        return guitar.midi(*wish.start), guitar.midi(*wish.stop)
    found = [
        midi
        for midi in range(guitar.open_midi(guitar.strings), guitar.open_midi(1) + guitar.highest_fret + 1)
        if midi % 12 in wish.semitones and _reached(midi, wish.position, guitar)
    ]
    if not found:
        return None
    if wish.position is not None:
        return found[0], found[-1]
    low = (
        guitar.midi(*wish.start) if wish.start else next((m for m in found if m % 12 == wish.tonic), found[0])
    )
    tonics = [midi for midi in found if low < midi <= low + _OCTAVES and midi % 12 == wish.tonic]
    return low, tonics[-1] if tonics else found[-1]


def _reached(midi: int, position: int | None, guitar: Guitar) -> bool:
    places = guitar.places(midi)
    if position is None:
        return bool(places)
    if position == 0:
        return any(fret <= _COVERS for _, fret in places)
    return any(position <= fret < position + _COVERS for _, fret in places)
