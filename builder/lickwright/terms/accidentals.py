"""Accidentals in ASCII, in print and in words.

Conventions: an alteration counts half steps, sharps positive, from -3 to 3. The house style
prints a double sharp as two sharp signs; the ``x`` of engravers is read but not written.
"""

from __future__ import annotations

ASCII: dict[int, str] = {-3: "bbb", -2: "bb", -1: "b", 0: "", 1: "#", 2: "##", 3: "###"}
SIGNS: dict[int, str] = {alter: text.replace("b", "♭").replace("#", "♯") for alter, text in ASCII.items()}
WORDS: dict[int, str] = {
    -3: "triple flat",
    -2: "double flat",
    -1: "flat",
    0: "",
    1: "sharp",
    2: "double sharp",
    3: "triple sharp",
}

READINGS: dict[str, int] = {
    **{text: alter for alter, text in ASCII.items()},
    **{text: alter for alter, text in SIGNS.items()},
    "x": 2,
    "𝄪": 2,
    "𝄫": -2,
    "♮": 0,
}
"""Every way of writing an accidental after a letter that is read, to its alteration."""
