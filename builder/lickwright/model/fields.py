"""The values of a lick's fields."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from lickwright.model.address import Address, AddressRange
from lickwright.model.bar import MarginChord
from lickwright.model.place import place
from lickwright.model.slots import Rest
from lickwright.model.strike import Strike
from lickwright.text import Span

Feel = Literal["straight", "two-beat", "train", "shuffle", "rock", "waltz", "ballad"]
FEELS: tuple[Feel, ...] = ("straight", "two-beat", "train", "shuffle", "rock", "waltz", "ballad")

PickingStyle = Literal["alternate", "pendulum", "hybrid", "economy", "fingers", "free"]
PICKING_STYLES: tuple[PickingStyle, ...] = (
    "alternate",
    "pendulum",
    "hybrid",
    "economy",
    "fingers",
    "free",
)

ClaimKind = Literal["forward roll", "backward roll", "cascade", "outside", "chromatic"]
CLAIM_KINDS: tuple[ClaimKind, ...] = (
    "forward roll",
    "backward roll",
    "cascade",
    "outside",
    "chromatic",
)


@dataclass(frozen=True, slots=True)
class Tempo:
    """Beats a minute.

    Attributes:
        bpm: 20 to 400.
        beat: The beat counted, in quarters (1/2, 1, 3/2, 2 …); None = the meter's own beat.
    """

    bpm: int
    beat: Fraction | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class PositionClaim:
    """``2 (bars 1-2)``: the fret of the first finger; 0 is open position. ``bars`` None = throughout."""

    fret: int
    bars: AddressRange | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Picking:
    """How the picking hand goes about it; ``first`` is the stroke alternate picking begins with."""

    style: PickingStyle = "free"
    first: Literal["d", "u"] | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Claim:
    """What a lick is said to be, everywhere or in some bars."""

    kind: ClaimKind
    bars: AddressRange | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Over:
    """What a lick is played over: a progression (perhaps some bars of it), or chords, one a bar."""

    progression: str = ""
    bars: AddressRange | None = None
    chords: tuple[MarginChord, ...] = ()
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Provenance:
    """Whose music it is: ``own``, ``traditional`` or ``licensed``, with where it is known from."""

    kind: Literal["own", "traditional", "licensed"]
    detail: str = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Take:
    """A recording of the author's own playing; ``start`` seconds into the file."""

    path: str
    start: Fraction = Fraction(0)
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Shape:
    """A chord with a name, used as a slot."""

    name: str
    strike: Strike
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Change:
    """A line of a variation: the sound at ``address`` of the base becomes this."""

    address: Address
    to: Strike | Rest
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Stet:
    """A finding the author lets stand.

    Attributes:
        rule: ``group/fault``.
        address: Which bar or sound; None = the whole block.
        seal: The mark of the bar's music it was given for, without ``#``, or empty.
        reason: Why.
    """

    rule: str
    reason: str
    address: Address | None = None
    seal: str = ""
    span: Span = place()
