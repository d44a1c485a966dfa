"""A third or seventh that the chord has otherwise: a major third over a minor chord.

So are the major seventh over a dominant, and the flat seventh over a major seventh. Only notes of a beat
or more that fall on a beat (those of the key: on a strong one, or of two beats), unbent, and that no figure
of the line explains: passing and neighbour notes, approaches and suspensions are left alone. A major third
over a minor chord is asked about however short it is, where the line leaves it by a leap. It is an error
where the note lies outside the key, else a query.

Why it matters: third and seventh are what makes a chord what it is; held against the band's, they are
heard as a slip by everybody.

What to do: move the note by a half step, or look at the chord symbol.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from lickwright.analysis.role import Role, RoleOf
from lickwright.checks.lines import STANDING, left_alone
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.wording import degree_name, held_for, note_name
from lickwright.model.music import Tone
from lickwright.theory.chord import Chord

MINOR_THIRD = 3
"""Half steps above the root."""


def run(subject: Subject) -> Iterator[Finding]:
    """Look at every held note of a beat, and at every major third over a minor chord."""
    for role in subject.roles:
        chord = role.chord
        if role.role not in STANDING or not isinstance(chord, Chord):
            continue
        meant = _meant(chord, (role.pitch - chord.root.semitone) % 12)
        if meant is None or role.address.bar in subject.outside:
            continue
        bar = subject.piece.music.bar(role.address.bar)
        beat = bar.meter.beat if bar else Fraction(1)
        tone = subject.by_address[role.address].tones[role.tone]
        if tone.bends or tone.tied:
            continue
        if _held(role, beat) or (meant == MINOR_THIRD and not role.chromatic and left_alone(subject, role)):
            yield _finding(subject, role, chord, tone, meant, beat)


def _held(role: RoleOf, beat: Fraction) -> bool:
    """On a beat for a beat; of the key, on a strong one or for two."""
    if role.weight < 2 or role.length < beat:
        return False
    return role.chromatic or role.weight >= 3 or role.length >= 2 * beat


def _meant(chord: Chord, above: int) -> int | None:
    """Half steps above the root of the tone that the chord has in the place of this one."""
    tones = chord.quality.tones
    if above in tones:
        return None
    if above == 4 and MINOR_THIRD in tones:
        return MINOR_THIRD
    if above == 11 and chord.is_dominant and 4 in tones:
        return 10
    return 11 if above == 10 and 11 in tones and 4 in tones else None


def _finding(subject: Subject, role: RoleOf, chord: Chord, tone: Tone, meant: int, beat: Fraction) -> Finding:
    key = subject.piece.music.key
    name = note_name(role.pitch, key, chord)
    right = (chord.root.semitone + meant) % 12
    severe = meant == MINOR_THIRD and role.chromatic and role.role is Role.UNEXPLAINED and tone.link is None
    return subject.report(
        RULE,
        f"{name}, {held_for(role.length, beat)}, over {chord.display}: the chord has"
        f" {note_name(right, key, chord)}, its {degree_name(chord.degree_of(right))}",
        tone.span,
        role.address,
        severity=Severity.ERROR if severe else Severity.QUERY,
        help="Look which is meant, the note or the chord",
    )


RULE = Rule(
    id="harmony/third-and-seventh",
    title="A third or seventh that the chord has otherwise",
    severity=Severity.ERROR,
    source=Source("common practice", "Third and seventh define a chord; how long and where is our own"),
    good=(
        Example("key: A minor\n\nAm | 3:2 - 2:1 - 1:0 - 2:1 -"),
        Example("A7 | 5:3 h 5:4 4:2 - 3:2 - 3:0 -"),
        Example("Am | 1:0 - 2:3 2:2 2:0 - 3:2 -"),
        Example("key: F major\n\nC7 | 2:1 - 2:0 - 3:3 - - -\nF | 3:2 - - - - - - -"),
    ),
    bad=(
        Example("key: A minor\n\nAm | 2:2 - - - 1:0 - 3:2 -", marks=("2:2",)),
        Example("Am | 3:2 - 1:0 2:2 1:0 - 3:2 -", marks=("2:2",)),
        Example("key: D major\n\nD7 | 2:2 - 3:2 - 2:3 - - -", marks=("2:2",)),
        Example("key: G major\n\nCmaj7 | 3:3 - 1:0 - 3:0 - 2:1 -", marks=("3:3",)),
    ),
    run=run,
    one_note=True,
)
