"""What a drawing hands to a page, and the marks it is made of."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Shape(Enum):
    """How a dot is drawn; the value is its class."""

    ROOT = "root"
    TONE = "tone"
    BLUE = "blue"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Dot:
    """A place on the neck.

    Attributes:
        string, fret: Where, the fret from the capo.
        shape: What it is to the chord or key.
        label: Written in it; at most three letters.
        said: The same in words: ``C sharp, the third``.
    """

    string: int
    fret: int
    shape: Shape
    label: str
    said: str


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture and its twin.

    Attributes:
        svg: A whole ``<svg>`` element. ``width``: the px it is meant to take.
        title: What it shows, in a line.
        said: Sentences, in the order of reading.
        legend: What the shapes of its dots mean, where they are of more than one kind; else empty.
    """

    svg: str
    title: str
    said: tuple[str, ...]
    legend: str = ""
    width: float = 0.0
