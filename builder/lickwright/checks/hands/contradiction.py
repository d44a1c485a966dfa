"""Two signs on one sound that cannot both be played.

Short in a let-ring bracket, a ghost note with an accent, a dead note bent, shaken or trilled, a harmonic
reached by a hammer-on, pull-off or slide, a harmonic under the palm.

Why it matters: the player can follow only one of the two, and the page does not say which.

What to do: take one of them off.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject, Written
from lickwright.model.slots import JoinKind
from lickwright.model.strike import Dead, Harmonic

JOINS = {
    JoinKind.HAMMER: "hammered",
    JoinKind.PULL: "pulled off to",
    JoinKind.SLIDE: "slid to",
    JoinKind.SHIFT: "slid to",
}
SHAKEN = ("wide", "trill", "pinch")
"""Signs that need a pitch."""


def run(subject: Subject) -> Iterator[Finding]:
    """Look at every note; of a sound the first contradiction is told."""
    told: object = None
    for written in subject.tones:
        said = _contradiction(written)
        if said and told is not written.sound:
            told = written.sound
            message, severity = said
            yield subject.report(
                RULE,
                message,
                written.sound.span if len(written.sound.tones) == 1 else written.tone.span,
                written.sound.address,
                severity=severity,
                labels=written.label("signs"),
                help="Take one of the two off",
            )


def _contradiction(written: Written) -> tuple[str, Severity] | None:
    tone, sound = written.tone, written.sound
    signs = sound.signs
    if sound.short and sound.ring:
        return "short and let ring on one sound: it is either cut off or left to ring", Severity.ERROR
    if sound.accent and "ghost" in signs:
        return "an accent on a ghost note: it is either loud or hardly heard", Severity.QUERY
    if isinstance(tone.head, Dead):
        shaken = next((sign for sign in signs if sign.startswith(SHAKEN)), None)
        if tone.vibrato or tone.bends or shaken:
            what = "bent" if tone.bends else "shaken" if tone.vibrato else f"given {shaken}"
            return f"a dead note {what}: it has no pitch", Severity.ERROR
    if isinstance(tone.head, Harmonic):
        if tone.link is not None and not tone.tied:
            how = JOINS[tone.link]
            return f"a harmonic {how}: it sounds only when the string is struck", Severity.ERROR
        if sound.mute:
            return "a harmonic under the palm: the palm damps what should ring", Severity.QUERY
    return None


RULE = Rule(
    id="hands/contradiction",
    title="Signs that contradict each other",
    severity=Severity.ERROR,
    source=Source("common practice", "Signs that contradict each other on one note"),
    good=(
        Example("A | ring[5:0 4:2 3:2 2:2] 3:2' . 4:2! -"),
        Example("A | 4:x 4:x 4:2~ - 5:<12> - 4:<7> -"),
    ),
    bad=(
        Example("A | ring[5:0 4:2' 3:2 2:2] 5:0 - - -", marks=("4:2'",)),
        Example("A | 5:0 4:2! 3:2 2:2 5:0 - - -\n  signs | * ghost * * *", marks=("4:2!",)),
        Example("A | 5:0 - 5:5 h 5:<12> - - - -", marks=("5:<12>",)),
        Example("A | mute[5:0 5:0] 5:0 - mute[5:<12> -] 5:0 -", marks=("5:<12>",)),
    ),
    run=run,
)
