"""A sound that is to ring and to be muted at once.

Why it matters: the palm that mutes a string stops it from ringing; a player can follow only one
of the two.

What to do: close one bracket before the other opens.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject


def run(subject: Subject) -> Iterator[Finding]:
    """Look at the first sound of each meeting of two brackets."""
    seen: set[tuple[int, int]] = set()
    for written in subject.tones:
        both = (written.sound.ring, written.sound.mute)
        if all(both) and both not in seen:
            seen.add(both)
            yield subject.report(
                RULE,
                "let ring and palm mute on the same sound: a muted string does not ring",
                written.sound.span,
                written.sound.address,
                help="Close one bracket before the other opens",
            )


RULE = Rule(
    id="hands/ring-and-mute",
    title="Let ring and palm mute on one sound",
    severity=Severity.ERROR,
    source=Source("common practice", "Signs that contradict each other on one note"),
    good=(Example("A | mute[5:0 - 5:0 -] ring[4:2 3:2 2:2 1:0]"),),
    bad=(Example("A | ring[5:0 - mute[4:2 -] 3:2 2:2 1:0 -]", marks=("4:2",)),),
    run=run,
)
