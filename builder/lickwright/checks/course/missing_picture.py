"""A picture that is not in pictures/.

A picture is a file of the course's own `pictures/`, written `pictures/neck.png` from a lesson. One that a
link leads out of that folder to counts as not there, and the site loads no picture from elsewhere.

Why it matters: the student reads the description of a picture and sees none.

What to do: put the file into `pictures/`, or mend its name.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

_LICK = "```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```\n\n"
RULE = Rule(
    id="course/missing-picture",
    title="A picture that is not in pictures/",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 8, The course"),
    good=(
        Example(
            f"{_LICK}![The neck](pictures/neck.png)", files=(("pictures", None), ("pictures/neck.png", b""))
        ),
    ),
    bad=(Example(f"{_LICK}![The neck](pictures/neck.png)", ("pictures/neck.png",)),),
    stettable=False,
)
