"""A piece of music as an MEI document, for its own sake: nothing in it is made for one renderer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lxml import etree

from lickwright.exchange.element import node
from lickwright.exchange.links import accidentals, sheet
from lickwright.exchange.mei.controls import controls
from lickwright.exchange.mei.layer import STAFF, TAB, spoken, staff_layer, tab_layer
from lickwright.theory.spelling import spell

if TYPE_CHECKING:
    from lickwright.exchange.links import Sheet
    from lickwright.model.music import Music, MusicBar
    from lickwright.model.orders import Credits, ExchangeOrder
    from lickwright.theory.meter import Meter

_NAMESPACE = "http://www.music-encoding.org/ns/mei"


def write_mei(order: ExchangeOrder) -> bytes:
    """Return the document, UTF-8."""
    made = sheet(order.music)
    section = node("section")
    _fill(section, made, controls(made, order.tempo))
    score = node("score", _head(order.music), section)
    mei = node(
        "mei",
        _header(order.credits),
        node("music", node("body", node("mdiv", score))),
        xmlns=_NAMESPACE,
        meiversion="5.1",
    )
    etree.indent(mei, " ")
    return etree.tostring(mei, xml_declaration=True, encoding="UTF-8") + b"\n"


def _header(credits_: Credits) -> etree._Element:
    role = "composer" if credits_.own else "arranger"
    author = node("respStmt", node("persName", credits_.author, role=role)) if credits_.author else None
    rights = node("availability", node("useRestrict", credits_.rights)) if credits_.rights else None
    source = node("sourceDesc", node("source", node("bibl", credits_.source))) if credits_.source else None
    file = node(
        "fileDesc",
        node("titleStmt", node("title", credits_.title), author),
        node("pubStmt", rights),
        source,
    )
    application = node("application", node("name", "Lickwright"))
    return node("meiHead", file, node("encodingDesc", node("appInfo", application)))


def _head(music: Music) -> etree._Element:
    meter, sharps = music.bars[0].meter, music.key.signature
    key = node("keySig", sig=f"{abs(sharps)}{'s' if sharps > 0 else 'f'}" if sharps else "0")
    clef = node("clef", shape="G", line=2, dis=8, dis__place="below")
    staff = node("staffDef", clef, key, _meter(meter), n=STAFF, lines=5)
    guitar = music.guitar
    courses = (
        node("course", n=n, **spoken(spell(guitar.open_midi(n), music.key, None, None, None)))
        for n in range(1, guitar.strings + 1)
    )
    tab = node(
        "staffDef",
        node("clef", shape="TAB", line=5),
        _meter(meter),
        node("tuning", *courses),
        n=TAB,
        lines=guitar.strings,
        notationtype="tab.guitar",
    )
    return node("scoreDef", node("staffGrp", staff, tab, symbol="bracket", bar__thru="true"))


def _meter(meter: Meter) -> etree._Element:
    return node("meterSig", count=meter.count, unit=meter.unit)


def _fill(section: etree._Element, made: Sheet, found: dict[int, list[etree._Element]]) -> None:
    shown = accidentals(made)
    into = section
    bars = made.music.bars
    for index, bar in enumerate(bars):
        if bar.endings:
            into = node("ending", n=",".join(map(str, bar.endings)))
            section.append(into)
        if bar.meter_shown and index:
            defs = (node("staffDef", _meter(bar.meter), n=n) for n in (STAFF, TAB))
            into.append(node("scoreDef", node("staffGrp", *defs)))
        into.append(_measure(made, index, bar, shown, found))
        if bar.ending_closed:
            into = section


def _measure(
    made: Sheet, index: int, bar: MusicBar, shown: dict[str, int], found: dict[int, list[etree._Element]]
) -> etree._Element:
    rows = tuple(zip(made.rows[index], (False, True), strict=False))
    last = index == len(made.music.bars) - 1
    full = bar.length == bar.meter.length and bar.upper.filled == bar.length
    return node(
        "measure",
        node("staff", *(staff_layer(made, row, shown, lower=low) for row, low in rows), n=STAFF),
        node("staff", *(tab_layer(made, row, lower=low) for row, low in rows), n=TAB),
        *found.get(index, []),
        n=bar.number,
        left="rptstart" if bar.opens else None,
        right="rptend" if bar.closes else "end" if last else None,
        metcon=None if full else "false",
    )
