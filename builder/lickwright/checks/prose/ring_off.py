"""A chord that is said to ring, and other notes ring.

Where the words let a named chord ring out (``a ringing G major ninth``), what still sounds at the last
note of the link must be that chord: its third and the note that names it among them, its root or the
bass of its slash at the bottom.

Why it matters: a last chord hangs in the air for a whole bar, and its name is on the page.

What to do: mend the name, or what rings: the brackets, the strings that are used again.
"""

from __future__ import annotations

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.harmony import chord_of, spells
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_list, say_midi
from lickwright.checks.claims.term import ChordName
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.checks.strings import Held


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Hold the name against what still rings at the last sound."""
    last = max(notes.heard, key=lambda heard: (heard.index, heard.sound.onset))
    ringing = _ringing(notes, last.sound.address)
    if len(ringing) < 2:
        return Unresolved("hardly anything rings there")
    pitches = sorted({held.tone.path[-1] for held in ringing})
    sounding = frozenset(int(pitch) % 12 for pitch in pitches)
    term = claim.terms[0]
    loose = isinstance(term.value, ChordName) and term.value.plain
    reasons: list[str] = ["it does not ring"]
    for chord in chord_of(term, notes.harmony):
        reasons = list(spells(chord, sounding, loose=loose))
        bass = chord.bass or chord.root
        if not reasons and not loose and int(pitches[0]) % 12 != bass.semitone:
            reasons = [f"{bass.spoken} is not at the bottom"]
        if not reasons:
            return HELD
    said = say_list(list(dict.fromkeys(say_midi(pitch, notes) for pitch in pitches)))
    return Differs(
        f"the words say “{term.text}”, and what rings is {said}",
        term,
        help=f"{reasons[0][0].upper()}{reasons[0][1:]}: name what rings, or let other notes ring",
        address=last.sound.address,
    )


def _ringing(notes: Pointed, address: object) -> list[Held]:
    at = next((held.start for held in notes.subject.held if held.sound.address == address), None)
    return [held for held in notes.subject.held if at is not None and held.start <= at < held.end]


RULE = Rule(
    id="prose/ring-off",
    title="A chord that is said to ring, and other notes ring",
    severity=Severity.ERROR,
    source=Source(
        "common practice", "Chords by their stacked intervals; the root or the slash's bass lowest"
    ),
    good=(
        Example(
            "```lick example\nkey: G major\n\nG | ring[ 6:3 - 5:2 - 4:4 - 3:2 - ]\n```\n\n"
            "It ends on [a ringing G major ninth](lick:example@1)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nkey: G major\n\nG | ring[ 6:3 - 5:2 - 4:0 - 3:2 - ]\n```\n\n"
            "It ends on [a ringing G major ninth](lick:example@1).",
            ("G major ninth",),
        ),
    ),
    survey=tell("ring-off", Severity.ERROR),
)
