"""A bar or an ending that the words name and the link does not lead to.

``in bar 3`` and ``in the first ending`` are held against the address of the link that follows, in the words
of a link against its own; ``on the third beat`` against where its one sound begins. Where the words go on
from there (``bar 3 leads to``), the bar beside it will do.

Why it matters: the student looks at the bar that the words name, and hears another.

What to do: mend the number, or the address.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from lickwright.checks.claims.claim import HELD, Claim, Differs, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_list, say_ordinal, say_place
from lickwright.checks.claims.term import Numbers, Term
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.model.music import MusicBar

_AGAIN = re.compile(
    r"(?i)\b(?:repeats?|repeated|again|like|as in|same as|copy|copies|echo(?:es)?|answers?|than|from|after"
    r"|before|follow(?:s|ing)?|until|recalls?|quotes?|back to)\b[^.;]*$"
)
"""The words name the bar to compare with it, or to count from it."""
_GOES_ON = re.compile(
    r"(?i)\b(?:next|until|till|to|into|lands?|landing|arriv\w+|leads?|leading|follow\w*|over|then)\b"
)


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Compare the bar with those of the link's address."""
    term = claim.terms[0]
    said = term.value
    assert isinstance(said, Numbers)  # the kind of claim says so
    bars = notes.subject.piece.music.bars
    if term.kind == "ending":
        return _ending(claim, notes, said.first)
    if term.kind == "beat":
        return _beat(term, said.first, notes)
    text = claim.link.passage.text
    if claim.inside and _AGAIN.search(text[claim.link.start : term.start]):
        return HELD if any(bar.number == said.first for bar in bars) else _missing(claim, notes)
    if not any(said.first <= bar.number <= said.last for bar in bars):
        return _missing(claim, notes)
    at = notes.at
    if at is None or (at.first.bar <= said.last and said.first <= at.last.bar):
        return HELD
    if not claim.inside:
        between = text[min(term.end, claim.link.end) : max(term.start, claim.link.start)]
        if _GOES_ON.search(between) and at.first.bar - said.last == 1:
            return HELD
    return Differs(
        f"the words say “{term.text}”, and the link leads to {say_place(notes)}",
        term,
        help=f"Write bar {at.first.bar}, or link a sound of bar {said.first}",
    )


def _beat(term: Term, number: int, notes: Pointed) -> Verdict:
    """Compare the beat in which the sound begins; in compound time the eighths may be counted as well."""
    if not notes.single:
        return HELD
    heard = notes.heard[0]
    meter, at = heard.bar.meter, heard.bar.offset + heard.sound.onset
    counts = [at // length + 1 for length in (meter.beat, Fraction(4, meter.unit))]
    if number in counts:
        return HELD
    real = say_ordinal(int(counts[0]))
    return Differs(
        f"the words say “{term.text}”, and {say_place(notes)} begins in the {real}",
        term,
        help=f"Write “the {real} beat”, or mend the address",
    )


def _missing(claim: Claim, notes: Pointed) -> Differs:
    last = notes.subject.piece.music.bars[-1].number
    return Differs(
        f"the words say “{claim.terms[0].text}”, and “{notes.subject.piece.name}” ends with bar {last}",
        claim.terms[0],
        help="Mend the number of the bar",
    )


def _ending(claim: Claim, notes: Pointed, number: int) -> Verdict:
    """Compare the ending with those of the bars that the link leads to."""
    known = _endings(notes.subject.piece.music.bars)
    here = sorted({n for bar in notes.bars for n in known.get(bar.number, ())})
    if number in here:
        return HELD
    term, place = claim.terms[0], say_place(notes)
    if not known:
        message = f"the words say “{term.text}”, and “{notes.subject.piece.name}” has no endings"
        return Differs(message, term, help="Leave the ending out, or write it into the notes")
    real = f"in the {say_list([say_ordinal(n) for n in here])} ending" if here else "in no ending"
    there = next((bar for bar, numbers in known.items() if number in numbers), None)
    begins = "" if there is None else f"; the {say_ordinal(number)} begins with bar {there}"
    return Differs(
        f"the words say “{term.text}”, and {place} is {real}{begins}",
        term,
        help=f"Write which ending {place} is in, or mend the address" if here else "Mend the address",
    )


def _endings(bars: Sequence[MusicBar]) -> dict[int, tuple[int, ...]]:
    """The endings that each bar stands in, by its number: from where one is written to its close."""
    found: dict[int, tuple[int, ...]] = {}
    running: tuple[int, ...] = ()
    for bar in bars:
        running = bar.endings or (() if bar.opens else running)
        if running:
            found[bar.number] = running
        if bar.closes or bar.ending_closed:
            running = ()
    return found


RULE = Rule(
    id="prose/bar",
    title="A bar or an ending that the words name and the link does not lead to",
    severity=Severity.QUERY,
    source=Source("language contract", "Section 5, Prose that points at notes"),
    good=(
        Example(
            "```lick example\nA7 | 5:0 - 5:4 - 4:2 - 4:4 -\n | 3:2 - 4:4 - 4:2 - 5:4 -\n```\n\n"
            "[Bar 2](lick:example@2)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 5:0 - 5:4 - 4:2 - 4:4 -\n | 3:2 - 4:4 - 4:2 - 5:4 -\n```\n\n"
            "[The end of bar 1](lick:example@2.4).",
            ("bar 1",),
        ),
    ),
    survey=tell("bar", Severity.QUERY),
)
