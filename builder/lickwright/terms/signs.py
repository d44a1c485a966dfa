"""The words of the ``signs`` row: what each means, and whether it is heard.

One table for the reader, for print and for sound; a word that is added here must be drawn, and
sounded unless it says that it is printed only.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SignWord:
    """A word of the row.

    Attributes:
        word: As written.
        meaning: What the hands do, in short.
        takes_fret: Followed by a fret, with no blank: ``trill7``.
        sounded: False when it is printed and said, but the clock keeps time.
    """

    word: str
    meaning: str
    takes_fret: bool = False
    sounded: bool = True

    @property
    def example(self) -> str:
        """The word as it may stand in a row."""
        return f"{self.word}7" if self.takes_fret else self.word


TABLE: tuple[SignWord, ...] = (
    SignWord("tremolo", "struck again and again, as fast as the hand goes"),
    SignWord("trill", "to and fro between its fret and the one named", takes_fret=True),
    SignWord("swell", "faded in from silence"),
    SignWord("pinch", "a harmonic by the edge of the thumb"),
    SignWord("wide", "a wide vibrato"),
    SignWord("scrape", "the edge of the pick drawn along the string"),
    SignWord("ghost", "hardly heard"),
    SignWord("fermata", "held at will", sounded=False),
    SignWord("rit", "slower to the end", sounded=False),
)
"""All words, in the order in which they are listed for authors."""

WORDS: tuple[str, ...] = tuple(sign.word for sign in TABLE)
_BY_WORD = {sign.word: sign for sign in TABLE}


def parse_sign(text: str) -> tuple[SignWord, int | None] | None:
    """Read an entry: its word, and the fret of a word that takes one.

    Returns:
        None when it is no word of the table, lacks its fret, or has one that it does not take.

    >>> parse_sign("trill7")[1]
    7
    >>> parse_sign("trill") is None
    True
    """
    word = text.rstrip("0123456789")
    digits = text[len(word) :]
    sign = _BY_WORD.get(word)
    if sign is None or bool(digits) is not sign.takes_fret or len(digits) > 2 or not digits.isascii():
        return None
    return sign, int(digits) if digits else None
