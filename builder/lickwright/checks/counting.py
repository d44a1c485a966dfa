"""Lengths in the words of a count: ``1/8``, ``7 of 8 eighths``, ``the “and” of 4``."""

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

_COUNTED = {Fraction(1, 4): "e", Fraction(1, 2): "and", Fraction(3, 4): "a"}


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
    """Return a place in a bar in words: ``beat 3``, ``the “and” of 4``, ``eighth 5``.

    The parts of a beat that parts in two are counted ``1 e and a`` (common practice).
    """
    place = onset + bar.offset
    if place >= bar.meter.length:
        return "the bar line"
    beat, part = divmod(place, bar.meter.beat)
    share = part / bar.meter.beat
    if share == 0:
        return f"beat {beat + 1}"
    if not bar.meter.is_compound and share in _COUNTED:
        return f"the “{_COUNTED[share]}” of {beat + 1}"
    unit = Fraction(4, bar.meter.unit)
    if bar.meter.is_compound and (place / unit).denominator == 1:
        return f"{'eighth' if bar.meter.unit == 8 else 'sixteenth'} {place / unit + 1}"
    return f"the end of beat {beat + 1}"
