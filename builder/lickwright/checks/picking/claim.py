"""Strokes of another kind than the lick's ``picking`` says.

Fingers have no downstroke (a chord of three notes or more may be brushed with the nails). Under
`alternate`, `pendulum` and `economy` every note is the pick's. In `hybrid` the thumb and the index
finger hold the pick, and at least one note is plucked by a finger.

Why it matters: the student takes up a pick, or puts it down, because of that word.

What to do: mend the letters, or the claim.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.onsets import picked
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.music import Sound

BRUSHED = 3
"""Notes of a chord that nails may brush."""
_PICK = frozenset("duP")
_WITH_A_PICK = ("alternate", "pendulum", "economy")
_HOLDING = frozenset("pi")
"""What holds the pick."""


def run(subject: Subject) -> Iterator[Finding]:
    """Hold the letters of the rh row against the claim; the first that does not fit is told."""
    style = subject.piece.music.picking.style
    if style == "free" or subject.piece.kind == "chorus":
        return
    lines = [bar.upper for bar in subject.piece.music.bars]
    sounds = [sound for line in lines for sound in line.sounds if picked(sound) and _letters(sound)]
    against = [sound for sound in sounds if _is_against(sound, style)]
    if against:
        sound = against[0]
        letter = min(_letters(sound) & _foreign(style))
        others = f", and in {len(against) - 1} more places" if len(against) > 1 else ""
        yield subject.report(
            RULE,
            f"the rh row has {letter}{others}: {_WHY[style]}",
            next((span for kind, span in sound.entries if kind == "rh"), sound.span),
            sound.address,
        )
    elif style == "hybrid" and len(sounds) > 1 and all(_letters(sound) <= _PICK for sound in sounds):
        given = all(_letters(s) for line in lines for s in line.sounds if picked(s))
        if given:
            span = subject.piece.music.picking.span
            yield subject.report(RULE, "the lick claims hybrid picking, and every note has the pick", span)


_WHY = {
    "fingers": "the lick claims to be played with the fingers",
    "hybrid": "in hybrid picking thumb and index finger hold the pick",
    **{style: f"the lick claims {style} picking, all with the pick" for style in _WITH_A_PICK},
}


def _letters(sound: Sound) -> set[str]:
    letters = {tone.hand for tone in sound.tones if tone.hand}
    return letters | {sound.stroke} if sound.stroke else letters


def _foreign(style: str) -> frozenset[str]:
    if style == "fingers":
        return _PICK
    return _HOLDING if style == "hybrid" else frozenset("pimac")


def _is_against(sound: Sound, style: str) -> bool:
    if not _letters(sound) & _foreign(style):
        return False
    return style != "fingers" or len(sound.tones) < BRUSHED


RULE = Rule(
    id="picking/claim",
    title="Strokes of another kind than the picking claims",
    severity=Severity.QUERY,
    source=Source("language contract", "Section 2, Fields: picking, and Rows: rh"),
    good=(
        Example("picking: fingers\n\nA | 5:0 - 3:2 - 2:2 - 5:0+4:2+3:2 -\n  rh | p i m d"),
        Example("picking: hybrid\n\nA | 5:0 - 3:2 - 2:2 - 5:0+2:2 -\n  rh | d m a Pm"),
    ),
    bad=(
        Example("picking: fingers\n\nA | 5:0 - 3:2 - 2:2 - 5:0 -\n  rh | p d m p", marks=("d",)),
        Example("picking: alternate\n\nA | 5:0 - 3:2 - 2:2 - 5:0 -\n  rh | d m d u", marks=("m",)),
        Example("picking: hybrid\n\nA | 5:0 - 3:2 - 2:2 - 5:0 -\n  rh | d u d u", marks=("hybrid",)),
    ),
    run=run,
)
