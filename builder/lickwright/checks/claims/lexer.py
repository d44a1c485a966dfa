"""The trade's words in a sentence: one pattern made of the tables of terms, read from left to right.

Letters of notes are capitals; other words may begin with one. The first alternative that fits
at a place counts, so those that are longer come first.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from lickwright.checks.claims.grammar import ARTICLE_A, PATTERNS, Reader, even_case
from lickwright.checks.claims.term import Term


@lru_cache(maxsize=1)
def _scanner() -> tuple[re.Pattern[str], tuple[Reader, ...]]:
    """The pattern of all terms, a group for each, and what reads each group's text."""
    groups = [f"(?P<t{number}>{pattern.text})" for number, pattern in enumerate(PATTERNS)]
    return re.compile(rf"(?<![\w♯♭#])(?:{'|'.join(groups)})"), tuple(p.read for p in PATTERNS)


def find_terms(text: str) -> tuple[Term, ...]:
    """Return the terms of a text, from left to right; what is no term is passed over.

    >>> [(term.kind, term.text) for term in find_terms("slides from C sharp, the flat seven of D, to E")]
    [('technique', 'slides'), ('note', 'C sharp'), ('degree', 'flat seven'), ('note', 'D'), ('note', 'E')]
    """
    return tuple(_scan(text))


def _scan(text: str) -> Iterator[Term]:
    scanner, readers = _scanner()
    written, text = text, even_case(text)
    at = 0
    while found := scanner.search(text, at):
        name = found.lastgroup or ""
        start, end = found.span(name)
        at = end
        if text[start] == "A" and ARTICLE_A.match(text, start) and _begins(text, start):
            text = f"{text[:start]}a{text[start + 1 :]}"  # "A pull-off": an article, though a capital
            at = start
            continue
        read = readers[int(name[1:])](found[name])
        if read is not None:
            yield Term(*read, start, end, written[start:end])


def _begins(text: str, start: int) -> bool:
    """Whether a sentence, or a part of speech set off from it, begins there."""
    before = text[:start].rstrip(" \"“‘'([*_")
    return not before or before[-1] in ".!?…:|"
