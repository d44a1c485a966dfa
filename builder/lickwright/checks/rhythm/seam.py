"""A pickup for which the lick before leaves no room.

Why it matters: in a chorus a pickup sounds in the last bar of the lick before it; two things cannot be
played there.

What to do: end the lick before with rests, or with one held sound that the pickup cuts off.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="rhythm/seam",
    title="A pickup for which the lick before leaves no room",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Pickup"),
    good=(
        Example(
            "```progression porch\n"
            "key: A major\n"
            "\n"
            "A | A\n"
            "```\n"
            "\n"
            "```lick one\n"
            "over: porch bar 1\n"
            "\n"
            "| 5:0 - 5:4 - 4:2 - . .\n"
            "```\n"
            "\n"
            "```lick two\n"
            "pickup: 1/4\n"
            "over: porch bar 1\n"
            "\n"
            "| 5:0 5:4\n"
            "| 4:2 - 3:2 - 4:2 - . .\n"
            "```\n"
            "\n"
            "```chorus first\n"
            "over: porch\n"
            "licks: one two\n"
            "```"
        ),
    ),
    bad=(
        Example(
            "```progression porch\n"
            "key: A major\n"
            "\n"
            "A | A\n"
            "```\n"
            "\n"
            "```lick one\n"
            "over: porch bar 1\n"
            "\n"
            "| 5:0 - 5:4 - 4:2 - 3:2 -\n"
            "```\n"
            "\n"
            "```lick two\n"
            "pickup: 1/4\n"
            "over: porch bar 1\n"
            "\n"
            "| 5:0 5:4\n"
            "| 4:2 - 3:2 - 4:2 - . .\n"
            "```\n"
            "\n"
            "```chorus first\n"
            "over: porch\n"
            "licks: one two\n"
            "```",
            ("two",),
        ),
    ),
    stettable=False,
)
