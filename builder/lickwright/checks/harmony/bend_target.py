"""A bend whose target nothing explains.

A bent note counts by where it arrives. The target has to be in the chord, in the key, or led on like any
other note; a curl of less than a half step is heard as the note that it is bent from. It is an error
where the target lies outside the key and is held for two beats or ends the lick, else a query. Tried for
mending is the same bend a half step further, or less far.

Why it matters: the student bends until it sounds right; the page must have the right note to bend to.

What to do: look at the fret behind the ``b``: it is the fret that the bend is to sound like.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from lickwright.analysis.role import Role, RoleOf
from lickwright.checks.lines import is_bent, unbent
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.wording import held_for, note_name


def run(subject: Subject) -> Iterator[Finding]:
    """Look at the targets that have no role."""
    for role in subject.roles:
        if role.role is Role.UNEXPLAINED and role.address.bar not in subject.outside:
            tone = subject.by_address[role.address].tones[role.tone]
            if is_bent(tone, role.pitch):
                yield _finding(subject, role, unbent(tone) or 0)


def _finding(subject: Subject, role: RoleOf, start: int) -> Finding:
    piece = subject.piece
    bar = piece.music.bar(role.address.bar)
    beat = bar.meter.beat if bar else Fraction(1)
    last = role.address == max(r.address for r in subject.roles if r.address.lower == role.address.lower)
    severe = role.chromatic and (role.length >= 2 * beat or (last and role.length >= beat))
    key, chord = piece.music.key, role.chord
    return subject.report(
        RULE,
        f"the bend from {note_name(start, key, chord)} arrives at {note_name(role.pitch, key, chord)},"
        f" {held_for(role.length, beat)}, over {chord.display}: neither in the chord nor led to it",
        subject.by_address[role.address].tones[role.tone].span,
        role.address,
        severity=Severity.ERROR if severe else Severity.QUERY,
        help="Look at the fret that the bend is to sound like",
    )


RULE = Rule(
    id="harmony/bend-target",
    title="A bend to a note that nothing explains",
    severity=Severity.ERROR,
    source=Source("common practice", "A bend is judged by its target; when it is an error is our own"),
    good=(
        Example("A7 | 2:5 - 3:6 - 3:7b9 - - -"),
        Example("key: E major\n\nE7 | 6:0 6:3b3.5 - - 5:2 - 6:0 -"),
    ),
    bad=(Example("A7 | 2:5 - 3:6 - 3:7b8 - - -", marks=("3:7b8",)),),
    run=run,
    one_note=True,
)
