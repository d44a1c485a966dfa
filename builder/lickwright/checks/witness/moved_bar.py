"""Bars whose every note lies the same interval away from what the names or degrees row says.

At least three notes. Bars that are off by the same interval are told together.

Why it matters: no finger slips seven times alike. The capo, the tuning, the position or, where the
degrees are off, the chord is another than the author had in mind.

What to do: look at what the bars have in common.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.witness_slips import Bar, Row, Slip
from lickwright.checks.wording import count_word
from lickwright.model.music import MusicBar
from lickwright.theory.chord import Chord


def run(subject: Subject) -> Iterator[Finding]:
    """Look at both rows; where both are off alike, the names speak."""
    rows: tuple[Row, ...] = ("names", "degrees")
    told: set[Bar] = set()
    for row in rows:
        by_interval: dict[int, list[tuple[Bar, Slip]]] = {}
        for place, slip in subject.slips(row).items():
            if slip.interval and place not in told:
                told.add(place)
                by_interval.setdefault(slip.interval, []).append((place, slip))
        for interval, slips in by_interval.items():
            yield _finding(subject, row, interval, slips)


def _finding(subject: Subject, row: Row, interval: int, slips: list[tuple[Bar, Slip]]) -> Finding:
    numbers = sorted({number for (number, _), _ in slips})
    bars = f"bar {numbers[0]}" if len(numbers) == 1 else f"bars {', '.join(map(str, numbers))}"
    (number, _), slip = slips[0]
    first = slip.sounds[0]
    up, steps = interval <= 6, min(interval, 12 - interval)
    away = f"{count_word(steps)} half step{'' if steps == 1 else 's'} {'above' if up else 'below'}"
    hint = "Look at the capo, the tuning, or the string and position"
    bar = subject.piece.music.bar(number)
    if row == "degrees" and bar is not None:
        hint = _other_root(bar, interval) or hint
    return subject.report(
        RULE,
        f"every note of {bars} lies {away} what the {row} row says",
        dict(first.entries).get(row, first.span),
        first.address,
        help=hint,
    )


def _other_root(bar: MusicBar, interval: int) -> str:
    """Which root the degrees of a bar count from, where it has one chord."""
    symbol = bar.chords[0].symbol if len(bar.chords) == 1 else None
    if not isinstance(symbol, Chord):
        return ""
    root = (symbol.root.semitone + interval) % 12
    names = ("C", "D flat", "D", "E flat", "E", "F", "F sharp", "G", "A flat", "A", "B flat", "B")
    return f"The degrees fit when counted from {names[root]}: look at the chord, {symbol.display}"


RULE = Rule(
    id="witness/moved-bar",
    title="A bar that lies an interval off its row",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, Rows: the second witness"),
    good=(Example("capo: 2\nkey: A major\n\nA | 5:0 - 5:2 - 5:4 - 4:0 -\n  names | B C# D# E"),),
    bad=(
        Example("A7 | 5:2 - 5:4 - 4:0 - 4:2 -\n  names | A B C D", marks=("A",)),
        Example("A7 | 4:0 - 4:4 - 3:2 - 3:4 -\n  degrees | 1 3 5 13", marks=("1",)),
    ),
    run=run,
)
