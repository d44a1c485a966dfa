"""Bends: arrows to the amount over the tab, an angular line between noteheads on the staff.

Amounts are printed in whole steps: ``½``, ``full``, ``1½``. A bent note that lasts, or waits for
its release, is held by a dashed line at the height of its arrow.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from lxml import etree

from lickwright.engraving.accidentals import bend_grace
from lickwright.engraving.overlay.canvas import blank, move, stroke
from lickwright.engraving.pieces import moves
from lickwright.model.strike import BendKind, Late

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.engraving.overlay.canvas import Anchor, Canvas, Words
    from lickwright.engraving.pieces import Head
    from lickwright.engraving.score import Entry, Score
    from lickwright.engraving.signs import Plan, Sign
    from lickwright.model.music import Tone

_QUARTERS = {0: "", 1: "¼", 2: "½", 3: "¾"}
_NUT = "B.N."
"""Behind the nut: said before the amount of a bend of the string beyond it."""
_ROOM = "\u00a0" * 5
"""Keeps the room of a bent line over the staff."""
_TIP = 34.0
"""Half the width of an arrow head."""
_HELD = 200.0
"""How high over the tab a bend is held that comes from the line before."""


def amount(steps: Fraction) -> str:
    """Return a bend of so many half steps as printed, in whole steps: ``full``, ``½``, ``1½``."""
    whole, quarters = divmod(int(abs(steps) * 2), 4)
    if not quarters and whole == 1:
        return "full"
    return f"{whole or ''}{_QUARTERS[quarters]}" or "0"


def plan(score: Score, plan: Plan) -> None:
    """Plan every bend, release, pre-bend and hold on the tab, every bent line on the staff."""
    for voice in score.voices:
        tops: dict[int, str] = {}
        for entry in voice:
            for k, tone in enumerate(entry.sound.tones, 1):
                if score.staves.tab:
                    _tab(plan, entry, k, tone, tops)
        if score.staves.staff:
            _staff(plan, voice)


def _tab(plan: Plan, entry: Entry, k: int, tone: Tone, tops: dict[int, str]) -> None:
    """Plan one tone's moves; ``tops`` holds the slot at which each string is bent now."""
    if not isinstance(tone.head, Late):
        tops.pop(tone.string, None)
    heads = entry.heads(k)
    digit = f"t{heads[0][1].local}"
    for number, bend in enumerate(moves(tone), 1):
        if not tone.path:
            return
        reached = [(bar, head) for bar, head in heads if head.move == number]
        rise = bend.to - (tone.fret or 0)
        if bend.kind is BendKind.RELEASE:
            late = number == 1
            landed = [head for _, head in reached if head.released]
            end = digit if late else (f"t{landed[0].local}" if landed else "")
            words = amount(rise) if rise > 0 and not late else ""
            plan.sign("release", digit, end, (tops.get(tone.string, ""),), words)
            tops.pop(tone.string, None)
            digit = end or digit
            continue
        kind = "prebend" if bend.kind is BendKind.PRE else "bend"
        bar = entry.bar
        start = digit
        if number > 1 and reached:
            later = [(b, head) for b, head in reached if head.bent]
            bar = later[0][0] if later else bar
        words = f"{_NUT} {amount(rise)}" if bend.kind is BendKind.NUT else amount(rise)
        slot = plan.slot(bar, kind, words, "bend", start=start, tall=True)
        plan.sign(kind, start, slots=(slot,))
        tops[tone.string] = slot
        held = [head for _, head in reached if head.tied]
        if held:
            plan.sign("hold", slot, f"t{held[-1].local}")


def _staff(plan: Plan, voice: tuple[Entry, ...]) -> None:
    last: dict[int, Head] = {}
    for entry in voice:
        for _, piece in entry.pieces:
            for head in piece.heads:
                before = last.get(head.tone.string)
                late = isinstance(head.tone.head, Late) and head.piece == 1
                late = late and before is not None and _pitch(before) != _pitch(head)
                if bend_grace(head):
                    slot = plan.slot(entry.bar, "bent", _ROOM, "", start=f"s{head.local}b", top=True, size=16)
                    plan.sign("bent-line", f"s{head.local}b", f"s{head.local}", (slot,))
                elif (head.bent or late) and before is not None:
                    plan.sign("bent-line", f"s{before.local}", f"s{head.local}")
                last[head.tone.string] = head


def _pitch(head: Head) -> Fraction | None:
    return head.tone.path[head.step] if head.tone.path else None


def _tip(at: Anchor) -> float:
    """Where the arrow of a digit goes up."""
    return at.x + at.half + 0.62 * at.size


def _top(words: Words) -> float:
    return words.y + 0.2 * words.size


def _bend(canvas: Canvas, sign: Sign) -> None:
    at, words = canvas.near(sign.start), canvas.words(sign.slots[0])
    if at is None or words is None:
        return
    tip, top = _tip(at), _top(words)
    move(words, tip)
    group = canvas.group(at.system, "bend")
    left = at.x + at.half + 12
    stroke(
        group,
        f"M{left:.0f} {at.y:.0f}C{tip:.0f} {at.y:.0f} {tip:.0f} {at.y - 60:.0f} {tip:.0f} {top + 60:.0f}",
    )
    _arrow(group, tip, top, 1)


