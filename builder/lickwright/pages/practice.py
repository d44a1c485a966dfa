"""A practice section: what a piece of music orders, and what the page shows of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from lickwright.analysis import classify
from lickwright.model.fields import Tempo
from lickwright.model.music import Music, Piece
from lickwright.model.orders import Engraved, Order, Recorded, ScoreOrder, SoundOrder, System
from lickwright.pages.facts import meter_of, piece_facts, quarters, tempo_words
from lickwright.pages.links import file_name, lick_anchor
from lickwright.pages.margin import BarMargin, RoleMark, bar_margins, bar_name, chord_words
from lickwright.pages.page import Made
from lickwright.pages.player_data import Version, player_data


@dataclass(frozen=True, slots=True)
class Plan:
    """What one piece orders.

    Attributes:
        wide: The notation for a page, two bars or so a line; ``narrow``: for a phone.
        sounds: One a tempo, as ``tempi``; empty without sound.
        tempi: Slowest first.
    """

    piece: Piece
    wide: ScoreOrder
    narrow: ScoreOrder
    sounds: tuple[SoundOrder, ...]
    tempi: tuple[Tempo, ...]

    @property
    def orders(self) -> tuple[Order, ...]:
        """All of them."""
        return (self.wide, self.narrow, *self.sounds)


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
    fingers: str


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
        words: The music in words, one entry a bar; empty when there are none.
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
    words: tuple[str, ...] = ()

    @property
    def playable(self) -> bool:
        """Whether there is sound to hear and notation to choose bars on."""
        return self.music is not None


def plan_piece(piece: Piece, *, sound: bool) -> Plan:
    """Return what a piece orders: two widths, and with sound every tempo it has."""
    music, meter = piece.music, meter_of(piece.music)
    wide, narrow = (
        ScoreOrder(music, prefix=file_name(piece.name), width=width, for_lick=piece.name)
        for width in ("wide", "narrow")
    )
    by_speed = {quarters(tempo, meter): tempo for tempo in (piece.slow, *piece.ladder, piece.tempo)}
    tempi = tuple(by_speed[speed] for speed in sorted(by_speed)) if sound else ()
    sounds = tuple(
        SoundOrder(music, bpm=quarters(tempo, meter), picking=music.picking, for_lick=piece.name)
        for tempo in tempi
    )
    return Plan(piece, wide, narrow, sounds, tempi)


def versions_of(plan: Plan, made: Made) -> tuple[Version, ...]:
    """Return the tempi that can be heard, slowest first; empty when the piece's own is not among them."""
    meter = meter_of(plan.piece.music)
    whole = quarters(plan.piece.tempo, meter)
    alike = len({tempo.beat for tempo in plan.tempi}) == 1
    found = []
    for tempo, order in zip(plan.tempi, plan.sounds, strict=True):
        recorded = made(order)
        if isinstance(recorded, Recorded):
            label = str(tempo.bpm) if alike else tempo_words(tempo, meter)
            found.append(Version(label, order.bpm, recorded, full=order.bpm == whole))
    return tuple(found) if any(version.full for version in found) else ()


def score_of(plan: Plan, made: Made, *, root: str, title: str, number: str, level: int) -> Score:
    """Return the practice section of a piece.

    Args:
        plan: Its orders.
        made: What became of them.
        root: From the page to the site's root.
        title: The heading, plain text.
        number: ``6.1``, or empty.
        level: Of the heading.
    """
    piece, music = plan.piece, plan.piece.music
    layouts = tuple(_layouts(plan, made))
    versions = versions_of(plan, made) if layouts else ()
    heard = None
    if versions:
        data = player_data(piece.name, music, plan.wide.prefix, versions, root)
        heard = MusicView(tuple(TempoView(v.label, v.full) for v in versions), data)
    notes = [f"From {piece.source.detail}."] if piece.kind != "excerpt" and piece.source.detail else []
    if plan.sounds and layouts and not versions:
        notes.append("The sound of this lick could not be made; the proof says why.")
    return Score(
        id=lick_anchor(piece.name),
        title=title,
        number=number,
        level=level,
        facts=piece_facts(piece),
        layouts=layouts,
        missing="" if layouts else "The notation of this lick could not be made; the proof says why.",
        music=heard,
        bar_names=tuple(bar_name(bar) for bar in music.bars),
        notes=tuple(notes),
    )


def glyphs_of(plans: Sequence[Plan], made: Made) -> Markup:
    """Return the glyphs that the systems of a page share, each once."""
    return glyphs_in([order for plan in plans for order in (plan.wide, plan.narrow)], made)


def glyphs_in(orders: Sequence[ScoreOrder], made: Made) -> Markup:
    """Return the glyphs that scores share, each once."""
    fragments: dict[str, None] = {}
    for order in orders:
        engraved = made(order)
        if isinstance(engraved, Engraved):
            fragments.update(dict.fromkeys(_glyphs(engraved.glyphs)))
    return Markup("".join(fragments))  # noqa: S704 - the engraver's own


def _glyphs(text: str) -> list[str]:
    """Part a row of glyph definitions, ``<g id="…">…</g><g id="…">…</g>``, into the single ones."""
    return [f'<g id="{part}' for part in text.split('<g id="') if part.strip()]


def _layouts(plan: Plan, made: Made) -> list[LayoutView]:
    layouts = []
    roles = classify(plan.piece)
    margins = bar_margins(plan.piece.music, roles)
    for order in (plan.wide, plan.narrow):
        engraved = made(order)
        if not isinstance(engraved, Engraved):
            return []
        systems = tuple(_system(system, plan.piece.music, margins) for system in engraved.systems)
        layouts.append(LayoutView(order.width, systems))
    return layouts


def _system(system: System, music: Music, margins: dict[int, BarMargin]) -> SystemView:
    index = {bar.number: k for k, bar in enumerate(music.bars)}
    bars = []
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
                position=margin.position,
                roles=margin.roles,
                fingers=margin.fingers,
            )
        )
    return SystemView(Markup(system.svg), tuple(bars))  # noqa: S704 - the engraver's own
