"""One voice of one bar on the tab, as an MEI layer.

What is not a plain digit is written as a placeholder fret with as many digits as the text needs, so
that the gap in the string is wide enough; the text is put in afterwards.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lickwright.analysis.notation.ids import grace_id
from lickwright.analysis.notation.pieces import printed
from lickwright.engraving.beams import join
from lickwright.engraving.tag import tag
from lickwright.model.strike import Dead, Harmonic, Late

if TYPE_CHECKING:
    from lickwright.analysis.notation.pieces import Head, Layer, Piece
    from lickwright.engraving.score import Score
    from lickwright.model.music import Sound, Tone

LAST_STRING, LAST_FRET = 9, 99
"""What a proof sheet may show of a slip: nothing beyond goes to Verovio as a number."""


@dataclass(frozen=True, slots=True)
class TabLayer:
    """The layer, and the texts to be put in place of placeholders: ``(local id, text)``."""

    mei: str
    texts: tuple[tuple[str, str], ...]


def tab_layer(score: Score, layer: Layer) -> TabLayer:
    """Return the layer of the tab; with stems, beams and rests where it stands alone."""
    texts: list[tuple[str, str]] = []
    alone = score.staves.staff is None

    def leaf(piece: Piece) -> str:
        return _piece(score, piece, texts, alone)

    content = join(layer, leaf, beamed=alone, numbered=alone)
    # Verovio sets the stems of a second layer below, out of the way of the signs
    below = alone and not score.music.has_lower
    mei = tag("layer", content, n=2 if layer.lower or below else 1)
    if below:
        mei = tag("layer", tag("mSpace"), n=1) + mei
    return TabLayer(mei, tuple(texts))


def _piece(score: Score, piece: Piece, texts: list[tuple[str, str]], alone: bool) -> str:
    dur, dots = printed(piece.length) if not piece.whole_bar else ("", 0)
    sound = piece.sound
    if sound is None:
        if piece.whole_bar:
            return tag("mRest" if alone else "mSpace")
        return tag("rest" if alone else "space", dur=dur, dots=dots or None)
    before = _graces(score, sound, texts) if piece.first else ""
    notes = "".join(
        _note(head.tone, f"t{head.local}", _bracketed(head, sound), texts)
        for head in piece.heads
        if alone or head.fretted
    )
    if not notes:
        return tag("space", dur=dur, dots=dots or None)
    stem = tag("tabDurSym") if alone else ""
    return before + tag("tabGrp", stem + notes, dur=dur, dots=dots or None)


def _bracketed(head: Head, sound: Sound) -> bool:
    """Ghost notes, what is not struck anew at its digit, and what goes on under a tie."""
    return "ghost" in sound.signs or head.tied or head.released or isinstance(head.tone.head, Late)


def _note(tone: Tone, local: str, bracketed: bool, texts: list[tuple[str, str]]) -> str:
    fret = _fret(tone, local, bracketed, texts)
    return tag("note", xml_id=local, tab__course=min(tone.string, LAST_STRING), tab__fret=fret)


def _fret(tone: Tone, local: str, bracketed: bool, texts: list[tuple[str, str]]) -> int:
    fret = min(tone.fret or 0, LAST_FRET)
    if isinstance(tone.head, Dead):
        words = "×"
    elif isinstance(tone.head, Harmonic):
        touch = tone.head.touch
        where = str(touch) if touch.denominator == 1 else f"{float(touch):.1f}"
        words = f"⟨{where}⟩" if tone.head.fret == 0 else f"{tone.head.fret}⟨{where}⟩"
    else:
        words = str(tone.fret or 0)[:4]
    if bracketed:
        words = f"({words})"
    if words == str(fret):
        return fret
    texts.append((local, words))
    return 10 ** (len(words) - 1) + fret if len(words) > 1 else 0


def _graces(score: Score, sound: Sound, texts: list[tuple[str, str]]) -> str:
    """Grace notes as notes by line number: a ``tabGrp`` cannot be one."""
    made = []
    lines = score.music.guitar.strings
    for number, grace in enumerate(sound.grace, 1):
        time = {"grace": "unacc", "dur": 8 if len(sound.grace) == 1 else 16, "stem__visible": "false"}
        notes: list[dict[str, str | int | None]] = []
        for k, tone in enumerate(grace.tones, 1):
            local = f"t{grace_id(sound.address, number, k)}"
            notes.append(
                {
                    "xml_id": local,
                    "loc": 2 * (lines - min(tone.string, LAST_STRING)),
                    "tab__course": min(tone.string, LAST_STRING),
                    "tab__fret": _fret(tone, local, False, texts),
                }
            )
        if len(notes) == 1:
            made.append(tag("note", **notes[0], **time))
        else:
            made.append(tag("chord", "".join(tag("note", **note) for note in notes), **time))
    return "".join(made)
