"""The plan of signs: what is to be drawn over the notes, and what Verovio is to draw itself."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fractions import Fraction

    from lickwright.engraving.score import Score


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign to be drawn.

    Attributes:
        kind: Becomes its class.
        start, end: Local ids of the notes, or the bar, it is tied to; ``end`` may be empty.
        text: What it says, by kind.
        key: By which later signs know it.
        origin: The key of the sign that it goes on from.
        under: Whether it stands under the staff: the lower of two voices, the rows of the hands.
    """

    kind: str
    start: str
    end: str = ""
    text: str = ""
    key: str = ""
    origin: str = ""
    under: bool = False


@dataclass(slots=True)
class Plan:
    """Collects control events, by the index of their bar, and signs."""

    score: Score
    controls: list[list[str]] = field(init=False)
    signs: list[Sign] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.controls = [[] for _ in self.score.music.bars]

    def beat(self, bar: int, onset: Fraction) -> str:
        """Return MEI's ``tstamp`` of an onset, in units of the meter from 1."""
        return f"{float(1 + onset * self.score.music.bars[bar].meter.unit / 4):.5g}"

    def control(self, bar: int, mei: str) -> None:
        """Add a control event."""
        self.controls[bar].append(mei)

    def sign(
        self,
        kind: str,
        start: str,
        end: str = "",
        text: str = "",
        *,
        key: str = "",
        origin: str = "",
        under: bool = False,
    ) -> None:
        """Add a sign."""
        self.signs.append(Sign(kind, start, end, text, key, origin, under))
