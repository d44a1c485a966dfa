"""The sounds of a piece in the order they are played, repeats unfolded.

Conventions: times are quarters from the start as floats; swing is evened out, so rates are those of the page.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lickwright.model.music import MusicBar, Piece, Sound, Tone
from lickwright.model.strike import Hammered, Harmonic, Late, Tapped
from lickwright.model.timeline.tempi import quarters


@dataclass(frozen=True, slots=True)
class Onset:
    """A sound where it is played; ``start`` in quarters, ``bar`` the one it begins in."""

    sound: Sound
    bar: MusicBar
    start: float


def list_onsets(piece: Piece) -> tuple[Onset, ...]:
    """Return the sounds of both voices by onset, the upper voice first."""
    music = piece.music
    onsets: list[Onset] = []
    starts: dict[int, list[tuple[Sound, float]]] = {}
    now = 0.0
    for index in music.order:
        bar = music.bars[index]
        inside = starts.get(index)
        if inside is None:
            inside = starts[index] = [
                (sound, float(sound.onset)) for line in bar.lines for sound in line.sounds
            ]
            if bar.lower is not None:
                inside.sort(key=lambda each: (each[1], each[0].address.lower))
        onsets.extend(Onset(sound, bar, now + at) for sound, at in inside)
        now += float(bar.length)
    return tuple(onsets)


def seconds_a_quarter(piece: Piece) -> float:
    """How long a quarter lasts at the full tempo."""
    return 60 / float(quarters(piece.tempo, piece.music.bars[0].meter))


def held_fret(tone: Tone) -> int | None:
    """The fret at which the fretting hand has to be for a tone; None for open, dead and tapped ones.

    A harmonic over an open string takes the hand to its node.
    """
    head = tone.head
    if isinstance(head, Harmonic) and not head.fret:
        return max(round(head.touch), 1)
    return None if isinstance(head, Tapped | Late) else tone.fret or None


def picked(sound: Sound) -> bool:
    """Whether the picking hand plucks a sound: it is neither slurred nor tapped, nor bent late."""
    return any(tone.struck and not isinstance(tone.head, Late | Tapped | Hammered) for tone in sound.tones)


def fastest_run(onsets: Sequence[Onset], count: int) -> tuple[float, Sequence[Onset]]:
    """Return the rate, in notes a quarter, of the fastest run of so many onsets, and that run.

    What begins together counts as one. With fewer onsets the rate is 0 and the run is empty.
    """
    apart = [o for i, o in enumerate(onsets) if i == 0 or o.start > onsets[i - 1].start]
    shortest, place = 0.0, 0
    for index in range(len(apart) - count + 1):
        takes = apart[index + count - 1].start - apart[index].start
        if not shortest or takes < shortest - 1e-9:
            shortest, place = takes, index
    return ((count - 1) / shortest, apart[place : place + count]) if shortest else (0.0, ())
