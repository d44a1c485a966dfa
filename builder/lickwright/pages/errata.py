"""The errata as a page: each changed bar as it was and as it is, the notes that changed marked."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from lickwright.errata import BarChange, CourseChange, Errata, GridChange, Kind, LickChange
from lickwright.model.address import Address, AddressRange
from lickwright.model.music import Music
from lickwright.model.orders import Engraved, ScoreOrder
from lickwright.model.reduced import for_score
from lickwright.model.timeline.excerpt import excerpt_music
from lickwright.pages.counting import capital, count
from lickwright.pages.edition import Edition
from lickwright.pages.page import Made, Page
from lickwright.pages.practice import glyphs_of
from lickwright.pages.prefixes import short_prefixes
from lickwright.report.errata import (
    COURSE_HEAD,
    HEADS,
    PROGRESSIONS_HEAD,
    UNREAD_HEAD,
    say_bar,
    say_detail,
    say_field,
    say_licks,
    say_link,
    say_unread,
)

PATH = "index.html"
OLD, NEW = "was", "now"


@dataclass(frozen=True, slots=True)
class BarView:
    """A bar that changed, as the template prints it: ``figures`` are SVG and caption."""

    name: str
    figures: tuple[tuple[Markup, str], ...]
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LickView:
    """A lick that changed: what is said of it as a whole, then its bars."""

    title: str
    said: tuple[str, ...]
    bars: tuple[BarView, ...]


def errata_page(errata: Errata, edition: Edition) -> Page:
    """Return the page of errata.

    Args:
        errata: What changed.
        edition: The new one: its title, language and theme are the page's.
    """
    orders = _orders(errata)

    def render(made: Made) -> str:
        drawn = {key: made(order) for key, order in orders.items()}
        scores = {key: score for key, score in drawn.items() if isinstance(score, Engraved)}
        sections = [
            (COURSE_HEAD, [_line(line) for line in errata.course]),
            (PROGRESSIONS_HEAD, [_grid(change) for change in errata.progressions]),
            *(
                (head, [_lick(change, scores) for change in errata.of_kind(kind)])
                for kind, head in HEADS.items()
            ),
        ]
        return edition.theme.render(
            "errata.html",
            page=edition.view(PATH, "Errata", glyphs=glyphs_of(scores.values())),
            course=edition.course,
            editions=(errata.old, errata.new),
            summary=_summary(errata),
            lessons=errata.lessons,
            unread=(UNREAD_HEAD, [capital(say_unread(each)) for each in errata.unread]),
            sections=[(head, changes) for head, changes in sections if changes],
            sentences=[(each, [say_link(link) for link in each.links]) for each in errata.sentences],
        )

    return Page(PATH, tuple(orders.values()), render)


def _summary(errata: Errata) -> str:
    if errata.empty:
        return "Nothing has changed."
    heard = count(len(errata.of_kind(Kind.MUSIC)), "lick")
    played = count(len(errata.of_kind(Kind.HANDS)), "lick")
    drawn = count(len(errata.of_kind(Kind.DRAWING)), "lick")
    words = count(len(errata.sentences), "sentence")
    whole = [
        *([count(len(errata.course), "line") + " of the manifest"] if errata.course else []),
        *([count(len(errata.progressions), "progression")] if errata.progressions else []),
    ]
    licks = f"{heard} with other music, {played} for other hands, {drawn} only drawn otherwise"
    return capital("; ".join((*whole, licks, words)) + ".")


Place = tuple[str, int, str]
"""A lick, which of its changed bars, and of which edition."""


def _orders(errata: Errata) -> dict[Place, ScoreOrder]:
    wanted: dict[Place, tuple[Music, tuple[Address, ...]]] = {}
    for change in errata.licks:
        for number, bar in enumerate(change.bars):
            if change.before is not None and (cut := _cut(change.before.music, bar.old)):
                wanted[change.name, number, OLD] = (cut, tuple(d.old for d in bar.details if d.old))
            if change.after is not None and (cut := _cut(change.after.music, bar.new)):
                wanted[change.name, number, NEW] = (cut, tuple(d.new for d in bar.details if d.new))
    names = {place: "\n".join(map(str, place)) for place in wanted}
    prefixes = short_prefixes(list(names.values()))
    return {
        place: ScoreOrder(
            for_score(music),
            prefix=prefixes[names[place]],
            width="narrow",
            marks=tuple(dict.fromkeys(at for at in marks if music.sound(at))),
            for_lick=place[0],
        )
        for place, (music, marks) in wanted.items()
    }


def _cut(music: Music, number: int | None) -> Music | None:
    if number is None:
        return None
    bar = Address(number)
    return excerpt_music(music, AddressRange(bar, bar))


def _line(change: CourseChange) -> LickView:
    return LickView(capital(say_field(change.field)), _shown("In", change.licks), ())


def _grid(change: GridChange) -> LickView:
    grid = change.after or change.before
    bars = tuple(
        BarView("", (), (f"{capital(say_bar(bar))}: {d.said}",)) for bar in change.bars for d in bar.details
    )
    said = (*_said(change), *_shown("In", change.licks))
    return LickView(grid.title if grid else change.name, said, bars)


def _lick(change: LickChange, scores: dict[Place, Engraved]) -> LickView:
    piece = change.after or change.before
    bars = tuple(_bar(change, number, bar, scores) for number, bar in enumerate(change.bars))
    said = (*_said(change), *_shown("Also in", change.licks))
    return LickView(piece.title if piece else change.name, said, bars)


def _said(change: LickChange | GridChange) -> tuple[str, ...]:
    said = [] if change.state == "changed" else [capital(change.state)]
    if change.before is not None and change.after is not None and change.before.name != change.name:
        said.append(f"Before: {change.before.name}")
    return (*said, *(capital(say_field(field)) for field in change.fields))


def _shown(lead: str, licks: tuple[str, ...]) -> tuple[str, ...]:
    return (f"{lead} {say_licks(licks)}",) if licks else ()


def _bar(change: LickChange, number: int, bar: BarChange, scores: dict[Place, Engraved]) -> BarView:
    figures = []
    for edition, caption in ((OLD, "As it was"), (NEW, "As it is")):
        score = scores.get((change.name, number, edition))
        if score and score.systems:
            figures.append((Markup(score.systems[0].svg), caption))  # noqa: S704 - the engraver's own
    said = tuple(capital(say_detail(detail, change.kind)) for detail in bar.details)
    return BarView(capital(say_bar(bar)), tuple(figures), said)
