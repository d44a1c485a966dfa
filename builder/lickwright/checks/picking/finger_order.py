"""Fingers of the picking hand that lie across each other.

Of notes plucked together the thumb or the pick has the lowest string, then come index, middle, ring and
little finger; a finger takes one string. The pick and the thumb may brush over strings that lie side by
side, and one finger may strum.

Why it matters: crossed fingers cannot pluck at the same moment.

What to do: exchange the letters, or strike the notes one after the other.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from lickwright.checks.onsets import picked
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject, Written
from lickwright.findings import Edit, Fix
from lickwright.instrument.hand import PLUCKING


def run(subject: Subject) -> Iterator[Finding]:
    """Look at what is plucked together, in both voices."""
    if subject.piece.kind == "chorus":
        return
    together: dict[tuple[int, Fraction], list[Written]] = {}
    for written in subject.tones:
        if written.tone.hand in PLUCKING and picked(written.sound):
            together.setdefault((written.bar.number, written.sound.onset), []).append(written)
    for plucked in together.values():
        if len(plucked) > 1:
            plucked.sort(key=lambda written: -written.tone.string)
            said = _say(plucked)
            if said:
                at = plucked[-1]
                yield subject.report(
                    RULE,
                    said,
                    at.entry("rh") or at.tone.span,
                    at.sound.address,
                    help=_hint(plucked),
                    fix=_exchange(plucked),
                )


def _hint(plucked: Sequence[Written]) -> str:
    if len({written.tone.hand for written in plucked}) < len(plucked):
        return "Give each string a finger of its own, or strike the notes one after the other"
    return "Exchange the letters, or strike the notes one after the other"


def _exchange(plucked: Sequence[Written]) -> Fix | None:
    """The letters of one entry in the order of the strings, where each is there once."""
    sound, entry = plucked[0].sound, plucked[0].entry("rh")
    letters = sorted((written.tone.hand or "" for written in plucked), key=PLUCKING.__getitem__)
    if entry is None or len({PLUCKING[letter] for letter in letters}) < len(sound.tones):
        return None
    right = {written.index: letter for written, letter in zip(plucked, letters, strict=True)}
    written_there = "".join(tone.hand or "" for tone in sound.tones)
    text = "".join(right.get(index, "") for index in range(len(sound.tones)))
    if any(written.sound is not sound for written in plucked) or entry.text != written_there:
        return None
    return Fix(f"write {text}: the fingers in the order of the strings", (Edit(entry, text),))


def _say(plucked: Sequence[Written]) -> str:
    """What does not lie in order; empty where it does. The lowest string comes first."""
    strummed = len({written.tone.hand for written in plucked}) == 1 and _side_by_side(plucked)
    for low, high in pairwise(plucked):
        a, b = low.tone.hand or "", high.tone.hand or ""
        if PLUCKING[a] < PLUCKING[b] or strummed:
            continue
        if a == b:
            if PLUCKING[a] == 0 and _side_by_side((low, high)):
                continue
            strings = f"{low.tone.string} and {high.tone.string}"
            return f"{a} plucks strings {strings} together: one finger, one string"
        return (
            f"{a} on string {low.tone.string} lies across {b} on string {high.tone.string}:"
            " from the low strings to the high ones the order is p, i, m, a, c"
        )
    return ""


def _side_by_side(plucked: Sequence[Written]) -> bool:
    return all(a.tone.string - b.tone.string == 1 for a, b in pairwise(plucked))


RULE = Rule(
    id="picking/finger-order",
    title="Fingers of the picking hand that lie across each other",
    severity=Severity.ERROR,
    source=Source("common practice", "Thumb and fingers lie over the strings in order, a finger a string"),
    good=(
        Example("A | 5:0+3:2+2:2+1:0 - - - 5:0+2:2 - - -\n  rh | pima Pm"),
        Example("A | 4:2+3:2+1:0 - - - 5:0 - - -\n  rh | ppm p"),
    ),
    bad=(
        Example("A | 4:2+2:2 - - - 5:0 - - -\n  rh | mP p", marks=("mP",)),
        Example("A | 4:2+2:2 - - - 5:0 - - -\n  rh | mm p", marks=("mm",)),
    ),
    run=run,
)
