"""The trade's words in a sentence: one pattern made of the tables of terms, read from left to right.

Letters of notes are capitals; other words may begin with one. The first alternative that fits
at a place counts, so those that are longer come first.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from lickwright.checks.claims.article import heads, read_a
from lickwright.checks.claims.grammar import PATTERNS, Reader, even_case
from lickwright.checks.claims.term import Term


@lru_cache(maxsize=1)
def _scanner() -> tuple[re.Pattern[str], tuple[Reader, ...]]:
    """The pattern of all terms, a group for each, and what reads each group's text."""
    groups = [f"(?P<t{number}>{pattern.text})" for number, pattern in enumerate(PATTERNS)]
    return re.compile(rf"(?<![\w♯♭#])(?:{'|'.join(groups)})"), tuple(p.read for p in PATTERNS)


@lru_cache(maxsize=512)
def find_terms(text: str, *, head: bool = True, letter: bool = False) -> tuple[Term, ...]:
    """Return the terms of a text, from left to right; what is no term is passed over.

    Args:
        text: A sentence, or the words of a link.
        head: Whether a sentence begins with it: then a capital ``A`` may be the article.
        letter: How an ``A`` is read that may be either: as the note, or as the article.

    >>> [(term.kind, term.text) for term in find_terms("slides from C sharp, the flat seven of D, to E")]
    [('technique', 'slides'), ('note', 'C sharp'), ('degree', 'flat seven'), ('note', 'D'), ('note', 'E')]
    """
    return tuple(_scan(text, head, letter))


def is_doubtful(text: str) -> bool:
    """Whether a text begins with an ``A`` that may be the article or the note.

    >>> is_doubtful("A flat seven"), is_doubtful("A pull-off"), is_doubtful("A, C, E")
    (True, False, False)
    """
    even = even_case(text)
    return even.startswith("A") and read_a(even, 0) == "either"


def _scan(text: str, head: bool, letter: bool) -> Iterator[Term]:
    scanner, readers = _scanner()
    written, text = text, even_case(text)
    at = 0
    while found := scanner.search(text, at):
        name = found.lastgroup or ""
        start, end = found.span(name)
        at = end
        if text[start] == "A" and (start or head) and heads(text, start):
            reading = read_a(text, start)
            if reading == "article" or (reading == "either" and not letter):
                text = f"{text[:start]}a{text[start + 1 :]}"
                at = start
                continue
        read = readers[int(name[1:])](found[name])
        if read is not None:
            yield Term(*read, start, end, written[start:end])
