"""What a listener holds of a piece: plain values, with nothing of the builder in them.

Conventions: time in quarters, exact, from where the bar begins as written; frets from the capo; bends in
half steps, up positive. A note is a letter and its accidental in words (``F sharp``), no octave: string and
fret tell it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from fractions import Fraction
from typing import Any


@dataclass(frozen=True)
class HeardBend:
    """Attributes: ``kind`` is ``up``, ``pre``, ``nut`` or ``release``; ``to`` the fret it sounds as.

    ``steps`` is None when nothing is known to sound before; ``note`` where no name was told.
    """

    kind: str
    steps: Fraction | None
    note: str | None
    to: Fraction


@dataclass(frozen=True)
class HeardTone:
    """One string of a sound.

    Attributes:
        head: ``fretted``, ``dead``, ``tapped``, ``hammered``, ``harmonic`` or ``late``.
        begun: ``struck``, ``joined`` (led to from the sound before), ``shifted`` (led to and struck) or
            ``tied`` (goes on, not struck again).
        rings_through: Through how many joined sounds after it, which leave its string alone, it sounds on.
    """

    string: int
    head: str
    fret: int | None
    touch: Fraction | None
    note: str | None
    bends: tuple[HeardBend, ...]
    vibrato: bool
    finger: str | None
    hand: str | None
    begun: str
    rings_through: int = 0


@dataclass(frozen=True)
class HeardGrace:
    """``leads``: the join's letter, or None where what follows is struck."""

    tones: tuple[HeardTone, ...]
    leads: str | None


@dataclass(frozen=True)
class HeardSound:
    """A note or chord; ``ring`` and ``mute`` count the brackets of its voice from 1, 0 outside."""

    onset: Fraction
    duration: Fraction
    join: str | None
    tones: tuple[HeardTone, ...]
    grace: tuple[HeardGrace, ...]
    slide_in: str | None
    slide_out: str | None
    accent: bool
    short: bool
    spread: bool
    stroke: str | None
    signs: tuple[str, ...]
    ring: int
    mute: int
    position: int | None


@dataclass(frozen=True)
class HeardVoice:
    """One voice of a bar.

    Attributes:
        held: How much of the bar the sound before takes.
        rests: ``(onset, duration)``.
        tuplets: ``(onset, number, in the time of)``, those that are no triplets.
    """

    held: Fraction
    sounds: tuple[HeardSound, ...]
    rests: tuple[tuple[Fraction, Fraction], ...]
    tuplets: tuple[tuple[Fraction, int, int], ...]


@dataclass(frozen=True)
class HeardChord:
    """``root`` and ``bass`` in words; ``tones`` half steps above the root, empty where no chord is told."""

    onset: Fraction
    root: str
    tones: frozenset[int]
    bass: str
    carried: bool
    stop: bool
    pushed: bool


@dataclass(frozen=True)
class HeardBar:
    """A bar; ``offset`` is where in a whole bar it begins, ``position`` is claimed from its first note."""

    number: int
    meter: tuple[int, int]
    meter_told: bool
    length: Fraction
    offset: Fraction
    chords: tuple[HeardChord, ...]
    opens: bool
    closes: bool
    times: int
    endings: tuple[int, ...]
    ending_closed: bool
    mark: str
    position: int | None
    upper: HeardVoice
    lower: HeardVoice | None


@dataclass(frozen=True)
class HeardPiece:
    """The bars as written, and their numbers in the order of playing."""

    bars: tuple[HeardBar, ...]
    order: tuple[int, ...]


def differences(told: Any, meant: Any, path: str = "") -> Iterator[str]:
    """Name every field in which two values differ: ``bars[1].upper.sounds[0].join: told h, meant None``."""
    if is_dataclass(told) and type(told) is type(meant):
        for field in fields(told):
            one, other = getattr(told, field.name), getattr(meant, field.name)
            yield from differences(one, other, f"{path}.{field.name}".lstrip("."))
    elif isinstance(told, tuple) and isinstance(meant, tuple) and len(told) == len(meant):
        for index, (one, other) in enumerate(zip(told, meant, strict=True)):
            yield from differences(one, other, f"{path}[{index}]")
    elif told != meant:
        yield f"{path}: told {told}, meant {meant}"
