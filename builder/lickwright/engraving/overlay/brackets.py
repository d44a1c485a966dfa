"""Brackets over a passage: let ring and palm mute (dashed), position (solid), ritardando."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from lickwright.engraving.overlay.canvas import stroke, word_box
from lickwright.terms.numbers import roman

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.engraving.overlay.canvas import Canvas, Run
    from lickwright.engraving.overlay.ink import Box
    from lickwright.engraving.score import Entry, Score
    from lickwright.engraving.signs import Plan, Sign

_ROWS = {"let-ring": "ring", "palm-mute": "mute", "position": "position", "rit": "rit"}
_REACH = 140.0
"""How far a bracket goes beyond the middle of its last note."""
_SIZE, _HOOK = 272.0, 110.0


def plan(score: Score, plan: Plan) -> None:
    """Plan the brackets of both voices."""
    staves = score.staves
    for voice in score.voices:
        for number, run in groupby(voice, lambda entry: entry.sound.ring):
            if number:
                _bracket(plan, list(run), "let-ring", "let ring", staves.host)
        for number, run in groupby(voice, lambda entry: entry.sound.mute):
            if number:
                _bracket(plan, list(run), "palm-mute", "P.M.", staves.host)
        for fret, run in groupby(voice, lambda entry: entry.sound.position):
            if fret is not None:
                _bracket(plan, list(run), "position", roman(fret) or "open", staves.top)
        for place, entry in enumerate(voice):
            if "rit" in entry.sound.signs:
                _bracket(plan, list(voice[place:]), "rit", "rit.", staves.top)
                break


def _bracket(plan: Plan, run: list[Entry], kind: str, words: str, host: str) -> None:
    plan.sign(kind, f"{host}{run[0].anchor}", f"{host}{run[-1].last()}", words)


def _draw(canvas: Canvas, sign: Sign) -> None:
    start, end = canvas.near(sign.start), canvas.near(sign.end)
    if start is None or end is None:
        return
    for run in canvas.runs(start, end, after=_REACH):
        bar = start.bar if run.begins else canvas.first_bar(run.system)
        _piece(canvas, sign, run, bar)


def _piece(canvas: Canvas, sign: Sign, run: Run, bar: int) -> None:
    """One system's piece: the words, in brackets where it goes on, the line, the hook where it ends."""
    words = sign.text if run.begins else f"({sign.text})"
    solid = sign.kind == "position"
    said = word_box(0, words, _SIZE, start=True)
    x = min(run.left, canvas.frames[run.system].right - said[2] + (60 if run.ends else -40))
    left = x + said[2] + 60
    right = max(run.right, left if run.ends else left + 40)
    hook = _HOOK if run.ends and sign.kind != "rit" else 0.0
    middle = 0.3 * _SIZE
    staff = sign.start[0]

    def draw(height: float) -> None:
        style = "start" if solid else "start italic"
        kind = sign.kind if run.begins else f"{sign.kind} continued"
        canvas.word((run.system, staff, bar), kind, x, height, words, _SIZE, style)
        group = canvas.group(run.system, staff, kind)
        y = height - middle
        dash = None if solid else "70 60"
        if right > left + 30:
            stroke(group, f"M{left:.0f} {y:.0f}H{right:.0f}", dash=dash, weight=20)
        if hook or right <= left + 30:
            stroke(group, f"M{right:.0f} {y:.0f}v{_HOOK:.0f}", weight=20)

    boxes: list[Box] = [(x, said[1], x + said[2], said[3]), (left, -middle - 10, right, -middle + 10)]
    if hook:
        boxes.append((right - 10, -middle - 10, right + 10, -middle + hook + 10))
    canvas.wish((run.system, staff), _ROWS[sign.kind], boxes, draw)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = dict.fromkeys(_ROWS, _draw)
