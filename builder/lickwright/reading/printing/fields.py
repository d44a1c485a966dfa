"""The values of fields as text."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from lickwright.reading.printing.bars import print_chord
from lickwright.reading.printing.slots import print_number
from lickwright.reading.values import BEATS

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from fractions import Fraction

    from lickwright.model.address import AddressRange
    from lickwright.model.fields import Claim, Over, Picking, PositionClaim, Provenance, Stet, Take, Tempo

Value = TypeVar("Value")

_NAMES = {beat: name for name, beat in BEATS.items()}
_STROKES = {"d": "down first", "u": "up first"}


def print_field(name: str, value: str) -> str:
    """Return a field line."""
    return f"{name}: {value}"


def say(value: Value | None, printing: Callable[[Value], str]) -> str | None:
    """Return a value as text, None when it was not written."""
    return None if value is None else printing(value)


def print_length(quarters: Fraction) -> str:
    """Return the length of a step or a pickup as a fraction of a whole note."""
    whole = quarters / 4
    return f"{whole.numerator}/{whole.denominator}"


def print_tempo(tempo: Tempo) -> str:
    """Return beats a minute, with the beat where it is said."""
    return str(tempo.bpm) if tempo.beat is None else f"{_NAMES[tempo.beat]} = {tempo.bpm}"


def print_ladder(ladder: Iterable[Tempo]) -> str:
    """Return further tempi."""
    tempi = tuple(ladder)
    return (" " if all(tempo.beat is None for tempo in tempi) else ", ").join(map(print_tempo, tempi))


def print_bar_range(bars: AddressRange) -> str:
    """Return ``bar 3`` or ``bars 1-2``."""
    return f"bar {bars}" if bars.first == bars.last else f"bars {bars}"


def print_position(claims: Iterable[PositionClaim]) -> str:
    """Return the positions claimed."""
    return ", ".join(_add_bars(str(claim.fret) if claim.fret else "open", claim.bars) for claim in claims)


def print_claims(claims: Iterable[Claim]) -> str:
    """Return what a lick is said to be."""
    return ", ".join(_add_bars(claim.kind, claim.bars) for claim in claims)


def print_picking(picking: Picking) -> str:
    """Return how the picking hand goes about it."""
    return f"{picking.style}, {_STROKES[picking.first]}" if picking.first else picking.style


def print_over(over: Over) -> str:
    """Return a progression and its bars, or chords."""
    if over.progression:
        return f"{over.progression} {print_bar_range(over.bars)}" if over.bars else over.progression
    return " ".join(map(print_chord, over.chords))


def print_source(source: Provenance) -> str:
    """Return whose music it is."""
    return f"{source.kind}: {source.detail}" if source.detail else source.kind


def print_take(take: Take) -> str:
    """Return a recording and its start in seconds."""
    return f"{take.path} from {_print_seconds(take.start)} s" if take.start else take.path


def print_stet(stet: Stet) -> str:
    """Return a finding that may stand, its seal and the reason."""
    address = f" {stet.address}" if stet.address is not None else ""
    seal = f" #{stet.seal}" if stet.seal else ""
    return f'{stet.rule}{address}{seal} "{stet.reason}"'


def _add_bars(said: str, bars: AddressRange | None) -> str:
    return f"{said} ({print_bar_range(bars)})" if bars is not None else said


def _print_seconds(seconds: Fraction) -> str:
    if seconds.denominator in (1, 2):
        return print_number(seconds)
    return f"{float(seconds):.6f}".rstrip("0")
