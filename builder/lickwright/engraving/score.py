"""A piece of music cut up for print: what the planners of signs and the MEI writers read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lickwright.analysis.notation.cut import Cut, Entry, cut, source_of, struck_at_grace
from lickwright.engraving.staves import STAVES, Staves

if TYPE_CHECKING:
    from lickwright.model.music import Music
    from lickwright.model.orders import View

__all__ = ["Entry", "Score", "source_of", "struck_at_grace"]


@dataclass(frozen=True, slots=True)
class Score(Cut):
    """The cut music, and which staves it is printed on."""

    staves: Staves

    @classmethod
    def of(cls, music: Music, view: View) -> Score:
        """Cut up a piece of music for a view."""
        made = cut(music)
        return cls(made.music, made.layers, made.voices, made.names, made.grace_names, STAVES[view])
