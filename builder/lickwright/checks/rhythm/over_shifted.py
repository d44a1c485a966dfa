"""Bars of a progression that lie some bars beside those the margins state.

As written several margins disagree with the progression; over the bars that are named all of them agree.

Why it matters: the band begins a bar early or late, and every chord stands over the wrong bar.

What to do: name those bars in the field over.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.chord_order import find_exchange, find_shift, list_all_meetings
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey
from lickwright.findings import Edit, Fix


def run(survey: Survey) -> Iterator[Finding]:
    """Try the bars of every ``over`` a few bars on and back."""
    for grid in survey.book.grids:
        for name, meetings in list_all_meetings(survey, grid).items():
            over = survey.course.licks[name].over
            away = find_shift(meetings, grid)
            if over is None or over.bars is None or not away or find_exchange(survey, grid) is not None:
                continue
            first, last = over.bars.first.bar + away, over.bars.last.bar + away
            bars = f"bars {first}-{last}" if first != last else f"bar {first}"
            message = f"the margins are those of {bars} of “{grid.name}”, and {over.span.text} is written"
            right = f"{grid.name} {bars}"
            fix = Fix(right, (Edit(over.span, right),))
            hint = f"Write over: {right}"
            yield Finding(RULE.id, RULE.severity, message, over.span, (), hint, fix, name)


_GRID = "```progression porch\nkey: A major\n\nA | A | D | E7\n```\n\n"
_LICK = (
    "```lick example\nover: porch bars {}\n\nA | 5:0 - 5:4 - 4:2 - 3:2 -\n"
    "D | 4:0 - 4:4 - 3:2 - 2:3 -\nE7 | 4:2 - 3:1 - 2:0 - 1:0 -\n```"
)

RULE = Rule(
    id="rhythm/over-shifted",
    title="Bars of a progression beside those the margins state",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, Margins: margin and `over` agree"),
    good=(Example(_GRID + _LICK.format("2-4")),),
    bad=(Example(_GRID + _LICK.format("1-3"), marks=("porch bars 1-3",)),),
    survey=run,
    stettable=False,
)
