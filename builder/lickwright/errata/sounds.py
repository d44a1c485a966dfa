"""One sound in two editions: what is said of each difference."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from lickwright.analysis.naming import GraceKey
from lickwright.errata.errata import Kind
from lickwright.instrument.harmonics import node
from lickwright.model.address import Address
from lickwright.model.music import Sound, Tone
from lickwright.model.strike import BendKind, Dead, Hammered, Harmonic, Slide, Tapped
from lickwright.terms.lengths import say_length

Names = Mapping[tuple[Address, int] | GraceKey, str]
"""What the tones are called: of a sound by their number in it, of a grace note by its number and theirs."""
JOINS = {"h": "a hammer-on", "p": "a pull-off", "s": "a slide", "s!": "a slide, struck again"}
BENDS = {
    BendKind.UP: "bent",
    BendKind.PRE: "bent before it is struck",
    BendKind.NUT: "bent behind the nut",
    BendKind.RELEASE: "let down",
}
LEADS = {"h": "hammered on", "p": "pulled off", "s": "slid on", "s!": "slid to a new stroke"}
INTO = {Slide.RISING: "from below", Slide.FALLING: "from above"}
OUT = {Slide.RISING: "upwards", Slide.FALLING: "downwards"}
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
            yield Kind.MUSIC, f"{name} is {'put in' if now else 'taken out'}"
    yield from _around(old, new, names)
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
            name = name if node(touch, fret or 0) else "no node"
        case Tapped(fret):
            where = f"fret {fret} tapped"
        case Hammered(fret):
            where = f"fret {fret} hammered"
        case _:
            where = "open" if tone.fret == 0 else f"fret {tone.fret}"
    bends = "".join(f", {BENDS[bend.kind]} to fret {float(bend.to):g}" for bend in tone.bends)
    vibrato = ", vibrato" if tone.vibrato else ""
    return f"string {tone.string}, {where}{bends}{vibrato}{f' ({name})' if name else ''}"


def _say_change(name: str, before: str, after: str) -> str:
    if before and after:
        return f"{name} {before} is now {after}"
    return f"{name} {after} is put in" if after else f"{name} {before} is taken out"


def _around(old: Sound, new: Sound, names: tuple[Names, Names]) -> Iterator[tuple[Kind, str]]:
    """What is heard before and after the notes: from what to what it has changed."""
    if unpitched(old).grace != unpitched(new).grace:
        led = any(a.leads != b.leads for a, b in zip(old.grace, new.grace, strict=False))
        before, after = (
            _graces(sound, called, led=led) for sound, called in zip((old, new), names, strict=True)
        )
        name = "the grace notes" if len(old.grace) > 1 or len(new.grace) > 1 else "the grace note"
        if before == after:
            yield Kind.HANDS, f"{name} {after}: other fingers"
        else:
            yield Kind.MUSIC, _say_change(name, before, after)
    for name, was, now, words in (
        ("the slide into it", old.slide_in, new.slide_in, INTO),
        ("the slide out of it", old.slide_out, new.slide_out, OUT),
    ):
        if was != now:
            yield Kind.MUSIC, _say_change(name, words[was] if was else "", words[now] if now else "")


def _graces(sound: Sound, names: Names, *, led: bool) -> str:
    """The grace notes of a sound, and how each goes on where that is asked."""
    return ", then ".join(
        " with ".join(
            _tone(tone, names.get((sound.address, number, k), "")) for k, tone in enumerate(grace.tones, 1)
        )
        + (f", {LEADS[grace.leads.value]}" if led and grace.leads else "")
        for number, grace in enumerate(sound.grace, 1)
    )


def _played(old: Sound, new: Sound) -> Iterator[tuple[str, bool, bool]]:
    """What is heard besides the notes, or is not: name, before, after."""
    for name, field in (
        ("the accent", "accent"),
        ("staccato", "short"),
        ("the spread", "spread"),
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
