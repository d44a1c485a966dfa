"""The order of playing: every sound with where it begins and ends, repeats unfolded.

Conventions: quarters from the start of the first bar as played, swing counted in.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from lickwright.model.music import Music, MusicBar, Sound
from lickwright.model.timeline.swing import played


@dataclass(frozen=True, slots=True)
class PlayedBar:
    """A bar where it is played; ``start`` and ``end`` in quarters."""

    bar: MusicBar
    start: Fraction
    end: Fraction


@dataclass(frozen=True, slots=True)
class Played:
    """A sound where it is played.

    Attributes:
        sound: As written.
        bar: The bar it begins in.
        occurrence: Place of that bar in the order of playing, from 0.
        start, end: Quarters; ``end`` counts holds over bar lines and repeats.
        written_start, written_end: The same without swing.
    """

    sound: Sound
    bar: MusicBar
    occurrence: int
    start: Fraction
    end: Fraction
    written_start: Fraction
    written_end: Fraction


def bar_length(music: Music, bar: MusicBar) -> Fraction:
    """Length of a bar as played, in quarters."""
    return played(bar.length, bar.offset, swung=music.swung)


def play_bars(music: Music) -> tuple[PlayedBar, ...]:
    """The bars as played."""
    bars = []
    start = Fraction(0)
    for index in music.order:
        bar = music.bars[index]
        end = start + bar_length(music, bar)
        bars.append(PlayedBar(bar, start, end))
        start = end
    return tuple(bars)


def play(music: Music) -> tuple[Played, ...]:
    """Every sound as played, by onset, the upper voice first."""
    return tuple(sorted((*_voice(music, lower=False), *_voice(music, lower=True)), key=_onset))


def _onset(played_sound: Played) -> tuple[Fraction, bool]:
    return played_sound.start, played_sound.sound.address.lower


def _voice(music: Music, *, lower: bool) -> list[Played]:
    sounds: list[Played] = []
    written = Fraction(0)
    sounding = False
    for occurrence, place in enumerate(play_bars(music)):
        bar = place.bar
        line = bar.lower if lower else bar.upper
        if line is None:
            sounding = False
        else:
            begins = {sound.address: sound for sound in line.sounds}
            for value in line.values:
                until = (place.start + value.until, written + value.onset + value.duration)
                if value.sound is None:
                    sounding = False
                elif value.tied and sounding:
                    sounds[-1] = replace(sounds[-1], end=until[0], written_end=until[1])
                elif value.sound in begins:
                    start = place.start + value.time
                    sound = begins[value.sound]
                    sounds.append(
                        Played(sound, bar, occurrence, start, until[0], written + value.onset, until[1])
                    )
                    sounding = True
        written += bar.length
    return sounds
