"""A bar as music alone: neither its number nor its place among others."""

from __future__ import annotations

from dataclasses import replace

from lickwright.model.address import Address
from lickwright.model.music import Line, MusicBar, Sound


def unnumbered(bar: MusicBar) -> MusicBar:
    """Return a bar with what is played in it and over which chords, wherever it stands."""
    lower = None if bar.lower is None else _line(bar.lower)
    return replace(bar, number=0, meter_shown=False, mark="", upper=_line(bar.upper), lower=lower)


def _line(line: Line) -> Line:
    return Line((), tuple(map(_sound, line.sounds)), line.filled)


def _sound(sound: Sound) -> Sound:
    return replace(sound, address=Address(0), ring=min(sound.ring, 1), mute=min(sound.mute, 1))
