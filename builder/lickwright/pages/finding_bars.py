"""The bars of a finding: as written and as mended, engraved and sounded."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal

from lickwright.findings import Finding
from lickwright.model.address import Address, AddressRange
from lickwright.model.music import Music, Piece
from lickwright.model.orders import Order, ScoreOrder, SoundOrder
from lickwright.model.reduced import for_score, for_sound
from lickwright.model.timeline.excerpt import excerpt_music
from lickwright.model.timeline.tempi import quarters
from lickwright.pages.edition import Edition
from lickwright.pages.facts import meter_of
from lickwright.pages.mending import mend_piece
from lickwright.pages.prefixes import short_prefixes
from lickwright.text import Span

NOTHING: Mapping[str, Piece] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class BarOrders:
    """What is ordered of one bar."""

    score: ScoreOrder
    sound: SoundOrder | None


Way = Literal["mended", "meant"]
"""How a bar came about that stands beside the faulty one: by a fix, or by the author's own hand."""


@dataclass(frozen=True, slots=True)
class FindingBars:
    """What a finding orders.

    Attributes:
        written: Its bar, the sound it is about marked.
        better: The same bar in order; None where there is none that can be shown.
        way: How that came about.
    """

    written: BarOrders
    better: BarOrders | None = None
    way: Way = "mended"

    @property
    def orders(self) -> tuple[Order, ...]:
        """All of them."""
        bars = (self.written, self.better) if self.better else (self.written,)
        return tuple(order for bar in bars for order in (bar.score, bar.sound) if order)


def bars_of(
    edition: Edition, findings: Sequence[Finding], meant: Mapping[str, Piece] = NOTHING
) -> tuple[FindingBars | None, ...]:
    """Return what each finding orders; None where it is about no bar.

    Args:
        edition: With the course's music.
        findings: In the order of the sheet. Ids in a bar's score come from what is found in it: one more
            finding leaves the other bars as made.
        meant: What licks are known to have been meant as, by their names: shown rather than a fix.
    """
    told: Counter[str] = Counter()
    names = []
    for finding in findings:
        name = f"{finding.rule}\n{finding.lick}\n{finding.address}\n{finding.message}"
        told[name] += 1
        names.append(f"{name}\n{told[name]}")
    prefixes = short_prefixes((*names, *(f"{name}\nmended" for name in names)))
    return tuple(
        _bars(edition, finding, meant.get(finding.lick), prefixes[name], prefixes[f"{name}\nmended"])
        for finding, name in zip(findings, names, strict=True)
    )


def _bars(
    edition: Edition, finding: Finding, meant: Piece | None, prefix: str, better_prefix: str
) -> FindingBars | None:
    piece, at = edition.music.piece(finding.lick), Address.parse(finding.address)
    music = cut_bar(piece, at) if piece and at else None
    if piece is None or at is None or music is None:
        return None
    written = order_bars(edition, piece, music, prefix)
    if at.sound is not None and music.sound(at):
        written = replace(written, score=replace(written.score, marks=(at,), tone=_tone(piece, at, finding)))
    for way, other in _betters(edition, finding, meant):
        bar = cut_bar(other, at)
        if bar is not None and for_score(bar) != for_score(music):
            better = order_bars(edition, other, bar, better_prefix)
            if better.sound == written.sound:
                better = BarOrders(better.score, None)
            return FindingBars(written, better, way)
    return FindingBars(written)


def _betters(edition: Edition, finding: Finding, meant: Piece | None) -> Iterator[tuple[Way, Piece]]:
    if meant is not None:
        yield "meant", meant
    if (mended := mend_piece(edition.course, finding, edition.findings)) is not None:
        yield "mended", mended


def cut_bar(piece: Piece, at: Address) -> Music | None:
    """Return the bar of an address as music of its own; None where there is none."""
    bar = Address(at.bar)
    return excerpt_music(piece.music, AddressRange(bar, bar))


def _tone(piece: Piece, at: Address, finding: Finding) -> int | None:
    """The number of the tone that a finding is about; None where it is about all that sound together."""
    sound = piece.music.sound(at)
    tones = sound.tones if sound else ()
    found = [k for k, tone in enumerate(tones, 1) if _holds(tone.span, finding.span)]
    return found[0] if len(found) == 1 < len(tones) else None


def _holds(span: Span, other: Span) -> bool:
    return span.source == other.source and span.start <= other.start < other.end <= span.end


def order_bars(edition: Edition, piece: Piece, music: Music, prefix: str) -> BarOrders:
    """Return what is ordered of some bars of a piece; no sound where the edition has none."""
    score = ScoreOrder(for_score(music), prefix=prefix, width="narrow", for_lick=piece.name)
    if not edition.sound:
        return BarOrders(score, None)
    bpm = quarters(piece.tempo, meter_of(piece.music))
    return BarOrders(score, SoundOrder(for_sound(music), bpm=bpm, picking=music.picking, for_lick=piece.name))
