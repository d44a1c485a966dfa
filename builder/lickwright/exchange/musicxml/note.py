"""One note, chord or rest of MusicXML, on the staff or on the tab."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from lickwright.analysis.notation.cut import struck_at_grace
from lickwright.analysis.notation.ids import grace_id
from lickwright.analysis.notation.pieces import printed
from lickwright.exchange.element import node
from lickwright.exchange.links import Join, Sheet, Slur, accidentals, by_end, has_sign
from lickwright.exchange.musicxml import signs
from lickwright.exchange.musicxml.signs import STAFF, TAB
from lickwright.model.strike import Dead, Harmonic

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lxml import etree

    from lickwright.analysis.notation.pieces import Head
    from lickwright.exchange.flow import Written
    from lickwright.model.music import GraceNote, Sound, Tone
    from lickwright.theory.pitch import Pitch

_TYPES = {
    "breve": "breve", "1": "whole", "2": "half", "4": "quarter", "8": "eighth", "16": "16th", "32": "32nd",
    "64": "64th", "128": "128th", "256": "256th",
}  # fmt: skip
_ACCIDENTALS = {-2: "flat-flat", -1: "flat", 0: "natural", 1: "sharp", 2: "double-sharp"}
VOICES = {(STAFF, False): 1, (STAFF, True): 2, (TAB, False): 5, (TAB, True): 6}
"""Number of a voice by its staff, and whether it is the lower one (four a staff, as is usual)."""


@dataclass(frozen=True, slots=True)
class Writer:
    """Writes the notes of a piece.

    Attributes:
        sheet: The piece.
        divisions: Of a quarter.
        accidentals: To be printed, by the name of a note.
        ends: What begins and ends at a note.
    """

    sheet: Sheet
    divisions: int
    accidentals: dict[str, int] = field(init=False)
    ends: dict[str, list[tuple[str, Slur | Join]]] = field(init=False)

    def __post_init__(self) -> None:
        put = object.__setattr__  # the class is frozen; these follow from the fields
        put(self, "accidentals", accidentals(self.sheet))
        put(self, "ends", by_end((*self.sheet.slurs, *self.sheet.joins)))

    def write(self, written: Written, staff: int, *, lower: bool) -> Iterator[etree._Element]:
        """Yield the elements of a piece: its grace notes, then one note for each string."""
        piece, sound = written.piece, written.piece.sound
        if sound is None:
            yield self._rest(written, staff, lower=lower)
            return
        if piece.first:
            for number, grace in enumerate(sound.grace, 1):
                yield from self._grace(sound, number, grace, staff, lower=lower)
        for place, head in enumerate(sorted(piece.heads, key=self._height)):
            yield self._note(written, sound, head, staff, place, lower=lower)

    def _height(self, head: Head) -> int:
        return self.sheet.pitches[head.local].midi  # chords are written from below, as is usual

    def _rest(self, written: Written, staff: int, *, lower: bool) -> etree._Element:
        piece = written.piece
        whole = "yes" if piece.whole_bar else None
        turns = list(_turns(written))
        return node(
            "note",
            node("rest", measure=whole),
            self._duration(written),
            node("voice", VOICES[staff, lower]),
            *(() if piece.whole_bar else _value(written)),
            node("staff", staff),
            node("notations", *turns) if turns else None,
            print_object="no" if staff == TAB else None,
        )

    def _note(
        self, written: Written, sound: Sound, head: Head, staff: int, place: int, *, lower: bool
    ) -> etree._Element:
        local, tone = head.local, head.tone
        tied = [t for t, names in (("stop", self.sheet.tied), ("start", self.sheet.begun)) if local in names]
        last = local in self.sheet.ending
        marks: list[etree._Element] = [node("tied", type_=t) for t in tied]
        if not place:
            marks += _turns(written)
            stroke = written.piece.first and not struck_at_grace(sound)
            ends = written.piece.heads[0].local in self.sheet.ending
            marks += signs.of_sound(sound, first=written.piece.first, last=ends, stroke=stroke)
        marks += signs.linked(self.ends.get(local, []), staff)
        marks += signs.place(tone, staff)
        if head.address == sound.address:  # else it only rings on
            marks += signs.of_tone(head, sound, staff, last=last)
            marks += signs.bends(tone, *self.sheet.moving[local])
        accidental = self.accidentals.get(local) if staff == STAFF else None
        return node(
            "note",
            node("chord") if place else None,
            _pitch(self.sheet.pitches[local]),
            self._duration(written),
            *(node("tie", type_=t) for t in tied),
            node("voice", VOICES[staff, lower]),
            *_value(written, accidental),
            node("stem", "none") if staff == TAB else None,
            _notehead(tone, sound, bracketed=staff == TAB and "stop" in tied),
            node("staff", staff),
            *(
                node("beam", value, number=level)
                for level, value in enumerate(written.beams if staff == STAFF and not place else (), 1)
            ),
            signs.notations(marks, staff),
            node("play", node("mute", "palm")) if sound.mute else None,
            id=_id(local, staff),
        )

    def _grace(
        self, sound: Sound, number: int, grace: GraceNote, staff: int, *, lower: bool
    ) -> Iterator[etree._Element]:
        alone = len(sound.grace) == 1
        named = [(grace_id(sound.address, number, k), tone) for k, tone in enumerate(grace.tones, 1)]
        named.sort(key=lambda found: self.sheet.pitches[found[0]].midi)
        for place, (local, tone) in enumerate(named):
            marks: list[etree._Element] = []
            if number == 1 and not place and struck_at_grace(sound):
                marks += [mark for mark in signs.of_sound(sound, first=True, last=False, stroke=True)
                          if mark.tag in ("up-bow", "down-bow")]  # fmt: skip
            marks += signs.linked(self.ends.get(local, []), staff)
            marks += signs.place(tone, staff)
            accidental = self.accidentals.get(local) if staff == STAFF else None
            yield node(
                "note",
                node("grace", slash="yes" if alone else None),
                node("chord") if place else None,
                _pitch(self.sheet.pitches[local]),
                node("voice", VOICES[staff, lower]),
                node("type", "eighth" if alone else "16th"),
                None if accidental is None else node("accidental", _ACCIDENTALS[accidental]),
                node("stem", "none") if staff == TAB else None,
                _notehead(tone, None, bracketed=False),
                node("staff", staff),
                signs.notations(marks, staff),
                id=_id(local, staff),
            )

    def _duration(self, written: Written) -> etree._Element:
        return node("duration", int(written.duration * self.divisions))


def _id(local: str, staff: int) -> str:
    """The name of a note with its staff's letter, as in MEI and in the pictures."""
    return f"{'s' if staff == STAFF else 't'}{local}"


