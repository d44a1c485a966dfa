"""A number that the words give and the notes do not come to.

Bars are counted as written, without the pickup; notes are the sounds of the link, or its strings where they
sound together; grace notes count only when they are named. ``three hammers`` counts joins.

Why it matters: a student who is told four notes and finds five doubts the page, or the fingers.

What to do: count again, in the words and in the link's address.
"""

from __future__ import annotations

from fractions import Fraction

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_place
from lickwright.checks.claims.term import Count
from lickwright.checks.prose.technique import used
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.terms.numbers import CARDINALS

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


def _say(number: int) -> str:
    return CARDINALS[number] if 0 < number < len(CARDINALS) else "no" if number == 0 else str(number)


def count(unit: str, notes: Pointed) -> tuple[int, ...]:
    """Return how many of a unit there are, the likeliest way of counting first."""
    heard = notes.heard
    match unit:
        case "bar":
            return (len(notes.bars),) if notes.at is None or notes.at.whole_bars else ()
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
            return (sum(length == _VALUES[unit] for length in lengths), len(lengths))
        case _:
            return ()


def _beats(notes: Pointed) -> tuple[int, ...]:
    if notes.at is None or notes.at.whole_bars:
        beats = sum((bar.length / bar.meter.beat for bar in notes.bars), Fraction(0))
        return (int(beats),) if beats >= 1 else ()
    first, last = notes.heard[0], notes.heard[-1]
    bars = notes.subject.piece.music.bars[first.index : last.index]
    span = sum((bar.length for bar in bars), Fraction(0)) + last.sound.onset + last.sound.duration
    beats = (span - first.sound.onset) / first.bar.meter.beat
    return (int(beats), round(beats)) if beats >= 1 else ()


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
