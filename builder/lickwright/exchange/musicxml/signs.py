"""What the hands do at a note, as children of MusicXML's ``notations``.

``MARKS`` says on which of the two staves each kind of mark is written: what belongs to string and fret on
the tab, what belongs to the line on the staff, what a reader of either must not miss on both.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.analysis.notation.pieces import moves
from lickwright.exchange import technique
from lickwright.exchange.element import node
from lickwright.exchange.links import Join, Slur, has_sign
from lickwright.model.slots import SLIDES, JoinKind
from lickwright.model.strike import BendKind, Dead, Hammered, Harmonic, Slide, Tapped
from lickwright.terms.signs import parse_sign

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lxml import etree

    from lickwright.analysis.notation.pieces import Head
    from lickwright.model.music import Sound, Tone

STAFF, TAB = 1, 2
MARKS: dict[str, tuple[int, ...]] = {
    "string": (TAB,), "fret": (TAB,), "hammer-on": (TAB,), "pull-off": (TAB,), "tap": (TAB,),
    "other-technical": (TAB,),
    "up-bow": (STAFF,), "down-bow": (STAFF,), "fingering": (STAFF,), "pluck": (STAFF,),
    "accent": (STAFF,), "staccato": (STAFF,), "fermata": (STAFF,), "trill-mark": (STAFF,),
    "tremolo": (STAFF,), "arpeggiate": (STAFF, TAB), "other-ornament": (STAFF,),
    "bend": (STAFF, TAB), "harmonic": (STAFF, TAB), "wavy-line": (STAFF, TAB),
    "scoop": (STAFF, TAB), "plop": (STAFF, TAB), "doit": (STAFF, TAB), "falloff": (STAFF, TAB),
    "slur": (STAFF, TAB), "slide": (STAFF, TAB),
}  # fmt: skip
_GROUPS = {
    "technical": ("string", "fret", "hammer-on", "pull-off", "bend", "tap", "harmonic", "up-bow", "down-bow",
                  "fingering", "pluck", "other-technical"),
    "articulations": ("accent", "staccato", "scoop", "plop", "doit", "falloff"),
    "ornaments": ("trill-mark", "tremolo", "wavy-line", "other-ornament"),
}  # fmt: skip
_GROUP_OF = {name: group for group, names in _GROUPS.items() for name in names}
_BOWS = {"d": "down-bow", "u": "up-bow"}
_JOINED = {JoinKind.HAMMER: ("hammer-on", "H"), JoinKind.PULL: ("pull-off", "P")}
_INTO = {Slide.RISING: "scoop", Slide.FALLING: "plop"}
_OUT = {Slide.RISING: "doit", Slide.FALLING: "falloff"}
_STRINGS = 8
"""What belongs to a string is numbered by it; on the tab after those of the staff."""
_LANES = 4
"""Slurs of a voice, and of its grace notes; those of the tab are numbered after those of the staff."""


def notations(marks: list[etree._Element], staff: int) -> etree._Element | None:
    """Return the marks that belong on a staff, grouped as the format groups them."""
    here = [mark for mark in marks if staff in MARKS.get(str(mark.tag), (STAFF, TAB))]
    if not here:
        return None
    made = node("notations")
    groups: dict[str, etree._Element] = {}
    for mark in here:
        group = _GROUP_OF.get(str(mark.tag))
        if group is None:
            made.append(mark)
            continue
        if group not in groups:
            groups[group] = node(group)
            made.append(groups[group])
        groups[group].append(mark)
    return made


def place(tone: Tone, staff: int) -> Iterator[etree._Element]:
    """Yield string and fret, on the tab."""
    if staff == TAB:
        yield node("string", tone.string)
        yield node("fret", fret_of(tone))


def fret_of(tone: Tone) -> int:
    """Return the fret a tab shows: a natural harmonic's is where it is touched, a dead note has none: 0."""
    if isinstance(tone.head, Harmonic) and tone.head.fret == 0:
        return round(tone.head.touch)
    return tone.fret or 0


def linked(pairs: list[tuple[str, Slur | Join]], staff: int) -> Iterator[etree._Element]:
    """Yield slurs, slides, hammer-ons and pull-offs that begin or end at a note, ends first."""
    for type_, pair in pairs:
        if isinstance(pair, Slur):
            yield node("slur", type_=type_, number=1 + pair.lane + _LANES * (staff - 1))
        elif pair.kind in SLIDES:
            number = pair.string + _STRINGS * (staff - 1)
            yield node("slide", line_type="solid", number=number, type_=type_)
        elif staff == TAB:
            name, letter = _JOINED[pair.kind]
            yield node(name, letter if type_ == "start" else None, number=pair.string, type_=type_)


