"""The vocabulary of the listener: counted words, lengths, places, fingers, signs.

Written from the words alone. Sources: note values and beat counting (``1 e and a``) are common practice.
"""

from __future__ import annotations

import re
from fractions import Fraction

NOTE = r"[A-G](?: (?:double |triple )?(?:sharp|flat))?"
NUMBER = r"[0-9]+(?:/[0-9]+)?"

PLAIN = {
    "whole": Fraction(4),
    "half": Fraction(2),
    "quarter": Fraction(1),
    "eighth": Fraction(1, 2),
    "sixteenth": Fraction(1, 4),
    "thirty-second": Fraction(1, 8),
    "sixty-fourth": Fraction(1, 16),
}
WIDENED = {"": Fraction(1), "dotted ": Fraction(3, 2), "triplet ": Fraction(2, 3)}
ORDINALS = (
    "open", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
    "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth", "seventeenth", "eighteenth",
    "nineteenth", "twentieth", "twenty-first", "twenty-second", "twenty-third", "twenty-fourth",
)  # fmt: skip
JOINS = {"hammer on to ": "h", "pull off to ": "p", "slide to ": "s", "slide and strike ": "s!"}
LEADS = {
    "hammered into the next": "h",
    "pulled into the next": "p",
    "slid into the next, which is struck": "s!",
    "slid into the next": "s",
}
BENT = {
    "bend behind the nut": "nut",
    "bent beforehand": "pre",
    "let down": "release",
    "bend": "up",
}
STEPS = {
    "a quarter step": Fraction(1, 2),
    "a half step": Fraction(1),
    "three quarters of a step": Fraction(3, 2),
    "a whole step": Fraction(2),
    "a step and a quarter": Fraction(5, 2),
    "a step and a half": Fraction(3),
    "a step and three quarters": Fraction(7, 2),
    "two steps": Fraction(4),
}
FINGERS = {
    "no finger": "0",
    "first finger": "1",
    "second finger": "2",
    "third finger": "3",
    "fourth finger": "4",
    "thumb over": "T",
}
HANDS = {
    "by the thumb": "p",
    "by the index finger": "i",
    "by the middle finger": "m",
    "by the ring finger": "a",
    "by the little finger": "c",
    "by the pick": "P",
    "by a down-stroke": "d",
    "by an up-stroke": "u",
}
STROKES = {"down-stroke": "d", "up-stroke": "u", "picked": "P"}
SLIDES_IN = {"slid into from below": "/", "slid into from above": "\\"}
SLIDES_OUT = {"slid out of upwards": "/", "slid out of downwards": "\\"}
SIGNS = {
    "tremolo": "tremolo",
    "swell": "swell",
    "pinch harmonic": "pinch",
    "wide vibrato": "wide",
    "scraped": "scrape",
    "ghost note": "ghost",
    "fermata": "fermata",
    "slower from here to the end": "rit",
}
TRILL = re.compile(r"trill with fret ([0-9]+)")
TUPLET = re.compile(r"([0-9]+) in the time of ([0-9]+) from here")
BRACKET = re.compile(r"(let ring|palm mute|([a-z-]+) position) (from|to) here")


class MisheardError(Exception):
    """Words that tell a listener nothing."""


def length(words: str) -> Fraction | None:
    """``dotted quarter``, ``7/2 quarters``, ``2/7 of a quarter`` to quarters; None when it is no length."""
    counted = re.fullmatch(rf"({NUMBER}) (?:quarters|of a quarter)", words)
    if counted:
        return Fraction(counted[1])
    for prefix, factor in WIDENED.items():
        value = PLAIN.get(words.removeprefix(prefix)) if words.startswith(prefix) else None
        if value is not None:
            return value * factor
    return None


def usual_length(words: str) -> Fraction | None:
    """``eighths``, ``halves``, ``each 2/7 of a quarter``: what a sound lasts when nothing is said."""
    if words.startswith("each "):
        return length(words.removeprefix("each "))
    return length(words.removesuffix("halves") + "half" if words.endswith("halves") else words[:-1])


def ordinal(word: str) -> int:
    """``third`` is 3, ``open`` 0."""
    if word not in ORDINALS:
        raise MisheardError(f"no ordinal: {word}")
    return ORDINALS.index(word)


def beat_of(meter: tuple[int, int]) -> Fraction:
    """The beat one counts in: three of the unit in 3/8, 6/8, 9/8, 12/8 and their like in sixteenths."""
    count, unit = meter
    return Fraction(12 if unit >= 8 and count % 3 == 0 else 4, unit)


def parts_of_beat(meter: tuple[int, int]) -> dict[str, Fraction]:
    """A dotted beat is counted ``1 and a``, any other ``1 e and a``."""
    if meter[1] >= 8 and meter[0] % 3 == 0:
        return {"and": Fraction(1, 3), "a": Fraction(2, 3)}
    return {"e": Fraction(1, 4), "and": Fraction(1, 2), "a": Fraction(3, 4)}


def place(words: str, meter: tuple[int, int]) -> Fraction:
    """``Beat 2``, ``2 and``, ``2 plus 1/3``: quarters from the start of a whole bar."""
    found = re.fullmatch(rf"(?:[Bb]eat ([0-9]+)|([0-9]+) (?:(and|e|a)|plus ({NUMBER})))", words)
    if not found:
        raise MisheardError(f"no place: {words}")
    inside = Fraction(0)
    if found[3]:
        share = parts_of_beat(meter).get(found[3])
        if share is None:
            raise MisheardError(f"no place in {meter}: {words}")
        inside = share
    elif found[4]:
        inside = Fraction(found[4])
    return beat_of(meter) * (int(found[1] or found[2]) - 1 + inside)
