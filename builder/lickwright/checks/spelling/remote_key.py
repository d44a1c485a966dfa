"""A key of seven sharps or flats, which has a plainer twin.

C sharp major is D flat, C flat major B, A sharp minor B flat, A flat minor G sharp. Keys of more than
seven do not read at all.

Why it matters: seven accidentals are hard to read, and half the chords get double ones.

What to do: take the twin; nothing sounds different.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey
from lickwright.model.blocks import Lick, Progression
from lickwright.text import Span
from lickwright.theory.interval import Interval
from lickwright.theory.key import Key

MOST = 6
"""Accidentals of a signature that need no comment."""


def run(survey: Survey) -> Iterator[Finding]:
    """Look at the key of the course and of every block that states one."""
    course = survey.course
    if abs(course.settings.key.signature) > MOST:
        span = dict(course.places).get("course.key", course.manifest.span(0, 0))
        yield _finding(course.settings.key, span, "")
    blocks: list[Lick | Progression] = [*course.licks.values(), *course.progressions.values()]
    for block in blocks:
        if block.key is not None and abs(block.key.signature) > MOST:
            yield _finding(block.key, dict(block.places).get("key", block.span), block.name)


def _finding(key: Key, span: Span, name: str) -> Finding:
    away = Interval(1, 0) if key.signature > 0 else Interval(-1, 0)
    twin = Key(away.above(key.tonic), key.mode)
    signs = "sharps" if key.signature > 0 else "flats"
    return Finding(
        RULE.id,
        RULE.severity,
        f"{key.display} has {abs(key.signature)} {signs}, and {twin.display} {abs(twin.signature)}"
        f" {'flats' if key.signature > 0 else 'sharps'}",
        span,
        help=f"Write {twin.name}",
        lick=name,
    )


RULE = Rule(
    id="spelling/remote-key",
    title="A key of seven sharps or flats",
    severity=Severity.NOTE,
    source=Source("common practice", "Enharmonic keys: the one with fewer accidentals is written"),
    good=(Example("key: Db major\n\nDb | 5:4 - 4:3 - 3:1 - 2:2 -"),),
    bad=(Example("key: C# major\n\nC# | 5:4 - 4:3 - 3:1 - 2:2 -", marks=("C# major",)),),
    survey=run,
)
