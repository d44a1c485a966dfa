"""Words outside the links that are tied to one by their grammar, or to a bar that they name.

``in bar 3`` says where the next link leads, ``it begins on`` what it is, ``bar 4 is over C7`` what stands in
a bar that no link leads to, ``it is in the key of D`` something of the whole lick.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from lickwright.checks.claims.claim import Claim, ClaimKind
from lickwright.checks.claims.lexer import find_terms
from lickwright.checks.claims.term import Movement, Numbers, Term, TermKind
from lickwright.model.address import Address, AddressRange
from lickwright.model.course import LickLink
from lickwright.terms.bends import DISTANCE, read_amount

_ARTICLE = r"(?:(?:the|a|an|its|your|their) )?"
_STOP = re.compile(r"[;.!?()]")
_CLAUSE = re.compile(r"[,;:.!?()—–]")
_AT_BAR = re.compile(
    r" (?:(?:which |that )?(?:is|are|comes?|falls?|lies?|stands?|sits?) )?(?:(?:here|there|right|struck) )?"
    r"(?:(?:at|on|in|for) the (?:head|start|end|top|beginning|middle|close|[\w-]+ (?:half|beat)) )?"
    r"(?:of|in) (?:the )?"
)
"""What may stand between a link and the bar that it is said to be in: ``[E] on the first beat of bar 4``."""
_BAR_HAS = re.compile(
    r",?(?: (?:is|are|was|has|have|holds?|lies?|sits?|stands?|goes|moves|stays|begins|starts|changes|takes"
    r"|brings|belongs|there (?:is|are)))(?: (?:still|only|all|just|again|also|now|then))*"
    rf"(?: (?:over|on|in|to|with))? {_ARTICLE}|,? over {_ARTICLE}| {_ARTICLE}"
)
"""What may stand between a bar and what it is said to hold: ``bar 4 is over C7``, ``bar 3 descends``."""
_JOINED = re.compile(r",? (?:to|and|through) (?:in )?")
_IN_BAR = re.compile(r" (?:in|of) (?:the )?")
_HELD_BY_BAR: dict[TermKind, ClaimKind] = {
    "chord": "chord",
    "tonality": "chord",
    "count": "count",
    "numeral": "numeral",
    "rhythm": "rhythm",
    "direction": "direction",
    "position": "position",
}
"""What a bar may be said to hold, and which rule judges it."""
_HAS = re.compile(
    r"(?: (?:also|still|then|only|just))*,?"
    r" (?:is|are|has|have|holds?|takes?|counts?|comes? to|needs?|uses?|makes?)"
    rf"(?: (?:only|just|all|exactly|but))* {_ARTICLE}"
)
_SUBJECT = re.compile(
    rf"(?i)^\W*(?:so |and |but |then )*(?:it|(?:the|this) (?:whole )?(?:lick|phrase|tune)){_HAS.pattern}$"
)
_LISTED = re.compile(rf"(?: (?:in|of) [\w ]+)?[,:] {_ARTICLE}")
_BEFORE_LINK = re.compile(rf" {_ARTICLE}(?:(?!and\b|or\b)[\w’'-]+ ){{0,2}}")
_IN_KEY = re.compile(
    r"(?i)\b(?:is|are|was|stays?|lies|written|set|goes) (?:still |all |now |written |played )?in (?:the )?$"
)
_MULTI = re.compile(r"(?: (?:there|then|by steps?|by half steps?|step by step|again|slowly|alone))*[,:] ")
_NEXT = re.compile(rf" (?:[\w’'-]+ ){{0,3}}?(?:to|into) {_ARTICLE}")
_FROM = re.compile(rf"(?i)\bfrom {_ARTICLE}$")
_TO = re.compile(rf"(?: [\w’'-]+){{0,2}} (?:to|into) {_ARTICLE}")
_MOVES = re.compile(
    r"(?i)\b(?:go|goes|gone|going|went|run|walk|move|climb|lead|step|slid|descend|ascend|come|coming|travel|pass"
    r"|drop|rise|rising|fall|shift|wander|jump|leap|skip|hammer|pull|roll|bend|line|way)(?:s|es|d|ed|ing)?\b"
)
_FROM_TO = re.compile(rf" to {_ARTICLE}")
_BENDS = ("bend", "pre-bend")
_BEND_TO = re.compile(
    rf"(?: (?:it|up|back|all the way))*(?: (?:by )?an? (?P<size>{DISTANCE}))?(?: up)?"
    rf" (?:to|into|until) {_ARTICLE}"
)
_BEND_BY = re.compile(rf"(?: (?:it|up))* (?:by )?an? (?P<size>{DISTANCE})\b")


@dataclass(frozen=True)
class _Sentence:
    text: str
    links: Sequence[LickLink]
    outside: Sequence[Term]

    def gap(self, one: int, two: int) -> str:
        return self.text[one:two]

    def before(self, place: int) -> LickLink | None:
        return next((link for link in reversed(self.links) if link.end <= place), None)

    def after(self, place: int) -> LickLink | None:
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
        marks = [found.end() for found in _CLAUSE.finditer(self.text, 0, term.start)]
        begin = marks[-1] if marks else 0
        return any(t.kind == "hedge" and begin <= t.start < term.start for t in self.outside)


def claim_tied(text: str, links: Sequence[LickLink], outside: Sequence[Term]) -> Iterator[Claim]:
    """Yield what the words outside the links claim of one, or of a bar.

    Args:
        text: The sentence.
        links: In it.
        outside: The terms outside the links, in order.
    """
    sentence = _Sentence(text, links, outside)
    bars = sentence.bars
    others = [term for term in outside if term.kind != "bar"]
    for term in sorted((*bars, *others), key=lambda term: term.start):
        if sentence.denied(term):
            continue
        match term.kind:
            case "bar" | "ending":
                yield from _bar(sentence, term)
            case "boundary":
                yield from _boundary(sentence, term)
            case "direction":
                yield from _direction(sentence, term)
            case "key":
                yield from _whole(sentence, "key", term)
            case "tonality" if _IN_KEY.search(text[: term.start]):
                yield from _whole(sentence, "key", term)
            case "tuning":
                yield from _whole(sentence, "tuning", term)
            case "count":
                yield from _count(sentence, term)
            case "technique":
                yield from _bend(sentence, term)
            case _:
                pass
        if term.kind in _HELD_BY_BAR:
            yield from _in_bar(sentence, term)
    yield from _from_to(sentence)


def _bar(sentence: _Sentence, term: Term) -> Iterator[Claim]:
    """``in bar 3`` and the link that it governs: the one before that is said to be in it, else the next."""
    link = sentence.before(term.start)
    if link is not None and _AT_BAR.fullmatch(sentence.gap(link.end, term.start)):
        yield Claim("bar", link, (term,), inside=False)
        return
    link = sentence.after(term.end)
    if link is None:
        return
    between = sentence.gap(term.end, link.start)
    another = any(term.end <= t.start < link.start for t in sentence.outside if t.kind in ("bar", "ending"))
    if not another and not _STOP.search(between) and not between.lstrip().startswith("of "):
        yield Claim("bar", link, (term,), inside=False)


def _in_bar(sentence: _Sentence, term: Term) -> Iterator[Claim]:
    """What a bar is said to hold, whether or not a link leads there."""
    for bar in sentence.bars:
        value = bar.value
        ahead = bar.end <= term.start and _BAR_HAS.fullmatch(sentence.gap(bar.end, term.start))
        behind = (
            term.end <= bar.start
            and term.kind != "count"
            and _IN_BAR.fullmatch(sentence.gap(term.end, bar.start))
        )
        if isinstance(value, Numbers) and (ahead or behind):
            link = sentence.after(bar.start) or sentence.before(bar.start)
            if link is not None:
                at = AddressRange(Address(value.first), Address(value.last))
                yield Claim(_HELD_BY_BAR[term.kind], replace(link, at=at), (term,), inside=False)
                return


def _boundary(sentence: _Sentence, term: Term) -> Iterator[Claim]:
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


def _direction(sentence: _Sentence, term: Term) -> Iterator[Claim]:
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
        if not subject and _MULTI.fullmatch(gap) and two.at.first != two.at.last:
            yield Claim("direction", two, (term,), inside=False)
            return
    if one is not None and subject and (one.at is None or one.at.first != one.at.last or one.at.whole_bars):
        yield Claim("direction", one, (term,), inside=False)


def _whole(sentence: _Sentence, kind: ClaimKind, term: Term) -> Iterator[Claim]:
    """Something of the one lick that the sentence links to."""
    if len({link.target for link in sentence.links}) == 1:
        yield Claim(kind, replace(sentence.links[0], at=None), (term,), inside=False)


def _count(sentence: _Sentence, term: Term) -> Iterator[Claim]:
    """``[the lick] has seven notes``, ``it has seven notes``, ``three notes, [A, B, C]``."""
    link = sentence.before(term.start)
    if link is not None and _HAS.fullmatch(sentence.gap(link.end, term.start)):
        yield Claim("count", link, (term,), inside=False)
        return
    if _SUBJECT.match(sentence.text[: term.start]) and len({x.target for x in sentence.links}) == 1:
        yield Claim("count", replace(sentence.links[0], at=None), (term,), inside=False)
        return
    link = sentence.after(term.end)
    if link is not None and _LISTED.fullmatch(sentence.gap(term.end, link.start)):
        yield Claim("count", link, (term,), inside=False)


def _bend(sentence: _Sentence, term: Term) -> Iterator[Claim]:
    """``bend [E] up to the root``, ``bend [D] a whole step``: how far and where to, after the link."""
    said = term.value
    link = sentence.after(term.end)
    if not isinstance(said, Movement) or said.name not in _BENDS or link is None:
        return
    if not re.fullmatch(rf" (?:the note )?{_ARTICLE}", sentence.gap(term.end, link.start)):
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


def _from_to(sentence: _Sentence) -> Iterator[Claim]:
    """``from [G] to [C]``, and ``from G to C`` beside a link: one before the other."""
    text = sentence.text
    for one, two in pairwise(sentence.links):
        led = _FROM.search(text, 0, one.start)
        if led is not None and not _MOVES.search(_CLAUSE.split(text[: led.start()])[-1]):
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
        if link is not None and not (link.at is not None and link.at.first == link.at.last):
            yield Claim("direction", link, (first, last), inside=False)
