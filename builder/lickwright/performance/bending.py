"""Bends, releases and vibrato of one tone as a curve in time.

A single bend goes up within the first third of the sound, at most an eighth, and stays; a bend with its
release goes up in the first half and down at the second; several targets share the length evenly. The times
are those of the language; rate and depth of the vibrato are our own, from memory.
"""

from collections.abc import Sequence

from lickwright.model.strike import BendKind
from lickwright.performance.event import Vibrato

Curve = tuple[tuple[float, float], ...]

_SET_OFF = 0.12  # share of a bend's time before the string moves: the note is heard first
_RATE, _DEPTH, _WIDE = 5.2, 35.0, 85.0  # Hz, cents, cents of a wide one
_PLAIN = 0.15  # seconds of a note before its vibrato begins, where it is long enough


def bend(heights: Sequence[float], kinds: Sequence[BendKind], seconds: float, eighth: float) -> Curve:
    """Curve of a tone that is struck or joined.

    Args:
        heights: Cents over the stop: at the start, then after each movement.
        kinds: The bends as written; a first ``pb`` is no movement, the string starts bent.
        seconds: Length of the sound.
        eighth: Seconds an eighth lasts.
    """
    moves = len(heights) - 1
    if moves < 1:
        return ((0.0, heights[0]),) if heights and heights[0] else ()
    if moves == 1:
        if kinds and kinds[0] is BendKind.PRE:
            begin, end = seconds / 2, seconds / 2 + min(seconds * 0.4, eighth)
        else:
            end = min(seconds / 3, eighth)
            begin = _SET_OFF * end
        return (begin, heights[0]), (end, heights[1])
    part = seconds / moves
    points: list[tuple[float, float]] = []
    for move in range(moves):
        takes = min(0.8 * part, eighth)
        begin = move * part + (_SET_OFF * takes if move == 0 else 0)
        points += [(begin, heights[move]), (move * part + takes, heights[move + 1])]
    return tuple(points)


def bend_late(before: float, after: float, seconds: float, eighth: float) -> Curve:
    """Curve of a slot of its own that bends, or lets down, a string that is sounding (cents)."""
    return (0.0, before), (min(seconds / 3, eighth), after)


def shake(curve: Curve, seconds: float, *, wide: bool) -> Vibrato:
    """Vibrato of a tone, after its bends."""
    settled = curve[-1][0] if curve else 0.0
    return Vibrato(_RATE, _WIDE if wide else _DEPTH, max(settled, min(_PLAIN, 0.25 * seconds)))
