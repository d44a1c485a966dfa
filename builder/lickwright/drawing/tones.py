"""The tones of a chord, a scale or a row of notes, wherever they lie on the neck."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lickwright.drawing.degrees import signed, spoken
from lickwright.drawing.picture import Dot, Shape
from lickwright.instrument.position import covers

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lickwright.drawing.window import Window
    from lickwright.instrument.guitar import Guitar
    from lickwright.theory.chord import Chord
    from lickwright.theory.key import Key
    from lickwright.theory.pitch import PitchClass
    from lickwright.theory.scale import Scale

Labels = Literal["names", "degrees", "fingers"]
FINGERS = 4
_BLUE = {"blues": "b5", "minor blues": "b5", "major blues": "b3"}
"""The blue note of a blues scale: what it has and the pentatonic has not."""


@dataclass(frozen=True, slots=True)
class Tone:
    """A note that is shown.

    Attributes:
        degree: What it is, or empty where nothing says of what.
    """

    name: PitchClass
    degree: str
    shape: Shape


@dataclass(frozen=True, slots=True)
class Tones:
    """Notes that are shown wherever they lie.

    Attributes:
        title: What they are.
        legend: What each shape means.
    """

    title: str
    notes: tuple[Tone, ...]
    legend: tuple[tuple[Shape, str], ...] = ()


def chord_tones(chord: Chord) -> Tones:
    """Return the tones of a chord."""
    notes = tuple(
        Tone(note, chord.degree_of(note), _shape(chord.degree_of(note))) for note in chord.pitch_classes
    )
    legend = ((Shape.ROOT, "Ringed: the root"), (Shape.TONE, "Filled: the other chord tones"))
    return Tones(f"{chord.display} chord tones", notes, legend)


def scale_tones(scale: Scale) -> Tones:
    """Return the notes of a scale; of a blues scale one is blue."""
    blue = _BLUE.get(scale.kind)
    notes = tuple(
        Tone(note, degree, Shape.BLUE if degree == blue else _shape(degree))
        for note, degree in zip(scale.pitch_classes, scale.degrees(), strict=True)
    )
    legend = (
        (Shape.ROOT, "Ringed: the root"),
        (Shape.TONE, "Filled: the other notes of the scale"),
        (Shape.BLUE, "Diamond: the blue note"),
    )
    return Tones(scale.display, notes, legend)


def named_tones(names: Sequence[PitchClass], key: Key | None) -> Tones:
    """Return notes by name, at least one; with a key they have its degrees."""
    several = list(dict.fromkeys(names))
    notes = tuple(Tone(note, key.degree_of(note) if key else "", Shape.TONE) for note in several)
    title = " and ".join(filter(None, (", ".join(n.display for n in several[:-1]), several[-1].display)))
    return Tones(f"{title} as degrees of {key.display}" if key else title, notes)


def tone_dots(tones: Tones, guitar: Guitar, window: Window, labels: Labels) -> tuple[Dot, ...]:
    """Return a dot for every place of the tones in a window.

    Args:
        tones: What is shown.
        guitar: With its tuning and capo.
        window: The frets and strings shown.
        labels: Written on them. Fingers are those of the position at the window's first fret, one a fret.
    """
    by_note = {tone.name.semitone: tone for tone in tones.notes}
    dots = []
    for string in window.strings:
        for fret in window.frets:
            tone = by_note.get(guitar.midi(string, fret) % 12)
            if tone is None:
                continue
            finger = finger_of(fret, window.low)
            label = {"names": tone.name.display, "degrees": signed(tone.degree), "fingers": finger}[labels]
            said = [tone.name.spoken, *([spoken(tone.degree)] if tone.degree else [])]
            said += [f"finger {finger}"] if labels == "fingers" and fret else []
            dots.append(Dot(string, fret, tone.shape, label, ", ".join(said)))
    return tuple(dots)


def _shape(degree: str) -> Shape:
    return Shape.ROOT if degree == "1" else Shape.TONE


def finger_of(fret: int, position: int) -> str:
    """Return the finger that plays a fret in a position, one finger a fret; empty beyond its reach.

    >>> [finger_of(fret, 5) for fret in (0, 4, 5, 8, 9, 10)]
    ['0', '1', '1', '4', '4', '']
    """
    if not fret:
        return "0"
    if not covers(position, fret):
        return ""
    return str(min(max(fret - max(position, 1) + 1, 1), FINGERS))
