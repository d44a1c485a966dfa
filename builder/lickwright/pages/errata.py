"""The errata as a page: each changed bar as it was and as it is, the notes that changed marked."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from lickwright.errata import BarChange, Errata, Kind, LickChange
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
from lickwright.report.errata import HEADS, say_bar

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
            (head, [_lick(change, scores) for change in errata.of_kind(kind)])
            for kind, head in HEADS.items()
            if errata.of_kind(kind)
        ]
        return edition.theme.render(
            "errata.html",
            page=edition.view(PATH, "Errata", glyphs=glyphs_of(scores.values())),
            course=edition.course,
            editions=(errata.old, errata.new),
            summary=_summary(errata),
            lessons=errata.lessons,
            sections=sections,
            sentences=errata.sentences,
        )

    return Page(PATH, tuple(orders.values()), render)


def _summary(errata: Errata) -> str:
    if errata.empty:
        return "Nothing has changed."
    heard = count(len(errata.of_kind(Kind.MUSIC)), "lick")
    played = count(len(errata.of_kind(Kind.HANDS)), "lick")
    drawn = count(len(errata.of_kind(Kind.DRAWING)), "lick")
    words = count(len(errata.sentences), "sentence")
    return capital(
        f"{heard} with other music, {played} for other hands, {drawn} only drawn otherwise; {words}."
    )


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


def _lick(change: LickChange, scores: dict[Place, Engraved]) -> LickView:
    piece = change.after or change.before
    said = [] if change.state == "changed" else [capital(change.state)]
    if change.before is not None and change.after is not None and change.before.name != change.name:
        said.append(f"Before: {change.before.name}")
    said += [f"{capital(f.field)}: {f.old or 'not said'} is now {f.new or 'not said'}" for f in change.fields]
    bars = tuple(_bar(change.name, number, bar, scores) for number, bar in enumerate(change.bars))
    return LickView(piece.title if piece else change.name, tuple(said), bars)


def _bar(name: str, number: int, bar: BarChange, scores: dict[Place, Engraved]) -> BarView:
    figures = []
    for edition, caption in ((OLD, "As it was"), (NEW, "As it is")):
        score = scores.get((name, number, edition))
        if score and score.systems:
            figures.append((Markup(score.systems[0].svg), caption))  # noqa: S704 - the engraver's own
    return BarView(capital(say_bar(bar)), tuple(figures), tuple(capital(d.said) for d in bar.details))
