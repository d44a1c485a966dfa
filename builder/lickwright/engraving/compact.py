"""A system made small for a page: the same ink in a third of the elements.

A page may hold some fifty systems in two widths; what costs is the number of elements. Groups that
nothing asks for are opened, straight strokes and beams of a bar become one path each, single letters
of one kind one text with a place for each, a note that is a single glyph or figure carries its id
itself. What is drawn does not change, only how it is said. Notes keep their id and the class ``note``.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from lxml import etree

from lickwright.engraving.lettering import gather, part_lines, share_size, simplify
from lickwright.engraving.strokes import Stroke, chained, curve, joined, polygon

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lickwright.model.orders import Engraved, ScoreOrder

_SVG = "{http://www.w3.org/2000/svg}"
_OPENED = frozenset({
    *("layer", "beam", "chord", "tabGrp", "tuplet", "stem", "flag", "accid", "dots", "notehead", "rest"),
    *("clef", "keySig", "keyAccid", "meterSig", "barLine", "grpSym", "ledgerLines", "tupletNum"),
    *("artic", "dir", "harm"),
})  # fmt: skip
"""Groups that no sheet and no player asks for; a notehead's class goes to its glyph till the note is flat."""
_HANDED_DOWN = ("font-style", "font-weight")
_STRAIGHT = re.compile(r"M(-?[\d.]+) (-?[\d.]+) L(-?[\d.]+) (-?[\d.]+)\Z")


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
    for words in list(root.iter(_SVG + "text")):
        simplify(words)
        part_lines(words)
    for path in root.iter(_SVG + "path"):
        path.set("d", curve(path.get("d", "")))
    lines: dict[str, list[Stroke]] = {}
    for group in [g for g in root.iter(_SVG + "g") if _kind(g) == "measure"]:
        _merge(group, lines)
    for width, drawn in lines.items():
        data = "".join(chained(joined(drawn)))
        root[0].insert(0, etree.Element(_SVG + "path", {"d": data, "stroke-width": width, "class": "lines"}))
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
    for glyph in root.iter(_SVG + "use"):
        if glyph.get("class") == "notehead":
            del glyph.attrib["class"]
    for group in [g for g in root.iter(_SVG + "g") if _kind(g) == "measure"]:
        gather(group)
    root.set("text-anchor", "middle")
    share_size(root)
    return etree.tostring(root, encoding="unicode")


def _kind(group: etree._Element) -> str:
    return group.get("class", "").partition(" ")[0]


def _remove(element: etree._Element) -> None:
    parent = element.getparent()
    if parent is not None:
        parent.remove(element)


def _merge(measure: etree._Element, lines: dict[str, list[Stroke]]) -> None:
    """Make one path of the straight strokes of a width, and one of the beams; gather the staves' lines."""
    strokes: dict[str, list[Stroke]] = {}
    beams: list[str] = []
    for element in list(_plain(measure)):
        parent = element.getparent()
        if element.tag == _SVG + "polygon" and set(element.attrib) == {"points"}:
            beams.append(polygon(element.get("points", "")))
            _remove(element)
        elif element.tag == _SVG + "path" and set(element.attrib) <= {"d", "stroke-width"}:
            found = _STRAIGHT.match(element.get("d", ""))
            if found:
                of_staff = parent is not None and _kind(parent) == "staff" and found[2] == found[4]
                home = lines if of_staff else strokes
                ends = (found[1], found[2], found[3], found[4])
                home.setdefault(element.get("stroke-width", "0"), []).append(ends)
                _remove(element)
    for width, drawn in strokes.items():
        path = etree.Element(_SVG + "path", {"d": "".join(chained(drawn)), "stroke-width": width})
        measure.insert(0, path)
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
    own[0].set("class", group.get("class", ""))
    if group.get("id"):
        own[0].set("id", group.get("id", ""))
    at = parent.index(group)
    parent[at : at + 1] = list(group)


def _open_staff(staff: etree._Element) -> None:
    parent = staff.getparent()
    if parent is not None:
        at = parent.index(staff)
        parent[at : at + 1] = list(staff)
