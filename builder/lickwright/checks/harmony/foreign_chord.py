"""A chord from outside the key that no common reason explains.

Left alone are chords whose notes lie in the key (in minor with the raised sixth and seventh), every chord
with a major third that leads a fifth down and every dominant that leads a half step down to the next,
chords borrowed from the parallel key, the sevenths of blues and country on I and IV, major chords on II,
III and VI as in ragtime and country, diminished chords in passing, and bars said to be ``outside``. Notes
played over N.C. have no chord.

Why it matters: a letter of the symbol may have slipped, the more so when every note of the bar lies in
the key, and the band plays it as it stands.

What to do: look at the symbol; it is only noted, and nothing need be done where it is meant.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.address import Address
from lickwright.model.music import ChordAt, MusicBar
from lickwright.theory.chord import Chord
from lickwright.theory.key import MODES, Key

MAJOR_ROOTS = frozenset({0, 2, 3, 4, 5, 7, 8, 9, 10})
"""Half steps above the tonic at which a major or dominant chord is in use: I II bIII III IV V bVI VI bVII."""
MINOR_ROOTS = frozenset({0, 2, 4, 5, 7, 9})
"""The same for a minor chord: i ii iii iv v vi."""


def run(subject: Subject) -> Iterator[Finding]:
    """Look at every printed chord with what follows it."""
    if subject.piece.kind == "chorus":  # its licks have been asked
        return
    key = subject.piece.music.key
    placed = [(bar, chord) for bar in subject.piece.music.bars for chord in bar.chords]
    told: set[tuple[str, int]] = set()
    for index, (bar, chord) in enumerate(placed):
        symbol = chord.symbol
        if not isinstance(symbol, Chord) or chord.carried or bar.number in subject.outside:
            continue
        following = next((c.symbol for _, c in placed[index + 1 :] if c.symbol != symbol), None)
        if _at_home(symbol, key) or _leads(symbol, following):
            continue
        place = (chord.span.source.path, chord.span.start)
        if place not in told:
            told.add(place)
            yield _finding(subject, bar, chord, symbol, key)


def _at_home(chord: Chord, key: Key) -> bool:
    if chord.semitones <= key.working_semitones or chord.semitones <= _parallel(key):
        return True
    above = (chord.root.semitone - key.tonic.semitone) % 12
    if 4 in chord.quality.tones and 8 not in chord.quality.tones:
        return above in MAJOR_ROOTS
    if 6 in chord.quality.tones:  # diminished, passing between two others
        return True
    return above in MINOR_ROOTS


@lru_cache(maxsize=64)
def _parallel(key: Key) -> frozenset[int]:
    """The notes of the parallel major or minor."""
    other = "major" if key.is_minor_like else "minor"
    return Key(key.tonic, other).semitones if other in MODES else frozenset()


def _leads(chord: Chord, following: object) -> bool:
    """A secondary dominant, or its tritone substitute: a fifth or a half step down."""
    if not isinstance(following, Chord) or not chord.has_major_third:
        return False
    down = (chord.root.semitone - following.root.semitone) % 12
    return down == 7 or (down == 1 and chord.is_dominant)


def _plain(subject: Subject, bar: MusicBar, key: Key) -> bool:
    """Whether every note of the bar lies in the key: then the notes do not bear the chord out."""
    pitches = [role.pitch % 12 for role in subject.roles if role.address.bar == bar.number]
    return bool(pitches) and all(pitch in key.semitones for pitch in pitches)


def _finding(subject: Subject, bar: MusicBar, chord: ChordAt, symbol: Chord, key: Key) -> Finding:
    return subject.report(
        RULE,
        f"{symbol.display} lies outside {key.display}"
        + (", and every note of the bar inside it" if _plain(subject, bar, key) else ""),
        chord.span if chord.span.source.path else bar.span,
        Address(bar.number),
        help="Look at the letter and the accidental of the symbol",
    )


RULE = Rule(
    id="harmony/foreign-chord",
    title="A chord foreign to its key",
    severity=Severity.NOTE,
    source=Source(
        "common practice", "Diatonic, borrowed and applied chords of harmony teaching; from memory"
    ),
    good=(
        Example("key: C major\n\nA7 | 3:2 - 2:2 - 3:2 - 2:5 -\nD7 | 4:0 - 4:4 - 3:2 - 2:1 -"),
        Example("key: A major\n\nG | 4:0 - 3:0 - 2:0 - 3:0 -\nA | 3:2 - 2:2 - 1:0 - 3:2 -"),
    ),
    bad=(
        Example("key: A major\n\nBb | 1:0 - 2:3 - 2:0 - 3:2 -\nA | 3:2 - - - - - - -", marks=("Bb",)),
        Example("key: C major\n\nF#maj7 | 4:4 - 3:3 - 2:2 - 1:1 -\nC | 1:0 - - - - - - -", marks=("F#maj7",)),
    ),
    run=run,
)
