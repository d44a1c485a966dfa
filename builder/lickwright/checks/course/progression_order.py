"""Two bars of a progression that the licks over it have the other way round.

Exchanged, every margin of every lick agrees with the progression; as they stand, several do not.

Why it matters: the band plays one order and the page shows the other, in every lick and chorus over it.

What to do: exchange the two bars of the progression; or, where one lick alone says so, its margins.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.chord_order import find_exchange, list_standing_over
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey
from lickwright.findings import Edit, Fix, Label


def run(survey: Survey) -> Iterator[Finding]:
    """Try the bars that margins disagree with in each other's place; one finding for each bar over them."""
    for grid in survey.book.grids:
        exchange = find_exchange(survey, grid)
        if exchange is None:
            continue
        cells = survey.course.progressions[grid.name].cells
        one, two = cells[exchange.first - 1], cells[exchange.second - 1]
        said = ", ".join(f"“{name}”" for name in exchange.licks)
        whose = "the margins of " + said
        message = (
            f"bars {exchange.first} and {exchange.second} of “{grid.name}” stand the other way round in"
            f" {whose}; exchanged, every margin agrees"
        )
        fix = None
        if len(one.chords) == len(two.chords) == 1:
            a, b = one.chords[0].span, two.chords[0].span
            fix = Fix(f"{b.text} | {a.text}: exchanged", (Edit(a, b.text), Edit(b, a.text)))
        place = one.chords[0].span if one.chords else one.span
        labels = (Label(two.chords[0].span if two.chords else two.span, "exchanged with this"),)
        hint = "Exchange the two bars of the progression"
        if len(exchange.licks) == 1:
            hint += ", or the margins of the lick"
        for name, bar in list_standing_over(survey, grid, (exchange.first, exchange.second)):
            yield Finding(RULE.id, RULE.severity, message, place, labels, hint, fix, name, str(bar))


_GRID = "```progression porch\nkey: A major\n\n{}\n```\n\n"
_LICK = (
    "```lick example\nover: porch\n\nA | 5:0 - 5:4 - 4:2 - 3:2 -\nD | 4:0 - 4:4 - 3:2 - 2:3 -\n"
    "E7 | 4:2 - 3:1 - 2:0 - 1:0 -\nA | 5:0 - 5:4 - 4:2 - 3:2 -\n```"
)

RULE = Rule(
    id="course/progression-order",
    title="Two bars of a progression the other way round",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, Margins: margin and `over` agree"),
    good=(Example(_GRID.format("A | D | E7 | A") + _LICK),),
    bad=(Example(_GRID.format("A | E7 | D | A") + _LICK, marks=("E7",)),),
    survey=run,
    stettable=False,
)
