"""A chord under a name foreign to its key: A sharp seven in F major.

Roots are looked for from the flat second (and the flat fifth) of the key to its sharp fourth;
diminished chords may be raised ones in passing, C sharp diminished between C and D minor.

Why it matters: the band reads the chart. In F there is a B flat, and A sharp makes them stop and think.

What to do: write the root as the key has it.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.address import Address
from lickwright.theory.chord import Chord
from lickwright.theory.key import Key
from lickwright.theory.pitch import FIFTHS, PitchClass

FURTHEST = 6
"""Fifths from the tonic."""


def run(subject: Subject) -> Iterator[Finding]:
    """Look at the root of every printed chord, once a symbol."""
    if subject.piece.kind == "chorus":  # its licks have been asked
        return
    key, told = subject.piece.music.key, set[str]()
    for bar in subject.piece.music.bars:
        for chord in bar.chords:
            symbol = chord.symbol
            if not isinstance(symbol, Chord) or chord.carried or symbol.symbol in told:
                continue
            if _at_home(symbol, key):
                continue
            told.add(symbol.symbol)
            twin = _twin(symbol.root, key)
            suffix = symbol.display.removeprefix(symbol.root.display)
            yield subject.report(
                RULE,
                f"{symbol.display} in {key.display}, where the same chord is written {twin.display}{suffix}",
                chord.span if chord.span.source.path else bar.span,
                Address(bar.number),
                help=f"Write {twin}{symbol.symbol.removeprefix(str(symbol.root))}",
            )


def _at_home(chord: Chord, key: Key) -> bool:
    root = chord.root
    if root in key.scale or abs(root.fifths - key.tonic.fifths) <= FURTHEST:
        return True
    return 6 in chord.quality.tones and root.alter < 2 and root.fifths > key.tonic.fifths


def _twin(root: PitchClass, key: Key) -> PitchClass:
    """The same root under the name nearest the key."""
    names = [PitchClass(letter, alter) for letter in FIFTHS for alter in (-1, 0, 1)]
    return min(
        (name for name in names if name.semitone == root.semitone),
        key=lambda name: abs(name.fifths - key.tonic.fifths),
    )


RULE = Rule(
    id="spelling/chord-root",
    title="A chord under a name foreign to its key",
    severity=Severity.NOTE,
    source=Source("common practice", "Roots on the key's side of the circle of fifths"),
    good=(
        Example("key: F major\n\nBb7 | 5:1 - 4:0 - 4:3 - 3:1 -"),
        Example("key: C major\n\nC | 5:3 - 4:2 - 4:5 - 3:5 -\nC#dim | 5:4 - 4:2 - 4:5 - 4:2 -"),
    ),
    bad=(Example("key: F major\n\nA#7 | 5:1 - 4:0 - 4:3 - 3:1 -", marks=("A#7",)),),
    run=run,
)
