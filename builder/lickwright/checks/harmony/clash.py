"""Two fretted notes struck together a half step apart, or an octave and a half step.

Left alone are open strings that ring beside a fretted note, bends (a unison bend begins that way), let
ring, notes that both belong to the chord or are free colours of it, and a blue third beside the third.

Why it matters: nothing in music is rougher. Where it is meant the chord symbol says so.

What to do: look at both frets; one string over is where such slips come from.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.lines import relation
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.wording import note_name, note_text
from lickwright.findings import Label
from lickwright.model.music import MusicBar, Sound, Tone
from lickwright.model.strike import Fretted
from lickwright.theory.chord import Chord

ROUGH = (1, 13)
"""Half steps."""


def run(subject: Subject) -> Iterator[Finding]:
    """Look at every two notes that are struck at once, in one voice or in both."""
    for bar in subject.piece.music.bars:
        if bar.number in subject.outside:
            continue
        if bar.lower is None:
            for sound in bar.upper.sounds:
                if len(sound.tones) > 1:
                    yield from _together(subject, bar, [(sound, tone) for tone in sound.tones])
            continue
        below = {sound.onset: sound for sound in bar.lower.sounds}
        for sound in bar.upper.sounds:
            both = [sound, below.pop(sound.onset)] if sound.onset in below else [sound]
            yield from _together(subject, bar, [(s, tone) for s in both for tone in s.tones])
        for sound in below.values():
            yield from _together(subject, bar, [(sound, tone) for tone in sound.tones])


def _together(subject: Subject, bar: MusicBar, tones: list[tuple[Sound, Tone]]) -> Iterator[Finding]:
    plain = [(sound, tone) for sound, tone in tones if _counts(sound, tone)]
    if len(plain) < 2:
        return
    plain.sort(key=lambda each: each[1].path[0])
    for index, (low_sound, low) in enumerate(plain):
        for sound, high in plain[index + 1 :]:
            below, above = int(low.path[0]), int(high.path[0])
            chord = bar.chord_at(sound.onset)
            if above - below not in ROUGH or not isinstance(chord, Chord):
                continue
            if relation(chord, below) in "tf" and relation(chord, above) in "tf":
                continue
            if (below - chord.root.semitone) % 12 == 3 and subject.piece.style != "plain":
                continue  # the blue third beside the third
            key = subject.piece.music.key
            apart = "a half step" if above - below == 1 else "an octave and a half step"
            yield subject.report(
                RULE,
                f"{note_name(below, key, chord)} and {note_name(above, key, chord)}, {apart} apart, are"
                f" struck together over {chord.display}",
                high.span,
                sound.address,
                labels=(Label(low.span, note_text(low)),) if low_sound is sound else (),
                help="Look at both frets and strings",
            )


def _counts(sound: Sound, tone: Tone) -> bool:
    return (
        isinstance(tone.head, Fretted) and bool(tone.fret) and tone.struck and not (tone.bends or sound.ring)
    )


RULE = Rule(
    id="harmony/clash",
    title="Two notes struck together a half step apart",
    severity=Severity.QUERY,
    source=Source("common practice", "Seconds and ninths of harmony teaching; what is left alone is our own"),
    good=(
        Example("key: F major\n\nFmaj7 | 3:9+2:6 - - - 3:5 - - -"),
        Example("A7 | 2:5+3:7b9 - - - 3:6 - 4:7 -"),
        Example("key: C major\n\nC | 2:0+3:5 - - - 3:5 - - -"),
    ),
    bad=(Example("key: C major\n\nC | 3:5 - 3:9+2:6 - 2:5 - 3:5 -", marks=("2:6",)),),
    run=run,
)
