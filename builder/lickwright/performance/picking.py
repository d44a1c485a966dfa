"""The picking hand: which way each sound is struck, and how hard.

What the ``rh`` row says holds; where it says nothing, the lick's claim decides. Levels are our own.
"""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from lickwright.model.fields import Picking
from lickwright.model.music import Line, Sound
from lickwright.model.timeline.played import Played
from lickwright.performance.event import Stroke

_PLAIN = 0.7
_ACCENT = 0.22
_GHOST = 0.45
_STRESS = {4: 0.06, 3: 0.03, 2: 0.0, 1: -0.04, 0: -0.05}  # a player leans on the beats, a little
_STROKES: dict[str, Stroke] = {"d": "down", "u": "up"}
_OTHER: dict[Stroke, Stroke] = {"down": "up", "up": "down"}


def choose_strokes(sounds: Iterable[Played], picking: Picking) -> Iterator[Stroke | None]:
    """Stroke of each sound, in order; None for what is not struck by a pick, or not said.

    Args:
        sounds: As played, both voices; the claim is for the upper.
        picking: The claim.
    """
    first: Stroke = _STROKES.get(picking.first or "d", "down")
    last = _OTHER[first]
    for played in sounds:
        sound = played.sound
        stroke = _STROKES.get(sound.stroke or "")
        if stroke is None and is_struck(sound) and not sound.address.lower and not _by_finger(sound):
            if picking.style == "alternate":
                stroke = _OTHER[last]
            elif picking.style == "pendulum":
                stroke = _swing(played, first, last)
        yield stroke
        if not sound.address.lower:
            last = stroke or last


def force(played: Played) -> float:
    """Velocity of a sound, 0..1, by its place in the meter and its signs."""
    sound, bar = played.sound, played.bar
    hard = _PLAIN + _STRESS[bar.meter.weight(bar.offset + sound.onset)]
    if sound.accent:
        hard += _ACCENT
    if "ghost" in sound.signs:
        hard *= _GHOST
    strings = sum(tone.struck for tone in sound.tones)
    if strings > 2:  # one movement of the arm shared among them
        hard *= (2 / strings) ** 0.3
    return min(hard, 1.0)


def is_struck(sound: Sound) -> bool:
    """True when the picking hand has something to do for it, grace notes counted."""
    return bool(sound.grace) or any(tone.struck for tone in sound.tones)


def _by_finger(sound: Sound) -> bool:
    return any(tone.hand not in (None, "P") for tone in sound.tones)


def _swing(played: Played, first: Stroke, last: Stroke) -> Stroke:
    """The hand swings at the shortest even value of the bar, struck or not; triplets alternate."""
    place = played.sound.onset
    unit = _shortest(played.bar.upper)
    if unit is None or (place / unit).denominator != 1:
        return _OTHER[last]
    count = int((played.bar.offset + place) / unit)
    return first if count % 2 == 0 else _OTHER[first]


def _shortest(line: Line) -> Fraction | None:
    """Shortest binary value that begins on its own grid."""
    lengths = [
        value.duration
        for value in line.values
        if value.sound is not None and value.duration.denominator & (value.duration.denominator - 1) == 0
    ]
    units = [Fraction(1, length.denominator) for length in lengths]
    return min([*units, Fraction(1, 2)]) if units else None
