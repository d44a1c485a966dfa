"""What a link's own words claim of its notes."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from lickwright.checks.claims.article import heads
from lickwright.checks.claims.claim import Claim, ClaimKind
from lickwright.checks.claims.lexer import find_terms, is_doubtful
from lickwright.checks.claims.term import Movement, Numbers, StringName, Term, TermKind
from lickwright.model.course import LickLink
from lickwright.terms.motion import BOUNDARY

_CONTEXT = re.compile(r"(?i)\b(?:of|over|against|above|below|than|under|behind|in|into) (?:the |an? )?$")
_IN = re.compile(r"(?i)\bin (?:the )?$")
_AT = re.compile(r"(?i)\bat the $")
_ON_NOTE = re.compile(r"[A-G]\b.*\bon the $")
_AT_AN_END = re.compile(rf"(?i)\b{BOUNDARY} the $")
_FRET_OF = re.compile(r"(?i)\bfret (?:of|on) the $")
_OPEN = re.compile(r"(?i)\bopen $")
_TO = re.compile(r"(?i)\b(?:to|reaches?|hits|up to) (?:the )?$")
_ON_THE = re.compile(r"(?i)\bon (?:the )?$")
_BENT = ("bend", "pre-bend", "unison bend", "oblique bend", "behind-the-nut bend")

_SIMPLE: dict[TermKind, ClaimKind] = {
    "position": "position",
    "finger": "finger",
    "stroke": "stroke",
    "count": "count",
    "bar": "bar",
    "ending": "bar",
    "direction": "direction",
    "extreme": "direction",
    "rhythm": "rhythm",
    "tuning": "tuning",
    "interval": "interval",
    "quality": "chord",
    "scale": "scale",
    "device": "scale",
    "key": "key",
    "numeral": "numeral",
}
"""Terms that make a claim each by themselves."""


def claim_words(link: LickLink, about: Term | None = None) -> tuple[Claim, ...]:
    """Return the claims of a link's words.

    Args:
        link: With its words.
        about: A chord or note that follows the link after ``of``: ``[the third](…) of A7``.
    """
    head = heads(link.passage.text, link.start)
    if not (head and is_doubtful(link.words)):
        return _claims(link, find_terms(link.words, head=head), about)
    readings = {"note": find_terms(link.words, letter=True), "article": find_terms(link.words)}
    return tuple(
        replace(claim, reading=reading)
        for reading, terms in readings.items()
        for claim in _claims(link, terms, about)
    )


def _claims(link: LickLink, terms: Sequence[Term], about: Term | None) -> tuple[Claim, ...]:
    """What the words claim up to the first that takes it back."""
    hedge = next((i for i, term in enumerate(terms) if term.kind == "hedge"), len(terms))
    return tuple(_Phrase(link, terms[:hedge], about).claims())


class _Phrase:
    def __init__(self, link: LickLink, terms: Sequence[Term], about: Term | None) -> None:
        self.link = link
        self.words = link.words
        self.terms = [self.elided(term) for term in terms]
        context = [
            t for t in self.terms if t.kind in ("chord", "note", "tonality", "key") and self.led(t, _CONTEXT)
        ]
        degrees = [t for t in self.terms if t.kind == "degree"]
        self.context = [t for t in context if t.kind != "note" or (degrees and degrees[0].start < t.start)]
        self.context += [
            t for t in context if t.kind == "note" and self.led(t, _OVER) and t not in self.context
        ]
        self.about = self.context[0] if self.context else about
        self.notes = [t for t in map(_open_note, self.terms) if t.kind == "note" and t not in self.context]

    def led(self, term: Term, words: re.Pattern[str]) -> bool:
        return bool(words.search(self.words[: term.start]))

    def elided(self, term: Term) -> Term:
        """``B at the fourth`` leaves out the fret, ``F sharp on the first`` the string."""
        if term.kind not in ("degree", "ordinal"):
            return term
        number = _ordinal(term)
        if number is None:
            return term
        noun = _NOUN.match(self.link.passage.text, self.link.end) if term.end == len(self.words) else None
        if noun is not None:  # "[the third](…) string"
            number_of: dict[str, Term] = {
                "fret": replace(term, kind="fret", value=Numbers(number, number)),
                "string": replace(term, kind="string", value=StringName(number)),
            }
            return number_of.get(noun[1], replace(term, kind="ordinal", value=number))
        if self.led(term, _AT):
            return replace(term, kind="fret", value=Numbers(number, number))
        if self.led(term, _OPEN):
            return replace(term, kind="string", value=StringName(number, open=True))
        noted = self.led(term, _ON_NOTE) and not self.led(term, _AT_AN_END)
        if self.led(term, _FRET_OF) or (noted and term.end == len(self.words)):
            return replace(term, kind="string", value=StringName(number))
        return term

    def place(self, term: Term) -> Term:
        return replace(term, start=term.start + self.link.start, end=term.end + self.link.start)

    def claim(
        self, kind: ClaimKind, *terms: Term, about: Term | None = None, beside: Term | None = None
    ) -> Claim:
        placed = tuple(map(self.place, terms))
        if about is not None and about in self.context:
            about = self.place(about)
        return Claim(kind, self.link, placed, about, None if beside is None else self.place(beside))

    def beside(self, term: Term) -> Term | None:
        """The note nearest before a term, else the only note; none for an open string that is one itself."""
        if isinstance(term.value, StringName) and term.value.note is not None:
            return None
        before = [note for note in self.notes if note.end <= term.start]
        return before[-1] if before else self.notes[0] if len(self.notes) == 1 else None

    def claims(self) -> Iterator[Claim]:
        if self.notes:
            yield self.claim("pitch", *self.notes)
            yield self.claim("spelling", *self.notes)
        yield from self.places()
        ringing = any(term.kind == "ringing" for term in self.terms)
        targets: list[Term] = []
        for term in self.terms:
            if term.kind in _SIMPLE:
                yield self.claim(_SIMPLE[term.kind], term)
            elif term.kind == "beat" and self.led(term, _ON_THE):
                yield self.claim("bar", term)
            elif term.kind in ("string", "fret"):
                yield self.claim(
                    "string" if term.kind == "string" else "fret", term, beside=self.beside(term)
                )
            elif term.kind == "chord" and term not in self.context:
                yield self.claim("ring-off" if ringing else "chord", term)
            elif term.kind == "tonality":
                if self.led(term, _IN):
                    yield self.claim("key", term)
                elif term not in self.context:
                    yield self.claim("ring-off" if ringing else "chord", term)
            elif isinstance(term.value, Movement):
                target = self.target(term) if term.value.name in _BENT else None
                if target is not None:
                    targets.append(target)
                if target is not None or term.value.amount is not None:
                    yield self.claim(
                        "bend-target", *([term] if target is None else [term, target]), about=self.about
                    )
                else:
                    yield self.claim("technique", term, *(self.notes if self.leads() else ()))
        degrees = [t for t in self.terms if t.kind == "degree" and t not in targets]
        if degrees:
            beside = self.notes[0] if len(self.notes) == 1 and len(degrees) == 1 else None
            yield self.claim("degree", *degrees, about=self.about, beside=beside)

    def places(self) -> Iterator[Claim]:
        """What stands first or last: ``starting on C``; ``from G to C`` where nothing else leads there."""
        for edge in (t for t in self.terms if t.kind == "boundary" and t.text.casefold().endswith(" note")):
            bar = next((t for t in self.terms if t.kind == "bar" and t.start >= edge.end), None)
            yield self.claim("boundary", edge, about=None if bar is None else self.place(bar))
        for verb, target in pairwise(self.terms):
            if verb.kind == "boundary" and _STANDS.fullmatch(self.words[verb.end : target.start]):
                yield self.claim("boundary", verb, target)
        if any(isinstance(term.value, Movement) for term in self.terms):
            return
        for one, two in pairwise(self.notes):
            led = self.led(one, _FROM) and not any(t.kind == "boundary" for t in self.terms)
            if led and _TO_NOTE.fullmatch(self.words[one.end : two.start]) and two is self.notes[-1]:
                yield self.claim("direction", one, two)

    def leads(self) -> bool:
        """Whether the words say where a technique comes from and where it goes: notes on both sides of to."""
        to = _GOES.search(self.words)
        return (
            to is not None
            and any(n.end <= to.start() for n in self.notes)
            and any(n.start >= to.end() for n in self.notes)
        )

    def target(self, term: Term) -> Term | None:
        """The degree that a bend goes to: ``bend it up to the root``."""
        return next(
            (t for t in self.terms if t.kind == "degree" and t.start >= term.end and self.led(t, _TO)), None
        )


_NOUN = re.compile(r" (string|fret|finger|note|bar|beat|time|position|sound|one)s?\b")
_GOES = re.compile(r"(?i) (?:to|into) ")
_STANDS = re.compile(r" (?:(?:the|a|an|its) )?(?:(?:low|high|open|lowest|highest) )?")
_FROM = re.compile(r"(?i)\bfrom (?:the )?(?:low |high )?$")
_TO_NOTE = re.compile(r" (?:up |down )?to (?:the )?(?:low |high )?")
_OVER = re.compile(r"(?i)\b(?:over|against|above|below|under|than) (?:the |an? )?$")


def _ordinal(term: Term) -> int | None:
    """The number of an ordinal, whether or not it may be a degree too."""
    if isinstance(term.value, int):
        return term.value
    number = getattr(term.value, "number", None)
    plain = getattr(term.value, "alter", 0) is None
    return number if plain and isinstance(number, int) else None


def _open_note(term: Term) -> Term:
    """``open D`` names a note as well as a string."""
    value = term.value
    if not isinstance(value, StringName) or value.note is None or not value.open:
        return term
    return term if "string" in term.text.casefold() else replace(term, kind="note", value=value.note)
