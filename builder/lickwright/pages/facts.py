"""What stands in one line beside a title: bars, key, tempo."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from lickwright.model.fields import Tempo
from lickwright.model.music import Music, Piece
from lickwright.pages.counting import count
from lickwright.theory.key import Key
from lickwright.theory.meter import Meter
from lickwright.theory.pitch import PitchClass

BEATS: dict[Fraction, str] = {
    Fraction(4): "whole",
    Fraction(3): "dotted half",
    Fraction(2): "half",
    Fraction(3, 2): "dotted quarter",
    Fraction(1): "quarter",
    Fraction(3, 4): "dotted eighth",
    Fraction(1, 2): "eighth",
    Fraction(1, 4): "sixteenth",
}
"""Names of the beats that a tempo may count, by their length in quarters."""

_SHAPES = ("C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")


def meter_of(music: Music) -> Meter:
    """Return the meter of the first full bar."""
    return next((bar.meter for bar in music.bars if bar.number > 0), music.bars[0].meter)


def tempo_words(tempo: Tempo, meter: Meter) -> str:
    """Return ``168``, or with its beat where that is not a quarter: ``half = 112``."""
    beat = meter.beat if tempo.beat is None else tempo.beat
    return str(tempo.bpm) if beat == 1 else f"{BEATS.get(beat, 'beat')} = {tempo.bpm}"


def key_words(key: Key, capo: int) -> str:
    """Return ``A major``, with a capo also what the hand plays: ``A major, G shapes, capo 2``."""
    if not capo:
        return key.display
    plain = PitchClass.parse(_SHAPES[(key.tonic.semitone - capo) % 12])
    minor = "m" if key.is_minor_like else ""
    return f"{key.display}, {plain.display if plain else ''}{minor} shapes, capo {capo}"


def piece_facts(piece: Piece) -> str:
    """Return the line beside the title of a lick: ``four bars · A major · at 96``."""
    music = piece.music
    parts = [count(music.counted_bars, "bar")] if music.counted_bars else ["pickup"]
    if piece.kind != "excerpt":
        parts.append(key_words(music.key, music.guitar.capo))
        parts.append("at " + tempo_words(piece.tempo, meter_of(music)))
    return " · ".join(parts)


def lesson_facts(pieces: Sequence[Piece]) -> str:
    """Return the line of a lesson: the keys of its licks and their tempi, ``A major, 84 to 132``."""
    whole = [piece for piece in pieces if piece.kind != "excerpt"]
    if not whole:
        return ""
    keys = list(dict.fromkeys(piece.music.key.display for piece in whole))
    named = " and ".join(keys) if len(keys) < 3 else count(len(keys), "key")
    tempi = sorted({piece.tempo.bpm for piece in whole})
    return f"{named}, {tempi[0]}" + (f" to {tempi[-1]}" if len(tempi) > 1 else "")
