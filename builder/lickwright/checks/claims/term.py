"""A word or phrase of the trade, where it stands in a sentence."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from lickwright.theory.chord import Chord
from lickwright.theory.key import Key
from lickwright.theory.pitch import PitchClass

TermKind = Literal[
    "note",
    "chord",
    "quality",
    "tonality",
    "key",
    "scale",
    "degree",
    "ordinal",
    "string",
    "fret",
    "position",
    "finger",
    "bar",
    "beat",
    "ending",
    "boundary",
    "direction",
    "extreme",
    "rhythm",
    "tuning",
    "technique",
    "stroke",
    "count",
    "interval",
    "device",
    "ringing",
    "numeral",
    "capo",
    "shapes",
    "sounding",
    "hedge",
]


@dataclass(frozen=True, slots=True)
class StringName:
    """Which string is meant.

    Attributes:
        number: From 1, the highest-sounding; -1 the lowest; None where only a note tells.
        note: The string's own note: ``the D string``.
        open: Said to be open.
    """

    number: int | None = None
    note: PitchClass | None = None
    open: bool = False


@dataclass(frozen=True, slots=True)
class Degree:
    """A degree.

    Attributes:
        of: ``chord``, or ``key`` for the tonic and the leading note.
        number: 1 to 13.
        alter: Half steps off the major scale's; None: as the chord has it.
    """

    of: str
    number: int
    alter: int | None


@dataclass(frozen=True, slots=True)
class ChordName:
    """A chord that is named; ``plain`` where only its root is said: ``the D chord``."""

    chord: Chord
    plain: bool = False


@dataclass(frozen=True, slots=True)
class ScaleName:
    """A scale; ``tonic`` is None where only the kind is said."""

    tonic: PitchClass | None
    kind: str


@dataclass(frozen=True, slots=True)
class FingerName:
    """A finger: its sign in the ``lh`` row and in the ``rh`` row."""

    fretting: str | None
    picking: str | None


@dataclass(frozen=True, slots=True)
class StrokeName:
    """A stroke, ``d``, ``u`` or both in turn, ``du``; ``every`` where all are meant."""

    sign: str
    every: bool


@dataclass(frozen=True, slots=True)
class Movement:
    """A technique; a bend with how far it goes, in half steps, where that is said."""

    name: str
    amount: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Count:
    """So many of a unit."""

    number: int
    unit: str


@dataclass(frozen=True, slots=True)
class Numbers:
    """Numbers of bars, frets: the first and the last said."""

    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Way:
    """Which way a line goes, ``up`` or ``down``; ``strict`` where all of it is meant to."""

    to: str
    strict: bool = False


Value = (
    PitchClass
    | Key
    | StringName
    | Degree
    | ChordName
    | ScaleName
    | FingerName
    | StrokeName
    | Movement
    | Count
    | Numbers
    | Way
    | tuple[int, ...]
    | int
    | str
)


@dataclass(frozen=True, slots=True)
class Term:
    """A term.

    Attributes:
        kind: What kind of thing it names. ``value``: which.
        start, end: Where it stands in its text. ``text``: as written.
    """

    kind: TermKind
    value: Value
    start: int
    end: int
    text: str
