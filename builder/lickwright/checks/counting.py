"""Lengths in the words of a count: ``1/8``, ``7 of 8 eighths``, ``the second half of beat 4``."""

from __future__ import annotations

from fractions import Fraction

from lickwright.model.music import MusicBar

UNITS: tuple[tuple[Fraction, str], ...] = (
    (Fraction(1), "quarters"),
    (Fraction(1, 2), "eighths"),
    (Fraction(1, 4), "sixteenths"),
    (Fraction(1, 8), "thirty-seconds"),
)
"""Length in quarters, and its plural."""


def written_length(quarters: Fraction) -> str:
    """Return a length as a part of the whole note: ``1/8``, and ``4/4`` for a whole one."""
    whole = quarters / 4
    return f"{quarters}/4" if whole.denominator == 1 else str(whole)


def count_units(filled: Fraction, full: Fraction) -> str:
    """Return what is there against what should be: ``7 of 8 eighths``."""
    for unit, plural in UNITS[1:]:
        there, wanted = filled / unit, full / unit
        if there.denominator == wanted.denominator == 1:
            return f"{there} of {wanted} {plural}"
    return f"{float(filled):g} of {float(full):g} quarters"


def place_in_bar(bar: MusicBar, onset: Fraction) -> str:
    """Return a place in a bar in words: ``beat 3``, ``the second half of beat 4``, ``eighth 5``."""
    place = onset + bar.offset
    if place >= bar.meter.length:
        return "the bar line"
    beat, part = divmod(place, bar.meter.beat)
    share = part / bar.meter.beat
    if share == 0:
        return f"beat {beat + 1}"
    if share == Fraction(1, 2):
        return f"the second half of beat {beat + 1}"
    unit = Fraction(4, bar.meter.unit)
    if bar.meter.is_compound and (place / unit).denominator == 1:
        return f"{'eighth' if bar.meter.unit == 8 else 'sixteenth'} {place / unit + 1}"
    return f"the end of beat {beat + 1}"
