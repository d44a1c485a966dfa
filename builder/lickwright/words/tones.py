"""One string of a sound in words: where, what sounds, what is done to it, with which finger."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from lickwright.model.strike import Bend, BendKind, Dead, Fretted, Hammered, Harmonic, Late, Tapped
from lickwright.terms.bends import SPOKEN

if TYPE_CHECKING:
    from lickwright.model.music import Tone
    from lickwright.model.strike import Head
    from lickwright.theory.pitch import Pitch

FINGERS = {
    "0": "no finger",
    "1": "first finger",
    "2": "second finger",
    "3": "third finger",
    "4": "fourth finger",
    "T": "thumb over",
}
"""The ``lh`` row."""
PLUCKED = {
    "p": "by the thumb",
    "i": "by the index finger",
    "m": "by the middle finger",
    "a": "by the ring finger",
    "c": "by the little finger",
    "P": "by the pick",
    "d": "by a down-stroke",
    "u": "by an up-stroke",
}
"""The ``rh`` row, a letter a string."""

_BENDS = {
    BendKind.UP: "bend",
    BendKind.PRE: "bent beforehand",
    BendKind.NUT: "bend behind the nut",
    BendKind.RELEASE: "let down",
}


def tone(heard: Tone, names: tuple[Pitch, ...]) -> str:
    """Return a tone in words.

    Args:
        heard: The tone.
        names: Its path, spelled; empty for a dead note.
    """
    parts = [f"string {heard.string} {_head(heard.head)}"]
    moves = bends(heard)
    late = isinstance(heard.head, Late)
    beforehand = bool(moves) and moves[0].kind is BendKind.PRE
    if names and not late and not beforehand:
        parts.append(names[0].name.spoken)
    at = _before(heard, moves[0]) if late else Fraction(heard.fret or 0)
    for reached, bend in enumerate(moves, 0 if beforehand else 1):
        parts.append(_bend(bend, at, names[reached].name.spoken if reached < len(names) else ""))
        at = bend.to
    if heard.tied:
        parts.append("ringing on")
    if heard.vibrato:
        parts.append("vibrato")
    if heard.finger:
        parts.append(FINGERS[heard.finger])
    if heard.hand:
        parts.append(PLUCKED[heard.hand])
    return ", ".join(parts)


def bends(heard: Tone) -> tuple[Bend, ...]:
    """Return the bends and releases of a tone in order, that of a late head first."""
    if isinstance(heard.head, Late) and heard.head.bend not in heard.bends:
        return (heard.head.bend, *heard.bends)
    return heard.bends


def fret(at: Fraction) -> str:
    """Return a fret that may be half way to the next: ``fret 15 and a half``."""
    whole, half = divmod(at, 1)
    return f"fret {whole}{' and a half' if half else ''}"


def _head(head: Head) -> str:
    match head:
        case Fretted(0):
            return "open"
        case Fretted(stopped):
            return f"fret {stopped}"
        case Dead():
            return "dead"
        case Tapped(stopped):
            return f"tapped at fret {stopped}"
        case Hammered(stopped):
            return f"hammered at fret {stopped} without a stroke"
        case Harmonic(0, touch):
            return f"harmonic over fret {_touch(touch)}"
        case Harmonic(stopped, touch):
            return f"fret {stopped}, harmonic over fret {_touch(touch)}"
        case Late():
            return "still sounding"


def _touch(at: Fraction) -> str:
    return str(int(at)) if at.denominator == 1 else f"{float(at):g}"


def _before(heard: Tone, bend: Bend) -> Fraction:
    """The fret, as it sounds, from which a late bend sets out."""
    if len(heard.path) > 1:
        return bend.to - (heard.path[1] - heard.path[0])
    return Fraction(heard.fret or 0)


def _bend(bend: Bend, at: Fraction, name: str) -> str:
    distance = abs(bend.to - at)
    steps = f" {SPOKEN.get(distance, f'{distance} half steps')}" if distance else ""
    where = f"as at {fret(bend.to)}"
    to = f" to {name}, " if name and bend.to.denominator == 1 else ", "
    return f"{_BENDS[bend.kind]}{steps}{to}{where}"
