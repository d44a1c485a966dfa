"""The trade's words in a sentence: one pattern made of the tables of terms, read from left to right.

Letters of notes are capitals; other words may begin with one. The first alternative that fits
at a place counts, so those that are longer come first.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
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
    return _share_noun(text, tuple(_scan(text, head, letter)))


_LISTED = re.compile(r", (?:and )?(?:the )?| (?:and|or|to) (?:the )?")
_SHARED = re.compile(r"(string|fret|finger|bar|ending)s$")


def _share_noun(text: str, terms: tuple[Term, ...]) -> tuple[Term, ...]:
    """``the fifth, fourth and third strings``: what stands before a plural shares its noun."""
    found = list(terms)
    noun = ""
    for place in range(len(found) - 2, -1, -1):
        one, two = found[place], found[place + 1]
        plural = _SHARED.search(two.text.casefold())
        noun = plural[1] if plural is not None else noun
        listed = one.kind in ("degree", "ordinal") and _LISTED.fullmatch(text[one.end : two.start])
        read = next(_scan(f"{one.text} {noun}", head=False, letter=False), None) if noun and listed else None
        if read is None or read.kind != two.kind:
            noun = ""
        else:
            found[place] = replace(one, kind=read.kind, value=read.value, text=read.text)
    return tuple(found)


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
