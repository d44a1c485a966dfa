"""One sound in two editions: what is said of each difference."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from lickwright.errata.errata import Kind
from lickwright.model.address import Address
from lickwright.model.music import Sound, Tone
from lickwright.model.strike import BendKind, Dead, Hammered, Harmonic, Tapped
from lickwright.terms.lengths import say_length

Names = Mapping[tuple[Address, int], str]
JOINS = {"h": "a hammer-on", "p": "a pull-off", "s": "a slide", "s!": "a slide, struck again"}
BENDS = {
    BendKind.UP: "bent",
    BendKind.PRE: "bent before it is struck",
    BendKind.NUT: "bent behind the nut",
    BendKind.RELEASE: "let down",
}
PRINTED = ("fermata", "rit")
"""Entries of the signs row that are printed and said, not played."""


def compare_sounds(
    old: Sound | None, new: Sound | None, names: tuple[Names, Names]
) -> Iterator[tuple[Kind, str]]:
    """Yield what differs between two sounds at one place, the gravest first.

    Args:
        old: As it was; None where nothing began here.
        new: As it is.
        names: The names of the tones in either edition.
    """
    if old is None or new is None:
        if new is not None:
            yield Kind.MUSIC, f"{_chord(new, names[1])} is put in"
        elif old is not None:
            yield Kind.MUSIC, f"{_chord(old, names[0])} is taken out"
        return
    yield from _notes(old, new, names)
    if old.duration != new.duration:
        yield Kind.MUSIC, f"held for {say_length(old.duration)}, now for {say_length(new.duration)}"
    if old.joined != new.joined:
        before, after = (JOINS[s.joined.value] if s.joined else "a new stroke" for s in (old, new))
        yield Kind.MUSIC, f"reached by {before}, now by {after}"
    for name, was, now in _played(unpitched(old), unpitched(new)):
        if was != now:
            yield (
                Kind.MUSIC,
                f"{name} is {'put in' if now and not was else 'taken out' if not now else 'changed'}",
            )
    yield from _hands(old, new)
    yield from _claims(old, new)
    if _plain(old) != _plain(new):
        yield Kind.DRAWING, "printed otherwise"


def unpitched(sound: Sound) -> Sound:
    """Return a sound as the hands read it, without the pitches that tuning and capo give it."""

    def bare(tones: tuple[Tone, ...]) -> tuple[Tone, ...]:
        return tuple(replace(tone, path=()) for tone in tones)

    grace = tuple(replace(note, tones=bare(note.tones)) for note in sound.grace)
    return replace(sound, tones=bare(sound.tones), grace=grace)


def _notes(old: Sound, new: Sound, names: tuple[Names, Names]) -> Iterator[tuple[Kind, str]]:
    places = [[(t.string, t.fret, t.head, t.bends, t.vibrato) for t in sound.tones] for sound in (old, new)]
    if places[0] == places[1]:
        return
    pitches = [sorted(t.path for t in sound.tones) for sound in (old, new)]
    struck = [[(type(t.head), t.vibrato) for t in sound.tones] for sound in (old, new)]
    kind = Kind.HANDS if pitches[0] == pitches[1] and struck[0] == struck[1] else Kind.MUSIC
    yield kind, f"{_chord(old, names[0])} is now {_chord(new, names[1])}"


def _chord(sound: Sound, names: Names) -> str:
    return " with ".join(
        _tone(tone, names.get((sound.address, k), "")) for k, tone in enumerate(sound.tones, 1)
    )


def _tone(tone: Tone, name: str) -> str:
    match tone.head:
        case Dead():
            return f"string {tone.string}, dead"
        case Harmonic(fret, touch):
            where = f"harmonic over fret {float(touch):g}{f', fret {fret} stopped' if fret else ''}"
        case Tapped(fret):
            where = f"fret {fret} tapped"
        case Hammered(fret):
            where = f"fret {fret} hammered"
        case _:
            where = "open" if tone.fret == 0 else f"fret {tone.fret}"
    bends = "".join(f", {BENDS[bend.kind]} to fret {float(bend.to):g}" for bend in tone.bends)
    vibrato = ", vibrato" if tone.vibrato else ""
    return f"string {tone.string}, {where}{bends}{vibrato}{f' ({name})' if name else ''}"


def _played(old: Sound, new: Sound) -> Iterator[tuple[str, object, object]]:
    """What is heard besides the notes: name, before, after."""
    for name, field in (
        ("the accent", "accent"),
        ("staccato", "short"),
        ("the spread", "spread"),
        ("the grace note", "grace"),
        ("the slide in", "slide_in"),
        ("the slide out", "slide_out"),
    ):
        yield name, getattr(old, field), getattr(new, field)
    yield "let ring", bool(old.ring), bool(new.ring)
    yield "palm mute", bool(old.mute), bool(new.mute)
    for sign in sorted({*old.signs, *new.signs}):
        if sign not in PRINTED:
            yield sign, sign in old.signs, sign in new.signs


def _hands(old: Sound, new: Sound) -> Iterator[tuple[Kind, str]]:
    for name, before, after in (
        ("finger", _fingers(old), _fingers(new)),
        ("stroke", _strokes(old), _strokes(new)),
    ):
        if before != after:
            yield Kind.HANDS, f"{name} {before or 'not said'} is now {after or 'not said'}"


def _claims(old: Sound, new: Sound) -> Iterator[tuple[Kind, str]]:
    for row, field in (("names", "name"), ("degrees", "degree")):
        before, after = ("+".join(getattr(t, field) or "*" for t in sound.tones) for sound in (old, new))
        if before != after:
            yield Kind.CLAIMS, f"the {row} row says {after}, before {before}"


def _fingers(sound: Sound) -> str:
    return "".join(tone.finger or "" for tone in sound.tones)


def _strokes(sound: Sound) -> str:
    return (sound.stroke or "") + "".join(tone.hand or "" for tone in sound.tones)


def _plain(sound: Sound) -> object:
    """What is left of a sound when all that is told above is taken off."""
    signs = tuple(sign for sign in sound.signs if sign in PRINTED)
    return (signs, sound.position)
