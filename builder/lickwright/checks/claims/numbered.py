"""Numbers beside a link: how many of what it names, ``three [pull-offs]``, and how far it goes."""

from __future__ import annotations

import re
from collections.abc import Iterator

from lickwright.checks.claims.claim import Claim
from lickwright.checks.claims.lexer import find_terms
from lickwright.checks.claims.sentence import Sentence
from lickwright.checks.claims.term import Count, Term
from lickwright.terms.numbers import CARDINAL, read_number
from lickwright.terms.units import ADJECTIVES, UNIT, read_unit

_NUMBER = re.compile(rf"(?i)(?<![\w-])(?P<number>{CARDINAL}) {ADJECTIVES}{{0,2}}$")
_NAMES_ONE = re.compile(
    r"(?i)\b(?:bars?|measures?|beats?|frets?|strings?|fingers?|positions?|ending|of|of the|of these"
    r"|of those|or|to|and|other|another) $"
)
"""What a number may belong to instead, or count a part of: ``fret 5``, ``one of the two``, ``one or two``."""
_COUNTED = re.compile(rf"(?i){ADJECTIVES}{{0,2}}(?P<unit>{UNIT})")

_FRETS = re.compile(
    rf",? (?:covers?|spans?|crosses|goes|moves|travels|takes|is|are)(?: (?:up|down|over|across|only|just))*"
    rf" (({CARDINAL}|an?) frets?)\b(?! (?:higher|lower|up|down|above|below|away|apart|from)\b)"
)
_FRETS_APART = re.compile(rf", (({CARDINAL}) frets?)(?=[,;:.!)]|$)")


def claim_numbered(sentence: Sentence) -> Iterator[Claim]:
    """Yield how many of a thing a link is said to have: none where a number is a place, or one of several."""
    for link in sentence.links:
        number = _NUMBER.search(sentence.text[: link.start])
        counted = _COUNTED.fullmatch(link.words)
        unit = read_unit(counted["unit"]) if counted is not None else None
        if number is None or unit is None or _NAMES_ONE.search(sentence.text[: number.start()]):
            continue
        start, end = number.span("number")
        value = read_number(number["number"])
        if value is None or value < 2:
            continue
        term = Term("count", Count(value, unit), start, end, number["number"])
        if not sentence.denied(term):
            yield Claim("count", link, (term,), inside=False)


def claim_covered(sentence: Sentence) -> Iterator[Claim]:
    """Yield how far a link is said to go: ``[the slide] covers two frets``, ``[a slide], five frets``."""
    for link in sentence.links:
        slid = any(t.kind == "technique" for t in find_terms(link.words, head=False))
        found = _FRETS.match(sentence.text, link.end) or (
            _FRETS_APART.match(sentence.text, link.end) if slid else None
        )
        number = read_number(found[2]) if found is not None else None
        if found is None or number is None:
            continue
        term = Term("count", Count(number, "fret"), found.start(1), found.end(1), found[1])
        if not sentence.denied(term):
            yield Claim("count", link, (term,), inside=False)
