"""A variation over another chord that keeps a note which the new chord has otherwise.

A lick is moved to another chord by changing a note or two, the third or the seventh: over A7 C sharp, over
D7 C. Notes that were tones of the old chord, stand unchanged, rub against the new chord, and have its
third or seventh a half step away are put to the author, each with the note that is expected.

Why it matters: that one note is what the variation is there to teach.

What to do: change the note at the address given, or let it stand.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.analysis.role import Role, RoleOf
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.wording import degree_name, note_name
from lickwright.theory.chord import Chord

DEFINING = frozenset({3, 4, 10, 11})
"""Half steps above the root: thirds and sevenths."""
LEFT = frozenset({Role.WEAK, Role.UNEXPLAINED, Role.BLUE})


def run(subject: Subject) -> Iterator[Finding]:
    """Hold the notes a variation takes over against its own chords."""
    base, changed = subject.base, frozenset(subject.piece.changed)
    if base is None or subject.piece.kind != "lick":
        return
    before = {(r.address, r.tone, r.turn): r for r in base.roles if r.role is Role.CHORD_TONE}
    for role in subject.roles:
        if role.address in changed or role.address.bar in subject.outside:
            continue
        old = before.get((role.address, role.tone, role.turn))
        if old is None or not (role.role in LEFT or role.disconnected):
            continue
        if old.pitch != role.pitch or role.chord.same_as(old.chord) or not isinstance(role.chord, Chord):
            continue
        meant = _meant(role, role.chord)
        if meant is not None and _heard(subject, role):
            yield _finding(subject, role, old, role.chord, meant)


def _meant(role: RoleOf, chord: Chord) -> int | None:
    """Pitch class of the third or seventh of the chord that lies a half step from the note."""
    root = chord.root.semitone
    near = ((role.pitch - 1) % 12, (role.pitch + 1) % 12)
    return next((p for p in near if (p - root) % 12 in DEFINING & chord.quality.tones), None)


def _heard(subject: Subject, role: RoleOf) -> bool:
    bar = subject.piece.music.bar(role.address.bar)
    return role.weight >= 2 or (bar is not None and role.length >= bar.meter.beat)


def _finding(subject: Subject, role: RoleOf, old: RoleOf, chord: Chord, meant: int) -> Finding:
    key = subject.piece.music.key
    return subject.report(
        RULE,
        f"{role.address} stays {note_name(role.pitch, key, old.chord)}, the {degree_name(old.degree)} of"
        f" {old.chord.display}, and {chord.display} has {note_name(meant, key, chord)}, its"
        f" {degree_name(chord.degree_of(meant))}",
        subject.by_address[role.address].tones[role.tone].span,
        role.address,
        help=f"Change {role.address}, or let it stand",
    )


_LICK = (
    "```lick shape\nkey: A major\n\nA7 | 3:2 - 2:2 - 1:0 - 3:2 -\n```\n\n"
    "```lick example\nvary: shape\nover: D7\n{}```"
)
RULE = Rule(
    id="harmony/unchanged-note",
    title="A variation that keeps a note which its chord has otherwise",
    severity=Severity.QUERY,
    source=Source("common practice", "Moving a lick to another chord by its third and seventh"),
    good=(Example(_LICK.format("1.2: 2:1\n")),),
    bad=(Example(_LICK.format(""), marks=("shape",)),),
    run=run,
)
