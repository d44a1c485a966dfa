"""One word of a sentence changed into the next of its kind: what an absent-minded writer would type."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from lickwright.checks.claims.claim import Differs, Unresolved
from lickwright.checks.claims.ledger import judge_links
from lickwright.checks.claims.lexer import find_terms
from lickwright.checks.claims.term import Term
from lickwright.checks.survey import Survey
from lickwright.model.course import Course, LickLink
from lickwright.terms.numbers import CARDINALS, ORDINALS
from lickwright.text import Passage

_TURNS = {
    "hammer": "pull-off",
    "pull": "slide",
    "slid": "pull-off",
    "bend": "slide",
    "bent": "slid",
    "curl": "pre-bend",
    "vibrato": "tremolo",
    "tremolo": "vibrato",
    "rake": "trill",
    "triplet": "quintuplet",
    "downstroke": "upstroke",
    "upstroke": "downstroke",
    "downstrokes": "upstrokes",
    "down": "up",
    "up": "down",
    "ascend": "descending",
    "descend": "ascending",
    "climb": "descends",
    "fall": "climbs",
    "begin": "ends",
    "end": "begins",
    "start": "ends",
    "close": "begins",
    "opens": "ends",
    "alternate": "downstrokes",
    "root": "third",
    "tonic": "third",
    "key note": "third",
    "open": "",
    "low": "high",
    "high": "low",
    "major": "minor",
    "minor": "major",
    "ring": "little",
    "index": "ring",
    "little": "first",
    "thumb": "middle finger",
    "whole": "half",
    "half": "whole",
    "quarter": "whole",
    "double stop": "harmonic",
    "harmonic": "double stop",
    "grace note": "harmonic",
}
"""Words that no number or letter stands in, and what is written for them."""
_DEGREES = {
    "root": "third",
    "third": "fifth",
    "fifth": "sixth",
    "sixth": "fifth",
    "seventh": "third",
    "seven": "nine",
    "nine": "two",
    "ninth": "third",
    "fourth": "fifth",
    "second": "third",
    "tonic": "leading note",
    "leading tone": "tonic",
    "key note": "leading note",
}
_REST, _END = "[a-z-]*", r"\b"
_LETTER = re.compile(r"[A-G](?=\b|[b#♭♯]|m|maj|sus|dim|[0-9])")
_ORDINAL = re.compile(rf"(?i)\b(?:{'|'.join(sorted(ORDINALS[1:], key=len, reverse=True))})\b")
_CARDINAL = re.compile(rf"(?i)\b(?:{'|'.join(sorted(CARDINALS[1:], key=len, reverse=True))})\b")
_DIGITS = re.compile(r"\b[0-9]+\b")
_LAST = {"string": 6, "finger": 4}


def change(term: Term) -> str | None:
    """Return the term with one word changed, or None where nothing can be.

    A note goes to the next letter, a number to the next number (the last string to the one before it),
    a technique to another one.
    """
    text = term.text
    if term.kind == "degree":
        named = next((name for name in _DEGREES if re.search(rf"(?i)\b{name}\b", text)), None)
        return None if named is None else re.sub(rf"(?i)\b{named}\b", _DEGREES[named], text)
    if term.kind in ("note", "chord", "tonality", "key") or (term.kind == "string" and _LETTER.search(text)):
        return _LETTER.sub(lambda found: "ABCDEFGA"["ABCDEFG".index(found[0]) + 1], text, count=1)
    numbers = ((_ORDINAL, ORDINALS), (_CARDINAL, CARDINALS))
    for pattern, words in reversed(numbers) if term.kind == "count" else numbers:
        if found := pattern.search(text):
            number = words.index(found[0].lower())
            step = -1 if number >= _LAST.get(term.kind, len(words)) else 1
            return f"{text[: found.start()]}{words[number + step]}{text[found.end() :]}"
    if found := _DIGITS.search(text):
        return f"{text[: found.start()]}{int(found[0]) + 1}{text[found.end() :]}"
    for word, other in _TURNS.items():
        if found := re.search(rf"(?i)\b{word}{_REST if other else _END}", text):
            return f"{text[: found.start()]}{other}{text[found.end() :]}".strip()
    return None


def sentences(course: Course) -> Iterator[tuple[LickLink, ...]]:
    """The links of each sentence that carries any, in the order of study."""
    for lesson in (*course.lessons, *course.drafts):
        for _, group in groupby(lesson.links, key=lambda link: id(link.passage)):
            yield tuple(group)


def outcome(links: Sequence[LickLink], survey: Survey) -> str:
    """What comes of a sentence: ``found``, ``listed`` as not checked, or ``silent``."""
    verdicts = [judged.verdict for judged in judge_links(links, survey)]
    if any(isinstance(verdict, Differs) for verdict in verdicts):
        return "found"
    return "listed" if any(isinstance(verdict, Unresolved) for verdict in verdicts) else "silent"


def rewrite(links: Sequence[LickLink], term: Term, words: str) -> tuple[LickLink, ...]:
    """The links of the same sentence with other words in the place of a term."""
    text = links[0].passage.text
    passage = Passage(f"{text[: term.start]}{words}{text[term.end :]}")
    shift = len(words) - (term.end - term.start)
    changed = []
    for link in links:
        start = link.start + (shift if link.start >= term.end else 0)
        end = link.end + (shift if link.end >= term.end else 0)
        changed.append(replace(link, passage=passage, start=start, words=passage.text[start:end]))
    return tuple(changed)


def claimed(links: Sequence[LickLink], survey: Survey, kinds: Collection[str]) -> tuple[Term, ...]:
    """The terms of a sentence that claims of certain kinds are made of, each once."""
    terms: dict[tuple[int, int], Term] = {}
    for judged in judge_links(links, survey):
        claim = judged.claim
        if claim.kind in kinds:
            for term in claim.terms:
                terms.setdefault((term.start, term.end), term)
    return tuple(terms.values())


def unclaimed(links: Sequence[LickLink], survey: Survey) -> tuple[Term, ...]:
    """The words of the trade in a sentence that no claim is made of."""
    claims = [judged.claim for judged in judge_links(links, survey)]
    taken = [(t.start, t.end) for c in claims for t in (*c.terms, c.about, c.beside) if t is not None]
    found = find_terms(links[0].passage.text)
    return tuple(t for t in found if not any(a < t.end and t.start < b for a, b in taken))
