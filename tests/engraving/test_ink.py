"""What is drawn touches nothing, stays in its system and stands at its note: read from Chromium.

Every lick of the course of every sign in all views, and every lick of the demo, both at both widths.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from ink import SPACE, Box, Drawn, Ink, clashes, read_ink

from lickwright.engraving.document import document
from lickwright.engraving.engrave import engrave
from lickwright.engraving.ids import page_prefix
from lickwright.engraving.overlay import ink as model
from lickwright.model.orders import ScoreOrder, View, Width
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course

if TYPE_CHECKING:
    from playwright.sync_api import Browser

    from lickwright.engraving.signs import Sign
    from lickwright.model.music import Music

pytestmark = pytest.mark.browser
ROOT = Path(__file__).parents[2]
COURSES: dict[str, tuple[Path, tuple[View, ...]]] = {
    "every sign": (ROOT / "tests" / "courses" / "every-sign", ("both", "tab", "staff")),
    "the demo": (ROOT / "content", ("both",)),
}
WIDTHS: tuple[Width, ...] = ("wide", "narrow")
LEFT, TOP, RIGHT, FOOT = range(4)
CENTRED = ("hand", "finger", "tap", "hammer-on", "pinch", "tremolo", "fermata", "prebend", "accent", "short")
PLACES: dict[str, tuple[int, int] | None] = {
    **dict.fromkeys((*CENTRED, "down-stroke", "up-stroke")),
    **dict.fromkeys(("vibrato", "wide-vibrato", "swell", "nested-tuplet"), (LEFT, LEFT)),
    **dict.fromkeys(("let-ring", "palm-mute", "position", "rit"), (LEFT, LEFT)),
    **dict.fromkeys(("bend", "slide", "slide-out"), (LEFT, RIGHT)),
    **dict.fromkeys(("slide-in", "spread"), (RIGHT, LEFT)),
}
"""Which edge of a sign stands at which edge of its note; None: middle at middle."""
WRITTEN = frozenset({
    *("hand", "finger", "tap", "hammer-on", "pinch", "let-ring", "palm-mute", "position", "rit"),
})  # fmt: skip
"""Of these the words stand there."""
ELSEWHERE = frozenset({"bend", "slide"})
"""Some of these begin at another's tip, or go on from the system before."""


@dataclass(frozen=True)
class Read:
    """A score: what was engraved, and its systems as drawn."""

    music: Music
    view: View
    width: Width
    prefix: str
    planned: tuple[Sign, ...]
    systems: tuple[Drawn, ...]


def read_scores(browser: Browser, scores: dict[str, tuple[Music, View, Width]]) -> list[Read]:
    """Engrave scores and read their ink, all on one page."""
    prefixes = {name: f"x{number}" for number, name in enumerate(scores)}
    orders = {
        name: ScoreOrder(music, prefixes[name], width, view) for name, (music, view, width) in scores.items()
    }
    made = [(name, engrave(order)) for name, order in orders.items()]
    planned = {name: document(order.music, order.view, order.width).signs for name, order in orders.items()}
    systems: dict[str, list[Drawn]] = {name: [] for name in scores}
    for system in read_ink(browser, made):
        systems[system.name.rpartition(" ")[0]].append(system)
    return [Read(*scores[name], prefixes[name], planned[name], tuple(systems[name])) for name in scores]


@pytest.fixture(scope="module", params=COURSES)
def course(request: pytest.FixtureRequest, chromium: Browser) -> list[Read]:
    """All licks of a course, excerpts left out."""
    folder, views = COURSES[request.param]
    book, _ = resolve(read_course(folder)[0])
    return read_scores(
        chromium,
        {
            f"{piece.name or number} {view} {width}": (piece.music, view, width)
            for number, piece in enumerate(book.pieces)
            if piece.music.bars and piece.kind != "excerpt"
            for view in views
            for width in WIDTHS
        },
    )


def touching(scores: list[Read]) -> list[str]:
    """Every clash, in words."""
    return [str(clash) for score in scores for system in score.systems for clash in clashes(system)]


def outside(system: Drawn) -> list[str]:
    """Ink that leaves its system."""
    left, top, right, foot = system.view
    return [
        f"{system.name}: {shape.name} {shape.box}"
        for shape in system.ink
        if not (
            left <= shape.box[0] and top <= shape.box[1] and shape.box[2] <= right and shape.box[3] <= foot
        )
    ]


