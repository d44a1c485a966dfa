"""A line that the block has no use for.

A progression holds bars of chords, an excerpt, a neck or a scale holds fields alone; a line of another
kind belongs to another block.

Why it matters: the line is neither printed nor played, so what was meant by it is missing from the page,
and nothing else would show that it is.

What to do: move the line into the block it belongs to; give a field its name and its colon; begin a remark
to yourself with ``;``.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/line",
    title="A line that the block has no use for",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 1, Blocks"),
    good=(
        Example(
            "```progression porch\n"
            "key: A major\n"
            "\n"
            "A | A | D7 | A\n"
            "```\n"
            "\n"
            "```lick example\n"
            "over: porch\n"
            "\n"
            "| 5:0 - 5:4 - 4:2 - 3:2 -\n"
            "| 4:2 - 3:2 - 4:2 - 5:4 -\n"
            "| 4:0 - 4:4 - 3:2 - 2:1 -\n"
            "| 3:2 - - - - - - -\n"
            "```"
        ),
    ),
    bad=(
        Example(
            "```lick example\n"
            "A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n"
            "```\n"
            "\n"
            "```excerpt\n"
            "of: example\n"
            "5:0 5:4\n"
            "```",
            ("5:0 5:4",),
        ),
    ),
    stettable=False,
)
