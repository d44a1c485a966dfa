"""Addresses of sounds: ``2.3``, ``low1.2``, ``2``, ``1.3-2.1``.

Conventions: bars are counted as written, from 1; the pickup is bar 0. Sounds are
counted from 1 inside their bar and voice.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_ONE = re.compile(r"(low)?([0-9]{1,4})(?:\.([0-9]{1,4}))?\Z")
_RANGE = re.compile(r"(low)?([0-9]{1,4})(?:\.([0-9]{1,4}))?-([0-9]{1,4})(?:\.([0-9]{1,4}))?\Z")


@dataclass(frozen=True, slots=True, order=True)
class Address:
    """One bar (``sound`` is None) or one sound of a bar.

    Attributes:
        bar: Written bar number; 0 is the pickup.
        sound: Which sound of the bar and voice, from 1; None means the whole bar.
        lower: True for the lower voice (``low``).
    """

    bar: int
    sound: int | None = None
    lower: bool = False

    def __str__(self) -> str:
        voice = "low" if self.lower else ""
        return f"{voice}{self.bar}" if self.sound is None else f"{voice}{self.bar}.{self.sound}"

    @classmethod
    def parse(cls, text: str) -> Address | None:
        """Read ``2.3``, ``low1.2`` or ``2``; None when it is none of them."""
        found = _ONE.match(text)
        if not found:
            return None
        return cls(int(found[2]), int(found[3]) if found[3] else None, bool(found[1]))


@dataclass(frozen=True, slots=True)
class AddressRange:
    """A run of bars or sounds, both ends included."""

    first: Address
    last: Address

    def __str__(self) -> str:
        if self.first == self.last:
            return str(self.first)
        return f"{self.first}-{str(self.last).removeprefix('low')}"

    @property
    def whole_bars(self) -> bool:
        """True when the range names bars, not sounds."""
        return self.first.sound is None and self.last.sound is None

    @classmethod
    def parse(cls, text: str) -> AddressRange | None:
        """Read ``2.3``, ``2``, ``2-3``, ``1.3-2.1`` or ``low1.2-2.1``; None when malformed or reversed."""
        one = Address.parse(text)
        if one:
            return cls(one, one)
        found = _RANGE.match(text)
        if not found or bool(found[3]) != bool(found[5]):
            return None
        lower = bool(found[1])
        first = Address(int(found[2]), int(found[3]) if found[3] else None, lower)
        last = Address(int(found[4]), int(found[5]) if found[5] else None, lower)
        if (last.bar, last.sound or 0) < (first.bar, first.sound or 0):
            return None
        return cls(first, last)
