"""How a group is printed: as plain values where they fit, else as a tuplet.

Reference: the language contract; n in the time of the largest power of two below
n, in compound time 2 or 4 in the time of 3 (common practice).
"""

from __future__ import annotations

from fractions import Fraction

from lickwright.model.slots import Closing, Grace, Group, Join, Opening, Slot


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
