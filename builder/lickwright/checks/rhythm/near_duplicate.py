"""Two bars of a lesson that are the same but for one note.

Bars of six sounds or more, over the same chords and in the same rhythm, where a single note lies one or two
frets away on its string, as a slip of the pen would. The last note of a bar is left alone, it answers to
the bar that follows; so are variations, and places where three bars have three different notes. Two licks
that are the same but for one note are told as a whole.

Why it matters: the ear takes the second bar for the first. One of them may be a slip that no rule of
harmony can hear.

What to do: look at both, and mend one or let it stand.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from operator import itemgetter

from lickwright.checks.likeness import Likeness, find_like, is_in_fault, part_of_lick
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey
from lickwright.findings import Label


def run(survey: Survey) -> Iterator[Finding]:
    """Take each lesson by itself."""
    fewest, slip = survey.limits["alike-sounds"], survey.limits["alike-frets"]
    for _, group in groupby(survey.licks, key=itemgetter(0)):
        licks = tuple(group)
        parts = (part for _, _, bars in licks for part in bars)
        found = [like for like in find_like(parts, fewest, equal=False) if _is_a_slip(like, slip)]
        if not found:
            continue
        wholes = (part_of_lick(piece, bars) for _, piece, bars in licks)
        alike = {(x.earlier.piece.name, x.later.piece.name) for x in find_like(wholes, fewest, equal=False)}
        told: set[tuple[int, int]] = set()
        for like in found:
            names = like.earlier.piece.name, like.later.piece.name
            place = like.span.start, like.other_span.start
            if names in alike or names[::-1] in alike or place in told or is_in_fault(like, survey):
                continue
            told.add(place)
            yield _finding(like)


def _is_a_slip(like: Likeness, frets: float) -> bool:
    if like.at is None or like.at == len(like.later.notes) - 1:
        return False
    one, other = like.earlier.notes[like.at], like.later.notes[like.at]
    if len(one) != len(other):
        return False
    changed = [(a, b) for a, b in zip(one, other, strict=True) if a != b]
    if len(changed) != 1 or changed[0][0][2] == changed[0][1][2]:
        return False
    (string, fret, _), (string2, fret2, _) = changed[0]
    return string == string2 and fret is not None and fret2 is not None and abs(fret - fret2) <= frets


def _finding(like: Likeness) -> Finding:
    later, earlier = like.later, like.earlier
    same = later.piece.name == earlier.piece.name
    where = f"bar {earlier.bar.number}" + ("" if same else f" of “{earlier.piece.name}”")
    here, there = like.span.text, like.other_span.text
    return Finding(
        RULE.id,
        RULE.severity,
        f"bar {later.bar.number} is {where} but for one note: {here} here, {there} there",
        like.span,
        (Label(like.other_span, f"{there} in {where}"),),
        "Look whether one of them is a slip",
        None,
        later.piece.name,
        str(like.address),
    )


_BAR = "A | 5:0 5:4 4:2 {} 3:2 4:4 4:2 5:4"
_ONE, _OTHER = _BAR.format("4:4"), _BAR.format("4:2")

RULE = Rule(
    id="rhythm/near-duplicate",
    title="Two bars that are the same but for one note",
    severity=Severity.NOTE,
    source=Source("own threshold", "Six sounds, one of them off by a slip of the pen"),
    good=(
        Example(f"{_ONE}\n{_ONE}"),
        Example(f"{_ONE}\nD{_OTHER[1:]}\n  names | A C# E E A F# E C#"),
        Example(f"{_ONE}\n{_OTHER}\n{_BAR.format('3:2')}"),
    ),
    bad=(Example(f"{_ONE}\n{_ONE}\n{_OTHER}", ("4:2",)),),
    survey=run,
)
