"""How a group is printed: as plain values where they fit, else as a tuplet.

Reference: the language contract; n in the time of the largest power of two below
n, in compound time 2 or 4 in the time of 3 (common practice).
"""

from __future__ import annotations

from fractions import Fraction

from lickwright.model.address import Address
from lickwright.model.music import Element, Line, Tuplet
from lickwright.model.slots import Closing, Grace, Group, Join, Opening, Slot
from lickwright.model.timeline.faults import Faults
from lickwright.text import Span

SHORTEST = Fraction(1, 64)
"""The shortest value that is printed, a 256th, in quarters (the shortest that print has names for)."""
_MOST_RATIO = 10_000
"""The largest number of a tuplet counted through those it stands in; beyond, engravers' counts overflow."""


def shares_of(slot: Slot) -> int:
    """How many shares of where it stands a slot takes; joins, grace notes and brackets take none."""
    if isinstance(slot, Group):
        return slot.shares
    return 0 if isinstance(slot, Join | Grace | Opening | Closing) else 1


def ratio(share: Fraction, number: int, *, compound: bool) -> tuple[int, int] | None:
    """Return ``(number, normal)`` of the tuplet a group becomes, or None when plain values fit.

    Args:
        share: The printed length of one share, in quarters.
        number: How many shares the group holds, at least 1.
        compound: Whether the meter is compound.

    >>> ratio(Fraction(1, 3), 3, compound=False)
    (3, 2)
    >>> ratio(Fraction(3, 4), 2, compound=True)
    (2, 3)
    >>> ratio(Fraction(1, 4), 2, compound=False) is None
    True
    """
    if _binary(share):
        return None
    if _binary(share / 3):
        return (number, 3) if compound and number in (2, 4) else None
    return number, 1 << (max(number, 2) - 1).bit_length() - 1


def _binary(share: Fraction) -> bool:
    return _power(share.numerator) and _power(share.denominator)


def _power(number: int) -> bool:
    return number & (number - 1) == 0


def check_values(line: Line, number: int, faults: Faults, *, lower: bool) -> None:
    """Report a line that no note values can print; once, for the rest has the same cause.

    Args:
        line: As laid out.
        number: Of its bar.
        faults: Told of it.
        lower: Whether it is the lower voice.
    """
    span = _too_short(line.elements, 0, 1)
    if span is not None:
        faults.add(
            "rhythm/too-short",
            "these would be printed as notes shorter than a 256th",
            span,
            help="Give the group more steps, /2, or or take a longer step, or fewer groups in groups",
            address=Address(number, None, lower),
        )
        return
    for sound in line.sounds:
        moves = max((len(tone.bends) for tone in sound.tones if tone.path), default=0)
        if moves > 1 and sound.duration / 2 ** (moves - 1) < SHORTEST:
            faults.add(
                "rhythm/too-short",
                f"{moves} bends and releases would be printed as notes shorter than a 256th here",
                sound.span,
                help="Hold the sound longer, or bend it less often",
                address=sound.address,
            )
            return


def _too_short(elements: tuple[Element, ...], origin: Fraction | int, scale: Fraction | int) -> Span | None:
    """Where the first value stands that does not begin and end on 256ths as printed."""
    for element in elements:
        if isinstance(element, Tuplet):
            inner = scale * Fraction(element.number, element.normal)
            if inner.numerator > _MOST_RATIO:
                return element.span
            span = _too_short(element.elements, element.onset, inner)
            if span is not None:
                return span
        elif scale == 1 and not origin:
            if SHORTEST.denominator % element.onset.denominator or (
                SHORTEST.denominator % element.duration.denominator
            ):
                return element.span
        elif (element.onset - origin) * scale % SHORTEST or element.duration * scale % SHORTEST:
            return element.span
    return None
