"""A piece of music as a MusicXML 4.0 document: one part with a staff and a tab.

Pitches are what sounds, under a treble clef with an 8 below; frets count from the capo, as the format has
it. Repeats stay as written. The document carries no date: equal music, equal bytes.
"""

from __future__ import annotations

from fractions import Fraction
from math import lcm
from typing import TYPE_CHECKING

from lxml import etree

from lickwright.exchange.element import node
from lickwright.exchange.links import Sheet, sheet
from lickwright.exchange.musicxml.events import Event, events
from lickwright.exchange.musicxml.note import Writer
from lickwright.exchange.musicxml.signs import STAFF, TAB

if TYPE_CHECKING:
    from lickwright.model.music import MusicBar
    from lickwright.model.orders import Credits, ExchangeOrder
    from lickwright.theory.key import Key
    from lickwright.theory.meter import Meter

_DOCTYPE = (
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" '
    '"http://www.musicxml.org/dtds/partwise.dtd">'
)
_INSTRUMENTS = {"electric": ("Electric guitar", 28), "acoustic": ("Acoustic guitar", 26)}
"""Names, and General MIDI programs counted from 1: clean electric, steel-string acoustic."""


def write_musicxml(order: ExchangeOrder) -> bytes:
    """Return the document, UTF-8."""
    made = sheet(order.music)
    over = events(made, order.tempo)
    places = [event.onset for bar in over.values() for event in bar]
    lengths = [written.duration for bar in made.rows for voice in bar for written in voice]
    divisions = lcm(*(value.denominator for value in (*places, *lengths)))
    writer = Writer(made, divisions)
    part = node("part", id="P1")
    ended = False
    for index in range(len(order.music.bars)):
        measure, ended = _measure(writer, index, over.get(index, []), ended)
        part.append(measure)
    score = node(
        "score-partwise",
        node("work", node("work-title", order.credits.title)),
        _identification(order.credits),
        node("part-list", _part(order)),
        part,
        version="4.0",
    )
    etree.indent(score, " ")
    return etree.tostring(score, xml_declaration=True, encoding="UTF-8", doctype=_DOCTYPE) + b"\n"


def _identification(credits_: Credits) -> etree._Element:
    type_ = "composer" if credits_.own else "arranger"
    return node(
        "identification",
        node("creator", credits_.author, type_=type_) if credits_.author else None,
        node("rights", credits_.rights) if credits_.rights else None,
        node("encoding", node("software", "Lickwright")),
        node("source", credits_.source) if credits_.source else None,
    )


def _part(order: ExchangeOrder) -> etree._Element:
    name, program = _INSTRUMENTS[order.music.guitar.sound]
    return node(
        "score-part",
        node("part-name", name),
        node("score-instrument", node("instrument-name", name), id="P1-I1"),
        node("midi-instrument", node("midi-channel", 1), node("midi-program", program), id="P1-I1"),
        id="P1",
    )


def _measure(writer: Writer, index: int, over: list[Event], ended: bool) -> tuple[etree._Element, bool]:
    """Return a bar, and whether an ending is still open after it."""
    bar = writer.sheet.music.bars[index]
    last = index == len(writer.sheet.music.bars) - 1
    begins = bool(bar.endings)
    open_ = begins or ended
    following = None if last else writer.sheet.music.bars[index + 1]
    closes = open_ and (bar.ending_closed or last or bool(following and following.endings))
    measure = node("measure", number=bar.number, implicit="yes" if bar.number == 0 else None)
    if bar.opens or begins:
        measure.append(_left(bar, index))
    if index == 0 or bar.meter_shown:
        measure.append(_attributes(writer, bar, first=index == 0))
    _fill(measure, writer, index, over)
    if bar.closes or last or closes:
        numbers = _numbers(writer.sheet, index) if closes else ()
        measure.append(_right(bar, numbers, last=last))
    return measure, open_ and not closes


def _fill(measure: etree._Element, writer: Writer, index: int, over: list[Event]) -> None:
    waiting = list(over)
    layers = writer.sheet.cut.layers[index]
    filled = Fraction(0)
    for staff in (STAFF, TAB):
        for layer, voice in zip(layers, writer.sheet.rows[index], strict=True):
            if filled:
                measure.append(node("backup", node("duration", int(filled * writer.divisions))))
            filled = Fraction(0)
            for written in voice:
                until = filled + written.duration
                while waiting and waiting[0].onset < until:
                    measure.append(_place(waiting.pop(0), filled, writer.divisions))
                measure.extend(writer.write(written, staff, lower=layer.lower))
                filled = until
            while waiting:
                measure.append(_place(waiting.pop(0), filled, writer.divisions))


def _place(event: Event, at: Fraction, divisions: int) -> etree._Element:
    return event.element(int((event.onset - at) * divisions))


def _attributes(writer: Writer, bar: MusicBar, *, first: bool) -> etree._Element:
    if not first:
        return node("attributes", _time(bar.meter))
    music = writer.sheet.music
    tab = node(
        "staff-details",
        node("staff-lines", music.guitar.strings),
        *(
            node(
                "staff-tuning",
                node("tuning-step", pitch.letter),
                node("tuning-alter", pitch.alter) if pitch.alter else None,
                node("tuning-octave", pitch.octave),
                line=line,
            )
            for line, pitch in enumerate(reversed(music.guitar.tuning.strings), 1)
        ),
        node("capo", music.guitar.capo) if music.guitar.capo else None,
        number=TAB,
    )
    return node(
        "attributes",
        node("divisions", writer.divisions),
        _key(music.key),
        _time(bar.meter),
        node("staves", 2),
        node("part-symbol", "bracket"),
        node("clef", node("sign", "G"), node("line", 2), node("clef-octave-change", -1), number=STAFF),
        node("clef", node("sign", "TAB"), node("line", 5), number=TAB),
        tab,
    )


def _key(key: Key) -> etree._Element:
    return node("key", node("fifths", key.signature), node("mode", key.mode))


def _time(meter: Meter) -> etree._Element:
    return node("time", node("beats", meter.count), node("beat-type", meter.unit))


def _numbers(made: Sheet, index: int) -> tuple[int, ...]:
    """The numbers of the ending that a bar stands in."""
    return next(bar.endings for bar in reversed(made.music.bars[: index + 1]) if bar.endings)


def _left(bar: MusicBar, index: int) -> etree._Element:
    return node(
        "barline",
        node("bar-style", "heavy-light") if bar.opens and index else None,
        node("ending", number=_said(bar.endings), type_="start") if bar.endings else None,
        node("repeat", direction="forward") if bar.opens else None,
        location="left",
    )


def _right(bar: MusicBar, numbers: tuple[int, ...], *, last: bool) -> etree._Element:
    ends = "stop" if bar.ending_closed or bar.closes else "discontinue"
    times = str(bar.times) if bar.closes and bar.times > 2 else None
    return node(
        "barline",
        node("bar-style", "light-heavy") if bar.closes or last else None,
        node("ending", number=_said(numbers), type_=ends) if numbers else None,
        node("repeat", direction="backward", times=times) if bar.closes else None,
        location="right",
    )


def _said(numbers: tuple[int, ...]) -> str:
    return ", ".join(map(str, numbers))