def _value(written: Written, accidental: int | None = None) -> Iterator[etree._Element]:
    """Yield type, dots, accidental and tuplet ratio."""
    name, dots = printed(written.piece.length)
    yield node("type", _TYPES[name])
    yield from (node("dot") for _ in range(dots))
    if accidental is not None:
        yield node("accidental", _ACCIDENTALS[accidental])
    if written.actual != written.normal:
        yield node(
            "time-modification", node("actual-notes", written.actual), node("normal-notes", written.normal)
        )


def _turns(written: Written) -> Iterator[etree._Element]:
    """Yield the tuplets that begin or end at a note."""
    for turn in written.turns:
        if turn.begins:
            yield node(
                "tuplet",
                node("tuplet-actual", node("tuplet-number", turn.number)),
                node("tuplet-normal", node("tuplet-number", turn.normal)),
                number=turn.depth,
                type_="start",
            )
        else:
            yield node("tuplet", number=turn.depth, type_="stop")


def _pitch(pitch: Pitch) -> etree._Element:
    alter = node("alter", pitch.alter) if pitch.alter else None
    return node("pitch", node("step", pitch.letter), alter, node("octave", pitch.octave))


def _notehead(tone: Tone, sound: Sound | None, *, bracketed: bool) -> etree._Element | None:
    ghost = sound is not None and has_sign(sound, "ghost")
    shape = "x" if isinstance(tone.head, Dead) else "diamond" if isinstance(tone.head, Harmonic) else "normal"
    if shape == "normal" and not (ghost or bracketed):
        return None
    return node("notehead", shape, parentheses="yes" if ghost or bracketed else None)
