"""What the fretting hand takes hold of, one grip after another, and where it is free to move in between.

Conventions: times are quarters from the start, repeats unfolded. Both voices are one hand.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from lickwright.checks.onsets import Onset, held_fret
from lickwright.instrument.hand import FINGERS
from lickwright.model.music import MusicBar, Piece, Sound, Tone
from lickwright.model.slots import SLIDES

THUMB = "T"
EPSILON = 1e-9


@dataclass(frozen=True, slots=True)
class Hold:
    """A note under a finger: its tone, the sound that has it, the fret of the hand."""

    tone: Tone
    sound: Sound
    fret: int

    @property
    def finger(self) -> int | None:
        """1 to 4 where the row says it."""
        return int(self.tone.finger) if self.tone.finger in FINGERS else None


@dataclass(frozen=True, slots=True)
class Grip:
    """What is fretted at one moment, tied notes left out.

    Attributes:
        start: When. ``bar``: its bar.
        held: The notes, at least one.
        free: Whether the hand may have moved before it, because it was empty, carried or sent.
        eased: Whether it had a beat's time to move before it.
    """

    start: float
    bar: MusicBar
    held: tuple[Hold, ...]
    free: bool
    eased: bool

    @property
    def frets(self) -> tuple[int, ...]:
        """The frets of its notes."""
        return tuple(held.fret for held in self.held)


def list_stretches(piece: Piece, onsets: Sequence[Onset]) -> list[list[Grip]]:
    """Return the grips of a piece in the order played, parted where the hand is free to move.

    It is free after an open string or a rest, by a slide and back from it, to and from a chord, and where
    another position is stated.
    """
    stretches: list[list[Grip]] = []
    for grip in _grips(piece, onsets):
        if grip.free or not stretches:
            stretches.append([])
        stretches[-1].append(grip)
    return stretches


def _grips(piece: Piece, onsets: Sequence[Onset]) -> Iterator[Grip]:
    end = 0.0  # of what the hand holds
    before: Grip | None = None
    for start, moment in groupby(onsets, key=lambda onset: onset.start):
        together = list(moment)
        bar = together[0].bar
        fretted = [
            Hold(tone, onset.sound, fret)
            for onset in together
            for tone in onset.sound.tones
            if (fret := held_fret(tone)) is not None and tone.finger != THUMB
        ]
        held = tuple(one for one in fretted if not one.tone.tied)
        if held:
            free = (
                before is None
                or start > end + EPSILON
                or before.held[0].sound.position != held[0].sound.position
                or _is_sent(piece, before.bar, bar)
                or _is_chord(before.held)
                or _is_chord(held)
                or any(one.sound.slide_out for one in before.held)
                or any(map(_is_carried, (*before.held, *held)))
            )
            eased = before is None or start - before.start >= before.bar.meter.beat - EPSILON
            before = Grip(start, bar, held, free, eased)
            yield before
        end = max([end, *(start + float(one.sound.duration) for one in fretted)])


def _is_sent(piece: Piece, before: MusicBar, after: MusicBar) -> bool:
    """Whether the position field states two positions for two bars."""
    one, other = _stated(piece, before), _stated(piece, after)
    return None not in (one, other) and one != other


def _stated(piece: Piece, bar: MusicBar) -> int | None:
    """The position that the field states for a bar; None where it states none."""
    at = [c for c in piece.positions if c.bars is None or c.bars.first.bar <= bar.number <= c.bars.last.bar]
    return min(at, key=lambda claim: claim.bars is None).fret if at else None


def _is_chord(held: tuple[Hold, ...]) -> bool:
    """Whether several notes of one sound are gripped."""
    return len({id(one.sound) for one in held}) < len(held)


def _is_carried(held: Hold) -> bool:
    """Whether a slide brings the hand."""
    sound = held.sound
    return (
        held.tone.link in SLIDES
        or bool(sound.slide_in)
        or any(grace.leads in SLIDES for grace in sound.grace)
    )
