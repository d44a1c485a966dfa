"""A number that the words give and the notes do not come to.

Bars are counted as written, without the pickup; notes are the sounds of the link, or its strings where they
sound together; grace notes count only when they are named. ``three hammers`` counts joins,
``two bends from G to A`` those between the two notes; ``each bar of [the lick]`` is counted bar by bar, and
what is ``held for two beats`` to the end of its sound.

Why it matters: a student who is told four notes and finds five doubts the page, or the fingers.

What to do: count again, in the words and in the link's address.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.lexer import find_terms
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_place
from lickwright.checks.claims.term import Count, Numbers
from lickwright.checks.prose.technique import JOINS, used
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.model.address import Address, AddressRange
from lickwright.model.music import MusicBar
from lickwright.terms.notes import NOTE
from lickwright.terms.numbers import CARDINAL, CARDINALS, ORDINAL, read_number
from lickwright.theory.pitch import PitchClass

_LEADING = frozenset({"bend", "slide", "hammer-on", "pull-off"})
_EACH_BAR = re.compile(
    r"(?i)\b(?:each|every|all|both)(?: of)?(?: the| its)?"
    rf"(?: (?P<end>first|last) (?P<number>{CARDINAL})| \w+)? bars?(?: (?:of|in))?(?: the)? $"
)
_BAR_OF = re.compile(
    rf"(?i)\b(?:(?P<ordinal>{ORDINAL}|last) bar|bar (?P<number>{CARDINAL})) (?:of|in) (?:the )?$"
)
_EACH_AFTER = re.compile(r" (?:each|apiece|(?:a|per|to the|to a|in each|in every) bar)\b")
_EACH_BAR_INSIDE = re.compile(r"(?i)(?:each|every|both) (?:\w+ )?bars?\b")
_FROM_TO = re.compile(rf" from (?:the )?{NOTE} (?:up |down )?to (?:the )?{NOTE}")
_VALUES = {
    "half note": Fraction(2),
    "quarter note": Fraction(1),
    "eighth note": Fraction(1, 2),
    "sixteenth note": Fraction(1, 4),
}


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Count what is said in every way that the trade counts it."""
    said = claim.terms[0].value
    assert isinstance(said, Count)  # the kind of claim says so
    notes = _in_bar(claim, notes)
    if (each := _each_bar(claim, notes)) is not None:
        return each
    led = _led(claim)
    if led is not None and said.unit in _LEADING:
        return _count_led(claim, said, led, notes)
    counts = count(said.unit, notes)
    if not counts:
        return Unresolved(f"{said.unit}s cannot be counted there")
    if said.number in counts:
        return HELD
    return Differs(
        f"the words say “{claim.terms[0].text}”, and {say_place(notes)} has {counts[0]}",
        claim.terms[0],
        help=f"Write {_say(counts[0])} {said.unit}{'' if counts[0] == 1 else 's'}, or link as many",
    )


def _in_bar(claim: Claim, notes: Pointed) -> Pointed:
    """``the first bar of [the lick] has five notes``: that bar of it."""
    found = None if claim.inside else _BAR_OF.search(claim.link.passage.text[: claim.link.start])
    if found is None or notes.at is not None:
        return notes
    said = found["ordinal"] or found["number"]
    number = notes.bars[-1].number if said.casefold() == "last" else read_number(said) or 0
    here = replace(notes, at=AddressRange(Address(number), Address(number)))
    return here if here.heard else notes


def _each_bar(claim: Claim, notes: Pointed) -> Verdict | None:
    """``each bar of [the lick] has four notes``: every bar by itself; None where the words do not say so."""
    text, said = claim.link.passage.text, claim.terms[0].value
    if not isinstance(said, Count) or said.unit == "bar":
        return None
    lead = text[: claim.link.start] if not claim.inside else text[: claim.terms[0].start]
    found = _EACH_BAR.search(lead)
    after = _EACH_AFTER.match(text, claim.terms[0].end)
    if not found and not after and not _EACH_BAR_INSIDE.match(claim.link.words):
        return None
    for bar in _bars_meant(found, lead, notes):
        here = replace(notes, at=AddressRange(Address(bar.number), Address(bar.number)))
        counts = count(said.unit, here) if here.heard else ()
        if counts and said.number not in counts:
            return Differs(
                f"the words say “{claim.terms[0].text}” of each bar, and bar {bar.number} has {counts[0]}",
                claim.terms[0],
                help="Name the bars that have as many, or mend the number",
            )
    return HELD


def _bars_meant(each: re.Match[str] | None, lead: str, notes: Pointed) -> Sequence[MusicBar]:
    """The bars of the link; of ``the first three bars`` so many, of ``bars 1 to 3`` those."""
    number = read_number(each["number"]) if each is not None and each["number"] else None
    if each is not None and number is not None:
        return notes.bars[:number] if each["end"] == "first" else notes.bars[-number:]
    named = [t.value for t in find_terms(lead) if t.kind == "bar" and isinstance(t.value, Numbers)]
    first, last = (named[-1].first, named[-1].last) if named else (0, notes.bars[-1].number)
    return [bar for bar in notes.bars if first <= bar.number <= last]


