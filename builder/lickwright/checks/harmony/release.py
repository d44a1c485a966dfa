"""A release that lands on a note that nothing explains, or that rubs and is left by a leap.

Letting a bend down, the string comes back to the fret it was bent from, and that note is heard like any
other: held for a beat or more it has to be in the chord, or go on by step.

Why it matters: the ear follows the string down. Where it stops is a note of the line, whether the page
shows a fret there or not.

What to do: let the bend down later or not at all, or go on by step.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from lickwright.analysis.role import Role, RoleOf
from lickwright.checks.lines import is_let_down, leaps_away, relation
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject

HEARD = frozenset({Role.WEAK, Role.UNEXPLAINED})


def run(subject: Subject) -> Iterator[Finding]:
    """Look at the notes that releases come back to."""
    for role in subject.roles:
        if role.role not in HEARD and not role.disconnected:
            continue
        tone = subject.by_address[role.address].tones[role.tone]
        if not tone.bends or not is_let_down(tone, role.pitch) or role.address.bar in subject.outside:
            continue
        if role.role is Role.UNEXPLAINED or role.disconnected:
            yield _finding(subject, role, "neither in the chord nor led on")
        elif _rubs(subject, role):
            yield _finding(subject, role, "it rubs against the chord and is left by a leap")


def _rubs(subject: Subject, role: RoleOf) -> bool:
    bar = subject.piece.music.bar(role.address.bar)
    held = role.length >= (bar.meter.beat if bar else Fraction(1))
    return held and relation(role.chord, role.pitch) == "a" and leaps_away(subject, role)


def _finding(subject: Subject, role: RoleOf, why: str) -> Finding:
    return subject.report(
        RULE,
        f"the release lands on {subject.name_of(role)} over {role.chord.display}: {why}",
        subject.by_address[role.address].tones[role.tone].span,
        role.address,
        help="Let the bend down into a note that goes on, or keep it up",
    )


RULE = Rule(
    id="harmony/release",
    title="A release that lands on a note that nothing explains",
    severity=Severity.QUERY,
    source=Source(
        "common practice", "What a release comes back to is a note of the line; lengths are our own"
    ),
    good=(
        Example("A7 | 3:7b9r7 - 3:6 - 3:7b9 - - -"),
        Example("key: E major\n\nE7 | 3:14b16r14 - 2:12 - 4:14 - - -"),
    ),
    bad=(Example("A | 3:7b9r7 - - - 4:7 - - -", marks=("3:7b9r7",)),),
    run=run,
)
