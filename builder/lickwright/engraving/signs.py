"""The plan of signs: what is to be drawn over the notes, and the room Verovio keeps for it.

A sign that Verovio cannot draw is planned as a :class:`Sign` and drawn afterwards. A *slot* is a
direction that Verovio sets free of collisions: the sign takes its place, or is its words.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from lickwright.engraving.tag import tag, text

if TYPE_CHECKING:
    from fractions import Fraction

    from lickwright.engraving.score import Score

ROWS: dict[str, int] = {
    "bend": 1,
    "mute": 2,
    "ring": 3,
    "position": 4,
    "rit": 5,
    "hand": 6,
    "finger": 7,
    "chord": 8,
}
"""Signs of such a row stand at one height in a system; all others each as low as they can."""
_NO_BREAK = "\u00a0"
ON_STAFF = 1.4
"""Words at the staff come out so much smaller than at the tab."""


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign to be drawn.

    Attributes:
        kind: Becomes its class.
        start, end: Local ids of the notes (or slots) it is tied to; ``end`` may be empty.
        slots: Its slots, in the order of time.
        text: What it says, by kind.
    """

    kind: str
    start: str
    end: str = ""
    slots: tuple[str, ...] = ()
    text: str = ""


@dataclass(slots=True)
class Plan:
    """Collects control events, by the index of their bar, and signs."""

    score: Score
    controls: list[list[str]] = field(init=False)
    signs: list[Sign] = field(default_factory=list)
    slots: int = 0

    def __post_init__(self) -> None:
        self.controls = [[] for _ in self.score.music.bars]

    def beat(self, bar: int, onset: Fraction) -> str:
        """Return MEI's ``tstamp`` of an onset, in units of the meter from 1."""
        return f"{float(1 + onset * self.score.music.bars[bar].meter.unit / 4):.5g}"

    def control(self, bar: int, mei: str) -> None:
        """Add a control event."""
        self.controls[bar].append(mei)

    def slot(
        self,
        bar: int,
        kind: str,
        words: str,
        row: str,
        *,
        start: str = "",
        onset: Fraction | None = None,
        top: bool = False,
        below: bool = False,
        size: int = 36,
        italic: bool = False,
        tall: bool = False,
    ) -> str:
        r"""Add a slot and return its local id.

        Args:
            bar: Index.
            kind: Its class.
            words: As printed; lines parted by ``\n``; empty = only the height is kept.
            row: Perhaps a name of :data:`ROWS`.
            start: Local id of the note it stands at; or else ``onset``, in the bar.
            onset: In quarters.
            top: Over the upper staff, not the one of the hands.
            below: Under the lower staff.
            size: Percent of the default.
            italic: Slanted.
            tall: With room for an arrow below the words.
        """
        self.slots += 1
        local = f"d{self.slots}"
        lines = [text(line) for line in (words or _NO_BREAK).split("\n")] + [_NO_BREAK] * tall
        staves = self.score.staves
        number = staves.tab or staves.staff if not top else staves.staff or staves.tab
        self.control(
            bar,
            tag(
                "dir",
                tag(
                    "rend",
                    tag("lb").join(lines),
                    fontsize=f"{size if number == staves.tab else round(size * ON_STAFF)}%",
                    fontstyle="italic" if italic else "normal",
                ),
                xml_id=local,
                type=f"slot {kind}",
                startid=f"#{start}" if start else None,
                tstamp=None if start or onset is None else self.beat(bar, onset),
                staff=number,
                place="below" if below else "above",
                vgrp=ROWS.get(row),
            ),
        )
        return local

    def sign(self, kind: str, start: str, end: str = "", slots: tuple[str, ...] = (), text: str = "") -> None:
        """Add a sign."""
        self.signs.append(Sign(kind, start, end, slots, text))
