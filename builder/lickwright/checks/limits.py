"""The thresholds that a course may set anew, in one table; ``[limits]`` in the manifest does it.

They say where a rule begins to speak, and all are our own: to be tuned by the courses that use them. What is
no such line stays with the rule that reads it, as a constant with its reason: how few notes, beats or licks
are evidence at all (``FEWEST``), for with fewer a rule would guess; how many frets or grips it looks at
around a note; what a term of the trade means in numbers (the frets of a position); and what a scale must have
to ring, by which it is fingered before any rule is asked.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from lickwright.instrument.hand import REACHES, WIDEST


@dataclass(frozen=True, slots=True)
class Limit:
    """A threshold.

    Attributes:
        name: As the manifest names it.
        value: The default.
        unit: Of the value.
        rules: The rules that go by it, the one that it was made for first.
        meaning: What it bounds, and where the number comes from.
    """

    name: str
    value: float
    unit: str
    rules: tuple[str, ...]
    meaning: str


# name | value | unit | rules | meaning
_TABLE = """
shifted-own | 0.34 | share of the bar's time | harmony/shifted-chord | On tones of the bar's own chord, \
below which its neighbours' chords are tried (own threshold)
shifted-other | 0.85 | share of the bar's time | harmony/shifted-chord | On tones of a neighbouring chord, \
from which that chord is named (own threshold)
key-own | 0.7 | share of the notes' time | harmony/doubtful-key | In the key given, below which another is \
tried (own threshold)
key-other | 0.95 | share of the notes' time | harmony/doubtful-key | In the key of the last chord, from \
which it is named (own threshold)
bend-high-query | 3 | half steps | hands/bend-reach | A bend on the upper half of the strings, above which \
it is a query (own threshold)
bend-high-error | 4 | half steps | hands/bend-reach | A bend on the upper half of the strings, above which \
it is an error (own threshold)
bend-low-query | 2 | half steps | hands/bend-reach | A bend on the lower half of the strings, above which \
it is a query (own threshold)
bend-low-error | 3 | half steps | hands/bend-reach | A bend on the lower half of the strings, above which \
it is an error (own threshold)
bend-stiff-query | 1 | half steps | hands/bend-reach | A bend at the first two frets, above which it is a \
query (own threshold)
bend-first-finger | 2 | half steps | hands/bend-reach | A bend by the first finger, above which it is a \
query (own threshold)
shift-query | 1200 | mm a second | hands/shift | The hand along the neck, above which it is a query (own \
threshold)
shift-error | 3000 | mm a second | hands/shift | The hand along the neck, above which it is an error; a \
slide is left alone up to it (own threshold)
reach-passing | 1.25 | times | hands/needless-shift | How much farther two fingers reach one after the other \
than held together (own threshold)
stray-frets | 5 | frets | hands/stray-note | Between a single note and those around it, from which on it is \
a query (own threshold)
position-outside | 0.25 | share of the fretted notes | hands/position | Outside a stated position, from \
which on it is a query (own threshold)
cascade-open | 0.25 | share of the notes | open-strings/cascade | On open strings in a cascade, below which \
it is a query (own threshold)
clash-beats | 1 | beats | open-strings/clash | That two ringing strings a half step apart sound together, \
above which it is noted (own threshold)
strokes-beginner-query | 4 | notes a second | speed/strokes | Picked notes in a beginner's course, above \
which a run is a query (own threshold)
strokes-intermediate-query | 8 | notes a second | speed/strokes | Picked notes in an intermediate course, \
above which a run is a query (own threshold)
strokes-advanced-query | 12 | notes a second | speed/strokes | Picked notes in an advanced course, and on a \
rung of any ladder, above which a run is a query (own threshold)
strokes-burst | 1.75 | times | speed/strokes | How much faster than a run four notes may be (own threshold)
strokes-error | 16 | notes a second | speed/strokes | Picked notes, above which four are an error (own \
threshold)
slurs-query | 14 | notes a second | speed/slurs | Hammer-ons and pull-offs in a row, above which it is a \
query (own threshold)
slurs-error | 18 | notes a second | speed/slurs | Notes of all kinds, above which it is an error (own \
threshold)
bend-time | 50 | ms | speed/bend-time | What a bend or release takes besides its way (own threshold)
bend-time-step | 35 | ms | speed/bend-time | What a bend or release takes for each half step (own threshold)
seam-beats | 1 | beats | picking/seam | Between two strokes at a seam, from which on the hand comes back by \
itself; a beat counts as a quarter at most (own threshold)
finger-speed | 6 | notes a second | picking/one-finger | One plucking finger, above which it is a query (own \
threshold)
double-swing | 0.2 | share of the beats | rhythm/double-swing | Written long-short in a shuffle, above which \
it is a query (own threshold)
alike-sounds | 6 | sounds | course/near-duplicate rhythm/near-duplicate | In a bar or a lick, from which on \
it is held against others (own threshold)
alike-frets | 2 | frets | rhythm/near-duplicate | Between the notes that differ in two bars, up to which \
it may be a slip (own threshold)
difficulty-jump | 1.6 | times | course/difficulty-jump | How much harder a lick may be than the hardest \
before its lesson (own threshold)
prose-position | 0.25 | share of the fretted notes | prose/position | That may lie outside a position the \
words name (own threshold)
prose-arpeggio | 0.8 | share of the notes | prose/scale | That belong to the chord in what the words call an \
arpeggio (own threshold)
"""


def _read_row(row: str) -> Limit:
    name, value, unit, rules, meaning = (cell.strip() for cell in row.split("|"))
    return Limit(name, float(value), unit, tuple(rules.split()), meaning)


def limit_name(finger: int, other: int) -> str:
    """What the limits on the reach of two different fingers are called, without ``-query`` and ``-error``."""
    first, last = sorted((finger, other))
    return "stretch" if REACHES[first, last] is WIDEST else f"reach-{first}-{last}"


def _stretches() -> Iterator[Limit]:
    """The reach of the hand, in the table of the instrument."""
    for fingers, reach in REACHES.items():
        whole = reach is WIDEST
        first, last = fingers
        what = "between fretted notes that sound together" if whole else f"of fingers {first} and {last}"
        for kind, value in (("query", reach.comfortable), ("error", reach.possible)):
            meaning = f"Reach {what}, above which it is {'a query' if kind == 'query' else 'an error'}"
            also = ("hands/needless-shift",) if kind == "error" else ()
            rules = ("hands/stretch", "hands/slur-reach", *also)
            yield Limit(f"{limit_name(*fingers)}-{kind}", value, "mm", rules, f"{meaning} (own threshold)")


LIMITS: Mapping[str, Limit] = MappingProxyType(
    {limit.name: limit for limit in (*_stretches(), *map(_read_row, _TABLE.strip().splitlines()))}
)
"""The thresholds by name."""


def set_limits(changed: tuple[tuple[str, float], ...]) -> Mapping[str, float]:
    """Return the value of every limit, with those a course sets put in; unknown names are left out."""
    values = {name: limit.value for name, limit in LIMITS.items()}
    values.update((name, value) for name, value in changed if name in values)
    return values
