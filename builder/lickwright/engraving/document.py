"""The whole MEI document of a piece of music, and the plan of what Verovio cannot draw."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from lickwright.engraving.accidentals import bend_grace, shown_accidentals
from lickwright.engraving.breaks import line_starts
from lickwright.engraving.head import meter_change, score_head
from lickwright.engraving.overlay.families import plan_signs
from lickwright.engraving.score import Score
from lickwright.engraving.signs import Plan, Sign
from lickwright.engraving.staff_layer import staff_layer
from lickwright.engraving.tab_layer import tab_layer
from lickwright.engraving.tag import tag

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lickwright.analysis.notation.pieces import Head
    from lickwright.model.music import Music, MusicBar
    from lickwright.model.orders import View, Width


@dataclass(frozen=True, slots=True)
class Document:
    """What goes into Verovio, and what is done to what comes out.

    Attributes:
        mei: The document.
        signs: To be drawn.
        texts: Digits to be replaced: ``(local id, text)``.
        bars: Numbers of the bars, in written order.
        notes: Local ids of every note that must come out.
    """

    score: Score
    mei: str
    signs: tuple[Sign, ...]
    texts: tuple[tuple[str, str], ...]
    bars: tuple[int, ...]
    notes: frozenset[str]


@lru_cache(maxsize=8)
def document(music: Music, view: View, width: Width = "wide") -> Document:
    """Write a piece of music as MEI; the same for every prefix, and but for its lines for both widths."""
    score = Score.of(music, view)
    plan = Plan(score)
    plan_signs(score, plan)
    _ties(score, plan)
    texts: list[tuple[str, str]] = []
    shown = shown_accidentals(score) if score.staves.staff else {}
    starts = line_starts(score, width)
    section = "".join(_section(score, plan, texts, shown, starts))
    body = tag("score", score_head(music, score.staves) + tag("section", section))
    mei = tag(
        "mei",
        tag("meiHead", tag("fileDesc", tag("titleStmt", tag("title")) + tag("pubStmt")))
        + tag("music", tag("body", tag("mdiv", body))),
        xmlns="http://www.music-encoding.org/ns/mei",
        meiversion="5.0",
    )
    return Document(
        score,
        mei,
        tuple(plan.signs),
        tuple(texts),
        tuple(bar.number for bar in music.bars),
        frozenset(_notes(score)),
    )


def _section(
    score: Score,
    plan: Plan,
    texts: list[tuple[str, str]],
    shown: dict[str, int],
    starts: frozenset[int],
) -> Iterator[str]:
    ending: list[str] = []
    times: tuple[int, ...] = ()
    bars = score.music.bars
    for index, bar in enumerate(bars):
        if times and bar.endings and bar.endings != times:
            yield _ending(times, ending, closed=False)
            times = ()
        if index in starts or not index:  # without any, Verovio would have something to say
            if times:
                ending.append(tag("sb"))
            else:
                yield tag("sb")
        if bar.meter_shown and index:
            (ending if times else []).append(change := meter_change(bar.meter, score.staves))
            if not times:
                yield change
        times = bar.endings or times
        measure = _measure(score, plan, index, texts, shown)
        if not times:
            yield measure
            continue
        ending.append(measure)
        if bar.ending_closed or index == len(bars) - 1:
            yield _ending(times, ending, closed=bar.ending_closed)
            times = ()


def _ending(times: tuple[int, ...], content: list[str], *, closed: bool) -> str:
    number = " ".join(f"{time}." for time in times)
    made = tag("ending", "".join(content), n=number, lendsym="angledown" if closed else "none")
    content.clear()
    return made


def _measure(
    score: Score, plan: Plan, index: int, texts: list[tuple[str, str]], shown: dict[str, int]
) -> str:
    bar = score.music.bars[index]
    layers = score.layers[index]
    content = ""
    if score.staves.staff:
        staff = "".join(staff_layer(score, layer, shown) for layer in layers)
        content += tag("staff", staff, n=score.staves.staff)
    if score.staves.tab:
        tabs = [tab_layer(score, layer) for layer in layers]
        texts.extend(entry for tab in tabs for entry in tab.texts)
        content += tag("staff", "".join(tab.mei for tab in tabs), n=score.staves.tab)
    return tag(
        "measure",
        content + "".join(plan.controls[index]),
        xml_id=f"b{bar.number}",
        n=bar.number,
        left="rptstart" if bar.opens else None,
        right=_right(score.music, index),
        metcon=None if _full(bar) else "false",
    )


def _full(bar: MusicBar) -> bool:
    return bar.length == bar.meter.length and bar.upper.filled == bar.length


def _right(music: Music, index: int) -> str | None:
    if music.bars[index].closes:
        return "rptend"
    return "end" if index == len(music.bars) - 1 else None


def _ties(score: Score, plan: Plan) -> None:
    """Ties of the staff, from each note to the one that goes on from it."""
    if not score.staves.staff:
        return
    for lower in (False, True):
        last: dict[int, tuple[int, Head]] = {}
        for index, layers in enumerate(score.layers):
            pieces = [p for layer in layers if layer.lower is lower for p in layer.pieces]
            for head in (head for piece in pieces for head in piece.heads):
                string = head.tone.string
                before = last.get(string)
                if head.tied and before is not None:
                    start, end = f"#s{before[1].local}", f"#s{head.local}"
                    plan.control(before[0], tag("tie", startid=start, endid=end))
                last[string] = (index, head)


def _notes(score: Score) -> Iterator[str]:
    for layers in score.layers:
        for layer in layers:
            for piece in layer.pieces:
                for head in piece.heads:
                    if score.staves.staff:
                        yield f"s{head.local}"
                        if bend_grace(head):
                            yield f"s{head.local}b"
                    if score.staves.tab and (head.fretted or not score.staves.staff):
                        yield f"t{head.local}"
