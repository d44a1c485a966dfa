"""What a whole sentence claims of the lick it links to: capo, key, open strings, likeness to another."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from lickwright.checks.claims.claim import Claim
from lickwright.checks.claims.moved import read_move
from lickwright.checks.claims.term import Degree, Movement, Numbers, StringName, Term
from lickwright.model.course import LickLink
from lickwright.theory.pitch import PitchClass

_EVERY_OPEN = re.compile(r"(?i)\b(?:all|every|each)(?: (?:one )?of)?(?: the| its| your)?(?: [a-z]+)? $")
_BELONG = re.compile(
    r"(?i) (?:belongs?|is|are|lies?|fits?|sits?|serves?)(?: (?:all|at home))?"
    r" (?:to|in|with|inside|within)(?: the key of)? "
)
_CLAUSE = re.compile(r"[,;:.!?()—–]")
_CONTEXT = re.compile(r"(?i)\b(?:of|over|against|in|key|chord|like|called|between|towards?) (?:the |an? )?$")
_NOUNS = frozenset(
    {
        "hammer-on",
        "pull-off",
        "pre-bend",
        "unison-bend",
        "double-stop",
        "grace-note",
        "harmonic",
        "vibrato",
        "tremolo",
    }
    | {"trill", "rake", "palm-mute"}
)
"""Techniques whose name can hardly be a verb or another thing."""
_EXCEPT = re.compile(r"(?i),?(?: (?:all|everywhere))? (?:except|but|save|apart from)\b")
_MOVED = re.compile(r"(?i)\b(?:moved?|moves|shifted|shifts|slid) ")


def claim_sentence(text: str, links: Sequence[LickLink], outside: Sequence[Term]) -> Iterator[Claim]:
    """Yield what a sentence claims of the one lick it links to, or of two that it compares."""
    hedged = any(
        term.kind == "hedge" and term.text.casefold() not in ("except", "but for") for term in outside
    )
    targets = {link.target for link in links}
    whole: list[Claim] = []
    if len(targets) == 1 and not hedged:
        whole += (*_setting(links[0], outside), *_open_strings(text, links[0], outside))
    yield from whole
    told = {term.start for claim in whole for term in claim.terms}
    for term in (_elided(text, term) for term in outside if term.start not in told):
        if _mentions(text, term, outside) or _speaks(text, term, outside):
            about, beside = _bar_of(text, term, outside), _said_of(text, term, outside)
            others = tuple(links[1:])
            yield Claim("mention", links[0], (term,), about, beside, others, inside=False)
    if len(links) > 1 and not hedged:
        yield from _likeness(text, links)


def _mentions(text: str, term: Term, outside: Sequence[Term]) -> bool:
    """Whether a note, string, fret or technique is named for itself, and neither denied nor supposed."""
    before = _CLAUSE.split(text[: term.start])[-1]
    begin = term.start - len(before)
    if any(t.kind == "hedge" and begin <= t.start < term.start for t in outside):
        return False
    match term.value:
        case PitchClass():
            return term.kind == "note" and not _CONTEXT.search(before)
        case StringName(number, None, _):
            return number is not None
        case Numbers(first, last):
            return term.kind == "fret" and first == last
        case Movement():
            return term.text.casefold().replace(" ", "-").removesuffix("s") in _NOUNS
        case _:
            return False


_IS_THE = re.compile(r" (?:is|was|becomes)(?: \w+)? (?:the|its) ")
_SPOKEN = frozenset(
    {"chord", "tonality", "degree", "count", "finger", "stroke", "position", "interval", "rhythm"}
)


_EXTENT = re.compile(
    r"(?i)\b(?:in|across|over|after|for|every|within|by|all|of|than)(?: the)?(?: (?:first|last|next))? $"
)
"""Before a count that says how long something takes: ``twice in two bars``."""
_FROM_THERE = re.compile(r"(?i)\b(?:over|under|above|below)(?: the)? $")
_NO_NOUN = re.compile(r"\s*(?:[,;:.!)]|$)| (?:with|and|of|on)\b")
_AT = re.compile(r"(?i)\bat the $")


def _elided(text: str, term: Term) -> Term:
    """``at the thirteenth`` leaves out the fret."""
    said = term.value
    if not _AT.search(text[: term.start]):
        return term
    if isinstance(said, Degree) and said.alter is None:
        return replace(term, kind="fret", value=Numbers(said.number, said.number))
    if isinstance(said, int) and term.kind == "ordinal" and _NO_NOUN.match(text, term.end):
        return replace(term, kind="fret", value=Numbers(said, said))
    return term


def _speaks(text: str, term: Term, outside: Sequence[Term]) -> bool:
    before = _CLAUSE.split(text[: term.start])[-1]
    begin = term.start - len(before)
    if any(t.kind == "hedge" and begin <= t.start < term.start for t in outside):
        return False
    if term.kind == "count" and _EXTENT.search(before):
        return False
    move = read_move(text) if term.kind == "interval" else None
    if move is not None and move.start <= term.start < move.end:
        return False  # how far the lick is moved
    degree = term.value
    if isinstance(degree, Degree) and (
        _FROM_THERE.search(before) or (degree.alter is None and degree.number in (2, 4))
    ):
        return False  # a distance from it; or the second of several things
    return term.kind in _SPOKEN


def _said_of(text: str, term: Term, outside: Sequence[Term]) -> Term | None:
    """The note that a degree is said of, both outside the links: ``D sharp is the leading tone``."""
    before = [t for t in outside if t.end <= term.start]
    if term.kind == "degree" and before and before[-1].kind == "note":
        return before[-1] if _IS_THE.fullmatch(text[before[-1].end : term.start]) else None
    return None


def _bar_of(text: str, term: Term, outside: Sequence[Term]) -> Term | None:
    """The bar that the sentence speaks of where a term stands: the one named last, or right after."""
    before = [t for t in outside if t.kind == "bar" and t.end <= term.start]
    after = next((t for t in outside if t.kind == "bar" and t.start >= term.end), None)
    if after is not None and re.fullmatch(
        r" (?:in|of|at the \w+ of) (?:the )?", text[term.end : after.start]
    ):
        return after
    return before[-1] if before else None


def _setting(link: LickLink, outside: Sequence[Term]) -> Iterator[Claim]:
    terms = tuple(term for term in outside if term.kind in ("capo", "shapes", "sounding"))
    for term in terms:
        yield Claim("sounding-key", link, (term,), inside=False)


def _open_strings(text: str, link: LickLink, outside: Sequence[Term]) -> Iterator[Claim]:
    for one, two in pairwise(outside):
        if one.kind != "string" or not one.text.casefold().startswith("open string"):
            continue
        gap = text[one.end : two.start]
        keyed = two.kind in ("tonality", "key", "note")
        if keyed and _EVERY_OPEN.search(text[: one.start]) and _BELONG.fullmatch(f"{gap.rstrip()} "):
            but = tuple(t for t in outside if t.start >= two.end and t.kind == "note")
            yield Claim("open-strings", link, (one, two, *but), inside=False)


def _likeness(text: str, links: Sequence[LickLink]) -> Iterator[Claim]:
    one, two, *rest = links
    between = text[one.end : two.start]
    found = re.fullmatch(
        r"(?i),? (?:is|are|has|have)(?: just| exactly| note for note)? (?:the )?(?:very )?same"
        r"(?: [\w-]+){0,3} as (?:in )?(?:the )?",
        between,
    )
    moved = re.fullmatch(r"(?i),? (?:is|are)(?: just| exactly)? (?:the )?", between)
    if found is None and moved is None:
        return
    if moved is not None and not _MOVED.search(text[two.end :]) and not _EXCEPT.match(text, two.end):
        return
    if rest and not _EXCEPT.match(text, two.end):
        return
    yield Claim("same-as", one, (_verb(text, one, two),), others=(two, *rest), inside=False)


def _verb(text: str, one: LickLink, two: LickLink) -> Term:
    """The words that say the likeness, to be marked."""
    start = one.end + len(text[one.end : two.start]) - len(text[one.end : two.start].lstrip(", "))
    end = two.start - (len(text[one.end : two.start]) - len(text[one.end : two.start].rstrip()))
    return Term("device", "same", start, end, text[start:end])
