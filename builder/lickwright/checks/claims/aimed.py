"""Words outside the links that say how far a bend goes, and from where to where a technique leads."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from lickwright.checks.claims.claim import Claim
from lickwright.checks.claims.lexer import find_terms
from lickwright.checks.claims.sentence import ARTICLE, CLAUSE, Sentence
from lickwright.checks.claims.term import Count, Movement, Numbers, Term
from lickwright.model.address import Address, AddressRange
from lickwright.model.course import LickLink
from lickwright.terms.bends import DISTANCE, read_amount

_BENDS = ("bend", "pre-bend")
_PLACE = (
    r"(?:,? (?:at|on) the [\w-]+(?: (?!an?\b|up\b|to\b|until\b)[\w-]+){0,4},?)?"
    r"(?: from [A-G](?: (?:sharp|flat))?)?"
)
"""``at the seventh fret``, ``from D``, between the string and how far it is bent."""
_SIZE = rf"(?P<size>an? {DISTANCE})"
_SOUNDS = r"(?:sounds?|rings?|speaks?|becomes?|is|turns?|has become)\b(?: (?:as|like|into))?"
_IT = r"(?:it|the (?:note|string)|[A-G](?: (?:sharp|flat))?)"
_BEND_TO = re.compile(
    rf"{_PLACE}(?: (?:it|up|back|all the way))*(?: (?:by )?{_SIZE})?(?: up)?"
    rf",? (?:to|into|until|till) (?:{_IT} (?:{_SOUNDS} )?)?{ARTICLE}"
)
_BEND_BY = re.compile(rf"{_PLACE}(?: (?:it|up))* (?:by )?{_SIZE}\b")
_PUSHED = re.compile(rf"(?i)\b(?:push|pull)(?:es|s|ed|ing)?(?: (?:then|now))? {ARTICLE}$")
_UP_BY = re.compile(rf" up (?:by )?{_SIZE}\b")
_GOES = re.compile(
    r" (?:goes|leads|rises|comes|reaches|arrives|climbs)(?: (?:up|all the way|only|just))*"
    rf"(?: (?:to|at|on))? {ARTICLE}"
)
_BEGINS_TO_SOUND = re.compile(rf" {_SOUNDS}")
_FROM = re.compile(rf"(?:,? (?:up|down|back|in|on|over|that (?:goes|leads)|goes|go|leads?))* from {ARTICLE}$")
_ALSO = re.compile(rf"(?: and| then)?(?: from {ARTICLE}.*)")
_LED_FROM = re.compile(rf"(?: (?:up|down|back))? from {ARTICLE}")
_LED_TO = re.compile(rf"(?: (?:up|down|back|on|home))? (?:to|into) {ARTICLE}")
_BAR = re.compile(r",? (?:in|of) (?:the )?")


def claim_bend(sentence: Sentence, term: Term) -> Iterator[Claim]:
    """``bend [E] up to the root``, ``bend [D] a whole step``: how far and where to, after the link."""
    said = term.value
    link = sentence.after(term.end)
    if not isinstance(said, Movement) or said.name not in _BENDS or link is None:
        return
    if not re.fullmatch(rf" (?:the note )?{ARTICLE}", sentence.gap(term.end, link.start)):
        return
    target, to = _target(sentence, link)
    by = to or _BEND_BY.match(sentence.text[link.end :])
    if by is not None and by["size"]:
        term = _sized(
            sentence, said, link.end + by.start("size") - (by.pos if by is not to else 0), by["size"]
        )
    elif said.amount is None and to is None:
        return
    yield Claim("bend-target", link, (term, *target), inside=False)


def _target(sentence: Sentence, link: LickLink) -> tuple[tuple[Term, ...], re.Match[str] | None]:
    """What is said to be reached, after the link, and the words that lead there."""
    for term in sentence.outside:
        if term.start < link.end or term.kind not in ("degree", "note", "sounding"):
            continue
        if term.kind == "note" and _BEGINS_TO_SOUND.match(sentence.text, term.end):
            continue  # "until D sounds as E"
        lead = sentence.gap(link.end, term.start)
        if term.kind == "sounding":
            lead = re.sub(rf" {_IT} $", " ", lead)
        found = _BEND_TO.fullmatch(lead)
        note = replace(term, kind="note") if term.kind == "sounding" else term
        return ((note,), found) if found is not None else ((), None)
    return (), None


def _sized(sentence: Sentence, said: Movement, start: int, words: str) -> Term:
    """How far it is bent, where that stands."""
    article = len(words) - len(re.sub(r"^an? ", "", words))
    start, end = start + article, start + len(words)
    size = read_amount(words[article:])
    return Term("technique", replace(said, amount=size), start, end, sentence.text[start:end])


def claim_pushed(sentence: Sentence) -> Iterator[Claim]:
    """``push the [third string] up a half step``: a bend by another name."""
    for link in sentence.links:
        by = _UP_BY.match(sentence.text, link.end)
        if by is None or not _PUSHED.search(sentence.text[: link.start]):
            continue
        term = _sized(sentence, Movement("bend"), by.start("size"), by["size"])
        if not sentence.denied(term):
            yield Claim("bend-target", link, (term,), inside=False)


def claim_arriving(sentence: Sentence) -> Iterator[Claim]:
    """``[the bend] goes up to the root``: where the bend goes that a link ends with."""
    for link in sentence.links:
        last = next(iter(find_terms(link.words, head=False)[-1:]), None)
        if last is None or last.end != len(link.words) or not isinstance(last.value, Movement):
            continue
        goes = _GOES.match(sentence.text, link.end)
        target = next((t for t in sentence.outside if goes is not None and t.start == goes.end()), None)
        if target is None or target.kind not in ("degree", "note") or last.value.name not in _BENDS:
            continue
        term = replace(last, start=last.start + link.start, end=last.end + link.start)
        if not sentence.denied(target):
            yield Claim("bend-target", link, (term, target), inside=False)


def led_by(sentence: Sentence, note: Term) -> Term | None:
    """The technique that leads from a note, in its clause: ``the bend goes from D``."""
    clauses = CLAUSE.split(sentence.text[: note.start])
    begin = note.start - len(clauses.pop())
    while clauses and _ALSO.fullmatch(sentence.text[begin : note.start]):
        begin -= len(clauses.pop()) + 1  # "from E to F sharp, from G to A"
    found = [t for t in sentence.outside if begin <= t.start < note.start and _leads(t)]
    return found[-1] if found else None


def _leads(term: Term) -> bool:
    value = term.value
    return isinstance(value, Movement) or (
        isinstance(value, Count) and value.unit in ("bend", "slide", "hammer-on", "pull-off")
    )


def claim_led(sentence: Sentence) -> Iterator[Claim]:
    """``the bend in [the lick] goes from D to E in bar 3``, ``[slide] from C into [C sharp]``."""
    notes = [t for t in sentence.outside if t.kind == "note"]
    for first, last in pairwise(notes):
        term = led_by(sentence, first)
        link = sentence.before(first.start) or sentence.after(last.end)
        if term is None or link is None or not isinstance(term.value, Movement) or sentence.denied(term):
            continue
        if not _FROM.search(sentence.text[: first.start]) or not _LED_TO.fullmatch(
            sentence.gap(first.end, last.start)
        ):
            continue
        yield _leading(_in_bar(sentence, link, last.end), term, first, last)
    yield from _across(sentence)


def _leading(link: LickLink, term: Term, first: Term, last: Term) -> Claim:
    said = term.value
    if isinstance(said, Movement) and said.name in _BENDS:
        return Claim("bend-target", link, (term, last, first), inside=False)
    return Claim("technique", link, (term, first, last), inside=False)


def _in_bar(sentence: Sentence, link: LickLink, place: int) -> LickLink:
    """A link to a whole lick, narrowed to the bar that is named after a place."""
    for bar in sentence.bars:
        named = bar.start >= place and _BAR.fullmatch(sentence.gap(place, bar.start))
        if link.at is None and named and isinstance(bar.value, Numbers):
            return replace(link, at=AddressRange(Address(bar.value.first), Address(bar.value.last)))
    return link


def _across(sentence: Sentence) -> Iterator[Claim]:
    """A technique, where it comes from and where it goes, some of it in links and some of it not."""
    named = sorted(((t, link) for t, link in _words(sentence)), key=lambda each: each[0].start)
    for (term, at), (first, one), (last, two) in zip(named, named[1:], named[2:], strict=False):
        links = [link for link in (at, one, two) if link is not None and link.at is not None]
        if not isinstance(term.value, Movement) or term.value.name in _BENDS or sentence.denied(term):
            continue
        if first.kind != "note" or last.kind != "note" or not links or (one is None) == (two is None):
            continue
        led = _LED_FROM.fullmatch(sentence.gap(term.end, first.start))
        if led is None or not _LED_TO.fullmatch(sentence.gap(first.end, last.start)):
            continue
        if len({link.target for link in links}) == 1:
            yield _leading(_stretch(links), term, first, last)


def _words(sentence: Sentence) -> Iterator[tuple[Term, LickLink | None]]:
    """The terms of a sentence, in the links and outside of them, at their places."""
    for term in sentence.outside:
        yield term, None
    for link in sentence.links:
        for term in find_terms(link.words, head=False):
            yield replace(term, start=term.start + link.start, end=term.end + link.start), link


def _stretch(links: Sequence[LickLink]) -> LickLink:
    """From the first address of several links to the last."""
    spans = [link.at for link in links if link.at is not None]
    first = min((s.first for s in spans), key=lambda a: (a.bar, a.sound or 0))
    last = max((s.last for s in spans), key=lambda a: (a.bar, a.sound or 0))
    return replace(links[0], at=AddressRange(first, last))
