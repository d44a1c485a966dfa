"""How a sounding note is written: F sharp or G flat.

The first that applies: a chord tone is spelled by its chord; a note of the key by the key (in minor
the sixth and seventh may be raised); a chromatic note that moves on by a half step is the raised
lower letter going up and the lowered upper letter going down; repeated, it goes the way it came, and so
it does where a half step led to it and a leap leaves it (C C# F# over D7), but for the blue ``b3`` and
``b7``; any other that is left by a leap takes the blue names ``b3 b5 b7``; what remains is the nearest to
the tonic on the line of fifths, ``b2`` to ``#4``. Double accidentals, and B#, E#, Cb and Fb, are written only
where the chord or the key asks for them: a walk A B C C# is read more easily than A B B# C#.

References: chromatic spelling by direction (common practice; Gould, *Behind Bars*, from memory).
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from lickwright.theory.interval import Interval
from lickwright.theory.pitch import FIFTHS, Pitch, PitchClass

if TYPE_CHECKING:
    from lickwright.theory.chord import ChordSymbol
    from lickwright.theory.key import Key

# half steps above the tonic -> letters above it; the position on the line of fifths is implied
_NEAREST = {0: 0, 1: 1, 2: 1, 3: 2, 4: 2, 5: 3, 6: 3, 7: 4, 8: 5, 9: 5, 10: 6, 11: 6}
_BLUE = {3: 2, 6: 4, 10: 6}
_KEPT = frozenset({3, 10})
"""Half steps above the tonic of the blue notes that no half step before them raises."""
_LEAP = 3
"""Half steps from which a move is a leap."""
_LEFT = (None, -_LEAP, _LEAP)
"""Moves that lead nowhere: the end of the line, a leap."""

_MOST = 2
"""Accidentals on one letter that print has signs for: Fbdim7's E triple flat is written D flat."""

_AWKWARD = frozenset({PitchClass("B", 1), PitchClass("E", 1), PitchClass("C", -1), PitchClass("F", -1)})
_SIMPLE = tuple(
    note for letter in FIFTHS for alter in (-1, 0, 1) if (note := PitchClass(letter, alter)) not in _AWKWARD
)


def _without_doubles(semitone: int, tonic: PitchClass) -> PitchClass:
    same = (note for note in _SIMPLE if note.semitone == semitone)
    return min(same, key=lambda note: (abs(note.fifths - tonic.fifths), note.fifths))


def _chromatic(semitone: int, key: Key, motion: int | None) -> PitchClass:
    below, above = key.spelling(semitone - 1), key.spelling(semitone + 1)
    raised = PitchClass(below.letter, below.alter + 1) if below is not None else None
    lowered = PitchClass(above.letter, above.alter - 1) if above is not None else None
    if motion == 1 and raised is not None:
        note = raised
    elif motion == -1 and lowered is not None:
        note = lowered
    else:
        up = (semitone - key.tonic.semitone) % 12
        leaps = motion is not None and abs(motion) >= _LEAP
        steps = _BLUE[up] if leaps and up in _BLUE else _NEAREST[up]
        note = Interval(steps, up).above(key.tonic)
    return note if abs(note.alter) <= 1 and note not in _AWKWARD else _without_doubles(semitone, key.tonic)


@lru_cache(maxsize=65536)
def _name(semitone: int, key: Key, chord: ChordSymbol | None, motion: int | None) -> PitchClass:
    if chord is not None and semitone in chord.semitones:
        named = next(note for note in chord.pitch_classes if note.semitone == semitone)
        if abs(named.alter) <= _MOST:
            return named
    return key.spelling(semitone) or _chromatic(semitone, key, motion)


def _goes_as_it_came(midi: int, key: Key, motion: int | None) -> bool:
    """Whether a note is repeated, or left for no near note, and is not kept by its blue name."""
    return motion == 0 or (motion in _LEFT and (midi - key.tonic.semitone) % 12 not in _KEPT)


def spell(
    midi: int, key: Key, chord: ChordSymbol | None, previous: int | None, following: int | None
) -> Pitch:
    """Write a sounding note.

    Args:
        midi: What sounds, or what is written when the part is written an octave up.
        key: The key in force.
        chord: The chord in force; ``None`` and ``N.C.`` have no say.
        previous: MIDI number of the melodic neighbour before, in the same voice, or ``None``.
        following: The one after, or ``None`` at the end of a phrase.

    Returns:
        The spelled pitch; its ``midi`` is the one given.
    """
    motion = None if following is None else max(-_LEAP, min(_LEAP, following - midi))
    if previous is not None and _goes_as_it_came(midi, key, motion):
        come = midi - previous
        motion = come if abs(come) == 1 else motion
    return Pitch.at(midi, _name(midi % 12, key, chord, motion))
