"""The letters of a system said briefly: fewer texts, each with fewer words about it."""

from __future__ import annotations

from collections import Counter

from lxml import etree

_SVG = "{http://www.w3.org/2000/svg}"


def simplify(words: etree._Element) -> None:
    """One element for one run of text; the anchor that most have stands on the root."""
    for span in reversed(list(words.iter(_SVG + "tspan"))):
        parent = span.getparent()
        if not len(span) and not span.text and parent is not None:
            parent.remove(span)
    _unwrap(words)
    if len(words) > 1 and not any(span.tail or len(span) for span in words):
        look = _look(words[0])
        if not {"x", "y"} & set(look) and all(_look(span) == look for span in words):
            words[0].text = "".join(span.text or "" for span in words)  # a chord's letters and signs
            words[:] = [words[0]]
            _unwrap(words)
    if words.get("font-style") == "normal":
        words.set("font-style", "")  # against the group's italics, which it does not share; see _open
    if words.get("text-anchor") == "middle":
        del words.attrib["text-anchor"]
    else:
        words.set("text-anchor", words.get("text-anchor", "start"))


def part_lines(words: etree._Element) -> None:
    """Lines of words over each other are a text each; a blank one was only room."""
    parent = words.getparent()
    if parent is None or len(words) < 2 or words.text or any(span.tail for span in words):
        return
    spans = list(words)
    if not all({"x", "y"} <= set(_look(span)) for span in spans[1:]):
        return
    for span in spans:
        line = etree.Element(_SVG + "text", _look(words))
        line.append(span)
        _unwrap(line)
        if "".join(str(part) for part in line.itertext()).strip():
            words.addprevious(line)
    parent.remove(words)


def gather(measure: etree._Element) -> None:
    """Single letters that differ in nothing but their place become one text, with a place for each."""
    alike: dict[tuple[tuple[str, str], ...], list[etree._Element]] = {}
    for words in measure.findall(_SVG + "text"):
        look = _look(words)
        if len(words) or len(words.text or "") != 1 or "id" in look or not {"x", "y"} <= set(look):
            continue
        del look["x"], look["y"]
        alike.setdefault(tuple(sorted(look.items())), []).append(words)
    for first, *others in alike.values():
        drawn = (first, *others)
        for axis in "xy":
            places = [words.get(axis, "") for words in drawn]
            first.set(axis, places[0] if axis == "y" and len(set(places)) == 1 else " ".join(places))
        first.text = "".join(words.text or "" for words in drawn)
        for words in others:
            measure.remove(words)


def share_size(root: etree._Element) -> None:
    """The size that most words have stands on the root."""
    sizes = Counter(size for words in root.iter(_SVG + "text") if (size := words.get("font-size")))
    if not sizes:
        return
    common = sizes.most_common(1)[0][0]
    root.set("font-size", common)
    for words in root.iter(_SVG + "text"):
        if words.get("font-size") == common:
            del words.attrib["font-size"]


def _look(element: etree._Element) -> dict[str, str]:
    return {str(name): str(value) for name, value in element.attrib.items()}


def _unwrap(words: etree._Element) -> None:
    """Take a text out of the spans that hold all of it."""
    while len(words) == 1 and not words.text and not words[0].tail:
        span = words[0]
        for name, value in _look(span).items():
            words.set(name, value)
        words.text = span.text
        words[:] = list(span)
