"""Signs that make one written note several, or change its loudness: tremolo, trill, swell."""

from collections.abc import Sequence
from dataclasses import replace

from lickwright.performance.event import Attack, StringEvent, Stroke
from lickwright.terms.signs import parse_sign

_TREMOLO, _TRILL = 0.085, 0.075  # seconds from stroke to stroke, from finger to finger
_SWELL = 0.8  # seconds, longest


def ornament(event: StringEvent, signs: Sequence[str], capo: int, seconds: float) -> tuple[StringEvent, ...]:
    """Play out the signs of one note.

    Args:
        event: The note.
        signs: Entries of the ``signs`` row.
        capo: Fret of the capo; the fret of a trill counts from it.
        seconds: Written length: strokes and fingers fill it evenly.

    Returns:
        The event, or the strokes or finger changes that it consists of.
    """
    if "swell" in signs:
        event = replace(event, swell=min(_SWELL, 0.5 * seconds))
    if "tremolo" in signs:
        return _repeat(event, seconds)
    read = [found for sign in signs if (found := parse_sign(sign))]
    upper = next((fret for sign, fret in read if sign.word == "trill"), None)
    if upper is not None:
        return _alternate(event, float(capo + upper), seconds)
    return (event,)


def _repeat(event: StringEvent, seconds: float) -> tuple[StringEvent, ...]:
    count = max(2, round(seconds / _TREMOLO))
    step = seconds / count
    strokes: tuple[Stroke, Stroke] = ("down", "up") if event.stroke != "up" else ("up", "down")
    return tuple(
        replace(
            event,
            start=event.start + number * step,
            end=event.end if number == count - 1 else event.start + (number + 1) * step,
            stroke=strokes[number % 2] if event.attack is Attack.PICK else event.stroke,
        )
        for number in range(count)
    )


def _alternate(event: StringEvent, upper: float, seconds: float) -> tuple[StringEvent, ...]:
    count = max(3, round(seconds / _TRILL) | 1)  # odd: it ends on the written note
    step = seconds / count
    parts = [replace(event, end=event.start + step)]
    for number in range(1, count):
        high = (number % 2 == 1) is (upper > event.stop)
        parts.append(
            replace(
                event,
                start=event.start + number * step,
                end=event.end if number == count - 1 else event.start + (number + 1) * step,
                attack=Attack.HAMMER if high else Attack.PULL,
                stroke=None,
                stop=upper if number % 2 else event.stop,
                curve=(),
                glides=(),
            )
        )
    return tuple(parts)
