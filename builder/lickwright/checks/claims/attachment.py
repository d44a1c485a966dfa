"""Which words speak about which link: the claims of a sentence.

A link's own words claim of its notes. Words outside claim of a link only where they lean on it: beside
it (``[D] at the third fret``), by ``is`` (``[D] is the root``), as who plays it (``the first finger
takes [D]``), or as what leads from one link to the next (``slide from [E] to [F sharp]``). All other
words of the sentence claim nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from lickwright.checks.claims.claim import Claim, ClaimKind
from lickwright.checks.claims.lexer import find_terms
from lickwright.checks.claims.phrase import claim_words
from lickwright.checks.claims.sentence import KEY_FRAME
from lickwright.checks.claims.statement import claim_sentence
from lickwright.checks.claims.term import Degree, Term, TermKind
from lickwright.checks.claims.tied import claim_tied
from lickwright.model.address import AddressRange
from lickwright.model.course import LickLink
from lickwright.terms.hedges import SUPPOSED
from lickwright.text import Passage

HIDDEN = "\x00"
"""Stands for each letter of a link's words where only the rest of the sentence is read."""

_ARTICLE = r"(?:(?:the|a|an|its|your|their|one) )?"
_IS = (
    r"(?:is|are|was|becomes?|makes?|stays?|remains?|lies?|sits?|falls?|comes?)"
    r"(?: (?:still|also|only|really|just|again|then|now|here|both|all))*"
)
_PLACE = r"(?:(?:at|in) (?:(?!and\b|after\b|before\b|next\b)[\w’']+ ){1,5})?"
_AFTER = {
    "is": re.compile(
        rf"(?:, [^,;:.()]{{1,40}},)?,? {_PLACE}(?:(?:and )?(?:which|that|both|all|they) )?"
        rf"{_IS} (?:(?:at|on|in|played (?:at|on|in|with|by)) )?{_ARTICLE}"
    ),
    "where": re.compile(rf"[^.;:()A-G]{{0,60}}, (?:where|and (?:there|here|now)) it {_IS} {_ARTICLE}"),
    "beside": re.compile(rf",? (?:at|on|in|with|under|by|from) {_ARTICLE}"),
    "takes": re.compile(rf" (?:takes?|gets?|needs?|wants?|has|have) {_ARTICLE}"),
    "apposition": re.compile(rf"[,:] (?:which is |that is )?{_ARTICLE}"),
    "listed": re.compile(r", (?:the )?"),
    "lasts": re.compile(
        r",? (?:is|are) (?:held|sustained)(?: (?:out|on))?(?: for)?(?: all)? "
        r"|,? (?:lasts|rings|sounds|sustains|stays)(?: on| out)?(?: for) "
    ),
    "chord": re.compile(
        rf" (?:is|are|makes?|spells?|gives?) {_ARTICLE}(?:(?:plain|simple|straight|pure|little|whole|full) )*"
    ),
}
_BEFORE = {
    "is": re.compile(rf" (?:is|are) {_ARTICLE}"),
    "apposition": re.compile(rf" of [\w♯♭]+(?: [a-z]+)?, {_ARTICLE}"),
    "on": re.compile(rf"(?: (?:on|for|at|to|of|from|into|between))? {_ARTICLE}|[,:] {_ARTICLE}"),
    "plays": re.compile(
        r"(?: (?:then|still|can|has to|have to|must|may|will|now|only|just|there|here|also))*"
        r" (?:(?:play|take|reach|stop|hold|fret|press|catch|find|stay on|land on|hammer|strike)(?:e?s)?"
        rf"|over|on|for) {_ARTICLE}"
    ),
    "place": re.compile(rf"[,:]? {_ARTICLE}"),
}
_HANGS: dict[TermKind, tuple[ClaimKind, tuple[str, ...], tuple[str, ...]]] = {
    "degree": ("degree", ("is", "where", "apposition"), ("is", "apposition")),
    "string": ("string", ("is", "beside", "listed"), ()),
    "fret": ("fret", ("is", "beside", "listed"), ()),
    "chord": ("chord", ("chord",), ()),
    "position": ("position", ("is", "beside"), ("place",)),
    "finger": ("finger", ("is", "beside", "takes"), ("plays",)),
    "stroke": ("stroke", ("is", "beside", "takes"), ("on",)),
    "technique": ("technique", ("is",), ("on",)),
    "count": ("count", ("is", "lasts"), ()),
    "rhythm": ("rhythm", ("is", "beside"), ()),
}
"""By kind of term: which claim it makes, and what may stand between it and the link before or after it."""

_NOTES_OF = re.compile(r"(?i)(?:arpeggio|triad|chord)s?$")
_CHAINED = re.compile(r",? (?:of|on|at) the |, ")
_CLAUSE = re.compile(r"[,;:.!?()—–]")
_FROM = re.compile(rf"(?: (?:up|down|back))? from {_ARTICLE}")
_TO = re.compile(rf"(?: (?:up|down|back|on|home))? (?:to|into) {_ARTICLE}")
_OF = re.compile(r" (?:of|over|in) (?:the )?")
_AND = re.compile(r",? and (?:the )?|, (?:the )?")
_OVER = re.compile(r"(?i)\bover (?:the )?$")


