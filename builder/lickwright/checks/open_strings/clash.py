"""Two ringing strings a half step apart, outside the chord.

In a let-ring bracket an open string and another note sound together for more than a beat, a half step or a
minor ninth apart, and the chord does not hold both. Passages that are said to be a cascade or outside are
left alone.

Why it matters: a brush of seconds is the charm of open strings; one that stays is heard as a slip.

What to do: nothing, if it is meant; else close the bracket, or fret one of the two where a finger ends it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strings import Held
from lickwright.checks.subject import Subject
from lickwright.checks.wording import held_for, note_text
from lickwright.findings import Label
from lickwright.theory.chord import Chord

HALF_STEPS = (1, 13, 25)
"""A minor second, and the same over octaves."""


def run(subject: Subject) -> Iterator[Finding]:
    """At each note, look at the strings that still ring."""
    if not any(w.sound.ring and w.tone.fret == 0 for w in subject.tones):
        return
    bars = {bar.number: bar for bar in subject.piece.music.bars}
    left_alone = subject.outside | subject.claimed("cascade")
    ringing: list[Held] = []
    for new in subject.held:
        ringing = [h for h in ringing if h.end > new.start and h.tone.string != new.tone.string]
        bar = bars[new.sound.address.bar]
        chord = bar.chord_at(new.sound.onset)
        if isinstance(chord, Chord) and bar.number not in left_alone:
            for held in ringing:
                lasting = min(held.end, new.end) - new.start
                if lasting <= bar.meter.beat * Fraction(subject.limits["clash-beats"]):
                    continue
                if _clash(held, new, chord):
                    yield subject.report(
                        RULE,
                        f"{note_text(held.tone)} rings on under {note_text(new.tone)}, a half step away,"
                        f" {held_for(lasting, bar.meter.beat)}, and {chord.symbol} does not hold both",
                        new.tone.span,
                        new.sound.address,
                        labels=(Label(held.tone.span, "rings from here"),),
                        help="Close the bracket, or fret one of the two where a finger ends it",
                    )
        ringing.append(new)


def _clash(held: Held, new: Held, chord: Chord) -> bool:
    pitches = held.tone.path[-1], new.tone.path[-1]
    return (
        held.start < new.start
        and bool(held.sound.ring)
        and 0 in (held.tone.fret, new.tone.fret)
        and abs(pitches[0] - pitches[1]) in HALF_STEPS
        and not all(int(pitch) % 12 in chord.semitones for pitch in pitches)
    )


RULE = Rule(
    id="open-strings/clash",
    title="Ringing strings a half step apart",
    severity=Severity.NOTE,
    source=Source("own threshold", "A minor second that lasts for more than a beat, outside the chord"),
    good=(
        Example("key: C major\n\nCmaj7 | ring[5:3 2:0 3:5 - - - - -]"),
        Example("key: C major\n\nC | ring[5:3 2:0 3:5] - 4:2 - 5:3 -"),
        Example("key: C major\nclaims: cascade\n\nC | ring[5:3 2:0 3:5 1:0 - - - -]"),
    ),
    bad=(Example("key: C major\n\nC | ring[5:3 2:0 3:5 - - - - -]", marks=("3:5",)),),
    run=run,
)
