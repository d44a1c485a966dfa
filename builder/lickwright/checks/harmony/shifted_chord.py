"""A bar whose notes spell a neighbour's chord: the symbol has slipped by a bar.

At least four notes; by their length few of them are tones of the chord above them, and nearly all of them
tones of the chord before or after.

Why it matters: the band plays one chord and the hand another, and every note of the bar seems to be wrong.

What to do: move the chord symbol, not the notes.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.analysis.role import RoleOf
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.address import Address
from lickwright.theory.chord import Chord

FEWEST = 4
"""Notes."""


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
        if len(roles) < FEWEST or not isinstance(own.symbol, Chord):
            continue
        if _share(roles, own.symbol) >= subject.limits["shifted-own"]:
            continue
        for _, other in (*printed[index + 1 : index + 2], *printed[max(0, index - 1) : index]):
            symbol = other.symbol
            if not isinstance(symbol, Chord) or _share(roles, symbol) < subject.limits["shifted-other"]:
                continue
            yield subject.report(
                RULE,
                f"the notes of bar {bar.number} are those of {symbol.display}, and the chord is"
                f" {own.symbol.display}",
                own.span if own.span.source.path else bar.span,
                Address(bar.number),
                help="Look whether the symbol belongs to the next bar",
            )
            break


def _share(roles: list[RoleOf], chord: Chord) -> float:
    lengths = [(float(r.length), r.pitch % 12 in chord.semitones) for r in roles]
    return sum(length for length, inside in lengths if inside) / sum(length for length, _ in lengths)


RULE = Rule(
    id="harmony/shifted-chord",
    title="A bar that spells its neighbour's chord",
    severity=Severity.QUERY,
    source=Source("own threshold", "Shares of a bar's time on the tones of either chord"),
    good=(
        Example("A | 5:0 - 5:4 - 4:2 - 3:2 -\nD | 4:0 - 4:4 - 3:2 - 2:3 -"),
        Example("A | 4:2 - 4:4 - 3:1 - 3:2 -\nD | 4:0 - 4:4 - 3:2 - 2:3 -"),
    ),
    bad=(Example("A | 4:0 - 4:4 - 3:2 - 2:3 -\nD | 5:0 - 5:4 - 4:0 - 4:4 -", marks=("A",)),),
    run=run,
)
