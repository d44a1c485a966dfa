"""Bends: arrows to the amount over the tab, an angular line between noteheads on the staff.

Amounts are printed in whole steps: ``½``, ``full``, ``1½``. A bent note that lasts, or waits for
its release, is held by a dashed line at the height of its arrow.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from lickwright.analysis.notation.pieces import moves
from lickwright.engraving.overlay.canvas import Tip, stroke, word_box
from lickwright.model.strike import BendKind, Late

if TYPE_CHECKING:
    from collections.abc import Callable

    from lxml import etree

    from lickwright.engraving.overlay.canvas import Anchor, Canvas
    from lickwright.engraving.overlay.ink import Box
    from lickwright.engraving.score import Entry, Score
    from lickwright.engraving.signs import Plan, Sign
    from lickwright.model.music import Tone

_QUARTERS = {0: "", 1: "¼", 2: "½", 3: "¾"}
_NUT = "B.N."
"""Behind the nut: said before the amount of a bend of the string beyond it."""
_SIZE = 272.0
_TIP = 34.0
"""Half the width of an arrow head."""
_STOREY = 290.0
"""How much higher a bend stands that goes on from another."""
_UNDER_WORDS = 50.0
"""From the baseline of an amount down to the tip of its arrow."""
_DASH = "70 50"
_SHAFT = 14.0
"""Half the width of an arrow's shaft."""
_AWAY = (0.62, 0.5, 0.4, 0.3, 0.2, 0.1, 0.8, 1.0, 1.25, 1.5, 1.8)
"""How far from its digit an arrow may go up, in the digit's size: the first that is free."""


def amount(steps: Fraction) -> str:
    """Return a bend of so many half steps as printed, in whole steps: ``full``, ``½``, ``1½``."""
    whole, quarters = divmod(int(abs(steps) * 2), 4)
    if not quarters and whole == 1:
        return "full"
    return f"{whole or ''}{_QUARTERS[quarters]}" or "0"


def plan(score: Score, plan: Plan) -> None:
    """Plan every bend, release, pre-bend and hold on the tab."""
    if not score.staves.tab:
        return
    for voice in score.voices:
        tops: dict[int, str] = {}
        for entry in voice:
            alike: dict[tuple[int, BendKind, Fraction], str] = {}
            for k, tone in enumerate(entry.sound.tones, 1):
                _tone(plan, entry, k, tone, tops, alike)


def _tone(
    plan: Plan,
    entry: Entry,
    k: int,
    tone: Tone,
    tops: dict[int, str],
    alike: dict[tuple[int, BendKind, Fraction], str],
) -> None:
    """Plan one tone's moves.

    Args:
        plan: Takes the signs.
        entry: The sound.
        k: Which of its tones.
        tone: That tone.
        tops: The key of the bend that each string is held at now.
        alike: Bends of the same sound by number, kind and amount: they share an arrow head.
    """
    if not isinstance(tone.head, Late):
        tops.pop(tone.string, None)
    heads = entry.heads(k)
    digit = f"t{heads[0][1].local}"
    for number, bend in enumerate(moves(tone), 1):
        if not tone.path:
            return
        reached = [head for _, head in heads if head.move == number]
        rise = bend.to - (tone.fret or 0)
        if bend.kind is BendKind.RELEASE:
            late = number == 1
            landed = [head for head in reached if head.released]
            end = digit if late else (f"t{landed[0].local}" if landed else "")
            words = amount(rise) if rise > 0 and not late else ""
            plan.sign("release", digit, end, words, origin=tops.pop(tone.string, ""))
            digit = end or digit
            continue
        kind = "prebend" if bend.kind is BendKind.PRE else "bend"
        words = f"{_NUT} {amount(rise)}" if bend.kind is BendKind.NUT else amount(rise)
        same = (number, bend.kind, rise)
        twin = alike.get(same, "") if number == 1 else ""
        key = f"{kind} {digit} {number}"
        later = next((f"t{head.local}" for head in reached if head.bent), "")
        origin = twin or tops.get(tone.string, "")
        plan.sign(kind, digit, later, "" if twin else words, key=key, origin=origin)
        alike.setdefault(same, key)
        tops[tone.string] = twin or key
        held = [head for head in reached if head.tied]
        if held and not twin:
            plan.sign("hold", digit, f"t{held[-1].local}", origin=key)


