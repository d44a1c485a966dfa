"""A practice section: what a piece of music orders, and what the page shows of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from markupsafe import Markup

from lickwright.analysis.classifier import Analysis, analyse, list_roles
from lickwright.engraving.glyphs import merge_glyphs
from lickwright.instrument.guitar import Guitar
from lickwright.model.fields import Tempo
from lickwright.model.music import Music, Piece
from lickwright.model.orders import (
    Engraved,
    ExchangeOrder,
    Order,
    Recorded,
    ScoreOrder,
    SoundOrder,
    System,
)
from lickwright.model.reduced import for_score, for_sound
from lickwright.model.timeline.tempi import quarters
from lickwright.pages.drawings import Drawn
from lickwright.pages.exchange_files import offer_of
from lickwright.pages.facts import meter_of, piece_facts, tempo_words
from lickwright.pages.links import lick_anchor
from lickwright.pages.margin import BarMargin, Positions, RoleMark, bar_margins, bar_name, chord_words
from lickwright.pages.page import Made
from lickwright.pages.player_data import Version, player_data, sound_path
from lickwright.pages.remarks import why_it_fits
from lickwright.pages.role_marks import marks_file
from lickwright.pages.site_file import SiteFile
from lickwright.pages.systems import level, page_svg
from lickwright.pages.typography import printed
from lickwright.pages.views import ViewPlan, plan_views, view_file
from lickwright.words.pieces import BarInWords, in_words


@dataclass(frozen=True, slots=True)
class Plan:
    """What one piece orders.

    Attributes:
        wide: The notation for a page, two bars or so a line; ``narrow``: for a phone.
        sounds: One a tempo, as ``tempi``; empty without sound.
        tempi: Slowest first.
        views: Further views, on pages that offer them.
        files: For other programs, on pages that offer them.
    """

    piece: Piece
    wide: ScoreOrder
    narrow: ScoreOrder
    sounds: tuple[SoundOrder, ...]
    tempi: tuple[Tempo, ...]
    views: tuple[ViewPlan, ...] = ()
    files: tuple[ExchangeOrder, ...] = ()

    @property
    def orders(self) -> tuple[Order, ...]:
        """All of them."""
        further = (order for view in self.views for order in (view.wide, view.narrow))
        return (self.wide, self.narrow, *further, *self.files, *self.sounds)


@dataclass(frozen=True, slots=True)
class Rendition:
    """What became of a plan.

    Attributes:
        scores: Wide and narrow; empty when one of them could not be made.
        versions: The tempi that can be heard, slowest first; empty without the piece's own.
        beside: What the page asks for when it is chosen, by ``tab``, ``staff`` and ``marks``.
    """

    plan: Plan
    scores: tuple[Engraved, ...]
    versions: tuple[Version, ...]
    beside: Mapping[str, SiteFile] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class BarView:
    """A bar in one system: its button and its margin."""

    index: int
    x: float
    w: float
    label: str
    name: str
    chords: str
    position: str
    roles: tuple[RoleMark, ...]
    low: tuple[RoleMark, ...]


@dataclass(frozen=True, slots=True)
class SystemView:
    """One system."""

    svg: Markup
    bars: tuple[BarView, ...]


@dataclass(frozen=True, slots=True)
class LayoutView:
    """All systems of one width, ``wide`` or ``narrow``."""

    width: str
    systems: tuple[SystemView, ...]


@dataclass(frozen=True, slots=True)
class TempoView:
    """One entry of the tempo choice."""

    label: str
    full: bool


@dataclass(frozen=True, slots=True)
class MusicView:
    """What the player is given."""

    tempi: tuple[TempoView, ...]
    json: Markup


@dataclass(frozen=True, slots=True)
class Score:
    """A practice section as the template prints it.

    Attributes:
        id: Of the section.
        level: Of its heading, 2 or 3.
        missing: What stands for the notation when it could not be made.
        notes: Sentences under the music.
        turn: Which of the sections of this very name it is on its page, from 1.
        words: The music in words, one entry a bar; empty when there are none.
        why: What the notes of each bar do; empty when there is nothing to say.
        grips: Its chords as they are held.
        beside: Names of the files that the page may ask for, by ``tab``, ``staff`` and ``marks``.
        prefix: Begins the ids of its notes behind the layout.
        files: For other programs, by the format's name: addresses from the page.
    """

    id: str
    title: str
    number: str
    level: int
    facts: str
    layouts: tuple[LayoutView, ...]
    missing: str
    music: MusicView | None
    bar_names: tuple[str, ...]
    notes: tuple[str, ...]
    turn: int = 1
    words: tuple[BarInWords, ...] = ()
    why: tuple[str, ...] = ()
    grips: tuple[Drawn, ...] = ()
    beside: Mapping[str, str] = field(default_factory=dict)
    prefix: str = ""
    files: Mapping[str, str] = field(default_factory=dict)

    @property
    def playable(self) -> bool:
        """Whether there is sound to hear and notation to choose bars on."""
        return self.music is not None


def plan_piece(
    piece: Piece,
    prefix: str,
    *,
    sound: bool,
    views: bool = False,
    files: tuple[ExchangeOrder, ...] = (),
) -> Plan:
    """Return what a piece orders: two widths, and with sound every tempo it has.

    Args:
        piece: Resolved.
        prefix: Of the ids in its scores.
        sound: Whether the edition has sound.
        views: Whether the page offers further views.
        files: For other programs, where the page offers them.
    """
    music, meter = piece.music, meter_of(piece.music)
    drawn, heard = for_score(music), for_sound(music)
    wide, narrow = (
        ScoreOrder(drawn, prefix=prefix, width=width, for_lick=piece.name) for width in ("wide", "narrow")
    )
    by_speed = {quarters(tempo, meter): tempo for tempo in (piece.slow, *piece.ladder, piece.tempo)}
    tempi = tuple(by_speed[speed] for speed in sorted(by_speed)) if sound else ()
    sounds = tuple(
        SoundOrder(heard, bpm=quarters(tempo, meter), picking=music.picking, for_lick=piece.name)
        for tempo in tempi
    )
    return Plan(piece, wide, narrow, sounds, tempi, plan_views(drawn, piece.name) if views else (), files)


def rendition_of(plan: Plan, made: Made) -> Rendition:
    """Return what became of a plan; each order is asked for once."""
    meter = meter_of(plan.piece.music)
    whole = quarters(plan.piece.tempo, meter)
    alike = len({tempo.beat for tempo in plan.tempi}) == 1
    versions = []
    for tempo, order in zip(plan.tempi, plan.sounds, strict=True):
        recorded = made(order)
        if isinstance(recorded, Recorded):
            label = str(tempo.bpm) if alike else tempo_words(tempo, meter)
            full = order.bpm == whole
            path = sound_path(recorded)
            versions.append(Version(label, order.bpm, path, full, recorded.bars, recorded.lights))
    scores = [result for order in (plan.wide, plan.narrow) if isinstance(result := made(order), Engraved)]
    whole_score = len(scores) == 2 and all(score.systems for score in scores)
    heard = whole_score and any(version.full for version in versions)
    shown = tuple(scores) if whole_score else ()
    return Rendition(plan, shown, tuple(versions) if heard else (), files_beside(plan, made, shown))


def files_beside(plan: Plan, made: Made, scores: tuple[Engraved, ...]) -> dict[str, SiteFile]:
    """Return what a page may ask for besides a piece's two staves: none without them."""
    if not scores or not plan.views:
        return {}
    views = {view.view: view_file(view, made, scores) for view in plan.views}
    marks = marks_file(plan.piece.music, analyse(plan.piece))
    return {name: file for name, file in views.items() if file is not None} | {"marks": marks}


