"""A shuffle that is written out as triplets, or as dotted pairs, as well.

The feel already puts the second eighth of each beat at two thirds of it. Where more than a fifth of the
beats are written long-short, in triplets or dotted, the swing is said twice.

Why it matters: a reader who swings what is swung already does not know which of the two is meant.

What to do: write plain eighths under ``feel: shuffle``, or keep what is written and say ``straight``.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.address import Address
from lickwright.model.music import MusicBar
from lickwright.text import Span

FEWEST = 2
"""Beats, so that one written triplet in a short lick is no query."""
LONG_SHORT = (frozenset({Fraction(0), Fraction(2, 3)}), frozenset({Fraction(0), Fraction(3, 4)}))
"""Places of the two notes of a beat, as shares of it."""


def run(subject: Subject) -> Iterator[Finding]:
    """Count the beats that are written long-short."""
    if not subject.piece.music.swung:
        return
    beats = 0
    swung: list[tuple[MusicBar, Span]] = []
    for bar in subject.piece.music.bars:
        places: dict[int, set[Fraction]] = {}
        spans: dict[int, Span] = {}
        for sound in bar.upper.sounds:
            beat, part = divmod(sound.onset + bar.offset, bar.meter.beat)
            places.setdefault(beat, set()).add(part / bar.meter.beat)
            spans.setdefault(beat, sound.span)
        beats += len(places)
        swung.extend((bar, spans[beat]) for beat, found in places.items() if found in LONG_SHORT)
    if len(swung) >= FEWEST and len(swung) / beats > subject.limits["double-swing"]:
        bar, span = swung[0]
        yield subject.report(
            RULE,
            f"{len(swung)} of {beats} beats are written long-short, and the feel is a shuffle: the swing is"
            " said twice",
            span,
            Address(bar.number),
            help="Write plain eighths, or feel: straight",
        )


RULE = Rule(
    id="rhythm/double-swing",
    title="A shuffle that is written out as well",
    severity=Severity.QUERY,
    source=Source("common practice", "A swing mark replaces written triplets; the share is our own"),
    good=(
        Example("feel: shuffle\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),
        Example("feel: straight\n\nA7 | (5:0 - 5:4)/2 (4:2 - 4:4)/2 3:2 - 4:2 -"),
    ),
    bad=(
        Example("feel: shuffle\n\nA7 | (5:0 - 5:4)/2 (4:2 - 4:4)/2 3:2 - 4:2 -", marks=("5:0",)),
        Example("feel: shuffle\nstep: 1/16\nmeter: 2/4\n\nA7 | 5:0 - - 5:4 4:2 - - 4:4", marks=("5:0",)),
    ),
    run=run,
)
