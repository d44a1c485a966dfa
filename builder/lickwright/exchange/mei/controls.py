"""What goes from note to note or stands over a bar in MEI: ties, slurs, chord symbols, signs in words.

MEI has no elements for hammer-ons, pull-offs, taps and let ring, and programs read none for bends: these are
directions in the words that stand in print, their ``type`` says which.
"""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction
from typing import TYPE_CHECKING

from lickwright.analysis.notation.pieces import moves
from lickwright.exchange.element import node
from lickwright.exchange.links import Bracket, Sheet, has_sign
from lickwright.exchange.technique import heights, of_head
from lickwright.model.slots import SLIDES, JoinKind
from lickwright.model.strike import BendKind, Slide
from lickwright.model.timeline.tempi import quarters

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lxml import etree

    from lickwright.analysis.notation.cut import Entry
    from lickwright.analysis.notation.pieces import Head
    from lickwright.model.fields import Tempo
    from lickwright.model.music import Music, Sound
    from lickwright.theory.meter import Meter

_LETTERS = {JoinKind.HAMMER: "H", JoinKind.PULL: "P"}
_STEPS = {
    Fraction(1, 2): "¼", Fraction(1): "½", Fraction(3, 2): "¾", Fraction(2): "full", Fraction(3): "1½",
}  # fmt: skip
"""Half steps as bends are marked in print, in whole steps."""
_NOTES = {4: "♩", 8: "♪", 2: "half"}
_SIGNS = {"swell": "swell", "scrape": "pick scrape", "wide": "wide vibrato", "pinch": "P.H."}
_SLIDES = {
    ("in", Slide.RISING): "slide from below", ("in", Slide.FALLING): "slide from above",
    ("out", Slide.RISING): "slide up", ("out", Slide.FALLING): "slide down",
}  # fmt: skip


def controls(sheet: Sheet, tempo: Tempo) -> dict[int, list[etree._Element]]:
    """Return the control events of every bar by its index."""
    found: dict[int, list[etree._Element]] = defaultdict(list)
    _opening(sheet.music, tempo, found)
    _chords(sheet.music, found)
    where = _bars(sheet)
    for start, end in _ties(sheet):
        found[where[start]].append(node("tie", startid=f"#s{start}", endid=f"#s{end}"))
    for slur in sheet.slurs:
        for staff in "st":
            at = {"startid": f"#{staff}{slur.start}", "endid": f"#{staff}{slur.end}"}
            found[where[slur.start]].append(node("slur", **at))
    for join in sheet.joins:
        here = found[where[join.start]]
        if join.kind in SLIDES:
            for staff in "st":
                at = {"startid": f"#{staff}{join.start}", "endid": f"#{staff}{join.end}"}
                here.append(node("gliss", lform="solid", **at))
        else:
            here.append(_said(_LETTERS[join.kind], f"t{join.end}", type_=join.kind.name.lower()))
    for entry in sheet.cut.entries:
        found[entry.bar] += _of_sound(entry)
        for bar, head in ((bar, head) for bar, piece in entry.pieces for head in piece.heads):
            if head.address == entry.sound.address:
                found[bar] += _bends(sheet, head)
    for bracket in sheet.brackets:
        found[bracket.first.bar].append(_bracket(bracket))
    return found


def _bars(sheet: Sheet) -> dict[str, int]:
    """In which bar each note stands, grace notes too."""
    return {
        name: index
        for index, layers in enumerate(sheet.cut.layers)
        for layer in layers
        for piece in layer.pieces
        for name in sheet.named(piece)
    }


def _ties(sheet: Sheet) -> Iterator[tuple[str, str]]:
    """From each note to the one that goes on from it."""
    for voice in sheet.cut.voices:
        last: dict[int, str] = {}
        for head in (head for entry in voice for _, piece in entry.pieces for head in piece.heads):
            if head.local in sheet.tied:
                yield last[head.tone.string], head.local
            last[head.tone.string] = head.local


def _opening(music: Music, tempo: Tempo, found: dict[int, list[etree._Element]]) -> None:
    meter = music.bars[0].meter
    beat = tempo.beat or meter.beat
    dotted = beat.numerator == 3
    unit = 4 / (beat * 2 / 3 if dotted else beat)
    said = f"{_NOTES.get(int(unit), f'1/{unit}')}{'.' if dotted else ''} = {tempo.bpm}"
    found[0].append(
        node(
            "tempo",
            said,
            tstamp=1,
            staff=1,
            place="above",
            mm=tempo.bpm,
            mm__unit=int(unit),
            mm__dots=1 if dotted else None,
            midi__bpm=f"{float(quarters(tempo, meter)):g}",
        )
    )
    if music.swung:
        found[0].append(node("dir", "Swing", tstamp=1, staff=1, place="above"))
    if music.guitar.capo:
        found[0].append(node("dir", f"capo {music.guitar.capo}", tstamp=1, staff=2, place="above"))


