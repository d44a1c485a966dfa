"""What the notes do, in plain words: for the student under a lick, for the editor beside a finding."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lickwright.analysis.classifier import Analysis, analyse, list_roles
from lickwright.analysis.commentary import NoteRemark, Remark, comment, in_bar
from lickwright.model.address import Address
from lickwright.model.music import Music, Piece
from lickwright.pages.counting import capital, signs
from lickwright.pages.margin import RoleMark, bar_margins


@dataclass(frozen=True, slots=True)
class NoteLine:
    """One note as the editor reads it.

    Attributes:
        place: ``3.4``. ``degree``: with printed accidentals.
        words: What it does, where in the bar, and why it fits.
        meant: Whether the finding is about it.
    """

    place: str
    degree: str
    words: str
    meant: bool


@dataclass(frozen=True, slots=True)
class RoleLine:
    """The notes of one bar.

    Attributes:
        degrees: As in the margin of a lick; ``low`` the lower voice's.
        text: What they do together.
        notes: Every note by itself.
    """

    degrees: tuple[RoleMark, ...]
    low: tuple[RoleMark, ...]
    text: str
    notes: tuple[NoteLine, ...]

    @property
    def meant(self) -> tuple[NoteLine, ...]:
        """The notes that the finding is about."""
        return tuple(note for note in self.notes if note.meant)


def why_it_fits(music: Music, analysis: Analysis) -> tuple[str, ...]:
    """Return what the notes of each bar do, ``Bar 2: chromatic walk up to the third; the root``.

    A bar in which nothing begins is left out: what is said of the one before goes on in it.
    """
    remarks = comment(analysis)
    said = []
    for bar in music.bars:
        above, below = (in_bar(remarks, bar.number, lower=lower) for lower in (False, True))
        if text := join_remarks(above, below):
            said.append(f"{f'Bar {bar.number}' if bar.number else 'Pickup'}: {text}.")
    return tuple(said)


def join_remarks(above: Sequence[Remark], below: Sequence[Remark]) -> str:
    """Return remarks on one bar as one sentence without its full stop, the lower voice last."""
    parts = ["; ".join(remark.text for remark in remarks) for remarks in (above, below)]
    if parts[1]:
        parts[1] = f"below it {parts[1]}"
    return "; ".join(filter(None, parts))


@dataclass(frozen=True, slots=True)
class Reading:
    """A piece with all that is said of its notes, worked out once for the findings in it."""

    piece: Piece
    analysis: Analysis
    remarks: tuple[Remark, ...]

    @classmethod
    def of(cls, piece: Piece) -> Reading:
        """Read a piece."""
        analysis = analyse(piece)
        return cls(piece, analysis, comment(analysis))


def role_line(reading: Reading, at: Address) -> RoleLine | None:
    """Return what the notes of a finding's bar do; None where nothing in it has a role."""
    piece, analysis = reading.piece, reading.analysis
    remarks = [r for r in reading.remarks if r.first.bar <= at.bar <= r.last.bar]
    if not remarks:
        return None
    margin = bar_margins(piece.music, list_roles(analysis))[at.bar]
    above, below = ([r for r in remarks if r.lower is lower] for lower in (False, True))
    notes = tuple(_note(note, at) for r in remarks for note in r.notes if note.address.bar == at.bar)
    return RoleLine(margin.roles, margin.low, capital(join_remarks(above, below)), notes)


def _note(note: NoteRemark, at: Address) -> NoteLine:
    why = f": {note.why}" if note.why else ""
    return NoteLine(
        str(note.address), signs(note.degree), f"{note.role}, {note.place}{why}", note.address == at
    )
