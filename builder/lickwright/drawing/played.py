"""The places that a piece of music takes on the neck."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.analysis.naming import spelled, spelled_graces
from lickwright.drawing.degrees import spoken
from lickwright.drawing.picture import Dot, Shape
from lickwright.model.strike import Harmonic
from lickwright.theory.chord import Chord

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from lickwright.analysis.naming import GraceKey
    from lickwright.model.address import Address, AddressRange
    from lickwright.model.music import Music, MusicBar, Tone
    from lickwright.theory.chord import ChordSymbol
    from lickwright.theory.pitch import Pitch, PitchClass

LEGEND = (
    (Shape.ROOT, "Ringed: the root of its chord"),
    (Shape.TONE, "Filled: in its chord"),
    (Shape.OTHER, "Open: outside its chord, once at least"),
)
_Played = tuple["Tone", "PitchClass", "ChordSymbol"]


def played_dots(music: Music, bars: AddressRange | None = None) -> tuple[Dot, ...]:
    """Return a dot for every place that is held or struck open, bends by the fret they start from.

    A place is a root or a tone when it is so each time it is played; dead notes have no place.

    Args:
        music: A piece.
        bars: Which of its bars; all without them.
    """
    found: dict[tuple[int, int], list[_Played]] = {}
    for tone, pitch, chord in _notes(music, bars):
        if (fret := _fret(tone)) is not None:
            found.setdefault((tone.string, fret), []).append((tone, pitch.name, chord))
    return tuple(_dot(place, found[place]) for place in sorted(found))


def _notes(music: Music, bars: AddressRange | None) -> Iterator[tuple[Tone, Pitch, ChordSymbol]]:
    names, graces = spelled(music), spelled_graces(music)
    for bar in music.bars:
        if bars is None or bars.first.bar <= bar.number <= bars.last.bar:
            yield from _of_bar(bar, names, graces)


def _of_bar(
    bar: MusicBar,
    names: Mapping[tuple[Address, int], tuple[Pitch, ...]],
    graces: Mapping[GraceKey, tuple[Pitch, ...]],
) -> Iterator[tuple[Tone, Pitch, ChordSymbol]]:
    for line in bar.lines:
        for sound in line.sounds:
            chord = bar.chord_at(sound.onset)
            for number, grace in enumerate(sound.grace, 1):
                for k, tone in enumerate(grace.tones, 1):
                    if named := graces.get((sound.address, number, k)):
                        yield tone, named[0], chord
            for k, tone in enumerate(sound.tones, 1):
                if named := names.get((sound.address, k)):
                    yield tone, named[0], chord


def _dot(place: tuple[int, int], played: list[_Played]) -> Dot:
    shapes = {_shape(name, chord) for _, name, chord in played}
    shape = shapes.pop() if len(shapes) == 1 else Shape.OTHER if Shape.OTHER in shapes else Shape.TONE
    name = played[0][1]
    said = [name.spoken, *dict.fromkeys(_over(written, chord) for _, written, chord in played)]
    fingers = sorted({tone.finger for tone, _, _ in played if tone.finger and tone.fret})
    said += ["as a harmonic"] if any(isinstance(tone.head, Harmonic) for tone, _, _ in played) else []
    said += [f"finger {' or '.join(fingers)}"] if fingers else []
    return Dot(*place, shape, name.display, ", ".join(said))


def _fret(tone: Tone) -> int | None:
    """Where the finger is: a natural harmonic is touched, over the fret nearest to its node."""
    if isinstance(tone.head, Harmonic) and not tone.head.fret:
        return round(tone.head.touch)
    return tone.fret


def _shape(name: PitchClass, chord: ChordSymbol) -> Shape:
    if not isinstance(chord, Chord) or name.semitone not in chord.semitones:
        return Shape.OTHER
    return Shape.ROOT if name.semitone == chord.root.semitone else Shape.TONE


def _over(name: PitchClass, chord: ChordSymbol) -> str:
    if not isinstance(chord, Chord):
        return "over no chord"
    return f"{spoken(chord.degree_of(name))} over {chord.spoken}"
