"""A system made small for a page: the same ink in a third of the elements.

A page may hold some fifty systems in two widths; what costs is the number of elements. Groups that
nothing asks for are opened, straight strokes and beams of a bar become one path each, a note that is
a single glyph or figure carries its id itself. What is drawn does not change, only how it is said.
Notes keep their id and the class ``note``; a notehead is a ``use`` of the class ``notehead``.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

from lxml import etree

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lickwright.model.orders import Engraved, ScoreOrder

_SVG = "{http://www.w3.org/2000/svg}"
_OPENED = frozenset({
    *("layer", "beam", "chord", "tabGrp", "tuplet", "stem", "flag", "accid", "dots", "notehead", "rest"),
    *("clef", "keySig", "keyAccid", "meterSig", "barLine", "grpSym", "ledgerLines", "tupletNum"),
    *("artic", "dir", "harm"),
})  # fmt: skip
"""Groups that no sheet and no player asks for; a notehead's class goes to its glyph."""
_HANDED_DOWN = ("font-style", "font-weight")
_STRAIGHT = re.compile(r"M(-?[\d.]+) (-?[\d.]+) L(-?[\d.]+) (-?[\d.]+)\Z")
_PLACED = re.compile(r"translate\((\S+), (\S+)\) scale\(0?(\S+), \S+\)\Z")


def engrave_compact(order: ScoreOrder) -> Engraved:
    """Engrave a score for a page; see :func:`lickwright.engraving.engrave.engrave`."""
    from lickwright.engraving.engrave import engrave

    made = engrave(order)
    return replace(made, systems=tuple(replace(s, svg=compact(s.svg)) for s in made.systems))


def compact(svg: str) -> str:
    """Return the same drawing with fewer elements.

    Args:
        svg: A system as ``finish`` leaves it.
    """
    root = etree.fromstring(svg)
    for words in root.iter(_SVG + "text"):
        _simplify(words)
    for glyph in root.iter(_SVG + "use"):
        glyph.set("transform", _PLACED.sub(r"translate(\1,\2)scale(\3)", glyph.get("transform", "")))
    for group in [g for g in root.iter(_SVG + "g") if _kind(g) == "measure"]:
        _merge(group)
    for group in reversed(list(root.iter(_SVG + "g"))):
        if _kind(group) in _OPENED and group.get("id") is None:
            _open(group)
    for group in [g for g in root.iter(_SVG + "g") if _kind(g) == "note"]:
        _flatten(group)
    for group in [g for g in root.iter(_SVG + "g") if _kind(g) == "staff"]:
        _open_staff(group)
    for group in reversed(list(root.iter(_SVG + "g"))):
        if not len(group) and group.get("id") is None:
            _remove(group)
    for words in root.iter(_SVG + "text"):
        if words.get("font-style") == "":
            del words.attrib["font-style"]
    root.set("text-anchor", "middle")
    _share_size(root)
    return etree.tostring(root, encoding="unicode")


def _kind(group: etree._Element) -> str:
    return group.get("class", "").partition(" ")[0]


def _remove(element: etree._Element) -> None:
    parent = element.getparent()
    if parent is not None:
        parent.remove(element)


def _simplify(words: etree._Element) -> None:
    """One element for one run of text; the anchor that most have stands on the root."""
    for span in reversed(list(words.iter(_SVG + "tspan"))):
        if not len(span) and not span.text:
            _remove(span)
    while len(words) == 1 and not words.text and not words[0].tail:
        span = words[0]
        for name, value in span.attrib.items():
            words.set(name, value)
        words.text = span.text
        words[:] = list(span)
    if words.get("font-style") == "normal":
        words.set("font-style", "")  # against the group's italics, which it does not share; see _open
    if words.get("text-anchor") == "middle":
        del words.attrib["text-anchor"]
    else:
        words.set("text-anchor", words.get("text-anchor", "start"))


