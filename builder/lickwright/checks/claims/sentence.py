"""A sentence that carries links, with the words of the trade that stand outside them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from lickwright.checks.claims.term import Numbers, Term
from lickwright.model.course import LickLink
from lickwright.terms.notes import NOTE

CLAUSE = re.compile(r"[,;:.!?()—–]")
"""What parts clauses."""
ARTICLE = r"(?:(?:the|a|an|its|your|their) )?"
"""Pattern of what may stand before a noun."""
KEY_FRAME = re.compile(rf"(?:^|[,;:] |\band )[Ii]n ((?:the key of )?{NOTE}(?: (?:major|minor))?)(?:,| )")
"""``In the key of A, …``: what the rest of the sentence counts from."""
_JOINED = re.compile(r",? (?:to|and|through) (?:in )?")


@dataclass(frozen=True)
class Sentence:
    """A sentence.

    Attributes:
        text: All of it.
        links: In it, in order.
        outside: The terms outside the links, in order.
    """

    text: str
    links: Sequence[LickLink]
    outside: Sequence[Term]

    def gap(self, one: int, two: int) -> str:
        """The words between two places."""
        return self.text[one:two]

    def before(self, place: int) -> LickLink | None:
        """The last link that ends before a place."""
        return next((link for link in reversed(self.links) if link.end <= place), None)

    def after(self, place: int) -> LickLink | None:
        """The first link that begins after a place."""
        return next((link for link in self.links if link.start >= place), None)

    @cached_property
    def bars(self) -> list[Term]:
        """The bars that are named; ``from bar 2 to bar 3``, ``bar 2 and bar 3`` are one stretch."""
        found: list[Term] = []
        for term in self.outside:
            last = found[-1] if found else None
            if term.kind != "bar" or not isinstance(term.value, Numbers):
                continue
            if (
                last is not None
                and isinstance(last.value, Numbers)
                and _JOINED.fullmatch(self.gap(last.end, term.start))
            ):
                both = Numbers(min(last.value.first, term.value.first), max(last.value.last, term.value.last))
                found[-1] = replace(last, value=both, end=term.end, text=self.text[last.start : term.end])
            else:
                found.append(term)
        return found

    def denied(self, term: Term) -> bool:
        """Whether a hedge stands in the term's clause, before it."""
        marks = [found.end() for found in CLAUSE.finditer(self.text, 0, term.start)]
        begin = marks[-1] if marks else 0
        return any(t.kind == "hedge" and begin <= t.start < term.start for t in self.outside)
