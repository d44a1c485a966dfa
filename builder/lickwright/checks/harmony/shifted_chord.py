"""A bar whose notes spell another chord: the symbol has slipped by a bar, or is another altogether.

At least four notes; by their length few of them are tones of the chord above them, and nearly all of them
tones of the chord before or after. Away from its chord a bar is asked about when it is nothing but a
dominant seventh of the key or of the piece, root, third, fifth and seventh complete. In a blues the minor
pentatonic of the key belongs to all three chords and is no other chord.

Why it matters: the band plays one chord and the hand another, and every note of the bar seems to be wrong.

What to do: move the chord symbol, not the notes.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.analysis.figures.blue import is_pentatonic
from lickwright.analysis.role import RoleOf
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.address import Address
from lickwright.theory.chord import Chord
from lickwright.theory.interval import Interval

FEWEST = 4
"""Notes."""
SEVENTH = "7"
"""The quality of a dominant seventh."""


def run(subject: Subject) -> Iterator[Finding]:
    """Weigh the notes of each one-chord bar over its own chord and over its neighbours'."""
    bars: dict[int, list[RoleOf]] = {}
    for role in subject.roles:
        bars.setdefault(role.address.bar, []).append(role)
    printed = [
        (bar, bar.chords[0])
        for bar in subject.piece.music.bars
        if len(bar.chords) == 1 and bar.number in bars
    ]
    for index, (bar, own) in enumerate(printed):
        roles = bars[bar.number]
        if len(roles) < FEWEST or not isinstance(own.symbol, Chord) or _is_blues(subject, roles, own.symbol):
            continue
        if _share(roles, own.symbol) >= subject.limits["shifted-own"]:
            continue
        beside = [c.symbol for _, c in (*printed[index + 1 : index + 2], *printed[max(0, index - 1) : index])]
        near = (c for c in beside if isinstance(c, Chord))
        meant = next((c for c in near if _share(roles, c) >= subject.limits["shifted-other"]), None)
        hint = "Look whether the symbol belongs to the next bar"
        if meant is None:
            meant = next((c for c in _sevenths(subject) if _spells(roles, c)), None)
            hint = "Look which is meant, the symbol or the notes"
        if meant is not None:
            yield subject.report(
                RULE,
                f"the notes of bar {bar.number} are those of {meant.display}, and the chord is"
                f" {own.symbol.display}",
                own.span if own.span.source.path else bar.span,
                Address(bar.number),
                help=hint,
            )


def _is_blues(subject: Subject, roles: list[RoleOf], chord: Chord) -> bool:
    """Whether a bar of a blues keeps to the key's minor pentatonic over one of the three chords."""
    tonic, root = subject.piece.music.key.tonic.semitone, chord.root.semitone
    return subject.piece.style == "blues" and all(is_pentatonic(tonic, root, role.pitch) for role in roles)


def _sevenths(subject: Subject) -> tuple[Chord, ...]:
    """The dominant seventh of the key, and those that the piece has."""
    music = subject.piece.music
    fifth = Chord.of(str(Interval(4, 7).above(music.key.tonic)), SEVENTH)
    had = (chord.symbol for bar in music.bars for chord in bar.chords)
    return (fifth, *(c for c in had if isinstance(c, Chord) and c.quality.name == SEVENTH))


def _spells(roles: list[RoleOf], chord: Chord) -> bool:
    """Whether the notes are those of a chord, all of them and no other."""
    return {role.pitch % 12 for role in roles} == chord.semitones


def _share(roles: list[RoleOf], chord: Chord) -> float:
    lengths = [(float(r.length), r.pitch % 12 in chord.semitones) for r in roles]
    return sum(length for length, inside in lengths if inside) / sum(length for length, _ in lengths)


RULE = Rule(
    id="harmony/shifted-chord",
    title="A bar that spells another chord",
    severity=Severity.QUERY,
    source=Source("own threshold", "Shares of a bar's time on the tones of either chord"),
    good=(
        Example("A | 5:0 - 5:4 - 4:2 - 3:2 -\nD | 4:0 - 4:4 - 3:2 - 2:3 -"),
        Example("A | 4:2 - 4:4 - 3:1 - 3:2 -\nD | 4:0 - 4:4 - 3:2 - 2:3 -"),
    ),
    bad=(
        Example("A | 4:0 - 4:4 - 3:2 - 2:3 -\nD | 5:0 - 5:4 - 4:0 - 4:4 -", marks=("A",)),
        Example(
            "key: G major\n\nC | 3:5 - 2:1 - 1:0 - 2:1 -\nG | 4:0 - 4:4 - 3:2 - 2:1 -\nC | 1:0 - - - - - - -",
            marks=("G",),
        ),
    ),
    run=run,
)
