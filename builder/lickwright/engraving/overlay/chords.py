"""Chord symbols at their beat, stops, the words at the head of a bar, the numbers of endings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.overlay.canvas import stroke, word_box
from lickwright.engraving.overlay.ink import extent
from lickwright.engraving.tag import tag, text

if TYPE_CHECKING:
    from collections.abc import Callable

    from lxml import etree

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign

_NO_BREAK = "\u00a0"
_ON_STAFF = 1.4
"""Words at the tab come out so much larger than at the staff."""
_SIZES = {"times": 318.0, "swing": 302.0, "reh": 335.0}
_ROWS = {"times": "times", "swing": "swing", "reh": "title"}


def plan(score: Score, plan: Plan) -> None:
    """Plan chord symbols, repeats that are played more than twice, titles, the word for swing."""
    staves = score.staves
    top = staves.top
    percent = 70 if staves.staff else round(70 / _ON_STAFF)
    for index, bar in enumerate(score.music.bars):
        here = f"b{bar.number}"
        if bar.mark:
            plan.sign("reh", here, text=bar.mark, origin=top)
        if bar.endings:
            plan.sign("ending", here, origin=top)
        for number, chord in enumerate(bar.chords):
            if chord.carried:
                continue
            local = f"h{bar.number}-{number}"
            # room for letters in bold, for the next symbol's distance, for the wedge of a stop
            said = chord.symbol.display + _NO_BREAK * (1 + len(chord.symbol.display) // 4 + 2 * chord.stop)
            plan.control(
                index,
                tag(
                    "harm",
                    tag("rend", text(said), fontsize=f"{percent}%"),
                    xml_id=local,
                    tstamp=plan.beat(index, chord.onset),
                    staff=staves.staff or staves.tab,
                    place="above",
                ),
            )
            plan.sign("stop" if chord.stop else "harm", local, origin=top)
        if bar.closes and bar.times > 2:
            plan.sign("times", here, text=f"×{bar.times}", origin=top)
    if score.music.swung:
        plan.sign("swing", f"b{score.music.bars[0].number}", text="Swing", origin=top)


def _symbol(canvas: Canvas, sign: Sign) -> None:
    """Verovio's symbol at the height of its row; after it the wedge of a stop: struck once."""
    element, system = canvas.elements.get(sign.start, (None, 0))
    words = element.find("text") if element is not None else None
    box = extent(words) if words is not None else None
    if words is None or box is None:
        return
    y = float(words.get("y", "0"))
    right = box[0] + (box[2] - box[0]) * 1.04  # bold
    boxes = [(box[0], box[1] - y, right, box[3] - y)]
    x = right + 70
    if sign.kind == "stop":
        boxes.append((x - 42, -270, x + 42, -90))
    for span in words.iter("tspan"):
        if span.text:
            span.text = span.text.rstrip(_NO_BREAK)

    def draw(height: float) -> None:
        for part in words.iter("text", "tspan"):
            if part.get("y"):
                part.set("y", f"{height:.0f}")
        if sign.kind == "stop":
            group = canvas.group(system, sign.origin, "stop")
            stroke(group, f"M{x - 42:.0f} {height - 270:.0f}h84l-42 170z", filled=True)

    canvas.wish((system, sign.origin), "chord", boxes, draw)


def _words(canvas: Canvas, sign: Sign) -> None:
    """Words at the head of a bar, or at its end."""
    found = canvas.elements.get(sign.start)
    if found is None:
        return
    bar, size = canvas.bars[sign.start], _SIZES[sign.kind]
    place = (found[1], sign.origin, bar)
    x = canvas.first_place(bar)
    if sign.kind == "times":
        x = canvas.ends[bar - 1] - word_box(0, sign.text, size, start=True)[2] - 40

    def draw(height: float) -> None:
        canvas.word(place, sign.kind, x, height, sign.text, size, "start")

    canvas.wish(place[:2], _ROWS[sign.kind], [word_box(x, sign.text, size, start=True)], draw)


def _ending(canvas: Canvas, sign: Sign) -> None:
    """Verovio's bracket of an ending at the height of its row."""
    found = canvas.elements.get(sign.start)
    bracket = _bracket(found[0]) if found else None
    if found is None or bracket is None:
        return
    lines = [path.get("d", "").replace("M", "").replace("L", "").split() for path in bracket.findall("path")]
    numbers = [[float(number) for number in line] for line in lines]
    top = min(line[1] for line in numbers)
    words = bracket.find("text")
    # all of it: a symbol stands over the bracket, never between its line and the staff
    edges = [x for a, _, c, _ in numbers for x in (a, c)]
    boxes = [(min(edges) - 7, -7, max(edges) + 7, max(max(b, d) for _, b, _, d in numbers) - top + 7)]

    def draw(height: float) -> None:
        for path, (a, b, c, d) in zip(bracket.findall("path"), numbers, strict=True):
            path.set("d", f"M{a:g} {b - top + height:g} L{c:g} {d - top + height:g}")
        if words is not None:
            words.set("y", f"{height + 310:.0f}")

    canvas.wish((found[1], sign.origin), "ending", boxes, draw)


def _bracket(measure: etree._Element) -> etree._Element | None:
    before = measure.getprevious()
    while before is not None and before.get("class") != "measure":
        found = before.find("g[@class='voltaBracket']")
        if found is not None:
            return found
        before = before.getprevious()
    return None


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {
    "harm": _symbol, "stop": _symbol, "ending": _ending, **dict.fromkeys(_ROWS, _words),
}  # fmt: skip