def astray(score: Read) -> list[str]:
    """Signs that do not stand within a staff space of their notes, across.

    The signs of a kind in a system are held against the notes the plan names, both from left to right.
    """
    prefix = page_prefix(score.prefix, score.width)
    drawn = {shape.id.removeprefix(prefix) for system in score.systems for shape in system.ink}
    unknown = {s.kind for s in score.planned if s.start not in drawn and _twin(s.start) not in drawn}
    wrong = []
    for system in score.systems:
        notes = {shape.id.removeprefix(prefix): shape.box for shape in system.ink if shape.kind == "note"}
        accidentals = [box for shape in system.ink if shape.kind == "accid" for box in shape.boxes]
        kinds = {sign.kind for sign in score.planned} & PLACES.keys()
        for kind in sorted(kinds):
            wanted = sorted(
                box
                for sign in score.planned
                if sign.kind == kind and not (kind == "bend" and sign.origin)
                if (box := notes.get(sign.start) or notes.get(_twin(sign.start)))
            )
            if kind == "slide-in":
                wanted = [_led(box, accidentals) for box in wanted]
            found = sorted(shape.box for shape in system.ink if _named(shape, kind))
            loose = kind in ELSEWHERE or kind in unknown  # at a grace note, which has no id
            if loose:
                pairs = [
                    (min(found, key=lambda box: _off(kind, box, note)), note) for note in wanted if found
                ]
            else:
                pairs = list(zip(found, wanted, strict=False))
            if len(found) < len(wanted) or (len(found) > len(wanted) and not loose):
                wrong.append(f"{system.name}: {len(found)} {kind} for {len(wanted)}")
            wrong += [
                f"{system.name}: {kind} {_off(kind, one, other):.0f} away"
                for one, other in pairs
                if _off(kind, one, other) > SPACE
            ]
    return wrong


def _twin(local: str) -> str:
    return {"s": "t", "t": "s"}[local[0]] + local[1:] if local[0] in "st" else local


def _led(note: Box, accidentals: list[Box]) -> Box:
    """A note with the accidentals that stand right before it."""
    left, top, right, foot = note
    for box in sorted(accidentals, reverse=True):
        if left - 60 < box[RIGHT] <= left + 12 and box[TOP] < foot and box[FOOT] > top:
            left = box[LEFT]
    return left, top, right, foot


def _named(shape: Ink, kind: str) -> bool:
    words = shape.words.split()
    wanted = "slot" if kind in WRITTEN else "sign"
    return shape.kind == wanted and kind in words and "continued" not in words


def _off(kind: str, sign: Box, note: Box) -> float:
    """How far a sign is from its place at a note, across."""
    edges = PLACES[kind]
    if edges is None:
        return abs(sign[LEFT] + sign[RIGHT] - note[LEFT] - note[RIGHT]) / 2
    return abs(sign[edges[0]] - note[edges[1]])


def test_nothing_touches(course: list[Read]) -> None:
    """No sign, digit, letter or chord symbol lies on other ink."""
    assert touching(course) == []


def test_all_ink_lies_in_its_system(course: list[Read]) -> None:
    """Nothing is cut off."""
    assert [name for score in course for system in score.systems for name in outside(system)] == []


def test_every_sign_stands_at_its_note(course: list[Read]) -> None:
    """As many as are planned, each within a staff space of its note."""
    assert [fault for score in course for fault in astray(score)] == []


def test_signs_moved_are_seen(course: list[Read]) -> None:
    """A sign moved by 300 units strays from its note."""
    moved: Counter[str] = Counter()
    seen: Counter[str] = Counter()
    for score in course:
        for system in score.systems:
            for at, shape in enumerate(system.ink):
                kind = shape.words.split()[-1] if shape.words else ""
                if kind not in PLACES or not _named(shape, kind) or "continued" in shape.words:
                    continue
                if moved[kind] >= 3:
                    continue
                moved[kind] += 1
                ink = (*system.ink[:at], _moved(shape, 300), *system.ink[at + 1 :])
                changed = replace(system, ink=ink)
                systems = tuple(changed if other is system else other for other in score.systems)
                seen[kind] += bool(astray(replace(score, systems=systems)))
    assert len(moved) > 4
    assert seen == moved


def _moved(shape: Ink, by: float) -> Ink:
    return replace(shape, boxes=tuple((a + by, b + by, c + by, d + by) for a, b, c, d in shape.boxes))


def test_signs_set_blindly_touch(chromium: Browser, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a look at what is there the same licks are full of clashes."""
    book, _ = resolve(read_course(COURSES["every sign"][0])[0])
    wanted = {
        piece.name: (piece.music, "both", "wide")
        for piece in book.pieces
        if piece.name in ("bends-by-amount", "taps", "brackets-and-everything", "chord-symbols")
    }
    monkeypatch.setattr(model.Ink, "clear", lambda *_, **__: 0.0)
    kinds = Counter(name.partition(" ")[0] for name in touching(read_scores(chromium, wanted)))
    assert set(kinds) == set(wanted)
