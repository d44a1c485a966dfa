"""Degrees and chords as prose says them, turned into pitch classes.

Conventions: pitch classes count half steps above C. What is said without its size has the size that
the chord gives it: the third of A is major, of A minor minor.
"""

from __future__ import annotations

from lickwright.checks.claims.term import ChordName, Degree, Term
from lickwright.theory.chord import Chord
from lickwright.theory.interval import MAJOR_SCALE, parse_degree
from lickwright.theory.key import Key
from lickwright.theory.pitch import PitchClass

_EITHER: dict[int, frozenset[int]] = {2: frozenset({3, 4}), 6: frozenset({10, 11})}
"""Thirds and sevenths, by letters, of a chord that has none of its own."""


def degree_classes(degree: Degree, chord: Chord) -> frozenset[int]:
    """Return the pitch classes that a degree of a chord may be."""
    step = (degree.number - 1) % 7
    root = chord.root.semitone
    if degree.alter is not None:
        return frozenset({(root + MAJOR_SCALE[step] + degree.alter) % 12})
    own = {i.semitones % 12 for i in chord.quality.intervals if i.steps % 7 == step}
    sizes = own or _EITHER.get(step) or {MAJOR_SCALE[step]}
    if step == 5 and 3 in chord.quality.tones and not own:
        sizes = {8, 9}
    return frozenset((root + size) % 12 for size in sizes)


def key_classes(degree: Degree, key: Key) -> frozenset[int]:
    """Return the pitch classes that a degree of a key may be."""
    step = (degree.number - 1) % 7
    if degree.alter is None:
        return frozenset({key.scale[step].semitone})
    return frozenset({(key.tonic.semitone + MAJOR_SCALE[step] + degree.alter) % 12})


def chord_of(term: Term, harmony: tuple[Chord, ...]) -> tuple[Chord, ...]:
    """Return the chords that a name may mean: where only the root is said, as the harmony has them.

    Args:
        term: A chord, a note that stands for one, a tonality.
        harmony: The chords in force.
    """
    value = term.value
    if isinstance(value, ChordName) and not value.plain:
        return (value.chord,)
    if isinstance(value, Key):
        return (Chord.of(str(value.tonic), "m" if value.is_minor_like else "major"),)
    root = value.chord.root if isinstance(value, ChordName) else value
    if not isinstance(root, PitchClass):
        return ()
    known = tuple(chord for chord in harmony if chord.root.semitone == root.semitone)
    plain = tuple(Chord.of(str(root), quality) for quality in ("major", "m"))
    return known or (plain if term.kind == "note" else plain[:1])


def fits_harmony(named: Term, harmony: tuple[Chord, ...]) -> bool:
    """Whether a chord that is named is one of the harmony, said in full or in part."""
    value = named.value
    for chord in chord_of(named, harmony):
        for here in harmony:
            plain = isinstance(value, ChordName) and value.plain
            part = chord.quality.tones <= here.quality.tones
            if chord.root.semitone == here.root.semitone and (plain or part or chord.same_as(here)):
                return True
    return False


def spells(chord: Chord, sounding: frozenset[int], *, loose: bool = False) -> tuple[str, ...]:
    """Say what keeps notes from spelling a chord; nothing where they do.

    The fifth may be missing, the root, and colours below the one that names the chord; the third (or what
    is suspended for it), the seventh and the note that names the chord may not.

    Args:
        chord: As named.
        sounding: Pitch classes.
        loose: Where only the root was said: a seventh may be there, and either third.

    Returns:
        Reasons: ``F natural is not in it``, ``its third is missing``.
    """
    root = chord.root.semitone
    tones = set(chord.semitones)
    if loose:
        tones |= {(root + size) % 12 for size in (3, 4, 9, 10, 11)}
    reasons = [f"{name} is not in it" for name in sorted(_names(sounding - tones, chord))]
    thirds = [i for i in chord.quality.intervals if i.steps in (1, 2, 3)]
    sizes = {i.semitones % 12 for i in thirds} | ({3, 4} if loose else set())
    if thirds and not any((root + size) % 12 in sounding for size in sizes):
        reasons.append(f"its {thirds[0].name.split()[-1]} is missing")
    named = [i for i in chord.quality.intervals if i.steps % 7 == 6 or i is chord.quality.intervals[-1]]
    if not loose:
        reasons.extend(
            f"its {interval.name} is missing"
            for interval in named
            if interval.steps > 4 and (root + interval.semitones) % 12 not in sounding
        )
    return tuple(reasons)


def _names(classes: set[int] | frozenset[int], chord: Chord) -> list[str]:
    labels = {label: interval for label in ("1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7")
              if (interval := parse_degree(label)) is not None}  # fmt: skip
    return [
        interval.above(chord.root).spoken
        for interval in labels.values()
        if (chord.root.semitone + interval.semitones) % 12 in classes
    ]
