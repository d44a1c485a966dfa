"""A remark on some notes that belong together."""

from __future__ import annotations

from dataclasses import dataclass

from lickwright.model.address import Address

PLACES = (
    "between the beats",
    "off the beat",
    "on a beat",
    "on the middle of the bar",
    "on the bar line",
)
"""Metric weight in words, from 0."""


@dataclass(frozen=True, slots=True)
class NoteRemark:
    """One pitch of a remark.

    Attributes:
        address: The sound. ``tone``: index into its tones. ``turn``: 0, then 1, 2 … along a bend.
        degree: Over the root of the chord: ``b3``.
        role: The word for what it does: ``passing note``.
        place: Where in the bar it stands: ``on the bar line``, ``off the beat``.
        why: Why it fits: ``the third of A7``, ``rises a half step into the fifth``.
    """

    address: Address
    tone: int
    turn: int
    degree: str
    role: str
    place: str
    why: str


@dataclass(frozen=True, slots=True)
class Remark:
    """Notes of one voice that belong together, and what they do.

    Attributes:
        first, last: The sounds at its ends, of one voice.
        roles: The role word of each sound. ``degrees``: its degree, of a double stop joined: ``3+5``.
        text: What they do: ``chromatic walk up to the third``.
        notes: Every pitch by itself.
        doubt: What an editor reads after it: ``nothing explains it``; else empty.
    """

    first: Address
    last: Address
    roles: tuple[str, ...]
    degrees: tuple[str, ...]
    text: str
    notes: tuple[NoteRemark, ...]
    doubt: str = ""

    @property
    def proof(self) -> str:
        """The text as an editor reads it, with its doubt."""
        return f"{self.text}: {self.doubt}" if self.doubt else self.text

    @property
    def lower(self) -> bool:
        """Whether it speaks of the lower voice."""
        return self.first.lower
