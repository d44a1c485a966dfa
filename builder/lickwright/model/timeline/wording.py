"""How the timeline words its findings: counts with their nouns, and names that lead nowhere."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches

from lickwright.model.address import Address, AddressRange
from lickwright.model.blocks import Block, Chorus, Lick, Progression, ScaleBlock
from lickwright.model.music import Line, Music

_NEAR = 0.6
"""Likeness, 0 to 1, from which another name is worth offering."""


def counted(number: int, noun: str) -> str:
    """Return a count with its noun.

    >>> counted(1, "bar"), counted(2, "bar")
    ('1 bar', '2 bars')
    """
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def say_range(bars: AddressRange) -> str:
    """Return ``bar 2`` or ``bars 2-3``."""
    return f"bar {bars}" if bars.first == bars.last else f"bars {bars}"


@dataclass(frozen=True, slots=True)
class Names:
    """What every name of the course is: ``lick``, ``chorus``, ``progression``, ``scale``."""

    kinds: Mapping[str, str] = field(default_factory=dict)

    @classmethod
    def of(cls, blocks: Iterable[Block]) -> Names:
        """Gather the names of blocks; the first of a name counts."""
        kinds: dict[str, str] = {}
        for block in blocks:
            if isinstance(block, Lick | Chorus | Progression | ScaleBlock):
                kinds.setdefault(block.name, _KINDS[type(block)])
        return cls(kinds)

    def has(self, name: str, *kinds: str) -> bool:
        """True when a block of one of these kinds has the name."""
        return self.kinds.get(name) in kinds

    def missing(self, name: str, *kinds: str) -> tuple[str, str]:
        """Return message and help for a name that is none of these kinds.

        Args:
            name: As the author wrote it.
            kinds: What was looked for, at least one.
        """
        message = f"there is no {' or '.join(kinds)} “{name}” in the course"
        known = self.kinds.get(name)
        if known is not None and known not in kinds:
            message += f": “{name}” is a {known}"
        near = get_close_matches(name, [n for n, kind in self.kinds.items() if kind in kinds], 1, _NEAR)
        return message, f"Did you mean “{near[0]}”?" if near else ""


NO_NAMES = Names()
"""Of no course."""

_KINDS: dict[type, str] = {
    Lick: "lick",
    Chorus: "chorus",
    Progression: "progression",
    ScaleBlock: "scale",
}


def missing_end(music: Music, show: AddressRange) -> Address:
    """Return which end of a range is not there; the first where both are, and the range does not fit."""
    return next((end for end in (show.first, show.last) if not _is_there(music, end)), show.first)


def _is_there(music: Music, end: Address) -> bool:
    return music.bar(end.bar) is not None and (end.sound is None or music.sound(end) is not None)


def missing_part(music: Music, show: AddressRange) -> str:
    """Say which of a range is not there, and how much there is.

    Args:
        music: Of the lick.
        show: A range that does not fit it.

    Returns:
        ``no 1.6: bar 1 has 5 sounds``.
    """
    numbers = [bar.number for bar in music.bars]
    for end in (show.first, show.last):
        bar = music.bar(end.bar)
        if bar is None:
            extent = f"its bars are {numbers[0]} to {numbers[-1]}" if len(numbers) > 1 else "it has one bar"
            return f"no bar {end.bar}: {extent}" if numbers else f"no bar {end.bar}"
        line: Line | None = bar.lower if end.lower else bar.upper
        if line is None:
            return f"no {end}: bar {end.bar} has no lower voice"
        if end.sound is not None and music.sound(end) is None:
            voice = " in its lower voice" if end.lower else ""
            return f"no {end}: bar {end.bar} has {counted(len(line.sounds), 'sound')}{voice}"
    return f"no {show}"