def _prebend(canvas: Canvas, sign: Sign) -> None:
    at, words = canvas.near(sign.start), canvas.words(sign.slots[0])
    if at is None or words is None:
        return
    top = _top(words)
    move(words, at.x)
    group = canvas.group(at.system, "prebend")
    stroke(group, f"M{at.x:.0f} {at.y - 0.42 * at.size:.0f}V{top + 60:.0f}")
    _arrow(group, at.x, top, 1)


def _release(canvas: Canvas, sign: Sign) -> None:
    at = canvas.near(sign.start)
    end = canvas.near(sign.end) if sign.end else None
    if at is None:
        return
    words = canvas.words(sign.slots[0]) if sign.slots[0] else None
    target = end or at
    group = canvas.group(target.system, "release")
    size = target.size
    x = (end.x - 0.05 * size) if end else _tip(at) + 1.1 * size
    foot = target.y - (0.5 if end else 0.1) * size
    same = words is not None and words.system == target.system
    top = _top(words) if words is not None and same else canvas.frames[target.system].top - _HELD
    start = float(words.element.get("x", "0")) if words is not None and same else x - 1.6 * size
    if words is not None and not same:
        frame = canvas.frames[words.system]
        ahead = canvas.group(words.system, "hold continued")
        edge = float(words.element.get("x", "0")) + 40
        stroke(ahead, f"M{edge:.0f} {_top(words):.0f}H{frame.right - 60:.0f}", dash="70 50")
    knee = max(start + 30, x - 1.1 * size)
    if knee - start > 160:
        stroke(group, f"M{start + 40:.0f} {top:.0f}H{knee:.0f}", dash="70 50")
    else:
        knee = start
    bow = f"C{x:.0f} {top:.0f} {x:.0f} {top + 60:.0f} {x:.0f} {foot - 70:.0f}"
    stroke(group, f"M{knee:.0f} {top:.0f}{bow}")
    _arrow(group, x, foot, -1)
    if sign.text:
        _label(group, x + 40, foot - 90, sign.text, 0.7 * size)


def _hold(canvas: Canvas, sign: Sign) -> None:
    words, end = canvas.words(sign.start), canvas.near(sign.end)
    if words is None or end is None:
        return
    left, top = float(words.element.get("x", "0")) + 60, _top(words)
    same = words.system == end.system
    right = end.x + end.half if same else canvas.frames[words.system].right - 60
    stroke(
        canvas.group(words.system, "hold"), f"M{left:.0f} {top:.0f}H{max(right, left + 80):.0f}", dash="70 50"
    )
    if not same:
        frame = canvas.frames[end.system]
        group = canvas.group(end.system, "hold continued")
        stroke(group, f"M{frame.left:.0f} {frame.top - _HELD:.0f}H{end.x:.0f}", dash="70 50")


def _bent_line(canvas: Canvas, sign: Sign) -> None:
    start, end = canvas.anchor(sign.start), canvas.anchor(sign.end)
    room = canvas.words(sign.slots[0]) if sign.slots else None
    if room is not None:
        blank(room)
    if start is None or end is None:
        return
    if start.system != end.system:
        right = canvas.frames[start.system].right - 60
        y = start.y - 150
        stroke(canvas.group(start.system, "bent-line"), f"M{start.x:.0f} {y:.0f}L{right:.0f} {y - 110:.0f}")
        y, left = end.y - 150, canvas.frames[end.system].left
        stroke(
            canvas.group(end.system, "bent-line continued"), f"M{left:.0f} {y - 110:.0f}L{end.x:.0f} {y:.0f}"
        )
        return
    middle = (start.x + end.x) / 2
    peak = min(start.y, end.y) - 210
    group = canvas.group(start.system, "bent-line")
    stroke(
        group,
        f"M{start.x:.0f} {start.y - 110:.0f}L{middle:.0f} {peak:.0f}L{end.x - 40:.0f} {end.y - 120:.0f}",
        weight=20,
    )


def _arrow(group: etree._Element, x: float, y: float, way: int) -> None:
    """A filled arrow head with its tip at ``(x, y)``; ``way`` 1 = pointing up."""
    stroke(group, f"M{x:.0f} {y:.0f}l-{_TIP:.0f} {75 * way}h{2 * _TIP:.0f}z", filled=True)


def _label(group: etree._Element, x: float, y: float, words: str, size: float) -> None:
    line = etree.SubElement(group, "text")
    line.set("x", f"{x:.0f}")
    line.set("y", f"{y:.0f}")
    line.set("font-size", f"{size:.0f}px")
    line.set("stroke", "none")
    line.text = words


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {
    "bend": _bend,
    "prebend": _prebend,
    "release": _release,
    "hold": _hold,
    "bent-line": _bent_line,
}
