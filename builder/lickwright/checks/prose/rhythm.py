"""A note value or a meter that the words name and the notes do not have.

``triplets`` want a group of three in the time of two among the notes of the link, ``sixteenths`` a note of
that length; ``3/4`` is held against the meter.

Why it matters: the student counts what the words say.

What to do: mend the word, or the rhythm.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Heard, Pointed
from lickwright.checks.claims.saying import say_list, say_place
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.model.address import AddressRange
from lickwright.model.music import Element, Tuplet
from lickwright.terms.rhythms import TUPLETS, VALUES


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Look for the group, or for a note of the value."""
    said = str(claim.terms[0].value)
    if "/" in said:
        return _meter(said, claim, notes)
    if said in TUPLETS:
        numbers = {tuplet.number for tuplet in _tuplets(notes)}
        if TUPLETS[said] in numbers:
            return HELD
        if any(bar.meter.is_compound for bar in notes.bars):
            return Unresolved("in compound time every beat is three")
        help_ = f"What is there are groups of {say_list(sorted(map(str, numbers)))}" if numbers else ""
        help_ = help_ or f"Write what is there, {_say_lengths(notes)}, or put the notes into a group"
        if (at := _find_group(TUPLETS[said], notes)) is not None:
            help_ = f"Link {at}, which is a {said}; or else {help_[0].lower()}{help_[1:]}"
        return Differs(
            f"the words say “{claim.terms[0].text}”, and there is no {said} at {say_place(notes)}",
            claim.terms[0],
            help=help_,
        )
    if any(heard.sound.duration == VALUES[said] for heard in notes.heard):
        return HELD
    return Differs(
        f"the words say “{claim.terms[0].text}”, and there is no {said} at {say_place(notes)}",
        claim.terms[0],
        help=f"Write what is there: {_say_lengths(notes)}",
    )


def _meter(said: str, claim: Claim, notes: Pointed) -> Verdict:
    """Compare the meter of each bar."""
    real = list(dict.fromkeys(f"{bar.meter.count}/{bar.meter.unit}" for bar in notes.bars))
    if said in real:
        return HELD
    message = f"the words say “{claim.terms[0].text}”, and {say_place(notes)} is in {say_list(real)}"
    return Differs(message, claim.terms[0], help=f"Write {say_list(real)}, or mend the meter")


def _tuplets(notes: Pointed) -> Iterator[Tuplet]:
    for heard in notes.heard:
        yield from _tuplets_at(heard)


def _tuplets_at(heard: Heard) -> Iterator[Tuplet]:
    """The groups that a sound is in."""
    for line in heard.bar.lines:
        if line.sounds and line.sounds[0].address.lower == heard.sound.address.lower:
            for tuplet in _inside(line.elements):
                if tuplet.onset <= heard.sound.onset < tuplet.onset + tuplet.duration:
                    yield tuplet


def _find_group(number: int, notes: Pointed) -> AddressRange | None:
    """Where the only group of so many notes stands in the piece, for a link that is no whole bars."""
    if notes.at is None or notes.at.whole_bars:
        return None
    everything = replace(notes, at=None)
    groups = {id(group) for group in _tuplets(everything) if group.number == number}
    inside = [h.sound.address for h in everything.heard if any(g.number == number for g in _tuplets_at(h))]
    return AddressRange(inside[0], inside[-1]) if len(groups) == 1 and len(inside) > 1 else None


def _inside(elements: Iterable[Element]) -> Iterator[Tuplet]:
    for element in elements:
        if isinstance(element, Tuplet):
            yield element
            yield from _inside(element.elements)


def _say_lengths(notes: Pointed) -> str:
    lengths = {heard.sound.duration for heard in notes.heard}
    known = [f"{name}s" for name, value in VALUES.items() if value in lengths]
    return say_list(known) if known else "other values"


RULE = Rule(
    id="prose/rhythm",
    title="A note value or a meter that the words name and the notes do not have",
    severity=Severity.ERROR,
    source=Source("common practice", "Note values and groups by their names"),
    good=(
        Example(
            "```lick example\nA7 | (5:0 5:2 5:4)/2 4:2 - 3:2 - - -\n```\n\n"
            "[A triplet](lick:example@1.1-1.3), then [quarter notes](lick:example@1.4)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 5:0 5:2 5:4 4:2 3:2 - - -\n```\n\n[Triplets](lick:example@1.1-1.3) first.",
            ("Triplets",),
        ),
    ),
    survey=tell("rhythm", Severity.ERROR),
)
