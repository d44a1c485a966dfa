"""Pictures read back from their strokes and from their words."""

from __future__ import annotations

import re

from lxml import etree

from lickwright.drawing.picture import Picture


def root_of(picture: Picture) -> etree._Element:
    """The picture as a parser that is not ours reads it."""
    return etree.fromstring(picture.svg)


def dots_of(picture: Picture) -> list[tuple[float, float, str, str]]:
    """Place, class and letter of each dot as drawn."""
    found = []
    for group in root_of(picture).iter("g"):
        circle = group.find("circle")
        if circle is not None:
            place = float(circle.get("cx")), float(circle.get("cy"))
        else:  # a diamond begins at its upper tip
            x, y, half = map(float, re.findall(r"[\d.]+", group.find("path").get("d"))[:3])
            place = x, y + half
        found.append((*place, group.get("class").split()[1], group.findtext("text") or ""))
    return found


def told(picture: Picture) -> list[tuple[int, int, str]]:
    """String, fret and name of each dot as its words tell them."""
    found = []
    for sentence in picture.said:
        head, _, rest = sentence.rstrip(".").partition(": ")
        string = int(head.removeprefix("String "))
        for part in rest.split("; ") if rest != "nothing" else ():
            place, name, *_ = part.split(", ")
            found.append((string, 0 if place == "open" else int(place.removeprefix("fret ")), name))
    return found
