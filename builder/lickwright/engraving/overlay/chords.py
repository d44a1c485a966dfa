"""Chord symbols at their beat, stops, the words at the head of a bar."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.overlay.canvas import stroke, width
from lickwright.engraving.signs import ON_STAFF, ROWS
from lickwright.engraving.tag import tag, text

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign


def plan(score: Score, plan: Plan) -> None:
    """Plan chord symbols, repeats that are played more than twice, titles, the word for swing."""
    staves = score.staves
    for index, bar in enumerate(score.music.bars):
        if bar.mark:
            plan.control(
                index,
                tag(
                    "reh",
                    tag("rend", text(bar.mark), fontsize=f"{_size(score, 62)}%"),
                    tstamp=1,
                    staff=1,
                    place="above",
                ),
            )
        for number, chord in enumerate(bar.chords):
            if chord.carried:
                continue
            local = f"h{bar.number}-{number}"
            plan.control(
                index,
                tag(
                    "harm",
                    tag("rend", text(chord.symbol.display), fontsize=f"{_size(score, 70)}%"),
                    xml_id=local,
                    tstamp=plan.beat(index, chord.onset),
                    staff=staves.staff or staves.tab,
                    place="above",
                    vgrp=ROWS["chord"],
                ),
            )
            if chord.stop:
                plan.sign("stop", local, text=chord.symbol.display)
        if bar.closes and bar.times > 2:
            last = bar.length - bar.meter.beat / 2
            plan.slot(index, "times", f"×{bar.times}", "times", onset=last, top=True, size=42)
    if score.music.swung:
        plan.slot(0, "swing", "Swing", "swing", onset=score.music.bars[0].length * 0, top=True, size=40)


def _size(score: Score, percent: int) -> int:
    """Words at a tab come out so much larger than at the staff."""
    return percent if score.staves.staff else round(percent / ON_STAFF)


def _stop(canvas: Canvas, sign: Sign) -> None:
    """A wedge after the chord: struck once."""
    words = canvas.words(sign.start)
    if words is None:
        return
    x = words.x + width(sign.text, words.size) + 70
    group = canvas.group(words.system, "stop")
    stroke(group, f"M{x - 42:.0f} {words.y - 270:.0f}h84l-42 170z", filled=True)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {"stop": _stop}
