"""A ``scale`` block as a piece: its notes fingered, in eighths, over the chord of its tonic."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from lickwright.instrument.scale_fingering.fingered import Unplayable, Wish, finger_scale
from lickwright.instrument.scale_fingering.rolls import picking_hand
from lickwright.model.bar import Bar, Entry, Margin, MarginChord, Row, Voice
from lickwright.model.blocks import Lick, ScaleBlock
from lickwright.model.slots import BracketKind, Closing, Hold, Opening, Slot
from lickwright.model.strike import Fretted, Note, Strike
from lickwright.model.timeline.piece import resolve_lick
from lickwright.theory.chord import Chord
from lickwright.theory.key import parse_key
from lickwright.theory.scale import Scale, parse_scale

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lickwright.instrument.scale_fingering.fingered import Fingered
    from lickwright.instrument.scale_fingering.step import Step
    from lickwright.model.course import Settings
    from lickwright.model.music import Piece
    from lickwright.model.timeline.faults import Faults
    from lickwright.text import Span
    from lickwright.theory.key import Key

_EIGHTH = Fraction(1, 2)
_A_BAR = 8
_MINOR_THIRD, _MAJOR_THIRD, _DIMINISHED_FIFTH, _FIFTH = 3, 4, 6, 7


def resolve_scale(block: ScaleBlock, settings: Settings, faults: Faults) -> Piece | None:
    """Finger a scale and resolve it like a lick.

    Args:
        block: As read; its ends lie on the neck.
        settings: What the course says for every lick.
        faults: Told when there is no fingering.
    """
    scale = parse_scale(block.scale)
    if scale is None:
        return None  # the reader has said so
    tonic = scale.tonic.semitone
    wish = Wish(
        scale.semitones,
        tonic,
        block.start,
        block.stop,
        block.position,
        block.notes_a_string,
        block.open_strings,
    )
    fingered = finger_scale(wish, settings.guitar)
    if isinstance(fingered, Unplayable):
        _refuse(block, scale, fingered, faults)
        return None
    if block.open_strings and fingered.way == "plain":
        faults.add(
            "open-strings/scale",
            f"{scale.display} does not ring here: neighbours would share a string or lie beyond the hand",
            _place(block, "open_strings"),
            help="It is shown in plain position; other ends may ring",
        )
    made = _lick(block, scale, fingered)
    return replace(resolve_lick(made, {}, settings, faults), kind="scale")


def _lick(block: ScaleBlock, scale: Scale, fingered: Fingered) -> Lick:
    """The scale written out."""
    steps = fingered.steps
    ringing = fingered.way == "ringing"
    hand = picking_hand([step.string for step in steps]) if ringing else ()
    bars = []
    for first in range(0, len(steps), _A_BAR):
        within = slice(first, first + _A_BAR)
        ends = first + _A_BAR >= len(steps)
        slots = _slots(steps[within], opens=ringing and not first, closes=ringing and ends)
        rows = [Row("lh", tuple(Entry((step.finger,)) for step in steps[within]))]
        if ringing:
            rows.insert(0, Row("rh", tuple(Entry((finger,)) for finger in hand[within])))
        margin = Margin((MarginChord(_chord(scale)),)) if not first else Margin()
        bars.append(Bar(margin, Voice(slots, tuple(rows), block.span), None, block.span))
    return Lick(
        block.name,
        tuple(bars),
        title=block.title or scale.display,
        key=_key(scale),
        step=_EIGHTH,
        tempo=block.tempo,
        feel="straight",
        stets=block.stets,
        span=block.span,
        places=block.places,
    )


def _slots(steps: Sequence[Step], *, opens: bool, closes: bool) -> tuple[Slot, ...]:
    slots: list[Slot] = [Opening(BracketKind.RING)] if opens else []
    slots += [Strike((Note(step.string, Fretted(step.fret)),)) for step in steps]
    slots += [Hold()] * (_A_BAR - len(steps))
    return (*slots, Closing()) if closes else tuple(slots)


def _key(scale: Scale) -> Key | None:
    """The key a scale is written in: its own, else major or minor on its tonic, with the scale's names.

    They hold up and down: the flat fifth of the blues scale is no sharp fourth on its way up.
    """
    kind = scale.kind if parse_key(scale.name) else "minor" if _is_minor(scale) else "major"
    key = parse_key(f"{scale.tonic} {kind}")
    return key and replace(key, names=tuple(n for n in scale.pitch_classes if n not in key.scale))


def _chord(scale: Scale) -> Chord:
    """The triad on its tonic."""
    steps = _steps(scale)
    diminished = _FIFTH not in steps and _DIMINISHED_FIFTH in steps
    return Chord.of(str(scale.tonic), ("dim" if diminished else "m") if _is_minor(scale) else "major")


def _is_minor(scale: Scale) -> bool:
    return _MINOR_THIRD in (steps := _steps(scale)) and _MAJOR_THIRD not in steps


def _steps(scale: Scale) -> set[int]:
    return {(semitone - scale.tonic.semitone) % 12 for semitone in scale.semitones}


def _refuse(block: ScaleBlock, scale: Scale, fault: Unplayable, faults: Faults) -> None:
    if fault.reason == "outside" and fault.place is not None:
        string, fret = fault.place
        message = f"string {string}, fret {fret} is no note of {scale.display}"
        faults.add("hands/scale", message, _place(block, "from"), help="Begin and end on notes of the scale")
    elif fault.reason == "short":
        place = _place(block, "from", "position")
        faults.add("hands/scale", f"{scale.display} has no two notes there", place, help="Take wider ends")
    else:
        message = f"no hand plays {scale.display} so"
        place = _place(block, "notes_a_string", "position", "from")
        faults.add(
            "hands/scale", message, place, help="Leave the position or the notes a string to the builder"
        )


def _place(block: ScaleBlock, *names: str) -> Span:
    """Where the first of some fields that is written stands, else the block."""
    places = dict(block.places)
    return next((places[name] for name in names if name in places), block.span)
