"""One voice of a bar as an MEI layer, on the staff or on the tab."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.analysis.notation.cut import struck_at_grace
from lickwright.analysis.notation.ids import grace_id
from lickwright.analysis.notation.pieces import printed
from lickwright.exchange.element import node
from lickwright.exchange.flow import Written
from lickwright.exchange.links import Sheet, has_sign
from lickwright.model.strike import Dead, Harmonic

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from lxml import etree

    from lickwright.analysis.notation.pieces import Head
    from lickwright.model.music import GraceNote, Sound, Tone
    from lickwright.theory.pitch import Pitch

STAFF, TAB = 1, 2
_WRITTEN = {-2: "ff", -1: "f", 0: "n", 1: "s", 2: "x"}
_SOUNDED = {-2: "ff", -1: "f", 1: "s", 2: "ss"}
_STROKES = {"d": "dnbow", "u": "upbow"}


def staff_layer(
    sheet: Sheet, row: Iterable[Written], shown: dict[str, int], *, lower: bool
) -> etree._Element:
    """Return the layer of the staff; ``shown`` are the accidentals to print."""

    def leaf(written: Written) -> etree._Element:
        piece, sound = written.piece, written.piece.sound
        if sound is None:
            return node("mRest") if piece.whole_bar else node("rest", **_time(written))
        notes = [_note(sheet, head.tone, head.local, shown, sound) for head in piece.heads]
        time = _time(written)
        if has_sign(sound, "tremolo") and piece.length <= 2:
            time["stem.mod"] = "3slash"
        return _together(
            notes, _artic(sound, stroke=not struck_at_grace(sound)) if piece.first else None, time
        )

    def lead(sound: Sound) -> Iterator[etree._Element]:
        return _graces(sheet, sound, shown)

    return node("layer", *_nested(row, lead, leaf, beamed=True), n=2 if lower else 1)


def tab_layer(sheet: Sheet, row: Iterable[Written], *, lower: bool) -> etree._Element:
    """Return the layer of the tab: a digit for every piece, tied ones in brackets."""

    def leaf(written: Written) -> etree._Element:
        piece, sound = written.piece, written.piece.sound
        if sound is None:
            return node("mSpace") if piece.whole_bar else node("space", **_time(written))
        digits = (_digit(head, sound, tied=head.local in sheet.tied) for head in piece.heads)
        return node("tabGrp", *digits, **_time(written))

    def lead(sound: Sound) -> Iterator[etree._Element]:
        return _tab_graces(sound, sheet.music.guitar.strings)

    return node("layer", *_nested(row, lead, leaf, beamed=False), n=2 if lower else 1)


def _nested(
    row: Iterable[Written],
    lead: Callable[[Sound], Iterator[etree._Element]],
    leaf: Callable[[Written], etree._Element],
    *,
    beamed: bool,
) -> list[etree._Element]:
    """Put notes into their tuplets and beams; a beam never leaves its tuplet."""
    top = node("layer")
    open_ = [top]
    for written in row:
        for turn in written.turns:
            if turn.begins:
                open_.append(_inside(open_[-1], node("tuplet", num=turn.number, numbase=turn.normal)))
        if written.piece.sound is not None and written.piece.first:
            open_[-1].extend(lead(written.piece.sound))
        if beamed and written.beams[:1] == ("begin",):
            open_.append(_inside(open_[-1], node("beam")))
        open_[-1].append(leaf(written))
        if beamed and written.beams[:1] == ("end",):
            open_.pop()
        del open_[len(open_) - sum(not turn.begins for turn in written.turns) :]
    return list(top)


def _inside(outer: etree._Element, inner: etree._Element) -> etree._Element:
    outer.append(inner)
    return inner


def _time(written: Written) -> dict[str, str | int | None]:
    dur, dots = printed(written.piece.length)
    return {"dur": dur, "dots": dots or None}


def _note(
    sheet: Sheet, tone: Tone, local: str, shown: dict[str, int], sound: Sound | None = None
) -> etree._Element:
    pitch = sheet.pitches[local]
    head = "x" if isinstance(tone.head, Dead) else "diamond" if isinstance(tone.head, Harmonic) else None
    accidental = shown.get(local)
    return node(
        "note",
        xml_id=f"s{local}",
        pname=pitch.letter.lower(),
        oct=pitch.octave,
        accid=None if accidental is None else _WRITTEN[accidental],
        accid__ges=_SOUNDED.get(pitch.alter) if accidental is None else None,
        head__shape=head,
        head__mod="paren" if sound and has_sign(sound, "ghost") else None,
    )


def _together(
    notes: list[etree._Element], sign: etree._Element | None, time: dict[str, str | int | None]
) -> etree._Element:
    """One note, or a chord of several, with its value and its signs."""
    made = notes[0] if len(notes) == 1 else node("chord", *notes)
    for name, value in time.items():
        if value is not None:
            made.set(name, str(value))
    if sign is not None:
        made.append(sign)
    return made


def _artic(sound: Sound, *, stroke: bool) -> etree._Element | None:
    signs = [
        _STROKES.get(sound.stroke or "", "") if stroke else "",
        "acc" if sound.accent else "",
        "stacc" if sound.short else "",
    ]
    said = " ".join(sign for sign in signs if sign)
    return node("artic", artic=said) if said else None


def _graces(sheet: Sheet, sound: Sound, shown: dict[str, int]) -> Iterator[etree._Element]:
    for number, grace in enumerate(sound.grace, 1):
        notes = [
            _note(sheet, tone, grace_id(sound.address, number, k), shown)
            for k, tone in enumerate(grace.tones, 1)
        ]
        struck = _STROKES.get(sound.stroke or "") if number == 1 and struck_at_grace(sound) else None
        yield _together(notes, node("artic", artic=struck) if struck else None, _grace_time(sound))


def _grace_time(sound: Sound) -> dict[str, str | int | None]:
    alone = len(sound.grace) == 1
    return {"grace": "unacc", "dur": 8 if alone else 16, "stem.mod": "1slash" if alone else None}


def _digit(head: Head, sound: Sound, *, tied: bool) -> etree._Element:
    bracketed = tied or has_sign(sound, "ghost")
    return node("note", **_place(head.tone, f"t{head.local}"), head__mod="paren" if bracketed else None)


def _place(tone: Tone, name: str) -> dict[str, str | int | None]:
    """String and fret; a dead note stands at its open string."""
    fret = tone.fret or 0
    if isinstance(tone.head, Harmonic) and tone.head.fret == 0:
        fret = round(tone.head.touch)
    return {
        "xml_id": name,
        "tab__course": tone.string,
        "tab__fret": fret,
        "head__shape": "x" if isinstance(tone.head, Dead) else None,
    }


def _tab_graces(sound: Sound, strings: int) -> Iterator[etree._Element]:
    """Grace notes as notes at their line: a ``tabGrp`` cannot be one."""
    for number, grace in enumerate(sound.grace, 1):
        notes = [_tab_grace(sound, number, k, grace, strings) for k in range(1, len(grace.tones) + 1)]
        time = _grace_time(sound) | {"stem.mod": None, "stem.visible": "false"}
        yield _together(notes, None, time)


def _tab_grace(sound: Sound, number: int, k: int, grace: GraceNote, strings: int) -> etree._Element:
    tone = grace.tones[k - 1]
    place = _place(tone, f"t{grace_id(sound.address, number, k)}")
    return node("note", **place, loc=2 * (strings - tone.string))


def spoken(pitch: Pitch) -> dict[str, str | int | None]:
    """Return a pitch as the attributes of a tuning."""
    return {"pname": pitch.letter.lower(), "oct": pitch.octave, "accid": _SOUNDED.get(pitch.alter)}
