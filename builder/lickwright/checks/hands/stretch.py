"""A stretch beyond the hand: fretted notes that sound together lie too far apart.

Measured in millimetres on the neck, from the lowest to the highest fretted note that sounds at a
moment, notes that are to ring counted in; where fingers are given, between each two of them as well.
Open strings, harmonics over open strings and tapped notes need no reach.

Why it matters: a hand that is forced over its reach tightens, misses, and can be hurt. A smaller hand
or a longer neck may need less than the limits here; a teacher or clinician knows better than a rule.

What to do: play one of the notes on another string, give up letting it ring, or write the notes one
after the other.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from lickwright.checks.limits import limit_name
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strings import Held, overlap
from lickwright.checks.subject import Subject
from lickwright.findings import Label
from lickwright.instrument.fretboard import span
from lickwright.instrument.hand import FINGERS
from lickwright.model.strike import Tapped


def run(subject: Subject) -> Iterator[Finding]:
    """At each onset, measure what is held then."""
    if not overlap(subject.piece.music):
        return
    held = [h for h in subject.held if h.tone.fret and not isinstance(h.tone.head, Tapped)]
    if not held:
        return
    ringing: list[Held] = []
    told: set[tuple[int, int, int, int]] = set()
    for index, new in enumerate(held):
        ringing = [h for h in ringing if h.end > new.start and h.tone.string != new.tone.string]
        ringing.append(new)
        together = index + 1 < len(held) and held[index + 1].start == new.start
        if together or len(ringing) < 2:
            continue
        found = _measure(subject, ringing, new)
        if found is not None and found[0] not in told:
            told.add(found[0])
            yield found[1]


def _measure(
    subject: Subject, ringing: Sequence[Held], new: Held
) -> tuple[tuple[int, int, int, int], Finding] | None:
    limits, guitar = subject.limits, subject.piece.music.guitar

    def reach(a: Held, b: Held) -> float:
        return span(a.tone.fret or 0, b.tone.fret or 0, guitar.scale_length, guitar.capo)

    low = min(ringing, key=lambda h: h.tone.fret or 0)
    high = max(ringing, key=lambda h: h.tone.fret or 0)
    cases = [(low, high, "stretch", "a hand")]
    for a, b in combinations(ringing, 2):
        fingers = sorted({int(f) for f in (a.tone.finger, b.tone.finger) if f in FINGERS})
        name = limit_name(*fingers) if len(fingers) > 1 else "stretch"
        if name != "stretch":
            cases.append((a, b, name, f"fingers {fingers[0]} and {fingers[1]}"))
    for a, b, name, who in cases:
        size = reach(a, b)
        if size <= limits[f"{name}-query"]:
            continue
        severe = size > limits[f"{name}-error"]
        first, last = sorted((a, b), key=lambda h: (h.start, h.tone.fret or 0))
        at = last if last.start == new.start else new
        reaches = "reaches" if who == "a hand" else "reach"
        key = (first.tone.string, first.tone.fret or 0, last.tone.string, last.tone.fret or 0)
        return key, subject.report(
            RULE,
            f"frets {first.tone.fret} and {last.tone.fret} sound together, {size:.0f} mm apart:"
            f" more than {who} {reaches} easily"
            if not severe
            else f"frets {first.tone.fret} and {last.tone.fret} sound together, {size:.0f} mm apart:"
            f" more than {who} can reach",
            at.tone.span,
            at.sound.address,
            severity=Severity.ERROR if severe else Severity.QUERY,
            labels=(Label(first.tone.span, f"fret {first.tone.fret} still sounds"),),
            help="Play one of them on another string, or do not let it ring",
        )
    return None


RULE = Rule(
    id="hands/stretch",
    title="A stretch beyond the hand",
    severity=Severity.ERROR,
    source=Source(
        "own threshold",
        "Fret geometry is exact; the reach of a hand in millimetres is our own figure, since no published"
        " table was found",
    ),
    good=(
        Example("F | 3:5+1:8 - - - 6:1 - - -"),
        Example("A | ring[4:7 3:6 2:5 1:5 2:5 3:6 4:7 -]"),
        Example("F | 6:1 - - - 1:8 - - -"),
    ),
    bad=(
        Example("F | 6:1+1:8 - - - 6:1 - - -", marks=("1:8",)),
        Example("F | ring[6:1 - 3:2 -] ring[6:1 - 1:5 -]", marks=("1:5",)),
        Example("F | 6:1+2:5 - - - 6:1 - - -", marks=("2:5",)),
    ),
    run=run,
)
