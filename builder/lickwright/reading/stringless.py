"""Slots that name no string by its number: ``B:1``, ``x``, ``<12>``, ``t12``; and lines of tablature."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from lickwright.theory.pitch import PitchClass

if TYPE_CHECKING:
    from lickwright.instrument.tuning import Tuning

_LETTER = re.compile(r"([A-Ga-g][#b♯♭]?):(\S+)")
_TABLATURE = re.compile(r"\s*(?:[A-Ga-g][#b♯♭]?\s*\||\|)(?=[^:]*--)[-0-9hpsbrtxX/\\~()<>^*|=.\s]+\Z")
_BLANK_HOLDS = re.compile(r"\|\s")
_HEADS = (
    (re.compile(r"[xX]"), "a dead note", "5:x"),
    (re.compile(r"t[0-9]{1,2}.*"), "a tapped note", "2:{}"),
    (re.compile(r"h[0-9]{1,2}.*"), "a note hammered with no stroke before it", "2:{}"),
    (re.compile(r"[0-9]{0,2}<[0-9.]{1,5}>.*"), "a harmonic", "4:{}"),
    (re.compile(r"[0-9]{1,2}[pn]?b[0-9].*"), "a bend", "2:{}"),
)


def is_tablature(text: str) -> bool:
    """Tell whether a line is one of six drawn for the strings: ``e|--0--2--|``."""
    return "--" in text and _TABLATURE.match(text) is not None and not _BLANK_HOLDS.search(text)


def find_letter(token: str, tuning: Tuning | None) -> tuple[str, str, str] | None:
    """Explain a string named by its note, ``B:1``.

    Returns:
        Message, right form (empty when the letter could be more than one string) and hint; None
        when the token is something else.
    """
    found = _LETTER.fullmatch(token)
    if not found:
        return None
    letter, rest = found.groups()
    message = f"{token} names its string by a letter: strings are numbers, 1 the highest-sounding"
    note = PitchClass.parse(letter[0].upper() + letter[1:])
    if tuning is None or note is None:
        return message, "", "as in 2:1, string 2 and fret 1"
    sounding = note.semitone
    strings = [n for n, pitch in enumerate(tuning.strings, 1) if pitch.midi % 12 == sounding]
    if letter[0].islower():
        strings = strings[:1]  # the small letter is the high one of two, as guitarists write it
    if len(strings) == 1:
        return message, f"{strings[0]}:{rest}", f"in this tuning it is string {strings[0]}"
    said = " or ".join(f"{string}:{rest}" for string in strings)
    return message, "", f"in this tuning it could be {said}" if said else "no open string has that note"


def find_headless(token: str) -> tuple[str, str, str] | None:
    """Explain a note without its string, ``t12``: message, no right form, hint; None if it is none."""
    for form, what, right in _HEADS:
        if form.fullmatch(token):
            return (
                f"{token} is {what} without its string",
                "",
                f"write the string before it, as in {right.format(token)}",
            )
    return None