def _bend(canvas: Canvas, sign: Sign) -> None:
    at = canvas.near(sign.start)
    if at is None:
        return
    before = canvas.tips.get(sign.origin)
    if before and not sign.text:  # the same bend of another string: one arrow head for both
        shared = canvas.tips[sign.key] = before
        canvas.wish((at.system, "t"), "bend", (), lambda _: _curve(canvas, sign, at, shared))
        return
    if before and before.system == at.system and before.x > at.x:  # bent on from there
        later = canvas.near(sign.end) if sign.end else None
        x = later.x if later and later.system == at.system else before.x + 260
        tip = Tip(at.system, max(x, before.x + 160), before.storey + 1, {})
    else:
        before = None
        upright = sign.kind == "prebend"
        tip = Tip(at.system, _free(canvas, at, upright=upright), 0, {})
    canvas.tips[sign.key] = tip

    def draw(height: float) -> None:
        tip.top = height - _STOREY * tip.storey + _UNDER_WORDS
        canvas.word((at.system, "t", at.bar), "bend", tip.x, tip.top - _UNDER_WORDS, sign.text, _SIZE)
        _curve(canvas, sign, at, tip, before)
        if before is None:
            canvas.ink(at, "t").add((tip.x - _SHAFT, tip.top, tip.x + _SHAFT, at.y))

    base = -_STOREY * tip.storey
    boxes = (word_box(tip.x, sign.text, _SIZE, y=base), _level(tip.x - _TIP, tip.x + _TIP, base, 75))
    canvas.wish((at.system, "t"), "bend", boxes, draw)


def _free(canvas: Canvas, at: Anchor, *, upright: bool) -> float:
    """Where an arrow may go up, clear of digits on higher strings and of other arrows."""
    ink = canvas.ink(at, "t")
    places = [at.x] if upright else []
    places += [at.x + at.half + away * at.size for away in _AWAY]

    def shaft(x: float) -> list[Box]:
        foot = at.y - (0.6 if x == at.x else 0.1) * at.size
        return [(x - _SHAFT, min(ink.top - 60, foot - 1), x + _SHAFT, foot)]

    others = [tip.x for tip in canvas.tips.values() if tip.system == at.system and tip.x > at.x]
    apart = [x for x in places if all(abs(x - other) > _SIZE for other in others)]
    x = next((x for x in (*apart, *places) if not ink.meets(shaft(x), 12)), places[0])
    ink.add((x - _SHAFT, ink.top - 60, x + _SHAFT, at.y))
    return x


def _curve(canvas: Canvas, sign: Sign, at: Anchor, tip: Tip, before: Tip | None = None) -> None:
    group = canvas.group(at.system, "t", sign.kind)
    x, top = tip.x, tip.top
    if x == at.x:
        stroke(group, f"M{x:.0f} {at.y - 0.42 * at.size:.0f}V{top + 60:.0f}")
    else:
        left, y = (before.x + 24, before.top) if before else (at.x + at.half + 12, at.y)
        stroke(group, f"M{left:.0f} {y:.0f}C{x:.0f} {y:.0f} {x:.0f} {y - 60:.0f} {x:.0f} {top + 60:.0f}")
    _arrow(group, x, top, 1)


