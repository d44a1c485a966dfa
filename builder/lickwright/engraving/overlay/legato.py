"""Hammer-ons, pull-offs and taps: one slur a group on both staves, letters over the tab."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.analysis.notation.ids import grace_id
from lickwright.engraving.overlay.canvas import word_box
from lickwright.engraving.score import Entry, source_of
from lickwright.engraving.tag import tag
from lickwright.model.slots import JoinKind
from lickwright.model.strike import Hammered, Tapped

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from lickwright.engraving.overlay.canvas import Anchor, Canvas
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign

_SLURRED = (JoinKind.HAMMER, JoinKind.PULL, JoinKind.SLIDE)
_LETTERS = {JoinKind.HAMMER: ("hammer", "H"), JoinKind.PULL: ("pull", "P")}
_SIZE = 249.0


def plan(score: Score, plan: Plan) -> None:
    """Plan slurs, letters, the T of a tap and the H of a hammer-on with no stroke before it.

    Those of the lower of two voices stand under the tab.
    """
    host = score.staves.host
    for lower, voice in enumerate(score.voices):
        under = bool(lower) and score.music.has_lower
        for first, last, start, end in _groups(voice):
            _slur(score, plan, first.bar, f"{first.first(start)}", f"{last.first(end)}", under=under)
        for before, entry in zip((None, *voice), voice, strict=False):
            _graces(score, plan, entry, under=under)
            _letters(score, plan, before, entry, under=under)
        for entry in voice:
            for k, tone in enumerate(entry.sound.tones, 1):
                if isinstance(tone.head, Tapped | Hammered):
                    kind, word = ("tap", "T") if isinstance(tone.head, Tapped) else ("hammer-on", "H")
                    plan.sign(kind, f"{host}{entry.first(k)}", text=word, under=under)


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
    """The tone before and the one slurred to it; of several strings the highest: one slur for all."""
    if before is None or entry.sound.grace:
        return None
    for k, tone in sorted(enumerate(entry.sound.tones, 1), key=lambda found: found[1].string):
        found = before.on_string(tone.string) if tone.link in _SLURRED else None
        if found:
            return (before, found[0]), k
    return None


def _slur(score: Score, plan: Plan, bar: int, start: str, end: str, *, under: bool) -> None:
    if score.staves.staff:
        plan.control(bar, tag("slur", startid=f"#s{start}", endid=f"#s{end}"))
    if score.staves.tab:
        plan.sign("slur", f"t{start}", f"t{end}", under=under)


def _graces(score: Score, plan: Plan, entry: Entry, *, under: bool) -> None:
    """One slur from the first grace note that leads on without a stroke to the sound."""
    for number, grace in enumerate(entry.sound.grace, 1):
        if grace.leads is None:
            continue
        for k, tone in sorted(enumerate(grace.tones, 1), key=lambda found: found[1].string):
            found = entry.on_string(tone.string)
            if found:
                start = grace_id(entry.sound.address, number, k)
                _slur(score, plan, entry.bar, start, entry.first(found[0]), under=under)
                return


def _letters(score: Score, plan: Plan, before: Entry | None, entry: Entry, *, under: bool) -> None:
    if entry.sound.grace or before is None:
        return
    for kind, (name, letter) in _LETTERS.items():
        for k, tone in enumerate(entry.sound.tones, 1):
            source = source_of(before, entry, tone) if tone.link is kind else None
            if source is None:
                continue
            host = score.staves.host
            start = f"{host}{source[0] if host == 's' else _digit(before, tone.string)}"
            plan.sign(name, start, f"{host}{entry.first(k)}", letter, under=under)
            break


def _digit(before: Entry, string: int) -> str:
    found = before.on_string(string)
    return before.first(found[0]) if found else before.first()


def _letter(canvas: Canvas, sign: Sign) -> None:
    """A letter half way between two notes; at the end of the line where the second is on the next."""
    start, end = canvas.near(sign.start), canvas.near(sign.end)
    if start is None:
        return
    right = end.x if end and end.system == start.system else canvas.frames[start.system].right
    write(canvas, sign, start, (start.x + right) / 2)


def _over_note(canvas: Canvas, sign: Sign) -> None:
    at = canvas.near(sign.start)
    if at is not None:
        write(canvas, sign, at, at.x)


def write(
    canvas: Canvas,
    sign: Sign,
    at: Anchor,
    x: float,
    row: str = "letter",
    size: float = _SIZE,
    style: str = "",
) -> None:
    """Write what a sign says, in a row over a note, inside its bar."""
    box = word_box(0, sign.text, size)
    x = canvas.inside_bar(at, x, box[2])
    place = (at.system, sign.start[0], at.bar)

    def draw(height: float) -> None:
        canvas.word(place, sign.kind, x, height, sign.text, size, style)

    boxes = [(box[0] + x, box[1], box[2] + x, box[3])]
    canvas.wish(place[:2], row, boxes, draw, under=sign.under)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {
    "hammer": _letter, "pull": _letter, "tap": _over_note, "hammer-on": _over_note,
}  # fmt: skip