def _chords(music: Music, found: dict[int, list[etree._Element]]) -> None:
    for index, bar in enumerate(music.bars):
        if bar.mark:
            found[index].append(node("dir", bar.mark, tstamp=1, staff=1, place="above", type_="title"))
        for chord in bar.chords:
            if not chord.carried:
                stamp = beat(bar.meter, chord.onset)
                found[index].append(node("harm", chord.symbol.display, tstamp=stamp, staff=1, place="above"))
                if chord.stop:
                    found[index].append(node("dir", "stop", tstamp=stamp, staff=1, place="above"))
        if bar.closes and bar.times > 2:
            end = beat(bar.meter, bar.length)
            found[index].append(node("dir", f"×{bar.times}", tstamp=end, staff=1, place="above"))


def beat(meter: Meter, onset: Fraction) -> str:
    """Return MEI's ``tstamp``: in units of the meter, from 1."""
    return f"{float(1 + onset * meter.unit / 4):.5g}"


def _of_sound(entry: Entry) -> Iterator[etree._Element]:
    sound, at = entry.sound, entry.anchor
    for word, said in _SIGNS.items():
        if has_sign(sound, word):
            yield _said(said, f"t{at}", type_=word)
    if has_sign(sound, "fermata"):
        yield node("fermata", startid=f"#s{entry.pieces[-1][1].heads[0].local}", place="above")
    trill = next((sign for sign in sound.signs if sign.startswith("trill")), None)
    if trill:
        yield node("trill", startid=f"#s{at}", place="above")
        yield _said(f"fret {trill.removeprefix('trill')}", f"t{at}", type_="trill")
    if sound.spread and len(sound.tones) > 1:
        yield node("arpeg", plist=" ".join(f"#s{entry.first(k)}" for k in _numbers(sound)), order="up")
    for way, slide in (("in", sound.slide_in), ("out", sound.slide_out)):
        if slide:
            yield _said(_SLIDES[way, slide], f"t{at}", type_=f"slide-{way}")
    for k, tone in enumerate(sound.tones, 1):
        name = entry.first(k)
        for said in of_head(tone):
            yield _said(said, f"t{name}", type_="technique")
        if tone.vibrato:
            yield _said("vib.", f"t{name}", type_="vibrato")
        if tone.finger is not None:
            yield node("fing", tone.finger, startid=f"#s{name}", place="below")
        hand = tone.hand or ("P" if sound.stroke == "P" and k == 1 else None)
        if hand:
            yield node("fing", hand, startid=f"#s{name}", place="above", type_="pluck")


def _numbers(sound: Sound) -> list[int]:
    """The tones from the lowest string to the highest."""
    return [k for _, k in sorted(((-tone.string, k) for k, tone in enumerate(sound.tones, 1)))]


def _bends(sheet: Sheet, head: Head) -> Iterator[etree._Element]:
    made, until = sheet.moving[head.local]
    steps = heights(head.tone)
    for number in range(made, until):
        kind = moves(head.tone)[number].kind
        size = abs(steps[number])
        said = _STEPS.get(size) or f"{float(size / 2):g}"
        before = {BendKind.PRE: "pre-bend ", BendKind.NUT: "behind the nut "}.get(kind, "")
        words = "release" if kind is BendKind.RELEASE else before + said
        yield _said(words, f"t{head.local}", type_="bend")


def _bracket(bracket: Bracket) -> etree._Element:
    words = bracket.words
    host = "s" if bracket.kind in ("position", "rit") else "t"
    start = bracket.first.anchor
    end = bracket.last.pieces[-1][1].heads[0].local
    if start == end or bracket.first.sound is bracket.last.sound:
        return _said(words, f"{host}{start}", type_=bracket.kind)
    form = "solid" if bracket.kind == "position" else "dashed"
    return _said(words, f"{host}{start}", f"{host}{end}", type_=bracket.kind, lform=form)


def _said(words: str, start: str, end: str = "", *, type_: str, lform: str | None = None) -> etree._Element:
    return node(
        "dir",
        words,
        startid=f"#{start}",
        endid=f"#{end}" if end else None,
        place="above",
        type_=type_,
        extender="true" if end else None,
        lform=lform,
    )