def find_claims(passage: Passage, links: Sequence[LickLink]) -> tuple[Claim, ...]:
    """Return the claims of a sentence about the links in it, in the order of the links."""
    text = passage.text
    if text.rstrip(" \"”’')*_").endswith("?"):
        return ()  # a question claims nothing
    hidden = text
    for link in links:
        hidden = f"{hidden[: link.start]}{HIDDEN * (link.end - link.start)}{hidden[link.end :]}"
    outside = find_terms(hidden)
    claims: list[Claim] = []
    for link in links:
        if link.words.endswith("?") or _denied(text, link, outside):
            continue
        after = next((t for t in outside if t.start >= link.end), None)
        about = after if after is not None and _counts_from(text[link.end : after.start], after) else None
        claims += claim_words(link, about)
    said = {(id(claim.link), claim.kind) for claim in claims}
    hanging = tuple(_hanging(text, links, outside))
    claims += (c for c in hanging if (id(c.link), c.kind) not in said)
    tied = tuple(claim_tied(text, links, outside))
    bent = {id(claim.link) for claim in tied if claim.kind == "bend-target"}
    claims = [c for c in claims if c.inside or c.kind != "technique" or id(c.link) not in bent]
    claims += (c for c in tied if (id(c.link), c.kind) not in said or c.terms[0].kind == "ending")
    leaning = {term.start for claim in (*hanging, *tied) for term in claim.terms}
    leaning |= {claim.about.start for claim in claims if claim.about is not None}
    claims += claim_sentence(text, links, [term for term in outside if term.start not in leaning])
    return tuple(claims)


def _counts_from(gap: str, term: Term) -> bool:
    """Whether a term after ``of`` or ``over`` names what a degree counts from."""
    return term.kind in ("chord", "note", "tonality", "key") and _OF.fullmatch(gap) is not None


def _denied(text: str, link: LickLink, outside: Sequence[Term]) -> bool:
    """Whether a hedge stands straight before the link, or its clause only supposes what it says."""
    for term in outside:
        if term.kind != "hedge":
            continue
        before = term.end <= link.start
        gap = text[term.end : link.start] if before else text[link.end : term.start]
        if _CLAUSE.search(gap):
            continue
        if term.text.casefold() in SUPPOSED or (before and len(gap.split()) <= 2):
            return True
    return False


def _hanging(text: str, links: Sequence[LickLink], outside: Sequence[Term]) -> Iterator[Claim]:
    for term in outside:
        if term.kind not in _HANGS or _hedged(text, term, outside) or _counts_things(text, term):
            continue
        kind, after, before = _HANGS[term.kind]
        if term.kind == "technique" and (pair := _pair(text, links, term)) is not None:
            yield pair
            continue
        if term.kind == "chord" and not _NOTES_OF.search(term.text):
            continue  # a name alone is the harmony's: other rules see to it
        link = next((x for x in reversed(links) if x.end <= term.start), None)
        if link is not None and _fits(_AFTER, after, _skip_place(text, link, term, outside)):
            yield _hang(kind, link, term, text, outside)
            continue
        link = next((x for x in links if x.start >= term.end), None)
        if link is not None and _fits(_BEFORE, before, text[term.end : link.start]):
            yield _hang(kind, link, term, text, outside)


def _skip_place(text: str, link: LickLink, term: Term, outside: Sequence[Term]) -> str:
    """What stands between a link and a term; of ``at the eighth fret of the second string`` the last part."""
    gap = text[link.end : term.start]
    if term.kind not in ("string", "fret"):
        return gap
    place = next((t for t in outside if t.start >= link.end and t.kind in ("string", "fret")), None)
    if place is None or place is term or not _CHAINED.fullmatch(text[place.end : term.start]):
        return gap
    return text[link.end : place.start]


def _counts_things(text: str, term: Term) -> bool:
    """``the second is [E]``: an ordinal that is a degree only where a link's own words say so."""
    degree = term.value
    plain = isinstance(degree, Degree) and degree.alter is None and degree.number in (2, 4)
    return plain and not KEY_FRAME.search(text[: term.start])


def _hang(kind: ClaimKind, link: LickLink, term: Term, text: str, outside: Sequence[Term]) -> Claim:
    if term.kind != "degree":
        return Claim(kind, link, (term,), inside=False)
    degrees = [term]
    about = None
    for follows in (t for t in outside if t.start >= term.end):
        gap = text[degrees[-1].end : follows.start]
        if _counts_from(gap, follows):
            about = follows
        elif follows.kind == "degree" and _AND.fullmatch(gap):
            degrees.append(follows)
            continue
        break
    if about is None and term.end <= link.start:
        over = [t for t in outside if t.end <= term.start and t.kind in ("chord", "note")]
        about = over[-1] if over and _OVER.search(text[: over[-1].start]) else None
    return Claim(kind, link, tuple(degrees), about, inside=False)


def _fits(forms: dict[str, re.Pattern[str]], names: tuple[str, ...], gap: str) -> bool:
    return any(forms[name].fullmatch(gap) for name in names)


def _hedged(text: str, term: Term, outside: Sequence[Term]) -> bool:
    """Whether a hedge stands in the term's clause, before it."""
    marks = [m.end() for m in _CLAUSE.finditer(text, 0, term.start)]
    begin = marks[-1] if marks else 0
    return any(t.kind == "hedge" and begin <= t.start < term.start for t in outside)


def _pair(text: str, links: Sequence[LickLink], term: Term) -> Claim | None:
    """``slide from [E] to [F sharp]``: a technique that leads from the notes of one link to the next's."""
    for one, two in pairwise(links):
        if one.start < term.end or one.target != two.target or one.at is None or two.at is None:
            continue
        if _FROM.fullmatch(text[term.end : one.start]) and _TO.fullmatch(text[one.end : two.start]):
            if (two.at.last.bar, two.at.last.sound or 0) < (one.at.first.bar, one.at.first.sound or 0):
                return None
            both = replace(one, at=AddressRange(one.at.first, two.at.last))
            return Claim("technique", both, (term,), inside=False)
        return None
    return None