def _share_size(root: etree._Element) -> None:
    """The size that most words have stands on the root."""
    sizes = Counter(size for words in root.iter(_SVG + "text") if (size := words.get("font-size")))
    if not sizes:
        return
    common = sizes.most_common(1)[0][0]
    root.set("font-size", common)
    for words in root.iter(_SVG + "text"):
        if words.get("font-size") == common:
            del words.attrib["font-size"]


def _merge(measure: etree._Element) -> None:
    """Make one path of the straight strokes of a kind, and one of the beams."""
    strokes: dict[tuple[etree._Element, str], list[Stroke]] = {}
    beams: list[str] = []
    for element in list(_plain(measure)):
        parent = element.getparent()
        if element.tag == _SVG + "polygon" and set(element.attrib) == {"points"}:
            beams.append("M" + "L".join(element.get("points", "").split()) + "Z")
            _remove(element)
        elif (
            element.tag == _SVG + "path"
            and set(element.attrib) <= {"d", "stroke-width"}
            and parent is not None
        ):
            found = _STRAIGHT.match(element.get("d", ""))
            if found:
                home = parent if _kind(parent) == "staff" else measure
                strokes.setdefault((home, element.get("stroke-width", "0")), []).append(
                    (found[1], found[2], found[3], found[4])
                )
                _remove(element)
    for (home, width), drawn in strokes.items():
        path = etree.Element(_SVG + "path", {"d": "".join(_chained(drawn)), "stroke-width": width})
        home.insert(0, path)
    if beams:
        etree.SubElement(measure, _SVG + "path", {"d": "".join(beams)})


def _plain(element: etree._Element) -> Iterator[etree._Element]:
    """The elements under a measure that no group colours, dashes, hides or makes a sign of."""
    for child in element:
        if child.tag == _SVG + "g":
            if set(child.attrib) <= {"class", "id", *_HANDED_DOWN} and _kind(child) != "sign":
                yield from _plain(child)
        else:
            yield child


Stroke = tuple[str, str, str, str]


def _chained(strokes: list[Stroke]) -> Iterator[str]:
    """The strokes as path data; the pieces of a string that is broken for its figures hang together."""
    at: tuple[str, str] | None = None
    for x, y, x2, y2 in strokes:
        level = y == y2
        if level and at is not None and at[1] == y:
            yield f"m{float(x) - float(at[0]):g} 0H{x2}"
        elif level:
            yield f"M{x} {y}H{x2}"
        else:
            yield f"M{x} {y}V{y2}" if x == x2 else f"M{x} {y}L{x2} {y2}"
        at = (x2, y2) if level else None


def _open(group: etree._Element) -> None:
    """Put the children of a group in its place, with what they had from it."""
    parent = group.getparent()
    if parent is None or not set(group.attrib) <= {"class", *_HANDED_DOWN}:
        return
    head = _kind(group) == "notehead"
    for child in group:
        for name in _HANDED_DOWN:
            value = group.get(name)
            if value and child.get(name) is None and child.tag != _SVG + "tspan":
                child.set(name, value)
        if head:
            child.set("class", "notehead")
    at = parent.index(group)
    parent[at : at + 1] = list(group)


def _flatten(group: etree._Element) -> None:
    """Let the head or the figure of a note be the note; its stem, dots and signs stand beside it."""
    parent = group.getparent()
    if parent is None or not set(group.attrib) <= {"class", "id", *_HANDED_DOWN}:
        return
    own = [c for c in group if c.tag == _SVG + "text" or (c.tag == _SVG + "use" and _kind(c) == "notehead")]
    if len(own) != 1:
        return
    own[0].set("class", " ".join(filter(None, (group.get("class"), own[0].get("class")))))
    if group.get("id"):
        own[0].set("id", group.get("id", ""))
    at = parent.index(group)
    parent[at : at + 1] = list(group)


def _open_staff(staff: etree._Element) -> None:
    """Mark the lines themselves, which are thinner ink, and open the group."""
    parent = staff.getparent()
    if parent is None:
        return
    for child in staff:
        if child.tag == _SVG + "path" and child.get("class") is None:
            child.set("class", "lines")
    at = parent.index(staff)
    parent[at : at + 1] = list(staff)