def _release(canvas: Canvas, sign: Sign) -> None:
    at = canvas.near(sign.start)
    if at is None:
        return
    end = canvas.near(sign.end) if sign.end else None
    target = end or at
    system, size, tip = target.system, target.size, canvas.tips.get(sign.origin)
    if tip is None:
        tip = Tip(system, target.x - target.half - 1.6 * size, 0, {})
    x, foot = _landing(canvas, target) if end else (tip.x + 1.1 * size, at.y - 0.1 * size)
    for over in range(tip.system, system):
        _dashes(canvas, over, tip, tip.held.get(over, tip.x + 40), canvas.frames[over].right - 60)
    left = tip.held.get(system, tip.x if tip.system == system else canvas.frames[system].left)
    knee = max(left, x - 1.1 * size)
    base = -_STOREY * tip.storey

    def draw(height: float) -> None:
        top = _height(tip, system, height)
        group = canvas.group(system, "t", "release")
        if knee - left > 160:
            stroke(group, f"M{left + 40:.0f} {top:.0f}H{knee:.0f}", dash=_DASH)
        start = knee if knee - left > 160 else left
        bow = f"C{x:.0f} {top:.0f} {x:.0f} {top + 60:.0f} {x:.0f} {foot - 70:.0f}"
        stroke(group, f"M{start:.0f} {top:.0f}{bow}")
        _arrow(group, x, foot, -1)
        canvas.ink(target, "t").add((x - _TIP, top, x + _TIP, foot))

    canvas.wish((system, "t"), "bend", [_level(left + 20, x, base, 0)], draw, fixed=True)
    if sign.text:  # let down in part: what is left of the bend
        side = x + 60

        def label(height: float) -> None:
            canvas.word((system, "t", target.bar), "release", side, height, sign.text, 0.7 * size, "start")

        canvas.wish((system, "t"), "letter", [word_box(side, sign.text, 0.7 * size, start=True)], label)


def _landing(canvas: Canvas, at: Anchor) -> tuple[float, float]:
    """Where the arrow of a release comes down: on its digit, or beside it under a digit above."""
    ink = canvas.ink(at, "t")
    over = (at.x - _TIP, ink.top - 60, at.x + _TIP, at.y - 0.6 * at.size)
    if over[1] < over[3] and ink.meets([over], 20):
        x = at.x + at.half + 0.3 * at.size
        ink.add((x - _TIP, ink.top - 60, x + _TIP, at.y))
        return x, at.y
    ink.add(over)
    return at.x, at.y - 0.5 * at.size


def _hold(canvas: Canvas, sign: Sign) -> None:
    tip, end = canvas.tips.get(sign.origin), canvas.near(sign.end)
    if tip is None or end is None:
        return
    for system in range(tip.system, end.system + 1):
        left = tip.x + 60 if system == tip.system else canvas.frames[system].left
        right = end.x + end.half if system == end.system else canvas.frames[system].right - 60
        _dashes(canvas, system, tip, left, max(right, left + 80))


def _dashes(canvas: Canvas, system: int, tip: Tip, left: float, right: float) -> None:
    """A dashed line at the height of a tip, if there is a stretch left to be held."""
    if right - left < 80:
        return
    tip.held[system] = right
    base = -_STOREY * tip.storey
    kind = "hold" if system == tip.system else "hold continued"

    def draw(height: float) -> None:
        top = _height(tip, system, height)
        stroke(canvas.group(system, "t", kind), f"M{left:.0f} {top:.0f}H{right:.0f}", dash=_DASH)

    canvas.wish((system, "t"), "bend", [_level(left, right, base, 0)], draw, fixed=True)


def _height(tip: Tip, system: int, height: float) -> float:
    """Where a bend is held: at its tip; in a later system at the height of the row."""
    return tip.top if tip.system == system and tip.top else height - _STOREY * tip.storey + _UNDER_WORDS


def _level(left: float, right: float, base: float, deep: float) -> Box:
    """The box of what stands at the height of the tips."""
    return left, base + _UNDER_WORDS - 11, right, base + _UNDER_WORDS + 11 + deep


def _arrow(group: etree._Element, x: float, y: float, way: int) -> None:
    """A filled arrow head with its tip at ``(x, y)``; ``way`` 1 = pointing up."""
    stroke(group, f"M{x:.0f} {y:.0f}l-{_TIP:.0f} {75 * way}h{2 * _TIP:.0f}z", filled=True)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {
    "bend": _bend,
    "prebend": _bend,
    "release": _release,
    "hold": _hold,
}