def score_of(
    rendition: Rendition,
    *,
    root: str,
    title: str,
    number: str,
    level: int,
    turn: int = 1,
    notes: Sequence[str] = (),
    grips: Sequence[Drawn] = (),
    guitar: Guitar | None = None,
    positions: Positions | None = None,
    language: str = "en",
) -> Score:
    """Return the practice section of a piece.

    Args:
        rendition: What became of its orders.
        root: From the page to the site's root.
        title: The heading, plain text.
        number: ``6.1``, or empty.
        level: Of the heading.
        turn: Which of the sections of this name on the page, from 1.
        notes: Further sentences under it, text or HTML.
        grips: Its chords as they are held.
        guitar: The course's.
        positions: The position at every bar where they are not the music's own, as in a chorus.
        language: Of the course.
    """
    plan, versions = rendition.plan, rendition.versions
    piece, music = plan.piece, plan.piece.music
    analysis = analyse(piece)
    heard = None
    if versions:
        data = player_data(piece.name, music, plan.wide.prefix, versions, root)
        heard = MusicView(tuple(TempoView(v.label, v.full) for v in versions), data)
    said = (
        [f"From {printed(piece.source.detail, language)}."]
        if piece.kind != "excerpt" and piece.source.detail
        else []
    )
    if plan.sounds and rendition.scores and not versions:
        said.append("The sound of this lick could not be made; the proof says why.")
    return Score(
        id=lick_anchor(piece.name),
        title=title,
        number=number,
        level=level,
        facts=piece_facts(piece, guitar),
        layouts=_layouts(rendition, analysis, positions),
        missing=""
        if rendition.scores
        else "The notation of this lick could not be made; the proof says why.",
        music=heard,
        bar_names=tuple(bar_name(bar) for bar in music.bars),
        notes=(*said, *notes),
        turn=turn,
        words=in_words(music),
        why=why_it_fits(music, analysis, piece.stets),
        grips=tuple(grips),
        beside={name: file.key for name, file in rendition.beside.items()},
        prefix=f"{plan.wide.prefix}-",
        files={offer.name: root + offer.path for offer in map(offer_of, plan.files)},
    )


def glyphs_of(scores: Iterable[Engraved]) -> Markup:
    """Return the glyphs that the scores of a page share, each once."""
    return Markup(merge_glyphs(score.glyphs for score in scores))  # noqa: S704 - the engraver's own


def _layouts(rendition: Rendition, analysis: Analysis, positions: Positions | None) -> tuple[LayoutView, ...]:
    if not rendition.scores:
        return ()
    piece = rendition.plan.piece
    wide, narrow = rendition.scores
    margins = bar_margins(piece.music, list_roles(analysis), positions)
    return tuple(
        LayoutView(width, tuple(_system(system, piece.music, margins) for system in systems))
        for width, systems in zip(("wide", "narrow"), (wide.systems, level(narrow.systems)), strict=True)
    )


def _system(system: System, music: Music, margins: dict[int, BarMargin]) -> SystemView:
    index = {bar.number: k for k, bar in enumerate(music.bars)}
    bars: list[BarView] = []
    position = ""  # said where it begins, and again at the head of each system
    for box in system.bars:
        margin = margins[box.number]
        chords = chord_words(music.bars[index[box.number]])
        bars.append(
            BarView(
                index=index[box.number],
                x=round(100 * box.left, 2),
                w=round(100 * (box.right - box.left), 2),
                label=f"{margin.name.capitalize()}, {'chords' if ' ' in chords else 'chord'} {chords}",
                name=margin.name,
                chords=margin.chords,
                position=margin.position if margin.position != position else "",
                roles=margin.roles,
                low=margin.low,
            )
        )
        position = margin.position
    return SystemView(Markup(page_svg(system)), tuple(bars))  # noqa: S704 - the engraver's own
