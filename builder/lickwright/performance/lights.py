"""Which sounds are lit at which moment."""

from collections.abc import Sequence
from fractions import Fraction

from lickwright.model.timeline.played import Played

Lights = tuple[tuple[float, tuple[str, ...]], ...]


def light(sounds: Sequence[Played], quarter: Fraction) -> Lights:
    """List every change of what is sounding as written; what only rings on is not lit.

    Args:
        sounds: As played, by onset.
        quarter: Seconds a quarter lasts.

    Returns:
        (seconds, addresses in order of onset), times rising; a sound played twice running is named twice.
    """
    changes: list[tuple[float, tuple[str, ...]]] = []
    moments = sorted({sound.start for sound in sounds} | {sound.end for sound in sounds})
    lit: list[Played] = []
    waiting = list(reversed(sounds))
    for moment in moments:
        while waiting and waiting[-1].start <= moment:
            lit.append(waiting.pop())
        lit = [sound for sound in lit if sound.end > moment]
        addresses = tuple(dict.fromkeys(str(sound.sound.address) for sound in lit))
        changes.append((float(moment * quarter), addresses))
    return tuple(changes)
