"""Words outside the links that say where a line begins, which way it goes, and how far a bend does."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from lickwright.checks.claims.claim import Claim
from lickwright.checks.claims.lexer import find_terms
from lickwright.checks.claims.sentence import ARTICLE, CLAUSE, Sentence
from lickwright.checks.claims.term import Movement, Numbers, Term
from lickwright.model.address import Address, AddressRange
from lickwright.model.course import LickLink
from lickwright.terms.bends import DISTANCE, read_amount

_BEFORE_LINK = re.compile(rf" {ARTICLE}(?:(?!and\b|or\b)[\w’'-]+ ){{0,2}}")
_MULTI = re.compile(r"(?: (?:there|then|by steps?|by half steps?|step by step|again|slowly|alone))*[,:] ")
_NEXT = re.compile(rf" (?:[\w’'-]+ ){{0,3}}?(?:to|into) {ARTICLE}")
_FROM = re.compile(rf"(?i)\bfrom {ARTICLE}$")
_TO = re.compile(rf"(?: [\w’'-]+){{0,2}} (?:to|into) {ARTICLE}")
_MOVES = re.compile(
    r"(?i)\b(?:go|goes|gone|going|went|run|walk|move|climb|lead|step|slid|descend|ascend|come|coming|travel|pass"
    r"|drop|rise|rising|fall|shift|wander|jump|leap|skip|hammer|pull|roll|bend|line|way)(?:s|es|d|ed|ing)?\b"
)
_FROM_TO = re.compile(rf" to {ARTICLE}")
_BENDS = ("bend", "pre-bend")
_BEND_TO = re.compile(
    rf"(?: (?:it|up|back|all the way))*(?: (?:by )?an? (?P<size>{DISTANCE}))?(?: up)?"
    rf" (?:to|into|until) {ARTICLE}"
)
_BEND_BY = re.compile(rf"(?: (?:it|up))* (?:by )?an? (?P<size>{DISTANCE})\b")


def claim_boundary(sentence: Sentence, term: Term) -> Iterator[Claim]:
    """``it begins on [A]``, ``bar 2 ends with [C]``; ``it begins on A`` of a lick linked as a whole."""
    bars = [bar for bar in sentence.bars if bar.end <= term.start]
    about = bars[-1] if bars and len(sentence.gap(bars[-1].end, term.start).split()) < 2 else None
    link = sentence.after(term.end)
    follows = next((t for t in sentence.outside if t.start >= term.end), None)
    if link is not None and _BEFORE_LINK.fullmatch(sentence.gap(term.end, link.start)):
        if link.at is not None and not link.at.whole_bars:
            yield Claim("boundary", link, (term,), about, inside=False)
        elif (target := _first_word(link)) is not None:
            yield Claim("boundary", link, (term, target), inside=False)
    elif follows is not None and follows.kind == "note":
        near = sentence.before(term.start) or link
        if near is not None and _BEFORE_LINK.fullmatch(sentence.gap(term.end, follows.start)):
            value = about.value if about is not None else None
            at = (
                AddressRange(Address(value.first), Address(value.last))
                if isinstance(value, Numbers)
                else None
            )
            if near.at is None or near.at.whole_bars or at is not None:
                yield Claim("boundary", replace(near, at=at or near.at), (term, follows), inside=False)


def _first_word(link: LickLink) -> Term | None:
    """The first term of a link's words, where it stands in the sentence, if it is a note."""
    inside = find_terms(link.words, head=False)
    if not inside or inside[0].kind != "note":
        return None
    return replace(inside[0], start=inside[0].start + link.start, end=inside[0].end + link.start)


def _is_one_sound(link: LickLink) -> bool:
    return link.at is not None and link.at.first == link.at.last and not link.at.whole_bars


def claim_direction(sentence: Sentence, term: Term) -> Iterator[Claim]:
    """``[the line] descends``, ``it climbs, [A, B, C]``, ``[A] falls to [G sharp]``."""
    one, two = sentence.before(term.start), sentence.after(term.end)
    subject = one is not None and re.fullmatch(
        r",?(?: (?:which|that|then|now|slowly|only|all|both))*", sentence.gap(one.end, term.start).rstrip()
    )
    if two is not None and two.at is not None:
        gap = sentence.gap(term.end, two.start)
        if one is not None and subject and one.at is not None and _NEXT.fullmatch(gap):
            yield Claim("direction", one, (term,), others=(two,), inside=False)
            return
        if not subject and _MULTI.fullmatch(gap) and not _is_one_sound(two):
            yield Claim("direction", two, (term,), inside=False)
            return
    if one is not None and subject and not _is_one_sound(one):
        yield Claim("direction", one, (term,), inside=False)


def claim_bend(sentence: Sentence, term: Term) -> Iterator[Claim]:
    """``bend [E] up to the root``, ``bend [D] a whole step``: how far and where to, after the link."""
    said = term.value
    link = sentence.after(term.end)
    if not isinstance(said, Movement) or said.name not in _BENDS or link is None:
        return
    if not re.fullmatch(rf" (?:the note )?{ARTICLE}", sentence.gap(term.end, link.start)):
        return
    follows = next(
        (t for t in sentence.outside if t.start >= link.end and t.kind in ("degree", "note")), None
    )
    to = None if follows is None else _BEND_TO.fullmatch(sentence.gap(link.end, follows.start))
    by = to or _BEND_BY.match(sentence.text, link.end)
    size = read_amount(by["size"]) if by is not None and by["size"] else said.amount
    if size is None and to is None:
        return
    bend = replace(term, value=replace(said, amount=size))
    target = (follows,) if to is not None and follows is not None else ()
    yield Claim("bend-target", link, (bend, *target), inside=False)


def claim_from_to(sentence: Sentence) -> Iterator[Claim]:
    """``from [G] to [C]``, and ``from G to C`` beside a link: one before the other."""
    text = sentence.text
    for one, two in pairwise(sentence.links):
        led = _FROM.search(text, 0, one.start)
        if led is not None and not _MOVES.search(CLAUSE.split(text[: led.start()])[-1]):
            continue
        if led is not None and one.target == two.target and _TO.fullmatch(sentence.gap(one.end, two.start)):
            start, end = led.start(), led.start() + len("from")
            yield Claim(
                "direction",
                one,
                (Term("device", "from", start, end, text[start:end]),),
                others=(two,),
                inside=False,
            )
    for first, last in pairwise(t for t in sentence.outside if t.kind == "note"):
        if not _FROM.search(text, 0, first.start) or not _FROM_TO.fullmatch(
            sentence.gap(first.end, last.start)
        ):
            continue
        link = sentence.after(last.end) or sentence.before(first.start)
        if link is not None and not _is_one_sound(link):
            yield Claim("direction", link, (first, last), inside=False)
