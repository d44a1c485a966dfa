"""The bars of a finding: as written and as mended, engraved and sounded."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

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


@dataclass(frozen=True, slots=True)
class BarOrders:
    """What is ordered of one bar."""

    score: ScoreOrder
    sound: SoundOrder | None


@dataclass(frozen=True, slots=True)
class FindingBars:
    """What a finding orders.

    Attributes:
        written: Its bar, the sound it is about marked.
        mended: The same bar as the fix would leave it; None where there is no fix that can be shown.
    """

    written: BarOrders
    mended: BarOrders | None = None

    @property
    def orders(self) -> tuple[Order, ...]:
        """All of them."""
        bars = (self.written, self.mended) if self.mended else (self.written,)
        return tuple(order for bar in bars for order in (bar.score, bar.sound) if order)


def bars_of(edition: Edition, findings: Sequence[Finding]) -> tuple[FindingBars | None, ...]:
    """Return what each finding orders; None where it is about no bar.

    Args:
        edition: With the course's music.
        findings: In the order of the sheet. Ids in a bar's score come from what is found in it: one more
            finding leaves the other bars as made.
    """
    told: Counter[str] = Counter()
    names = []
    for finding in findings:
        name = f"{finding.rule}\n{finding.lick}\n{finding.address}\n{finding.message}"
        told[name] += 1
        names.append(f"{name}\n{told[name]}")
    prefixes = short_prefixes((*names, *(f"{name}\nmended" for name in names)))
    return tuple(
        _bars(edition, finding, prefixes[name], prefixes[f"{name}\nmended"])
        for finding, name in zip(findings, names, strict=True)
    )


def _bars(edition: Edition, finding: Finding, prefix: str, mended_prefix: str) -> FindingBars | None:
    piece, at = edition.music.piece(finding.lick), Address.parse(finding.address)
    music = cut_bar(piece, at) if piece and at else None
    if piece is None or at is None or music is None:
        return None
    marks = (at,) if at.sound is not None and music.sound(at) else ()
    written = _orders(edition, piece, music, prefix, marks)
    mended = mend_piece(edition.course, finding, edition.findings)
    bettered = cut_bar(mended, at) if mended else None
    if mended is None or bettered is None or for_score(bettered) == for_score(music):
        return FindingBars(written)
    better = _orders(edition, mended, bettered, mended_prefix)
    if better.sound == written.sound:
        better = BarOrders(better.score, None)
    return FindingBars(written, better)


def cut_bar(piece: Piece, at: Address) -> Music | None:
    """Return the bar of an address as music of its own; None where there is none."""
    bar = Address(at.bar)
    return excerpt_music(piece.music, AddressRange(bar, bar))


def _orders(
    edition: Edition, piece: Piece, music: Music, prefix: str, marks: tuple[Address, ...] = ()
) -> BarOrders:
    score = ScoreOrder(for_score(music), prefix=prefix, width="narrow", marks=marks, for_lick=piece.name)
    if not edition.sound:
        return BarOrders(score, None)
    bpm = quarters(piece.tempo, meter_of(piece.music))
    return BarOrders(score, SoundOrder(for_sound(music), bpm=bpm, picking=music.picking, for_lick=piece.name))
