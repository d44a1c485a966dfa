"""A tension over a dominant that is left hanging: a flat ninth, flat thirteenth or sharp eleventh.

It is only noted, and only of notes of a beat or more: neither of the next two notes is at rest a step away.
Blue notes are no tensions. Tensions that stand in the chord symbol are tones of the chord.

Why it matters: the flat ninth wants to fall to the fifth of the next chord. Left by a leap it is heard
as a note that got away.

What to do: let it resolve within two notes, or write it into the symbol: C7b9.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.analysis.role import Role
from lickwright.checks.lines import relation, resolves
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.wording import degree_name
from lickwright.theory.chord import Chord

LEFT = frozenset({Role.WEAK, Role.UNEXPLAINED})


def run(subject: Subject) -> Iterator[Finding]:
    """Look at what follows each conditional tension of a dominant."""
    for role in subject.roles:
        chord = role.chord
        if role.role not in LEFT or not isinstance(chord, Chord) or not chord.is_dominant:
            continue
        if relation(chord, role.pitch) != "c" or role.address.bar in subject.outside:
            continue
        bar = subject.piece.music.bar(role.address.bar)
        if bar is None or role.length < bar.meter.beat or resolves(subject, role):
            continue
        yield subject.report(
            RULE,
            f"{subject.name_of(role)}, the {degree_name(role.degree)} of"
            f" {chord.display}, does not resolve within two notes",
            subject.by_address[role.address].tones[role.tone].span,
            role.address,
            help="Lead it on by step, or write it into the chord symbol",
        )


RULE = Rule(
    id="harmony/unresolved-tension",
    title="A tension over a dominant that does not resolve",
    severity=Severity.NOTE,
    source=Source(
        "published", "Nettles and Graf, The Chord Scale Theory (from memory): conditional tensions"
    ),
    good=(
        Example("key: F minor\n\nC7 | 2:2 - - - 2:1 - 3:3 -\nFm | 3:1 - - - - - - -"),
        Example("key: F minor\n\nC7b9 | 2:2 - - - 3:0 - 3:3 -\nFm | 3:1 - - - - - - -"),
    ),
    bad=(Example("key: F minor\n\nC7 | 2:2 - - - 3:0 - 2:5 -\nFm | 2:6 - - - - - - -", marks=("2:2",)),),
    run=run,
)
