"""Fingers by name: the fretting hand's ``1`` to ``4`` and ``T``, the picking hand's ``p i m a c``."""

from __future__ import annotations

FRETTING: dict[str, str] = {
    "first": "1",
    "second": "2",
    "third": "3",
    "fourth": "4",
    "index": "1",
    "middle": "2",
    "ring": "3",
    "little": "4",
}
"""Word before ``finger`` to the digit of the ``lh`` row."""

PICKING: dict[str, str] = {"index": "i", "middle": "m", "ring": "a", "little": "c"}
"""The same to the letter of the ``rh`` row, where the word serves both hands."""

ALONE: dict[str, str] = {"pinky": "little", "pinkie": "little", "thumb": "thumb"}
"""Words that need no ``finger`` behind them."""

FINGER = rf"(?:(?:{'|'.join(FRETTING)})[ -]fingers?|{'|'.join(ALONE)})(?![\w-])"
"""Pattern of a finger."""


def read_finger(text: str) -> tuple[str | None, str | None] | None:
    """Read a finger: its sign in the ``lh`` row and in the ``rh`` row, None where it has none.

    >>> read_finger("little finger"), read_finger("first finger"), read_finger("thumb")
    (('4', 'c'), ('1', None), ('T', 'p'))
    """
    word = text.casefold().replace("-", " ").removesuffix("s").removesuffix("finger").strip()
    word = ALONE.get(word, word)
    if word == "thumb":
        return "T", "p"
    return (FRETTING[word], PICKING.get(word)) if word in FRETTING else None
