"""Why a note is written by one name and not by another: F sharp or G flat.

The first reason that applies: the chord's own spelling, the key's, the tonic's blue degrees, the
way a chromatic note moves on (raised going up, lowered going down). A name that print and stage use
beside the strict one is no fault: the plain name for a double accidental, any plain name in a diminished
seventh, B flat going up to B in C, F sharp coming down to F.

References: chromatic spelling by direction (common practice; Gould, *Behind Bars*, from memory); the
blue degrees as flat names, the flat fifth raised on its way up (common practice).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from lickwright.checks.wording import degree_name
from lickwright.theory.chord import Chord, ChordSymbol
from lickwright.theory.interval import Interval
from lickwright.theory.key import Key
from lickwright.theory.pitch import PitchClass
from lickwright.theory.spelling import spell

Kind = Literal["chord", "key", "direction", "blue", "double"]

FURTHEST = 6
"""Fifths from the tonic, either way, within which a chromatic note is looked for: b2 and b5 to #4."""
BLUE = {3: Interval(2, 3), 6: Interval(4, 6), 10: Interval(6, 10)}
"""Half steps above the tonic of the blue degrees, with the intervals that name them."""
STAYS_RISING = frozenset({3, 10})
"""Blue degrees that keep their flat name when they rise: the third and the seventh."""
STAYS_FALLING = frozenset({6})
"""Half steps above the tonic that keep their sharp when they fall: the raised fourth."""

NO_DOUBLE = "neither chord nor key asks for a double accidental"


@dataclass(frozen=True, slots=True)
class Reason:
    """Why another spelling is expected.

    Attributes:
        kind: Which reason: the chord's name, the key's, the way the note goes, a blue degree, or a
            double accidental that nothing asks for.
        written: As given. ``expected``: as it is written.
        why: In words, to follow "C sharp, not D flat": ``the third of A7``.
    """

    kind: Kind
    written: PitchClass
    expected: PitchClass
    why: str


def explain_spelling(
    midi: int, written: str, key: Key, chord: ChordSymbol | None, before: int | None, after: int | None
) -> Reason | None:
    """Say why a note is expected to be written otherwise.

    Args:
        midi: MIDI number that sounds.
        written: Its name as an author gives it, without an octave: ``Db``.
        key: The key in force.
        chord: The chord in force; ``None`` and ``N.C.`` have no say.
        before: MIDI number of the melodic neighbour before, or None.
        after: The one after, or None at the end of a phrase.

    Returns:
        The reason; None where the name is right, is in use beside the right one, is no note name,
        or names another pitch (that is no matter of spelling).
    """
    name = PitchClass.parse(written)
    if name is None or name.semitone != midi % 12:
        return None
    in_chord = {} if chord is None else {note.semitone: note for note in chord.pitch_classes}
    by_chord, by_key = in_chord.get(name.semitone), key.spelling(midi)
    expected = by_chord or by_key
    if expected is None:
        return _chromatic(midi, name, key, chord, before, after)
    if _serves(name, expected) or (by_chord and chord is not None and _free(chord) and abs(name.alter) <= 1):
        return None
    if abs(name.alter) > 1:
        return Reason("double", name, expected, NO_DOUBLE)
    if by_chord is None and _in_a_run(name, expected, key, midi, after):
        return None
    if not isinstance(chord, Chord) or by_chord is None:
        return Reason("key", name, expected, f"a note of {key.display}")
    degree = degree_name(chord.degree_of(expected))
    return Reason("chord", name, expected, f"the {degree} of {chord.display}")


def _free(chord: ChordSymbol) -> bool:
    """Whether a chord is spelled as it comes: the diminished seventh, alike on each of its notes."""
    return isinstance(chord, Chord) and chord.quality.name == "dim7"


def _serves(name: PitchClass, strict: PitchClass) -> bool:
    """Whether a name will do: the strict one, or a plain one where that has a double accidental."""
    return name == strict or (abs(strict.alter) > 1 and abs(name.alter) <= 1)


def _chromatic(
    midi: int, name: PitchClass, key: Key, chord: ChordSymbol | None, before: int | None, after: int | None
) -> Reason | None:
    expected = spell(midi, key, chord, before, after).name
    if name == expected:
        return None
    if abs(name.alter) > 1:
        return Reason("double", name, expected, NO_DOUBLE)
    above = (midi - key.tonic.semitone) % 12
    motion = _motion(midi, before, after)
    blue = BLUE[above].above(key.tonic) if above in BLUE else None
    if motion == 1:
        if name == blue and above in STAYS_RISING:
            return None
        if expected.alter > name.alter or (expected.alter == 0 and name.alter < 0):
            return Reason("direction", name, expected, "it goes up by a half step, and is written raised")
        return None
    near = abs(name.fifths - key.tonic.fifths) <= FURTHEST
    if motion == -1:
        if (above in STAYS_FALLING and near) or name == blue:
            return None
        return Reason("direction", name, expected, "it goes down by a half step, and is written lowered")
    if near or blue is None:  # led on over another note, G sharp by way of B to A, it keeps its name
        return None
    label = blue_label(above)
    return Reason("blue", name, blue, f"the {label} of {key.display}, which nothing leads up")


def _in_a_run(name: PitchClass, expected: PitchClass, key: Key, midi: int, after: int | None) -> bool:
    """Whether a note of the key is written raised, or lowered, because a chromatic note comes next."""
    if after is None or abs(after - midi) != 1 or key.spelling(after) is not None:
        return False
    return (name.fifths - expected.fifths) * (after - midi) == 12


def blue_label(above: int) -> str:
    """The blue degree in words, by its half steps above the tonic."""
    return {3: "flat third", 6: "flat fifth", 10: "flat seventh"}[above]


def _motion(midi: int, before: int | None, after: int | None) -> int | None:
    """Half steps to the next note; repeated, a note goes on the way it came."""
    if after is None:
        return None
    if after == midi:
        return None if before is None else midi - before
    return after - midi
