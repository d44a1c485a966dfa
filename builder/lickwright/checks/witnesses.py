"""What a second witness is held against: the pitches a tone may be named by."""

from __future__ import annotations

from math import ceil, floor

from lickwright.model.music import Tone
from lickwright.model.strike import BendKind, Late


def top_pitch(tone: Tone) -> tuple[int, ...]:
    """Return the MIDI numbers that name a tone; empty for dead notes.

    A bend is named by its last top, let down or not; a bend to a quarter tone by the half step
    on either side of it.
    """
    if not tone.path:
        return ()
    pitch = tone.path[-1]
    if not tone.bends and pitch.denominator == 1:
        return (pitch.numerator,)
    if isinstance(tone.head, Late):
        return tuple(sorted({floor(pitch), ceil(pitch)}))
    bends = tone.bends
    for index in range(len(bends) - 1, -1, -1):
        if bends[index].kind is not BendKind.RELEASE:
            offset = len(tone.path) - len(bends)
            pitch = tone.path[offset + index] if len(tone.path) > len(bends) else tone.path[index]
            break
    return tuple(sorted({floor(pitch), ceil(pitch)}))
