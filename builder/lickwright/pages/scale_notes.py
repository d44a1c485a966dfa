"""What the page says under a fingered scale: its rolls, and where the hand has to reach wide."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.instrument.scale_fingering.reaches import widest
from lickwright.instrument.scale_fingering.rolls import rolls
from lickwright.instrument.scale_fingering.step import Step
from lickwright.pages.counting import listed
from lickwright.terms.numbers import ORDINALS

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lickwright.instrument.guitar import Guitar
    from lickwright.model.music import Piece

CAUTION = (
    "Leave a note out rather than force it; where a reach hurts, stop, and ask a teacher or a clinician."
)


def scale_notes(piece: Piece) -> tuple[str, ...]:
    """Return the sentences under a scale; none under any other piece."""
    if piece.kind != "scale":
        return ()
    sounds = [sound for bar in piece.music.bars for sound in bar.upper.sounds]
    steps = [
        Step(tone.string, tone.fret, tone.finger or "")
        for sound in sounds
        for tone in sound.tones
        if tone.fret is not None
    ]
    ringing = any(sound.ring for sound in sounds)
    return (*(_rolls(steps) if ringing else ()), *_reach(steps, piece.music.guitar, ringing=ringing))


def _rolls(steps: Sequence[Step]) -> Iterator[str]:
    found = rolls([step.string for step in steps])
    if found:
        said = [f"{roll.way} from the {_th(roll.first)} note to the {_th(roll.last)}" for roll in found]
        yield f"Rolls: {listed(said)}."


def _reach(steps: Sequence[Step], guitar: Guitar, *, ringing: bool) -> Iterator[str]:
    wide = widest(steps, guitar, ringing=ringing)
    if wide is not None:
        places = listed([f"string {step.string} fret {step.fret}" for step in (wide.one, wide.other)])
        yield f"The widest reach is {wide.millimetres:.0f} mm, between {places}. {CAUTION}"


def _th(number: int) -> str:
    place = number + 1
    if place < len(ORDINALS):
        return ORDINALS[place]
    suffix = {1: "st", 2: "nd", 3: "rd"}.get(place % 10, "th") if place % 100 not in (11, 12, 13) else "th"
    return f"{place}{suffix}"
