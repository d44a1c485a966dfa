"""Two licks of a chorus that stand in each other's place.

Exchanged, every lick of the chorus is over the chords it was written for; as they stand, some are not.

Why it matters: the band plays the changes of one lick under the other.

What to do: exchange the two.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from lickwright.checks.chord_order import agrees
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey
from lickwright.findings import Edit, Fix, Label
from lickwright.model.blocks import ChorusPart
from lickwright.model.music import MusicBar
from lickwright.model.timeline import Grid

MOST = 48
"""Parts of a chorus that are tried in each other's place: the pairs of more are too many."""


def run(survey: Survey) -> Iterator[Finding]:
    """Try every two licks of a chorus that does not fit in each other's place."""
    for name, chorus in survey.course.choruses.items():
        subject = survey.subject(name)
        grid = None if subject is None else survey.book.grid(subject.piece.over)
        if grid is None or not grid.bars or len(chorus.parts) > MOST:
            continue
        bars = [_bars(survey, part) for part in chorus.parts]
        if _fits(bars, grid):
            continue
        licks = [place for place, part in enumerate(chorus.parts) if part.lick]
        for one, two in combinations(licks, 2):
            turned = list(bars)
            turned[one], turned[two] = turned[two], turned[one]
            if _fits(turned, grid):
                yield _finding(name, chorus.parts[one], chorus.parts[two])
                break


def _bars(survey: Survey, part: ChorusPart) -> Sequence[MusicBar | None]:
    """The bars of a part as played; None for a bar of rest."""
    subject = survey.subject(part.lick)
    if subject is None:
        return [None] * part.times
    music = subject.piece.music
    return [music.bars[index] for index in music.order if music.bars[index].number > 0] * part.times


def _fits(parts: Sequence[Sequence[MusicBar | None]], grid: Grid) -> bool:
    bars = [bar for part in parts for bar in part]
    return all(
        bar is None or agrees(bar.chords, grid.bars[place % len(grid.bars)].chords)
        for place, bar in enumerate(bars)
    )


def _finding(name: str, one: ChorusPart, two: ChorusPart) -> Finding:
    message = f"exchanged with “{two.lick}”, “{one.lick}” and all licks of the chorus have their own chords"
    fix = None
    if one.span.text != two.span.text:
        edits = (Edit(one.span, two.span.text), Edit(two.span, one.span.text))
        fix = Fix(f"{two.span.text} … {one.span.text}: exchanged", edits)
    labels = (Label(two.span, "exchanged with this"),)
    return Finding(RULE.id, RULE.severity, message, one.span, labels, "Exchange the two", fix, name)


_COURSE = (
    "```progression porch\nkey: A major\n\nA | D\n```\n\n"
    "```lick one\nover: porch bar 1\n\n| 5:0 - 5:4 - 4:2 - 3:2 -\n```\n\n"
    "```lick two\nover: porch bar 2\n\n| 4:0 - 4:4 - 3:2 - 2:3 -\n```\n\n"
    "```chorus first\nover: porch\nlicks: {}\n```"
)

RULE = Rule(
    id="course/chorus-order",
    title="Two licks of a chorus in each other's place",
    severity=Severity.QUERY,
    source=Source("common practice", "A lick is played over the chords it was written for"),
    good=(Example(_COURSE.format("one two")),),
    bad=(Example(_COURSE.format("two one"), marks=("two",)),),
    survey=run,
)
