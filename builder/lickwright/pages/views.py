"""Further views of a piece: the tab alone with its rhythm, and the staff alone.

In the page stand both staves. The other views are files of their own that the page asks for when they are
chosen: for each system of each width its drawing, and where its bars stand. Lines begin with the same bars
in all views, so margins, bar buttons and the choice of a loop stay as they are.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from lickwright.model.music import Music
from lickwright.model.orders import Engraved, ScoreOrder, System, Width
from lickwright.pages.page import Made
from lickwright.pages.site_file import SiteFile, script_of
from lickwright.pages.systems import level, page_svg

PREFIX = "v"
"""Begins the ids of every view, so that pages share it; the script puts the page's own in its place."""
VIEWS: tuple[Literal["tab", "staff"], ...] = ("tab", "staff")
WIDTHS: tuple[Width, ...] = ("wide", "narrow")


@dataclass(frozen=True, slots=True)
class ViewPlan:
    """What one further view orders."""

    view: Literal["tab", "staff"]
    wide: ScoreOrder
    narrow: ScoreOrder


def plan_views(drawn: Music, name: str) -> tuple[ViewPlan, ...]:
    """Return what the further views of a piece order.

    Args:
        drawn: The music, reduced to what is drawn.
        name: Of the piece, to be given when the engraver fails.
    """
    return tuple(
        ViewPlan(view, *(ScoreOrder(drawn, PREFIX, width, view, for_lick=name) for width in WIDTHS))
        for view in VIEWS
    )


def view_file(plan: ViewPlan, made: Made, scores: tuple[Engraved, ...]) -> SiteFile | None:
    """Return the file of a view, or None when it could not be made or has other lines than the page.

    Args:
        plan: Its orders.
        made: What became of them.
        scores: Both staves as the page has them, wide and narrow.
    """
    drawn = [made(order) for order in (plan.wide, plan.narrow)]
    content: dict[str, object] = {}
    glyphs = ""
    for width, score, both in zip(WIDTHS, drawn, scores, strict=False):
        if not isinstance(score, Engraved) or _lines(score) != _lines(both):
            return None
        systems = level(score.systems) if width == "narrow" else score.systems
        content[width] = [[page_svg(system), _boxes(system)] for system in systems]
        glyphs += score.glyphs
    return script_of({"glyphs": glyphs, **content}) if content else None


def _lines(score: Engraved) -> list[list[int]]:
    return [[box.number for box in system.bars] for system in score.systems]


def _boxes(system: System) -> list[list[float]]:
    return [[round(100 * box.left, 2), round(100 * (box.right - box.left), 2)] for box in system.bars]