def of_sound(sound: Sound, *, first: bool, last: bool, stroke: bool) -> Iterator[etree._Element]:
    """Yield what a sound has as a whole, at its first and last piece.

    Args:
        sound: The sound.
        first: Whether this is the first of its pieces.
        last: Whether it is the last.
        stroke: Whether the stroke is this note's (a grace note may have it).
    """
    if first:
        if stroke and sound.stroke in _BOWS:
            yield node(_BOWS[sound.stroke])
        if sound.accent:
            yield node("accent")
        if sound.short:
            yield node("staccato")
        yield from _trill(sound)
    if has_sign(sound, "tremolo"):
        yield node("tremolo", 3, type_="single")
    if last and has_sign(sound, "fermata"):
        yield node("fermata", type_="upright")


def _trill(sound: Sound) -> Iterator[etree._Element]:
    for entry in sound.signs:
        found = parse_sign(entry)
        if found and found[0].word == "trill" and found[1] is not None:
            step = {1: "half", 2: "whole"}.get(abs(found[1] - (sound.tones[0].fret or 0)))
            yield node("trill-mark", trill_step=step)
            yield node("other-ornament", f"trill with fret {found[1]}")


def of_tone(head: Head, sound: Sound, staff: int, *, last: bool) -> Iterator[etree._Element]:
    """Yield what is done to one string of a sound, at one of its pieces.

    Args:
        head: The piece.
        sound: What it belongs to.
        staff: On which staff.
        last: Whether it is the tone's last piece in its own sound.
    """
    tone, first = head.tone, head.piece == 1
    if first and sound.slide_in:
        yield node(_INTO[sound.slide_in])
    if last and sound.slide_out:
        yield node(_OUT[sound.slide_out])
    if first:
        yield from _head(tone, sound)
        if tone.finger is not None:
            yield node("fingering", tone.finger)
        if tone.hand == "P" or (sound.stroke == "P" and tone is sound.tones[0]):
            yield node("other-technical", "pick")
        elif tone.hand:
            yield node("pluck", tone.hand)
        if sound.spread and len(sound.tones) > 1:
            yield node("arpeggiate", direction="up", number=staff)
    number = tone.string + _STRINGS * (staff - 1)
    if tone.vibrato or has_sign(sound, "wide"):
        if first:
            yield node("wavy-line", type_="start", number=number)
            if has_sign(sound, "wide"):
                yield node("other-ornament", "wide vibrato")
        if last:
            yield node("wavy-line", type_="stop", number=number)


def _head(tone: Tone, sound: Sound) -> Iterator[etree._Element]:
    match tone.head:
        case Tapped():
            yield node("tap", "T", hand="right")
        case Hammered():
            yield node("tap", "H", hand="left")
        case Harmonic(0, touch):
            yield node("harmonic", node("natural"), node("sounding-pitch"))
            if touch.denominator != 1:
                yield node("other-technical", f"harmonic over fret {float(touch):g}")
        case Harmonic(_, touch):
            yield node("harmonic", node("artificial"), node("sounding-pitch"))
            yield node("other-technical", f"harmonic over fret {float(touch):g}")
        case Dead() if has_sign(sound, "scrape"):
            yield node("other-technical", "pick scrape")
    if has_sign(sound, "pinch"):
        yield node("harmonic", node("artificial"), node("base-pitch"))


def bends(tone: Tone, made: int, until: int) -> Iterator[etree._Element]:
    """Yield the bends and releases of a tone after the first ``made`` of them, up to ``until``.

    Half steps, as the format counts: a release is negative, a bend made beforehand is counted upwards.
    """
    heights = technique.heights(tone)
    for number, bend in enumerate(moves(tone)[:until]):
        if number < made:
            continue
        kind = {BendKind.PRE: node("pre-bend"), BendKind.RELEASE: node("release")}.get(bend.kind)
        yield node("bend", node("bend-alter", f"{float(heights[number]):g}"), kind)
        if bend.kind is BendKind.NUT:
            yield node("other-technical", "bent behind the nut")
