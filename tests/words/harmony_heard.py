"""Chords by ear: from their spoken names to the notes in them, by stacked thirds and alterations.

Source: chord spelling by stacked intervals, common practice (a thirteenth leaves out the eleventh beside a
major third). Independent of the builder's table of qualities, against which a test holds it.
"""

from __future__ import annotations

import re

from phrases import NOTE, MisheardError

NUMBERS = {"two": 2, "five": 7, "nine": 2, "eleven": 5, "thirteen": 9}
_TOKEN = re.compile(
    r"(sus|add|flat|sharp) (two|four|five|nine|eleven|thirteen) ?"
    r"|(minor|major|diminished|augmented|altered|five|six-nine|six|seven|nine|eleven|thirteen) ?"
)
_TRIADS = {"minor": {3, 7}, "diminished": {3, 6}, "augmented": {4, 8}}
_STACKS = {"seven": (), "nine": (2,), "eleven": (2, 5), "thirteen": (2, 9)}


def chord(words: str) -> tuple[str, frozenset[int], str]:
    """``B flat seven over D`` to its root, half steps above it, and bass; ``no chord`` has neither."""
    if words == "no chord":
        return "", frozenset(), ""
    found = re.fullmatch(rf"({NOTE}) (.*?)(?: over ({NOTE}))?", words)
    if not found:
        raise MisheardError(f"no chord name: {words}")
    return found[1], quality(found[2]), found[3] or ""


def quality(words: str) -> frozenset[int]:
    """``minor seven flat five`` to half steps above the root."""
    tones = {0, 4, 7}
    seventh, at = 10, 0
    while at < len(words):
        found = _TOKEN.match(words, at)
        if not found:
            raise MisheardError(f"no chord quality: {words}")
        at = found.end()
        if found[1] in {"flat", "sharp"} and found[2] in words[: found.start()].split()[-1:]:
            raise MisheardError(f"plain and altered: {words}")
        if found[1]:
            _altered(tones, found[1], found[2])
        elif found[3] in _TRIADS:
            tones = {0, *_TRIADS[found[3]]}
            seventh = 9 if found[3] == "diminished" else seventh
        elif found[3] == "major":
            seventh = 11
        elif found[3] == "five":
            tones.discard(4)
        elif found[3] in {"six", "six-nine"}:
            tones |= {9, 2} if found[3] == "six-nine" else {9}
        elif found[3] == "altered":  # the scale's: both ninths, both fifths, no plain fifth
            tones = {0, 1, 3, 4, 6, 8, 10}
        else:
            tones |= {seventh, *_STACKS[found[3]]}
            if found[3] == "thirteen" and 3 in tones:
                tones.add(5)
    return frozenset(tones)


def _altered(tones: set[int], how: str, what: str) -> None:
    if how == "sus":
        tones.discard(4)
        tones.add(5 if what == "four" else 2)
    elif how == "add":
        tones.add(NUMBERS[what])
    else:
        natural = NUMBERS[what]
        if natural in {2, 7} and what in {"five", "nine"}:
            tones.discard(natural)
        tones.add(natural + (1 if how == "sharp" else -1))
