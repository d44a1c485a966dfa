"""Tempi: which beat a bare number counts, and the reduced tempo when none is written.

Convention: the default reduced tempo is 55 % of the tempo, rounded to an even
number (the language contract).
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from lickwright.model.fields import Tempo
from lickwright.model.timeline.faults import Faults
from lickwright.text import Span
from lickwright.theory.meter import Meter

SLOW_SHARE = Fraction(55, 100)


def counted(tempo: Tempo, meter: Meter) -> Tempo:
    """Return the tempo with its beat said: a bare number counts the meter's beat."""
    return tempo if tempo.beat is not None else replace(tempo, beat=meter.beat)


def quarters(tempo: Tempo, meter: Meter) -> Fraction:
    """Quarters a minute."""
    return tempo.bpm * (tempo.beat or meter.beat)


def check_slow(slow: Tempo, tempo: Tempo, meter: Meter, span: Span, faults: Faults) -> None:
    """Report a reduced tempo that is none."""
    if quarters(slow, meter) >= quarters(tempo, meter):
        faults.add(
            "rhythm/slow-tempo",
            f"the reduced tempo, {slow.bpm}, is not lower than the tempo, {tempo.bpm}",
            span,
            help="Lower it, or leave it out: it is then 55 % of the tempo",
        )


def reduced(tempo: Tempo) -> Tempo:
    """Return the default reduced tempo, in the same beat."""
    return replace(tempo, bpm=2 * round(tempo.bpm * SLOW_SHARE / 2))
