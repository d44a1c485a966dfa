"""Hammer-ons, pull-offs and taps: one slur a group on both staves, letters over the tab."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from lickwright.engraving.ids import grace_id
from lickwright.engraving.overlay.canvas import lower, move, width
from lickwright.engraving.score import Entry, source_of
from lickwright.engraving.tag import tag
from lickwright.model.slots import JoinKind
from lickwright.model.strike import Hammered, Tapped

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from lickwright.engraving.overlay.canvas import Canvas, Words
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign

_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_SLURRED = (JoinKind.HAMMER, JoinKind.PULL, JoinKind.SLIDE)
_LETTERS = {JoinKind.HAMMER: ("hammer", "H"), JoinKind.PULL: ("pull", "P")}

_CLEAR = 30.0
"""How much letters are lifted, clear of digits on the highest string."""


def plan(score: Score, plan: Plan) -> None:
    """Plan slurs, letters, the T of a tap and the H of a hammer-on with no stroke before it."""
    for voice in score.voices:
        for first, last, start, end in _groups(voice):
            _slur(score, plan, first.bar, f"{first.first(start)}", f"{last.first(end)}")
        for before, entry in zip((None, *voice), voice, strict=False):
            _graces(score, plan, entry)
            _letters(score, plan, before, entry)
    host = score.staves.host
    for entry in score.entries:
        for k, tone in enumerate(entry.sound.tones, 1):
            if isinstance(tone.head, Tapped | Hammered):
                kind, word = ("tap", "T") if isinstance(tone.head, Tapped) else ("hammer-on", "H")
                at = f"{host}{entry.first(k)}"
                slot = plan.slot(entry.bar, kind, word, "tap", start=at)
                plan.sign("centred", at, slots=(slot,))


def _groups(voice: tuple[Entry, ...]) -> Iterator[tuple[Entry, Entry, int, int]]:
    """Slurred groups: first and last sound, and the number of the slurred tone in each."""
    start: tuple[Entry, int] | None = None
    last: tuple[Entry, int] | None = None
    for before, entry in zip((None, *voice), voice, strict=False):
        linked = _linked(before, entry)
        if linked is None:
            if start and last:
                yield start[0], last[0], start[1], last[1]
            start = last = None
            continue
        start = start or linked[0]
        last = (entry, linked[1])
    if start and last:
        yield start[0], last[0], start[1], last[1]


def _linked(before: Entry | None, entry: Entry) -> tuple[tuple[Entry, int], int] | None:
    if before is None or entry.sound.grace:
        return None
    for k, tone in enumerate(entry.sound.tones, 1):
        found = before.on_string(tone.string) if tone.link in _SLURRED else None
        if found:
            return (before, found[0]), k
    return None


def _slur(score: Score, plan: Plan, bar: int, start: str, end: str) -> None:
    if score.staves.staff:
        plan.control(bar, tag("slur", startid=f"#s{start}", endid=f"#s{end}"))
    if score.staves.tab:
        local = f"l{start}"
        ends = {"startid": f"#t{start}", "endid": f"#t{end}"}
        plan.control(bar, tag("slur", xml_id=local, curvedir="above", **ends))
        plan.sign("tab-slur", f"t{start}", f"t{end}", (local,))


def _graces(score: Score, plan: Plan, entry: Entry) -> None:
    """One slur from the first grace note that leads on without a stroke to the sound."""
    for number, grace in enumerate(entry.sound.grace, 1):
        if grace.leads is None:
            continue
        for k, tone in enumerate(grace.tones, 1):
            found = entry.on_string(tone.string)
            if found:
                _slur(
                    score,
                    plan,
                    entry.bar,
                    grace_id(entry.sound.address, number, k),
                    entry.first(found[0]),
                )
                return


def _letters(score: Score, plan: Plan, before: Entry | None, entry: Entry) -> None:
    if entry.sound.grace or before is None:
        return
    for kind, (name, letter) in _LETTERS.items():
        for k, tone in enumerate(entry.sound.tones, 1):
            source = source_of(before, entry, tone) if tone.link is kind else None
            if source is None:
                continue
            host = score.staves.host
            start = f"{host}{source[0] if host == 's' else _digit(before, tone.string)}"
            slot = plan.slot(before.bar, name, letter, "letter", start=start, size=33)
            plan.sign("between", start, f"{host}{entry.first(k)}", (slot,))
            break


def _digit(before: Entry, string: int) -> str:
    found = before.on_string(string)
    return before.first(found[0]) if found else before.first()


def _between(canvas: Canvas, sign: Sign) -> None:
    """Words half way between two notes; at the end of the line where the second is on the next."""
    words = canvas.words(sign.slots[0])
    start, end = canvas.near(sign.start), canvas.near(sign.end)
    if words is None or start is None:
        return
    right = end.x if end and end.system == start.system else canvas.frames[start.system].right
    half = width(_said(words), words.size) / 2
    move(words, canvas.inside_bar(sign.start, (start.x + right) / 2, half))
    lower(words, -_CLEAR)


def _centred(canvas: Canvas, sign: Sign) -> None:
    """Words over the middle of a note."""
    words, at = canvas.words(sign.slots[0]), canvas.near(sign.start)
    if words is not None and at is not None:
        half = width(_said(words), words.size) / 2
        move(words, canvas.inside_bar(sign.start, at.x, half))
        lower(words, -_CLEAR)


def _said(words: Words) -> str:
    return "".join(str(part) for part in words.element.itertext()).strip()


def _tab_slur(canvas: Canvas, sign: Sign) -> None:
    """Move Verovio's slur from beside its digits to over them."""
    local = sign.slots[0]
    first = canvas.elements.get(local)
    pieces = [*([first] if first else []), *canvas.spans.get(local, [])]
    start, end = canvas.near(sign.start), canvas.near(sign.end)
    for element, system in pieces:
        path = element.find("path")
        numbers = [float(number) for number in _NUMBER.findall(path.get("d", ""))] if path is not None else []
        if path is None or len(numbers) != 14:
            continue
        left, right, lift = numbers[0], numbers[6], 0.0
        to_left, to_right = left, right
        for at, edge in ((start, 0), (end, 6)):
            if at is None or at.system != system:
                continue
            if edge:
                to_right = at.x
            else:
                to_left = at.x
            lift = max(lift, numbers[edge + 1] - (at.y - 0.5 * at.size))
        stretch = (to_right - to_left) / ((right - left) or 1.0)
        made = [
            f"{to_left + (number - left) * stretch:.0f}" if k % 2 == 0 else f"{number - lift:.0f}"
            for k, number in enumerate(numbers)
        ]
        points = [f"{x},{y}" for x, y in zip(made[::2], made[1::2], strict=True)]
        path.set("d", f"M{points[0]} C{' '.join(points[1:4])} C{' '.join(points[4:])}")


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {
    "between": _between, "centred": _centred, "tab-slur": _tab_slur,
}  # fmt: skip
