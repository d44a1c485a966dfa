"""A variation over another chord that keeps a note which the new chord has otherwise.

A lick is moved to another chord by changing a note or two, the third or the seventh: over A7 C sharp, over
D7 C. Notes that were tones of the old chord, stand unchanged, rub against the new chord, and have its
third or seventh a half step away are put to the author, each with the change that is expected. Where the
variation changes the next note to the same one again, that change is asked about instead. In a blues
the minor pentatonic of the key stays as it is over all three chords.

Why it matters: that one note is what the variation is there to teach.

What to do: write the change into the variation, or let the note stand.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.analysis.figures.blue import is_pentatonic
from lickwright.analysis.role import Role, RoleOf
from lickwright.checks.candidates import list_candidates
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.wording import degree_name, note_name
from lickwright.findings import Edit, Fix, Label
from lickwright.model.address import Address
from lickwright.model.music import Sound
from lickwright.text import Span
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
        if subject.piece.style == "blues" and _is_pentatonic(subject, role, role.chord):
            continue
        meant = _meant(role, role.chord)
        if meant is not None and _heard(subject, role):
            after = _repeat(subject, role)
            if after is None:
                yield _finding(subject, role, old, role.chord, meant)
            else:
                yield _repeated(subject, role, role.chord, meant, after)


def _meant(role: RoleOf, chord: Chord) -> int | None:
    """Pitch class of the third or seventh of the chord that lies a half step from the note."""
    root = chord.root.semitone
    near = ((role.pitch - 1) % 12, (role.pitch + 1) % 12)
    return next((p for p in near if (p - root) % 12 in DEFINING & chord.quality.tones), None)


def _heard(subject: Subject, role: RoleOf) -> bool:
    bar = subject.piece.music.bar(role.address.bar)
    return role.weight >= 2 or (bar is not None and role.length >= bar.meter.beat)


def _is_pentatonic(subject: Subject, role: RoleOf, chord: Chord) -> bool:
    return is_pentatonic(subject.piece.music.key.tonic.semitone, chord.root.semitone, role.pitch)


def _finding(subject: Subject, role: RoleOf, old: RoleOf, chord: Chord, meant: int) -> Finding:
    key, address = subject.piece.music.key, role.address
    stands = _where_written(subject, address)
    varied = subject.by_address[address].tones[role.tone].span
    to = f"{note_name(meant, key, chord)}, its {degree_name(chord.degree_of(meant))}"
    change = _change(stands, role, meant)
    fix = None
    if change:
        fix = Fix(f"{address}: {change} in {subject.piece.name}", (_insert(varied, f"{address}: {change}"),))
    return subject.report(
        RULE,
        f"{address} stays {note_name(role.pitch, key, old.chord)}, the {degree_name(old.degree)} of"
        f" {old.chord.display}, and {chord.display} has {to}",
        stands.by_address[address].tones[role.tone].span,
        address,
        labels=(Label(varied, f"{subject.piece.name} takes it over"),),
        help=f"Change {address} in {subject.piece.name}, or let it stand",
        fix=fix,
    )


def _repeat(subject: Subject, role: RoleOf) -> Sound | None:
    """The sound after a note, where the variation itself makes it the same note again."""
    voice = [a for a in subject.by_address if a.lower == role.address.lower]
    after = next(iter(voice[voice.index(role.address) + 1 :]), None)
    sound = None if after is None or after not in subject.piece.changed else subject.by_address[after]
    return sound if sound is not None and [list(t.path) for t in sound.tones] == [[role.pitch]] else None


def _repeated(subject: Subject, role: RoleOf, chord: Chord, meant: int, after: Sound) -> Finding:
    """The change is the likelier slip: it should have led the note on."""
    key, tone = subject.piece.music.key, after.tones[0]
    near = (each for each in list_candidates(subject, after, 0) if abs(each.tone.path[0] - role.pitch) == 1)
    text = next((each.text for each in near if each.tone.path[0] % 12 == meant), "")
    wanted = f"{note_name(meant, key, chord)}, the {degree_name(chord.degree_of(meant))} of {chord.display}"
    stays = note_name(role.pitch, key, chord)
    return subject.report(
        RULE,
        f"{after.address}, which is changed, repeats the {stays} of {role.address}: {wanted}, was expected",
        tone.span,
        after.address,
        labels=(Label(subject.by_address[role.address].tones[role.tone].span, "the note it repeats"),),
        help=f"Change {after.address} to {note_name(meant, key, chord)}, or let it stand",
        fix=Fix(f"write {text}", (Edit(tone.span, text),)) if text else None,
    )


def _where_written(subject: Subject, address: Address) -> Subject:
    """The piece that has the note in its own text: variations take it over from one another."""
    while subject.base is not None and address not in subject.piece.changed:
        subject = subject.base
    return subject


def _change(stands: Subject, role: RoleOf, meant: int) -> str:
    """The strike with the note that is expected, a fret beside; empty where the author must see to it."""
    sound = stands.by_address[role.address]
    if len(sound.tones) != 1 or sound.tones[0].bends:
        return ""
    near = (each for each in list_candidates(stands, sound, 0) if abs(each.tone.path[0] - role.pitch) == 1)
    return next((each.text for each in near if each.tone.path[0] % 12 == meant), "")


def _insert(after: Span, line: str) -> Edit:
    """A line of its own below the one that a place stands in."""
    text = after.source.text
    end = text.find("\n", after.end)
    end = len(text) if end < 0 else end
    return Edit(Span(after.source, end, end), f"\n{line}")


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
    bad=(Example(_LICK.format(""), marks=("2:2",)),),
    run=run,
)
