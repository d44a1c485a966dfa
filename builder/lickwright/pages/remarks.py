"""What the notes do, in plain words: for the student under a lick, for the editor beside a finding."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lickwright.analysis.classifier import Analysis, analyse, list_roles
from lickwright.analysis.commentary import NoteRemark, Remark, comment
from lickwright.analysis.role import Role
from lickwright.model.address import Address
from lickwright.model.fields import Stet
from lickwright.model.music import Music, MusicBar, Piece
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


def why_it_fits(music: Music, analysis: Analysis, stets: Sequence[Stet] = ()) -> tuple[str, ...]:
    """Return what the notes of each bar do: ``Bars 2 and 3: chromatic walk up to the third.``.

    A bar in which nothing begins is taken in with the one before, whose words go on in it. What only an
    editor reads is left out: that nothing explains a note, or that there is no chord to fit.

    Args:
        music: Of the piece.
        analysis: Of the same.
        stets: A note without a role for which one stands is said to be outside on purpose.
    """
    remarks = [(remark, text) for remark in comment(analysis) if (text := _to_student(remark, stets))]
    said: list[_Bars] = []
    for bar in music.bars:
        begin = [(remark, text) for remark, text in remarks if remark.first.bar == bar.number]
        above, below = ([text for remark, text in begin if remark.lower is lower] for lower in (False, True))
        if text := join_remarks(above, below, alone=all(remark.lower for remark, _ in remarks)):
            said.append(_Bars(bar.number, bar.number, text))
        elif said and _goes_on([remark for remark, _ in remarks], bar, said[-1]):
            said[-1] = _Bars(said[-1].first, bar.number, said[-1].text)
    return tuple(f"{bars.name}: {bars.text}." for bars in said)


@dataclass(frozen=True, slots=True)
class _Bars:
    """What is said of some bars in a row."""

    first: int
    last: int
    text: str

    @property
    def name(self) -> str:
        if self.first == self.last:
            return f"Bar {self.first}" if self.first else "Pickup"
        word = "and" if self.last == self.first + 1 else "to"
        return f"Bars {self.first} {word} {self.last}" if self.first else f"Pickup {word} bar {self.last}"


def _goes_on(remarks: Sequence[Remark], bar: MusicBar, before: _Bars) -> bool:
    """Whether a remark, or the note it ends on, lasts into a bar in which none begins."""
    if before.last + 1 != bar.number:
        return False
    if any(remark.first.bar < bar.number <= remark.last.bar for remark in remarks):
        return True
    held = any(value.tied for line in bar.lines for value in line.values)
    return held and not any(line.sounds for line in bar.lines)


def _to_student(remark: Remark, stets: Sequence[Stet]) -> str:
    if Role.NO_CHORD.value in remark.roles:
        return ""
    if not remark.doubt:
        return remark.text
    meant = any(
        stet.rule.startswith("harmony/")
        and (stet.address is None or stet.address in {Address(note.address.bar), note.address})
        for stet in stets
        for note in remark.notes
    )
    return f"{remark.text}, outside on purpose" if meant else ""


def join_remarks(above: Sequence[str], below: Sequence[str], *, alone: bool = False) -> str:
    """Return remarks on one bar as one sentence without its full stop, the lower voice last.

    ``alone``: no upper voice stands over the lower one.
    """
    parts = ["; ".join(above), "; ".join(below)]
    if parts[1] and not alone:
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
    above, below = ([_since(r, at) for r in remarks if r.lower is lower] for lower in (False, True))
    alone = all(remark.lower for remark in reading.remarks)
    notes = tuple(_note(note, at) for r in remarks for note in r.notes if note.address.bar == at.bar)
    return RoleLine(margin.roles, margin.low, capital(join_remarks(above, below, alone=alone)), notes)


def _since(remark: Remark, at: Address) -> str:
    """What a remark says beside one bar, with the bar that it begins in where that is another."""
    return remark.proof if remark.first.bar == at.bar else f"from bar {remark.first.bar}, {remark.proof}"


def _note(note: NoteRemark, at: Address) -> NoteLine:
    why = f": {note.why}" if note.why else ""
    return NoteLine(
        str(note.address), signs(note.degree), f"{note.role}, {note.place}{why}", note.address == at
    )
