"""A tuning as written: its pitches, its order, and the names that tunings have among guitarists."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from lickwright.instrument.tuning import STANDARD
from lickwright.theory.pitch import Pitch, PitchClass

if TYPE_CHECKING:
    from lickwright.instrument.tuning import Tuning

LOWEST, HIGHEST = "C0", "C7"
"""No string of a guitar or its relatives sounds outside."""
_BY_NAME = {
    "standard": "E A D G B E",
    "drop d": "D A D G B E",
    "double drop d": "D A D G B D",
    "drop c": "C G C F A D",
    "open d": "D A D F# A D",
    "open e": "E B E G# B E",
    "open g": "D G D G B D",
    "open a": "E A E A C# E",
    "half step down": "Eb Ab Db Gb Bb Eb",
    "whole step down": "D G C F A D",
}
"""Common practice."""
_NOTE = re.compile(r"[A-Ga-g][#b♯♭]?")


def find_extreme(tuning: Tuning) -> Pitch | None:
    """Return the first string, from string 1, that sounds where no string does."""
    low, high = Pitch.parse(LOWEST), Pitch.parse(HIGHEST)
    if low is None or high is None:
        raise AssertionError("the bounds are pitches")
    return next((p for p in tuning.strings if not low.midi <= p.midi <= high.midi), None)


def is_upside_down(tuning: Tuning) -> bool:
    """Tell whether the strings were written from the highest to the lowest."""
    rising = [pitch.midi for pitch in tuning.strings]  # string 1 first
    return rising == sorted(rising) and rising[0] < rising[-1]


def suggest_tuning(text: str) -> str | None:
    """Return the six pitches meant by ``drop D`` or ``DADGBE``, each nearest to the usual string."""
    name = " ".join(text.casefold().replace("tuning", "").replace("-", " ").split())
    letters = _BY_NAME.get(name, text)
    notes = _NOTE.findall(letters)
    if "".join(letters.split()) != "".join(notes) or len(notes) != STANDARD.count:
        return None
    pitches: list[str] = []
    for written, usual in zip(notes, reversed(STANDARD.strings), strict=True):
        note = PitchClass.parse(written[0].upper() + written[1:])
        if note is None:
            return None
        near = min(
            (Pitch(note.letter, note.alter, octave) for octave in range(1, 6)),
            key=lambda pitch: abs(pitch.midi - usual.midi),
        )
        pitches.append(str(near))
    return " ".join(pitches)
