"""The legend: the signs that a course uses, each with a small example, its name and what the hand does.

The examples are licks of a course that travels with the builder, one under each side-head; a lick is called
as :mod:`lickwright.analysis.signs` calls the sign. What a course does not use is not on its page.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from itertools import chain
from pathlib import Path

from markupsafe import Markup

from lickwright.analysis.signs import list_signs
from lickwright.model.blocks import Lick
from lickwright.model.course import Lesson
from lickwright.model.music import Music
from lickwright.model.orders import Engraved, ScoreOrder, System
from lickwright.model.reduced import for_score
from lickwright.model.timeline import resolve
from lickwright.pages.edition import LEGEND, Edition
from lickwright.pages.page import Made, Page
from lickwright.pages.practice import glyphs_of
from lickwright.pages.systems import page_svg
from lickwright.reading.course import read_course
from lickwright.words.pieces import in_words

FOLDER = "legend"
_SECTION = re.compile(r"^## (.+)\n\n(.+)\n\n```lick (\S+)$", re.MULTILINE)
_BOX = re.compile(r'viewBox="(\S+) (\S+) (\S+) (\S+)"')
_PIXEL = 20
"""Units of the notation to a CSS pixel."""
_EDGE = 100.0
"""Units left beside the last bar line."""


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign as the legend has it.

    Attributes:
        key: As ``list_signs`` calls it.
        name: In the words of the trade.
        does: What it looks like and what the hand does.
        music: The example.
    """

    key: str
    name: str
    does: str
    music: Music


@dataclass(frozen=True, slots=True)
class SignGroup:
    """Signs of a hand, or of the page."""

    title: str
    signs: tuple[Sign, ...]


@dataclass(frozen=True, slots=True)
class SignView:
    """A sign as the template prints it; ``words``: the example as its words say it."""

    key: str
    name: str
    does: str
    words: str
    svg: Markup


@cache
def all_signs() -> tuple[SignGroup, ...]:
    """Return the whole legend, as it stands in the course that travels with the builder."""
    course, _ = read_course(Path(str(files("lickwright") / FOLDER)))
    assert course is not None
    book = resolve(course)[0]

    def signs(lesson: Lesson) -> tuple[Sign, ...]:
        found = {key: (name, does) for name, does, key in _SECTION.findall(lesson.source.text)}
        named = ((p.block.name, book.piece(p.block.name)) for p in lesson.blocks if isinstance(p.block, Lick))
        return tuple(Sign(key, *found[key], piece.music) for key, piece in named if piece)

    return tuple(SignGroup(lesson.title, signs(lesson)) for lesson in course.lessons)


def signs_of(edition: Edition) -> tuple[SignGroup, ...]:
    """Return the signs that the lessons of an edition use; groups without one are left out."""
    pieces = (edition.pieces_in(lesson) for lesson in edition.course.lessons)
    used = frozenset(chain.from_iterable(list_signs(piece.music) for found in pieces for piece in found))
    groups = (
        SignGroup(group.title, tuple(sign for sign in group.signs if sign.key in used))
        for group in all_signs()
    )
    return tuple(group for group in groups if group.signs)


def legend_page(edition: Edition) -> Page:
    """Return the page of the signs of a course."""
    groups = signs_of(edition)
    orders = {
        sign.key: ScoreOrder(for_score(sign.music), f"sign-{sign.key}", "narrow", for_lick=sign.name)
        for group in groups
        for sign in group.signs
    }

    def render(made: Made) -> str:
        scores = {key: made(order) for key, order in orders.items()}
        drawn = {key: score for key, score in scores.items() if isinstance(score, Engraved)}
        view = edition.view(LEGEND, "The signs", glyphs=glyphs_of(drawn.values()))
        shown = [
            (group.title, [_view(sign, drawn.get(sign.key)) for sign in group.signs]) for group in groups
        ]
        return edition.theme.render("legend.html", page=view, course=edition.course, groups=shown)

    return Page(LEGEND, tuple(orders.values()), render)


def _view(sign: Sign, score: Engraved | None) -> SignView:
    lines = (line for bar in in_words(sign.music) for _, line in bar.voices)
    svg = Markup("").join(Markup(_cut(system)) for system in (score.systems if score else ()))  # noqa: S704
    return SignView(sign.key, sign.name, sign.does, " ".join(lines), svg)


def _cut(system: System) -> str:
    """The drawing of a system cut off behind its last bar, at the size of the pages."""
    svg = page_svg(system)
    box = _BOX.search(svg)
    if box is None:
        return svg
    width = min(float(box[3]), system.bars[-1].right * system.width + _EDGE)
    size = f'width="{width / _PIXEL:.0f}" height="{float(box[4]) / _PIXEL:.0f}"'
    view = f'viewBox="{box[1]} {box[2]} {width:.0f} {box[4]}" {size}'
    return svg[: box.start()] + view + svg[box.end() :]
