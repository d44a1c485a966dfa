"""A claim: what some words say about the notes of a link; and what comes of holding it against them."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from lickwright.checks.claims.term import Term
from lickwright.findings import Severity
from lickwright.model.address import Address
from lickwright.model.course import LickLink
from lickwright.text import Span

ClaimKind = Literal[
    "pitch",
    "spelling",
    "chord",
    "ring-off",
    "technique",
    "bend-target",
    "degree",
    "string",
    "fret",
    "position",
    "finger",
    "stroke",
    "count",
    "bar",
    "boundary",
    "direction",
    "rhythm",
    "tuning",
    "interval",
    "scale",
    "key",
    "numeral",
    "sounding-key",
    "open-strings",
    "same-as",
    "mention",
]
"""The kinds, in the order in which they are judged; the rule ``prose/KIND`` holds the judge."""

KINDS: tuple[ClaimKind, ...] = ClaimKind.__args__  # type: ignore[attr-defined]


@dataclass(frozen=True, slots=True)
class Claim:
    """What words say about notes.

    Attributes:
        kind: Which rule judges it.
        link: The link whose notes are meant.
        terms: What is said, in order; places count in the link's passage.
        about: What it counts from, where that is said: the chord or the note after ``of`` or ``over``.
        beside: The note that is named with it: ``A`` in ``A on the third string``.
        others: Further links: what it compares with, or the rest of the sentence's.
        inside: Whether the link's own words say it.
        reading: Which reading of the words makes it, where there are two: ``note`` or ``article``.
    """

    kind: ClaimKind
    link: LickLink
    terms: tuple[Term, ...]
    about: Term | None = None
    beside: Term | None = None
    others: tuple[LickLink, ...] = ()
    inside: bool = True
    reading: str = ""

    def span(self, term: Term | None = None) -> Span:
        """Where the claim, or one term of it, stands in the file."""
        if term is not None:
            return self.link.passage.span(term.start, term.end)
        return self.link.passage.span(*self._extent)

    @property
    def _extent(self) -> tuple[int, int]:
        return min(term.start for term in self.terms), max(term.end for term in self.terms)

    @property
    def words(self) -> str:
        """The words of the claim."""
        start, end = self._extent
        return self.link.passage.text[start:end]


@dataclass(frozen=True, slots=True)
class Held:
    """The notes are what the words say."""


@dataclass(frozen=True, slots=True)
class Differs:
    """The notes are something else.

    Attributes:
        message: What the words say and what the notes are.
        term: The words to mark; None for all of the claim.
        help: What to look at.
        severity: Where it is less than the rule's.
        address: The sound it is about; None for where the link begins.
        write: What to write in the place of the term, if there is exactly one thing.
    """

    message: str
    term: Term | None = None
    help: str = ""
    severity: Severity | None = None
    address: Address | None = None
    write: str = field(default="")


@dataclass(frozen=True, slots=True)
class Unresolved:
    """The words say something that these notes cannot tell: why."""

    why: str


Verdict = Held | Differs | Unresolved
HELD = Held()
