"""A file of signatures that cannot be read, or that names a lesson which is not there.

``proofed.toml`` has a table for each lesson that was passed, with ``by`` and ``mark``; ``lickwright sign``
writes it.

Why it matters: what is not understood counts as not signed.

What to do: sign the lesson again, or take its table out.
"""

from __future__ import annotations

from lickwright.checks.rule import Example, Rule, Severity, Source

_LESSON = "```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```\n"

RULE = Rule(
    id="course/signatures",
    title="Signatures that cannot be read",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 8, The course"),
    good=(Example(_LESSON, files=(("proofed.toml", "# nothing yet\n"),)),),
    bad=(
        Example(_LESSON, marks=("other",), files=(("proofed.toml", '[other]\nby = "Ann"\nmark = "0123"\n'),)),
        Example(_LESSON, marks=("example",), files=(("proofed.toml", '[example]\nby = "Ann"\n'),)),
        Example(_LESSON, marks=("",), files=(("proofed.toml", "[example\n"),)),
    ),
    stettable=False,
)
