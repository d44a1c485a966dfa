"""Chords as they are held in a piece: three strings or more struck together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lickwright.analysis.naming import spelled
from lickwright.model.strike import Fretted
from lickwright.theory.chord import Chord
from lickwright.theory.spelling import spell

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.model.fields import Shape
    from lickwright.model.music import Music, MusicBar, Sound
    from lickwright.theory.chord import ChordSymbol
    from lickwright.theory.pitch import PitchClass

FEWEST = 3
_Names = dict[tuple[int, int], "PitchClass"]


@dataclass(frozen=True, slots=True)
class Held:
    """A string of a chord.

    Attributes:
        fret: From the capo, 0 open.
        finger: ``1`` to ``4``, ``T``, or None where it is not said.
        name: The note.
        root: Whether it is the chord's root.
    """

    string: int
    fret: int
    finger: str | None
    name: PitchClass
    root: bool


@dataclass(frozen=True, slots=True)
class Grip:
    """A chord under the hand.

    Attributes:
        title: The chord it is, the author's name of the shape, or where it is played.
        held: From the highest-sounding string; every other string is not played.
    """

    title: str
    held: tuple[Held, ...]

    @property
    def places(self) -> tuple[tuple[int, int], ...]:
        """What tells one grip from another."""
        return tuple((each.string, each.fret) for each in self.held)


def list_grips(music: Music, shapes: Iterable[Shape] = ()) -> tuple[Grip, ...]:
    """Return the chords of a piece, each once, in the order of playing; then shapes it does not use.

    Args:
        music: A piece. Chords of nothing but open strings need no picture.
        shapes: The lick's own chords with a name.
    """
    shaped = {grip.places: grip for shape in shapes if (grip := _of_shape(shape, music)) is not None}
    found: dict[tuple[tuple[int, int], ...], Grip] = {}
    names = spelled(music)
    for bar in music.bars:
        for line in bar.lines:
            for sound in line.sounds:
                spellings = {
                    (tone.string, tone.fret): names[sound.address, k][0].name
                    for k, tone in enumerate(sound.tones, 1)
                    if tone.fret is not None and names[sound.address, k]
                }
                grip = _of_sound(sound, bar, spellings)
                if grip is not None:
                    found.setdefault(grip.places, grip)
    return tuple((found | {k: shaped[k] for k in shaped if k not in found}).values())


def _of_sound(sound: Sound, bar: MusicBar, names: _Names) -> Grip | None:
    chord = bar.chord_at(sound.onset)
    root = chord.root.semitone if isinstance(chord, Chord) else None
    held = [
        Held(tone.string, tone.fret, tone.finger, name, name.semitone == root)
        for tone in sound.tones
        if isinstance(tone.head, Fretted)
        and tone.struck
        and tone.fret is not None
        and (name := names.get((tone.string, tone.fret))) is not None
    ]
    where = f"Bar {bar.number}, sound {sound.address.sound}" if bar.number else "In the pickup"
    return _grip(held, _title(held, chord) or where)


def _of_shape(shape: Shape, music: Music) -> Grip | None:
    held = []
    for note in shape.strike.notes:
        if isinstance(note.head, Fretted) and music.guitar.has_string(note.string):
            midi = music.guitar.midi(note.string, note.head.fret)
            name = spell(midi, music.key, None, None, None).name
            held.append(Held(note.string, note.head.fret, None, name, root=False))
    return _grip(held, shape.name)


def _grip(held: Iterable[Held], title: str) -> Grip | None:
    ordered = tuple(sorted(held, key=lambda each: each.string))
    if len(ordered) < FEWEST or not any(each.fret for each in ordered):
        return None
    return Grip(title, ordered)


def _title(held: Iterable[Held], chord: ChordSymbol) -> str:
    """The chord in force, if it has all the notes that are held."""
    notes = list(held)
    if not isinstance(chord, Chord) or any(each.name.semitone not in chord.semitones for each in notes):
        return ""
    return chord.display if any(each.root for each in notes) else f"{chord.display}, rootless"
