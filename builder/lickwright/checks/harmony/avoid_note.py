"""A note of the key that rubs against the chord, held on a beat and left by a leap.

The fourth over a major chord is the usual one: it stands a half step over the third. On the second or
fourth beat it is only noted; on a strong one, and held, it is put to the author by
``harmony/unexplained``. A suspension goes on by step and is left alone, as are drones and anticipations.

Why it matters: held, the fourth says that the chord has not arrived yet. That is fine as long as it does.

What to do: let the note go on by step, or make it shorter.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from lickwright.analysis.role import Role
from lickwright.checks.lines import is_let_down, leaps_away, relation
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.wording import degree_name, held_for


def run(subject: Subject) -> Iterator[Finding]:
    """Look at the scale tones on a beat that are neither tone nor colour of the chord."""
    for role in subject.roles:
        if role.role is not Role.WEAK or role.weight < 2 or relation(role.chord, role.pitch) != "a":
            continue
        bar = subject.piece.music.bar(role.address.bar)
        beat = bar.meter.beat if bar else Fraction(1)
        tone = subject.by_address[role.address].tones[role.tone]
        if (
            role.length < beat
            or tone.link is not None
            or is_let_down(tone, role.pitch)
            or role.address.bar in subject.outside
        ):
            continue
        if leaps_away(subject, role):
            yield subject.report(
                RULE,
                f"{subject.name_of(role)}, the"
                f" {degree_name(role.degree)} of {role.chord.display},"
                f" {held_for(role.length, beat)}, is left by a leap",
                tone.span,
                role.address,
                help="Let it go on by step, to the chord tone beside it",
            )


RULE = Rule(
    id="harmony/avoid-note",
    title="A note that rubs against the chord and is left by a leap",
    severity=Severity.NOTE,
    source=Source(
        "published",
        "Avoid notes of chord-scale teaching (Nettles and Graf, from memory); lengths are our own",
    ),
    good=(
        Example("key: A major\n\nA | 3:2 - 2:3 - 2:2 - 3:2 -"),
        Example("key: D major\n\nA7 | 3:2 - 2:2 - 1:3 - - -\nD | 1:3 - 1:2 - - - - -"),
    ),
    bad=(Example("key: A major\n\nA | 3:2 - 2:3 - 3:2 - 4:2 -", marks=("2:3",)),),
    run=run,
)
