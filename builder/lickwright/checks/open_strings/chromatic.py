"""An open string outside the key that is left ringing.

A chromatic note is explained by where it goes: it passes, leans on its neighbour, surrounds a chord tone.
That holds while it is short. An open string in a let-ring bracket goes on through what follows. Blue notes,
chord tones and drones are left alone; so is an open string that ends when the next note comes.

Why it matters: not every open string serves in every key; the G string in B major is the flat sixth, and
nothing the hand does stops it.

What to do: fret the note on the string below, where a finger can end it; close the bracket before it; or look
up which open strings the key allows.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.analysis.role import Role, RoleOf
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strings import Held
from lickwright.checks.subject import Subject
from lickwright.checks.wording import degree_name, held_for, note_name
from lickwright.model.address import Address
from lickwright.model.music import MusicBar
from lickwright.model.strike import Fretted
from lickwright.theory.chord import Chord

BLUE = (3, 6, 10)
"""Half steps above the tonic, or above the root of a chord with a major third."""


def run(subject: Subject) -> Iterator[Finding]:
    """Look at open strings in let-ring brackets, then at what explains them."""
    if not any(w.sound.ring and w.tone.fret == 0 for w in subject.tones):
        return
    ringing = [h for h in subject.held if h.sound.ring and h.tone.fret == 0]
    bars = {bar.number: bar for bar in subject.piece.music.bars}
    for held in ringing:
        if not isinstance(held.tone.head, Fretted):
            continue
        bar = bars[held.sound.address.bar]
        rings_on = held.end - held.start - held.sound.duration
        if rings_on <= bar.meter.beat or bar.number in subject.outside or not _foreign(subject, held, bar):
            continue
        found = _role(subject, held.sound.address, held.sound.tones.index(held.tone))
        if found is None or found.role is Role.DRONE:
            continue
        if not found.role.explained or found.disconnected:  # told by harmony
            continue
        chord, key = bar.chord_at(held.sound.onset), subject.piece.music.key
        midi = int(held.tone.path[0])
        yield subject.report(
            RULE,
            f"the open string {held.tone.string}, {note_name(midi, key, chord)}, rings on,"
            f" {held_for(held.end - held.start, bar.meter.beat)}, over {chord.symbol}: it is the"
            f" {degree_name(key.degree_of(midi))} of the key",
            held.tone.span,
            held.sound.address,
            help="Fret it on the string below, where a finger ends it, or close the bracket before it",
        )


def _foreign(subject: Subject, held: Held, bar: MusicBar) -> bool:
    """Outside the key, the chord and the blue notes."""
    key, chord = subject.piece.music.key, bar.chord_at(held.sound.onset)
    note = int(held.tone.path[0]) % 12
    if not isinstance(chord, Chord) or note in key.working_semitones or note in chord.semitones:
        return False
    if subject.piece.style == "plain":
        return True
    return (note - key.tonic.semitone) % 12 not in BLUE and not (
        chord.has_major_third and (note - chord.root.semitone) % 12 in BLUE
    )


def _role(subject: Subject, address: Address, tone: int) -> RoleOf | None:
    return next((r for r in subject.roles if r.address == address and r.tone == tone), None)


RULE = Rule(
    id="open-strings/chromatic",
    title="An open string outside the key, left ringing",
    severity=Severity.QUERY,
    source=Source("common practice", "Open strings held against the scale of the key; blue notes excepted"),
    good=(
        Example("key: Bb major\n\nCm7 | 3:5 2:0 3:5 2:4 1:3 - - -"),
        Example("key: A major\n\nA | ring[4:2 3:0 3:2 2:0 1:0 -] 2:2 -"),
    ),
    bad=(Example("key: Bb major\n\nCm7 | ring[3:5 2:0 3:5 1:3 - - - -]", marks=("2:0",)),),
    run=run,
)
