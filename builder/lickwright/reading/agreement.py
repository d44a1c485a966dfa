"""Fields that must agree with one another: step, meter and pickup; tempo and reduced tempo."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from lickwright.model.bar import Margin
    from lickwright.model.fields import Tempo
    from lickwright.reading.collector import Collector
    from lickwright.reading.fields import Values
    from lickwright.text import Span
    from lickwright.theory.meter import Meter

EIGHTH = Fraction(1, 2)
"""The step of a lick that names none, in quarters."""


def check_step(
    read: Values, meter: Meter, margins: tuple[Margin, ...], opening: Span, found: Collector
) -> None:
    """Report a step that does not divide a meter of the lick, or its pickup."""
    step: Fraction = read.by_name.get("step") or EIGHTH
    places = dict(read.places)
    fields = (places.get("step") or places.get("meter") or opening, meter)
    changes = [(margin.span, margin.meter) for margin in margins if margin.meter is not None]
    told: set[Meter] = set()
    for place, each in (fields, *changes):
        if each not in told and (each.length / step).denominator > 1:
            told.add(each)
            message = f"a step of {_say_length(step)} does not divide a bar of {each}"
            found.add("rhythm/step", message, place, hint="the slots of a bar must be able to fill it")
    pickup: Fraction | None = read.by_name.get("pickup")
    if pickup is not None and (pickup / step).denominator > 1:
        message = f"a step of {_say_length(step)} does not divide a pickup of {_say_length(pickup)}"
        found.add("rhythm/step", message, places.get("step") or places["pickup"])


def check_tempi(known: dict[str, Any], meter: Meter | None, read: Values, found: Collector) -> None:
    """Report a reduced tempo that is none, and note a bare tempo in cut time."""
    tempo: Tempo | None = known.get("tempo")
    slow: Tempo | None = known.get("slow")
    places = dict(read.places)
    if tempo and tempo.beat is None and meter is not None and meter.unit == 2:
        message = f"a bare {tempo.bpm} counts half notes in {meter}"
        hint = f"write half = {tempo.bpm}, or quarter = {tempo.bpm} if quarters are meant"
        found.add("rhythm/cut-time-tempo", message, places["tempo"], hint=hint)
    if tempo and slow and (meter is not None or tempo.beat == slow.beat):
        beat = meter.beat if meter is not None else Fraction(1)
        if slow.bpm * (slow.beat or beat) >= tempo.bpm * (tempo.beat or beat):
            message = "the reduced tempo is not lower than the tempo"
            found.add("rhythm/slow-tempo", message, places["slow"])


def _say_length(quarters: Fraction) -> str:
    whole = quarters / 4
    return f"{whole.numerator}/{whole.denominator}"
