"""Words outside the links that say where a line begins, and which way it goes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from lickwright.checks.claims.aimed import led_by
from lickwright.checks.claims.claim import Claim
from lickwright.checks.claims.lexer import find_terms
from lickwright.checks.claims.sentence import ARTICLE, CLAUSE, Sentence
from lickwright.checks.claims.term import Numbers, Term
from lickwright.model.address import Address, AddressRange
from lickwright.model.course import LickLink

_CHORDS = ("chord", "note", "numeral", "tonality")
_OVER = re.compile(r"(?i)\b(?:over|on) (?:the )?$")
_STANDING = frozenset({"degree", "note", "string", "fret", "finger"})
_AND = re.compile(r"^[^,;:.]* and (?:it )?$")
_ITS = re.compile(r",?(?: (?:it|(?:the|this|its|your|a) [\w-]+))?(?: (?:also|then|always|again))? ")
"""Between a part and what it does: ``bar 2 begins``, ``in bar 2 the melody begins``."""
_START = re.compile(rf"(?i)\b(begin|start|end|finish|close)(?:s|es|ing)? {ARTICLE}$")
_ON = re.compile(rf" (?:on|with) {ARTICLE}")
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


def claim_boundary(sentence: Sentence, term: Term) -> Iterator[Claim]:
    """``it begins on [A]``, ``bar 2 ends with [C]``; ``it begins on A`` of a lick linked as a whole."""
    about = _part(sentence, term)
    link = sentence.after(term.end)
    follows = next((t for t in sentence.outside if t.start >= term.end), None)
    over = term.text.casefold().endswith("over")
    if link is not None and not over and _BEFORE_LINK.fullmatch(sentence.gap(term.end, link.start)):
        if link.at is not None and not link.at.whole_bars:
            yield Claim("boundary", link, (term,), about, inside=False)
        elif (target := _first_word(link)) is not None:
            yield Claim("boundary", link, (term, target), inside=False)
    elif follows is not None and follows.kind in (_CHORDS if over else ("note",)):
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


def _part(sentence: Sentence, term: Term) -> Term | None:
    """The part that begins or ends: ``bar 2 begins``, ``in bar 2 it begins``, ``over D7 it begins``."""
    before = [t for t in (*sentence.bars, *sentence.outside) if t.end <= term.start]
    for part in sorted(before, key=lambda t: t.start, reverse=True):
        over = part.kind in ("chord", "note") and _OVER.search(sentence.text[: part.start])
        if (part.kind == "bar" or over) and _ITS.fullmatch(sentence.gap(part.end, term.start)):
            return part
    other = next(
        (t for t in reversed(sentence.outside) if t.kind == "boundary" and t.end <= term.start), None
    )
    if other is not None and _AND.search(sentence.gap(other.end, term.start)):
        return _part(sentence, other)  # "over D it starts on F sharp and ends on A"
    return None


def claim_started(sentence: Sentence) -> Iterator[Claim]:
    """``start [the lick] on the third``: what stands first or last, around the link."""
    for link in sentence.links:
        verb = _START.search(sentence.text[: link.start])
        on = _ON.match(sentence.text, link.end)
        target = next((t for t in sentence.outside if on is not None and t.start == on.end()), None)
        if (
            verb is None
            or target is None
            or target.kind not in ("degree", "note", "string", "fret", "finger")
        ):
            continue
        which = "last" if verb[1].casefold().startswith(("end", "finish", "clos")) else "first"
        term = Term("boundary", which, verb.start(1), verb.end(1), verb[1])
        if not sentence.denied(term) and not sentence.denied(target):
            yield Claim("boundary", link, (term, target), inside=False)


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
        if led_by(sentence, first) is not None:
            continue  # it is the bend that goes there
        link = sentence.after(last.end) or sentence.before(first.start)
        if link is not None and not _is_one_sound(link):
            yield Claim("direction", link, (first, last), inside=False)
