"""A capital ``A`` at the head of a sentence: the article, the note, or one of the two.

Inside a sentence the article is small, so a capital is the note. At its head the next words tell:
``A pull-off``, ``A C chord``, ``A sharp attack`` begin with the article, ``A goes down`` and ``A sharp
falls`` with the note. ``A flat seven`` and ``A major chord`` may be either: the words alone do not tell.

Conventions: texts are in even case (``grammar.even_case``). References: English grammar; common practice.
"""

from __future__ import annotations

import re
from typing import Literal

from lickwright.checks.claims.names import SYMBOL
from lickwright.terms.degrees import NUMBERS
from lickwright.terms.notes import NOTE
from lickwright.terms.numbers import CARDINALS, ORDINALS

Reading = Literal["note", "article", "either"]

_SIGN = r"(?:flat|sharp|natural)"
_SIZE = r"(?:major|minor|dominant|diminished|augmented|suspended)"
_THING = r"(?:chord|triad|arpeggio|scale|pentatonic|blues scale|shape|string)s?\b"
"""What a letter may name."""
_NUMBER = rf"(?:{'|'.join((*(ORDINALS[n] for n in NUMBERS), *(CARDINALS[n] for n in NUMBERS)))}|[0-9]+)\b"
_PLAIN = (
    r"(?:and|or|to|is|in|on|at|over|then|with|from|by|up|down|as|again|alone|itself|too|here|there|for|but|not"
    r"|was|has|had|can|will|must|may|that|which|after|before|under|against|becomes?)\b"
)
"""Words that follow a note, and never an article."""
_VERB = (
    r"[a-z]+[^su\W]s\b(?! )"
    r"|[a-z]+[^su\W]s (?:a|an|the|to|up|down|on|out|in|into|over|home|back|again|for)\b"
)
"""``goes``, ``rings out``: what a note does."""

_EITHER = re.compile(
    rf"A (?:{_SIGN} {_NUMBER}|{_SIZE}(?: {_NUMBER}| {_THING}|[ -]pentatonic)|{_THING}"
    rf"|{_SIGN} (?:{_SIZE} )?{_THING}|{NOTE}(?! [A-G]\b))"
)
_INTERVAL = re.compile(rf"A {_SIZE} (?:second|third|sixth|tenth)\b")
_NAMED = re.compile(rf"A (?:{SYMBOL}|{NOTE}(?: {_SIZE})?[ -](?:{_NUMBER}|{_THING}|note\b))")
_NOTE = re.compile(
    rf"A(?! )|A (?:{_PLAIN}|{_VERB}|{_SIZE}\b(?! [a-z])|{_SIZE} {_PLAIN}|{_SIGN}\b(?! [a-z])"
    rf"|{_SIGN} (?:{_PLAIN}|{_VERB}|{_SIZE}\b)|{_SIZE} {_VERB}|[A-G]\b|[^a-zA-Z])"
)


def read_a(text: str, start: int) -> Reading:
    """Return what a capital A at the head of a sentence is.

    >>> [read_a(words, 0) for words in ("A pull-off", "A goes down", "A flat seven", "A C chord", "A, C")]
    ['article', 'note', 'either', 'article', 'note']
    """
    if _INTERVAL.match(text, start) or _NAMED.match(text, start):
        return "article"
    if _EITHER.match(text, start):
        return "either"
    return "note" if _NOTE.match(text, start) else "article"


def heads(text: str, start: int) -> bool:
    """Whether a sentence, or a part of speech set off from it, begins there."""
    before = text[:start].rstrip(" \"“‘'([*_\x00")
    return not before or before[-1] in ".!?…:|"
