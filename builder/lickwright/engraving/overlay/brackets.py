"""Brackets over a passage: let ring and palm mute (dashed), position (solid), ritardando."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from lickwright.engraving.overlay.canvas import stroke, width
from lickwright.engraving.overlay.passing import slots_along

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.score import Entry, Score
    from lickwright.engraving.signs import Plan, Sign

_ROMAN = ((10, "X"), (9, "IX"), (5, "V"), (4, "IV"), (1, "I"))
_REACH = 150.0
"""How far a bracket goes beyond the middle of its last note."""


def roman(number: int) -> str:
    """Return a position in Roman numerals; ``open`` for 0."""
    if number <= 0:
        return "open"
    made = ""
    for value, letters in _ROMAN:
        while number >= value:
            made += letters
            number -= value
    return made


def plan(score: Score, plan: Plan) -> None:
    """Plan the brackets of both voices."""
    staves = score.staves
    for voice in score.voices:
        for number, run in groupby(voice, lambda entry: entry.sound.ring):
            if number:
                _bracket(plan, list(run), "let-ring", "let ring", "ring", staves.host)
        for number, run in groupby(voice, lambda entry: entry.sound.mute):
            if number:
                _bracket(plan, list(run), "palm-mute", "P.M.", "mute", staves.host)
        for fret, run in groupby(voice, lambda entry: entry.sound.position):
            if fret is not None:
                _bracket(plan, list(run), "position", roman(fret), "position", staves.top)
        for place, entry in enumerate(voice):
            if "rit" in entry.sound.signs:
                _bracket(plan, list(voice[place:]), "rit", "rit.", "rit", staves.top)
                break


def _bracket(plan: Plan, run: list[Entry], kind: str, words: str, row: str, host: str) -> None:
    top = host == plan.score.staves.top
    slots = slots_along(plan, run, kind, words, row, top=top, again=f"({words})")
    last = run[-1]
    plan.sign(kind, f"{host}{run[0].anchor}", f"{host}{last.last()}", slots, words)


def _draw(canvas: Canvas, sign: Sign) -> None:
    dash = None if sign.kind == "position" else "70 60"
    for run in canvas.runs(sign, after=_REACH):
        y = run.slot.y - 0.3 * run.slot.size
        left = run.left
        kind = sign.kind if run.begins else f"{sign.kind} continued"
        group = canvas.group(run.slot.system, kind)
        said = sign.text if run.begins else f"({sign.text})"
        if said.strip("()"):
            wide = width(said, run.slot.size)
            begin = min(
                run.slot.x if run.begins else max(left, run.slot.x),
                canvas.frames[run.slot.system].right - 40 - wide,
            )
            run.slot.element.set("x", f"{begin:.0f}")
            left = begin + wide + 60
        if run.right > left + 60:
            stroke(group, f"M{left:.0f} {y:.0f}H{run.right:.0f}", dash=dash, weight=20)
        if run.ends and sign.kind != "rit":
            stroke(group, f"M{max(run.right, left):.0f} {y:.0f}v110", weight=20)
        if not len(group):
            stroke(group, f"M{left:.0f} {y:.0f}h40", weight=20)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {
    "let-ring": _draw, "palm-mute": _draw, "position": _draw, "rit": _draw,
}  # fmt: skip