def _led(claim: Claim) -> tuple[PitchClass, PitchClass] | None:
    """``two bends from G to A``: the notes that what is counted goes from and to."""
    tail = claim.link.passage.text[claim.terms[0].end :]
    found = _FROM_TO.match(tail)
    named = [t.value for t in find_terms(found[0], head=False)] if found is not None else []
    notes = [value for value in named if isinstance(value, PitchClass)]
    return (notes[0], notes[1]) if len(notes) == 2 else None


def _count_led(claim: Claim, said: Count, led: tuple[PitchClass, PitchClass], notes: Pointed) -> Verdict:
    """Count those that go from the one note to the other."""
    inside = {heard.sound.address for heard in notes.heard}
    if said.unit == "bend":
        ends = [(tone.path[0], b) for _, tone in notes.tones if tone.bends for b in tone.path[1:]]
    else:
        leads = [lead for lead in notes.subject.leads if lead.kind in JOINS[said.unit]]
        ends = [(x.before.path[-1], x.after.path[0]) for x in leads if x.address in inside]
    number = sum((int(a) % 12, int(b) % 12) == (led[0].semitone, led[1].semitone) for a, b in ends)
    if number == said.number:
        return HELD
    where = f"from {led[0].spoken} to {led[1].spoken}"
    return Differs(
        f"the words say “{claim.terms[0].text}” {where}, and {say_place(notes)} has {number}",
        claim.terms[0],
        help=f"Write {_say(number)}, or mend the notes they go {where}",
    )


def _say(number: int) -> str:
    return CARDINALS[number] if 0 < number < len(CARDINALS) else "no" if number == 0 else str(number)


def count(unit: str, notes: Pointed) -> tuple[int, ...]:
    """Return how many of a unit there are, the likeliest way of counting first."""
    heard = notes.heard
    match unit:
        case "bar":
            if notes.at is None or notes.at.whole_bars:
                return (len(notes.bars),)
            bars = _span(notes) / heard[0].bar.length
            return (int(bars),) if bars.denominator == 1 else ()
        case "note":
            struck = sum(any(tone.struck for tone in h.sound.tones) for h in heard)
            strings = [len(h.sound.tones) for h in heard]
            graced = sum(len(h.sound.grace) for h in heard)
            voices = [len(voice) for voice in notes.voices]
            return (len(heard), struck, sum(strings), len(heard) + graced, *voices, max(strings))
        case "beat":
            return _beats(notes)
        case "string":
            return (len({tone.string for h in heard for tone in h.sound.tones}),)
        case "fret":
            return _frets(notes)
        case "bend" | "grace note" | "double stop":
            found = sum(unit in used(h.sound) for h in heard)
            return (sum(len(h.sound.grace) for h in heard),) if unit == "grace note" else (found,)
        case "hammer-on" | "pull-off" | "slide":
            return (sum(unit in used(h.sound) for h in heard),)
        case "chord":
            changes = [
                c for i, c in enumerate(notes.harmony) if i == 0 or not c.same_as(notes.harmony[i - 1])
            ]
            struck = sum(len(h.sound.tones) > 2 for h in heard)
            return (len(changes), len({c.symbol for c in changes}), struck)
        case _ if unit in _VALUES:
            lengths = [h.sound.duration for h in heard]
            exact = sum(length == _VALUES[unit] for length in lengths)
            return (exact, len(lengths)) if exact else (0,)
        case _:
            return ()


def _frets(notes: Pointed) -> tuple[int, ...]:
    """How far a slide goes, or how many frets the hand goes over or covers."""
    inside = {heard.sound.address for heard in notes.heard}
    leads = [x for x in notes.subject.leads if x.address in inside]
    moved = [abs(x.after.fret - x.before.fret) for x in leads if x.after.fret and x.before.fret is not None]
    frets = [tone.fret for _, tone in notes.tones if tone.fret]
    if not frets:
        return ()
    if moved and len(notes.heard) <= 2:
        return tuple(moved)
    across = max(frets) - min(frets)
    return (*moved, across, across + 1, len(set(frets)))


def _beats(notes: Pointed) -> tuple[int, ...]:
    if notes.at is None or notes.at.whole_bars:
        beats = sum((bar.length / bar.meter.beat for bar in notes.bars), Fraction(0))
        return (int(beats),) if beats >= 1 else ()
    beats = _span(notes) / notes.heard[0].bar.meter.beat
    return (int(beats), round(beats)) if beats >= 1 else ()


def _span(notes: Pointed) -> Fraction:
    """From the first sound of a link to the end of its last, in quarters."""
    first, last = notes.heard[0], notes.heard[-1]
    bars = notes.subject.piece.music.bars[first.index : last.index]
    before = sum((bar.length for bar in bars), Fraction(0))
    return before + last.sound.onset + last.sound.duration - first.sound.onset


RULE = Rule(
    id="prose/count",
    title="A number that the words give and the notes do not come to",
    severity=Severity.ERROR,
    source=Source(
        "language contract", "Section 2, Addresses: four bars counts written bars without the pickup"
    ),
    good=(
        Example(
            "```lick example\n"
            "pickup: 1/8\n\n | 4:4\nA7 | 5:0 5:4 4:2 4:4 3:2 - 3:2 -\nA7 | 5:0 - - - 4:2 - - .\n```\n\n"
            "[Two bars](lick:example), and [four notes](lick:example@1.1-1.4) to begin with."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 - 3:2 -\n```\n\n"
            "[Four notes](lick:example@1.1-1.5) climb.",
            ("Four notes",),
        ),
    ),
    survey=tell("count", Severity.ERROR),
)
