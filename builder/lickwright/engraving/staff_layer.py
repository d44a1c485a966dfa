"""One voice of one bar on the staff, as an MEI layer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.analysis.notation.ids import grace_id
from lickwright.analysis.notation.pieces import printed
from lickwright.engraving.accidentals import SOUNDED, WRITTEN, bend_grace
from lickwright.engraving.beams import join
from lickwright.engraving.score import struck_at_grace
from lickwright.engraving.tag import tag
from lickwright.model.strike import BendKind, Dead, Harmonic

if TYPE_CHECKING:
    from lickwright.analysis.notation.pieces import Layer, Piece
    from lickwright.engraving.score import Score
    from lickwright.model.music import Sound, Tone
    from lickwright.theory.pitch import Pitch

_PLACES = "CCDDEFFGGAAB"
"""Where the x of a dead note stands: on the letter of its open string."""
_ARTICULATIONS = {"d": "dnbow", "u": "upbow"}


def staff_layer(score: Score, layer: Layer, shown: dict[str, int]) -> str:
    """Return the MEI layer; ``shown`` are the accidentals to print."""

    def leaf(piece: Piece) -> str:
        return _piece(score, piece, shown)

    def lead(piece: Piece) -> str:
        sound = piece.sound
        return _graces(score, sound, shown) if sound and piece.first and len(sound.grace) > 1 else ""

    def before(piece: Piece) -> str:
        sound = piece.sound
        if sound is None:
            return ""
        alone = _graces(score, sound, shown) if piece.first and len(sound.grace) == 1 else ""
        return alone + _fingers_before_bends(score, piece, shown)

    content = join(layer, leaf, beamed=True, numbered=True, lead=lead, before=before)
    return tag("layer", content, n=2 if layer.lower else 1)


def _piece(score: Score, piece: Piece, shown: dict[str, int]) -> str:
    dur, dots = printed(piece.length) if not piece.whole_bar else ("", 0)
    sound = piece.sound
    if sound is None:
        return tag("mRest") if piece.whole_bar else tag("rest", dur=dur, dots=dots or None)
    time: dict[str, str | int | None] = {
        "dur": dur,
        "dots": dots or None,
        "stem__mod": "3slash" if "tremolo" in sound.signs and piece.length <= 2 else None,
    }
    signs = _articulations(sound) if piece.first else ""
    ghost = "ghost" in sound.signs
    notes = [
        _note(score, head.tone, f"s{head.local}", _pitch(score, piece, number), shown.get(head.local), ghost)
        for number, head in enumerate(piece.heads)
    ]
    if len(notes) == 1:
        return tag("note", signs, **notes[0], **time)
    chord = "".join(tag("note", **note) for note in notes)
    return tag("chord", chord + signs, xml_id=f"c{piece.heads[0].local}", **time)


def _pitch(score: Score, piece: Piece, number: int) -> Pitch | None:
    head = piece.heads[number]
    path = score.names[head.address, head.k]
    return path[head.step] if path else None


def _note(
    score: Score, tone: Tone, local: str, pitch: Pitch | None, accidental: int | None, ghost: bool
) -> dict[str, str | int | None]:
    made: dict[str, str | int | None] = {"xml_id": local, "head__mod": "paren" if ghost else None}
    if pitch is None or not 0 <= pitch.octave <= 9:
        guitar = score.music.guitar
        octave, step = divmod(guitar.open_midi(min(tone.string, guitar.strings)), 12)
        return made | {"pname": _PLACES[step].lower(), "oct": octave - 1, "head__shape": "x"}
    made |= {"pname": pitch.letter.lower(), "oct": pitch.octave}
    if accidental is not None:
        made["accid"] = WRITTEN[accidental]
    elif pitch.alter:
        made["accid__ges"] = SOUNDED[pitch.alter]
    if isinstance(tone.head, Dead):
        made["head__shape"] = "x"
    elif isinstance(tone.head, Harmonic):
        made["head__shape"] = "diamond"
    return made


def _articulations(sound: Sound) -> str:
    """Stroke, accent, dot: an element, for of an attribute Verovio draws one on a chord."""
    signs = ["acc" if sound.accent else "", "stacc" if sound.short else ""]
    if not struck_at_grace(sound):
        signs.insert(0, _ARTICULATIONS.get(sound.stroke or "", ""))
    return _articulation(*signs)


def _articulation(*signs: str) -> str:
    said = " ".join(sign for sign in signs if sign)
    return tag("artic", artic=said) if said else ""


def _graces(score: Score, sound: Sound, shown: dict[str, int]) -> str:
    made = []
    alone = len(sound.grace) == 1
    time: dict[str, str | int | None] = {
        "grace": "unacc",
        "dur": 8 if alone else 16,
        "stem__mod": "1slash" if alone else None,
    }
    for number, grace in enumerate(sound.grace, 1):
        notes = []
        struck = number == 1 and struck_at_grace(sound)
        stroke = _articulation(_ARTICULATIONS.get(sound.stroke or "", "")) if struck else ""
        for k, tone in enumerate(grace.tones, 1):
            local = grace_id(sound.address, number, k)
            path = score.grace_names[sound.address, number, k]
            notes.append(_note(score, tone, f"s{local}", path[0] if path else None, shown.get(local), False))
        if len(notes) == 1:
            made.append(tag("note", stroke, **notes[0], **time))
        else:
            made.append(tag("chord", "".join(tag("note", **note) for note in notes) + stroke, **time))
    return made[0] if alone else (tag("beam", "".join(made)) if made else "")


def _fingers_before_bends(score: Score, piece: Piece, shown: dict[str, int]) -> str:
    """The small notes without a stem from which strings are bent; in brackets when bent beforehand."""
    made = []
    for head in piece.heads:
        if not bend_grace(head):
            continue
        pre = head.tone.bends[0].kind is BendKind.PRE
        local = f"{head.local}b"
        made.append(_note(score, head.tone, f"s{local}", score.fretted(head), shown.get(local), pre))
    time: dict[str, str | int | None] = {"grace": "unacc", "dur": 4, "stem__visible": "false"}
    if len(made) > 1:
        return tag("chord", "".join(tag("note", **note) for note in made), **time)
    return "".join(tag("note", **note, **time) for note in made)
