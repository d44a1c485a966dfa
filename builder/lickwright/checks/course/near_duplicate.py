"""Two licks of the course that are the same, or the same but for one note.

Held against each other are the notes of whole licks of six sounds or more, with the same chords, rhythm,
key, feel, guitar and strokes. Variations are left alone: they say themselves what they change. So are two
licks of which the one is the other mended, where a rule finds the note that differs wrong: it is told there.

Why it matters: a lick that was copied and mended once is two licks from then on; and a student who is
promised a hundred counts them.

What to do: take one out, or write it as a variation (`vary`) of the other.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.likeness import (
    Likeness,
    find_like,
    is_in_fault,
    part_of_lick,
    say_difference,
)
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey
from lickwright.findings import Label


def run(survey: Survey) -> Iterator[Finding]:
    """Take all licks of the course at once."""
    parts = (part_of_lick(piece, bars) for _, piece, bars in survey.licks)
    told: set[str] = set()
    for like in find_like(parts, survey.limits["alike-sounds"], equal=True):
        name = like.later.piece.name
        if name not in told and not is_in_fault(like, survey):
            told.add(name)
            yield _finding(like, survey)


def _finding(like: Likeness, survey: Survey) -> Finding:
    other, piece = like.earlier.piece, like.later.piece
    if like.at is None:
        message, span, label = "note for note", piece.span, Label(other.span, f"“{other.name}”")
        address = ""
    else:
        here, there = say_difference(like, survey)
        message = f"but for one note: {like.address} is {here} here, {there} there"
        span, label = like.span, Label(like.other_span, f"{there} in “{other.name}”")
        address = str(like.address)
    return Finding(
        RULE.id,
        RULE.severity,
        f"the lick is “{other.name}” {message}",
        span,
        (label,),
        f"Write it as a variation, vary: {other.name}, or take it out",
        None,
        piece.name,
        address,
    )


_LICK = "```lick {}\nA | 5:0 5:4 4:2 {} 3:2 4:4 4:2 5:4\n```\n"
_ONE = _LICK.format("one", "4:4")

RULE = Rule(
    id="course/near-duplicate",
    title="Two licks that are the same but for a note",
    severity=Severity.NOTE,
    source=Source("own threshold", "Six sounds, all of them alike or all but one"),
    good=(Example(f"{_ONE}\n```lick two\nvary: one\n1.4: 4:2\n```"),),
    bad=(
        Example(f"{_ONE}\n{_LICK.format('two', '4:2')}", ("4:2",)),
        Example(f"{_ONE}\n{_LICK.format('two', '4:4')}", ("```lick two",)),
    ),
    survey=run,
)
