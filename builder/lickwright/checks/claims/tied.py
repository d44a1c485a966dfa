"""Words outside the links that are tied to one by their grammar, or to a bar that they name.

``in bar 3`` says where the next link leads, ``it begins on`` what it is, ``bar 4 is over C7`` what stands in
a bar that no link leads to, ``it is in the key of D`` something of the whole lick.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from lickwright.checks.claims.aimed import claim_arriving, claim_bend, claim_led, claim_pushed
from lickwright.checks.claims.claim import Claim, ClaimKind
from lickwright.checks.claims.lexer import find_terms
from lickwright.checks.claims.moving import claim_boundary, claim_direction, claim_from_to, claim_started
from lickwright.checks.claims.numbered import claim_covered, claim_numbered
from lickwright.checks.claims.sentence import ARTICLE, CLAUSE, Sentence
from lickwright.checks.claims.term import Numbers, StrokeName, Term, TermKind
from lickwright.model.address import Address, AddressRange
from lickwright.model.course import LickLink
from lickwright.theory.key import parse_key

_CLOSES = re.compile(r"\s*(?:[,;:.!)]|$)")
_STOP = re.compile(r"[;.!?()]")
_AT_BAR = re.compile(
    r" (?:(?:which |that )?(?:is|are|comes?|falls?|lies?|stands?|sits?) )?(?:(?:here|there|right|struck) )?"
    r"(?:(?:at|on|in|for) the (?:head|start|end|top|beginning|middle|close|[\w-]+ (?:half|beat)) )?"
    r"(?:of|in) (?:the )?"
)
"""What may stand between a link and the bar that it is said to be in: ``[E] on the first beat of bar 4``."""
_ON_BEAT = re.compile(
    r",? (?:(?:which |that )?(?:is|are|was|comes?|falls?|lies?|stands?|sits?|begins?|starts?|enters?) )?"
    r"(?:(?:struck|played|picked|plucked|placed|right) )?on (?:the )?"
)
_OF_ANOTHER = re.compile(r" (?:of|in) (?!bar\b|(?:its|the) bar\b)")
_BAR_HAS = re.compile(
    r",?(?: (?:is|are|was|has|have|holds?|lies?|sits?|stands?|goes|moves|stays|begins|starts|changes|takes"
    r"|brings|belongs|there (?:is|are)))(?: (?:still|only|all|just|again|also|now|then))*"
    rf"(?: (?:over|on|in|to|with))? {ARTICLE}|,? over {ARTICLE}| {ARTICLE}"
)
"""What may stand between a bar and what it is said to hold: ``bar 4 is over C7``, ``bar 3 descends``."""
_COMPARED = re.compile(
    r" (?:is|are|repeats?|answers?|copies|mirrors|echoes)(?: (?:just|only|again|like|the same as))* (?:the )?"
)
_IS_THE = re.compile(r" (?:is|are|makes?) the ")
_APPOSED = re.compile(r"(?:,| is| are| becomes|, which is) (?:the|its) ")
_OF = re.compile(r" of (?:the |an? )?")
_IS = re.compile(rf",? (?:is|are|was|which is|remains|stays) {ARTICLE}")
_IS_OR = re.compile(rf"(?: (?:of|in) (?:it|all|the \w+|bar \w+))? (?:is|was) {ARTICLE}|, {ARTICLE}")
_OVER = re.compile(r" (?:(?:is|are|lies?|stays?|sits?|goes|stands?) )?(?:(?:all|still) )?over (?:the |an? )?")
_IN = re.compile(r"(?i)\bin the $")
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
    r" (?:is|are|has|have|holds?|takes?|counts?|contains?|comes? to|needs?|uses?|makes?)"
    rf"(?: (?:only|just|all|exactly|but))* {ARTICLE}"
)
_SUBJECT = re.compile(
    rf"(?i)^\W*(?:so |and |but |then )*(?:it|(?:the|this) (?:whole )?(?:lick|phrase|tune)){_HAS.pattern}$"
)
_LISTED = re.compile(rf"(?: (?:in|of) [\w ]+)?[,:] {ARTICLE}|,? in {ARTICLE}")
_HOLD = re.compile(rf"(?i)\b(?:hold|keep|sustain|let)s? {ARTICLE}$")
_FOR = re.compile(r"(?: (?:ring|sound|on|out|going))* for (?:all )?")
_PICK = re.compile(rf"(?i)\b(?:pick|strike|stroke|strum|hit)(?:s|es|ing)? {ARTICLE}$")
_WAY = re.compile(r" (up|down)(?:wards?)?(?=[,.;:!]|$| (?:and|then|but)\b)")
_IN_KEY = re.compile(
    r"(?i)\b(?:is|are|was|stays?|lies|written|set|goes) (?:still |all |now |written |played )?in (?:the )?$"
)


def claim_tied(text: str, links: Sequence[LickLink], outside: Sequence[Term]) -> Iterator[Claim]:
    """Yield what the words outside the links claim of one, or of a bar.

    Args:
        text: The sentence.
        links: In it.
        outside: The terms outside the links, in order.
    """
    sentence = Sentence(text, links, outside)
    bars = sentence.bars
    others = [term for term in outside if term.kind != "bar"]
    for term in sorted((*bars, *others), key=lambda term: term.start):
        if sentence.denied(term):
            continue
        match term.kind:
            case "bar" | "ending":
                yield from _bar(sentence, term)
            case "beat":
                yield from _on_beat(sentence, term)
            case "boundary":
                yield from claim_boundary(sentence, term)
            case "direction":
                yield from claim_direction(sentence, term)
            case "extreme":
                yield from _extreme(sentence, term)
            case "key":
                yield from _whole(sentence, "key", term)
            case "tonality" if _IN_KEY.search(text[: term.start]):
                yield from _whole(sentence, "key", term)
            case "note" if _IN_KEY.search(text[: term.start]) and _CLOSES.match(text, term.end):
                key = parse_key(f"{term.value} major")
                yield from _whole(sentence, "key", term if key is None else replace(term, value=key))
            case "degree":
                yield from _of_chord(sentence, term)
            case "tuning":
                yield from _whole(sentence, "tuning", term)
            case "count":
                yield from _count(sentence, term)
            case "interval":
                yield from _interval(sentence, term)
            case "technique":
                yield from claim_bend(sentence, term)
            case _:
                pass
        if term.kind in _HELD_BY_BAR:
            yield from _in_bar(sentence, term)
        if term.kind in ("chord", "tonality", "note"):
            yield from _over(sentence, term)
    yield from claim_from_to(sentence)
    yield from claim_pushed(sentence)
    yield from claim_arriving(sentence)
    yield from claim_started(sentence)
    yield from _struck(sentence)
    yield from _keys(sentence)
    yield from claim_covered(sentence)
    yield from claim_numbered(sentence)
    yield from claim_led(sentence)


def _bar(sentence: Sentence, term: Term) -> Iterator[Claim]:
    """``in bar 3`` and the link that it governs: the one before that is said to be in it, else the next."""
    link = sentence.before(term.start)
    gap = "" if link is None else sentence.gap(link.end, term.start)
    if link is not None and (_AT_BAR.fullmatch(gap) or (term.kind == "ending" and _IS_THE.fullmatch(gap))):
        yield Claim("bar", link, (term,), inside=False)
        return
    link = sentence.after(term.end)
    if link is None:
        return
    between = sentence.gap(term.end, link.start)
    earlier = next((t for t in reversed(sentence.bars) if t.end <= term.start), None)
    if earlier is not None and _COMPARED.fullmatch(sentence.gap(earlier.end, term.start)):
        return  # "bar 2 is bar 1 turned round"
    counted = (
        term.kind == "bar"
        and not re.search(r"[0-9]", term.text)
        and not _IN.search(sentence.text[: term.start])
    )
    if counted and CLAUSE.search(between):
        return  # "its first bar is easy, [the second] is not"
    another = any(term.end <= t.start < link.start for t in sentence.outside if t.kind in ("bar", "ending"))
    if not another and not _STOP.search(between) and not between.lstrip().startswith("of "):
        yield Claim("bar", link, (term,), inside=False)


def _on_beat(sentence: Sentence, term: Term) -> Iterator[Claim]:
    """``[E] is struck on the third beat``, of its bar and no other."""
    link = sentence.before(term.start)
    if link is None or not _ON_BEAT.fullmatch(sentence.gap(link.end, term.start)):
        return
    if not _OF_ANOTHER.match(sentence.text, term.end):
        yield Claim("bar", link, (term,), inside=False)


def _in_bar(sentence: Sentence, term: Term) -> Iterator[Claim]:
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


def _of_chord(sentence: Sentence, term: Term) -> Iterator[Claim]:
    """``A, the third of D7``: a note, its degree and its chord, all of them outside the links."""
    place = sentence.outside.index(term)
    if not 0 < place < len(sentence.outside) - 1:
        return
    note, chord = sentence.outside[place - 1], sentence.outside[place + 1]
    if note.kind == "note" and chord.kind in ("chord", "tonality", "note"):
        named = _APPOSED.fullmatch(sentence.gap(note.end, term.start))
        if named and _OF.fullmatch(sentence.gap(term.end, chord.start)):
            yield Claim("degree", sentence.links[0], (term,), chord, note, inside=False)


def _extreme(sentence: Sentence, term: Term) -> Iterator[Claim]:
    """``[A] is the lowest note``, ``the lowest note is [A]``."""
    before, after = sentence.before(term.start), sentence.after(term.end)
    if before is not None and _IS.fullmatch(sentence.gap(before.end, term.start)):
        yield Claim("direction", before, (term,), inside=False)
    elif after is not None and _IS_OR.fullmatch(sentence.gap(term.end, after.start)):
        yield Claim("direction", after, (term,), inside=False)


def _over(sentence: Sentence, term: Term) -> Iterator[Claim]:
    """``[bar 1] is over D7``: the chord of whole bars that are linked."""
    link = sentence.before(term.start)
    whole = link is not None and link.at is not None and link.at.whole_bars
    if link is not None and whole and _OVER.fullmatch(sentence.gap(link.end, term.start)):
        yield Claim("chord", link, (term,), inside=False)


def _whole(sentence: Sentence, kind: ClaimKind, term: Term) -> Iterator[Claim]:
    """Something of the one lick that the sentence links to."""
    if len({link.target for link in sentence.links}) == 1:
        yield Claim(kind, replace(sentence.links[0], at=None), (term,), inside=False)


def _apart(sentence: Sentence, link: LickLink, term: Term) -> bool:
    """``[the phrase], five notes, climbs``."""
    return sentence.gap(link.end, term.start) == ", " and sentence.text.startswith((",", "."), term.end)


def _interval(sentence: Sentence, term: Term) -> Iterator[Claim]:
    """``sixths slide down from [C sharp and A]``: the pairs that a link leads to."""
    link = sentence.after(term.end)
    if link is not None and term.text.endswith("s") and not CLAUSE.search(sentence.gap(term.end, link.start)):
        yield Claim("interval", link, (term,), inside=False)


def _count(sentence: Sentence, term: Term) -> Iterator[Claim]:
    """``[the lick] has seven notes``, ``it has seven notes``, ``three notes, [A, B, C]``."""
    link = sentence.before(term.start)
    if link is not None and (
        _HAS.fullmatch(sentence.gap(link.end, term.start)) or _apart(sentence, link, term)
    ):
        yield Claim("count", link, (term,), inside=False)
        return
    if _SUBJECT.match(sentence.text[: term.start]) and len({x.target for x in sentence.links}) == 1:
        yield Claim("count", replace(sentence.links[0], at=None), (term,), inside=False)
        return
    held = link is not None and _HOLD.search(sentence.text[: link.start])
    if link is not None and held and _FOR.fullmatch(sentence.gap(link.end, term.start)):
        yield Claim("count", link, (term,), inside=False)
        return
    link = sentence.after(term.end)
    if link is not None and _LISTED.fullmatch(sentence.gap(term.end, link.start)):
        yield Claim("count", link, (term,), inside=False)


def _struck(sentence: Sentence) -> Iterator[Claim]:
    """``pick [the first note] up``: a stroke."""
    for link in sentence.links:
        way = _WAY.match(sentence.text, link.end)
        if way is None or not _PICK.search(sentence.text[: link.start]):
            continue
        sign = "u" if way[1] == "up" else "d"
        term = Term("stroke", StrokeName(sign, every=False), way.start(1), way.end(1), way[1])
        if not sentence.denied(term):
            yield Claim("stroke", link, (term,), inside=False)


def _keys(sentence: Sentence) -> Iterator[Claim]:
    """``it is in [E major]``: a key that is a link's only words."""
    for link in sentence.links:
        terms = find_terms(link.words, head=False)
        if len(terms) != 1 or terms[0].kind != "tonality" or terms[0].text != link.words:
            continue
        if link.at is None and _IN_KEY.search(sentence.text[: link.start]):
            term = replace(terms[0], start=link.start, end=link.end)
            if not sentence.denied(term):
                yield Claim("key", link, (term,), inside=False)
