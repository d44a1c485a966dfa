"""What stands in one line beside a title: bars, key, tempo."""

from __future__ import annotations

import re
from collections.abc import Sequence

from lickwright.instrument.guitar import Guitar
from lickwright.instrument.tuning import Tuning
from lickwright.model.fields import Picking, Tempo
from lickwright.model.music import Music, Piece
from lickwright.pages.counting import capital, count
from lickwright.terms.lengths import LENGTHS
from lickwright.theory.key import Key
from lickwright.theory.meter import Meter
from lickwright.theory.pitch import PitchClass

_SHAPES = ("C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")


def meter_of(music: Music) -> Meter:
    """Return the meter of the first full bar."""
    return next((bar.meter for bar in music.bars if bar.number > 0), music.bars[0].meter)


def tempo_words(tempo: Tempo, meter: Meter) -> str:
    """Return ``168``, or with its beat where that is not a quarter: ``half = 112``."""
    beat = meter.beat if tempo.beat is None else tempo.beat
    return str(tempo.bpm) if beat == 1 else f"{LENGTHS.get(beat, 'beat')} = {tempo.bpm}"


def key_words(key: Key, capo: int) -> str:
    """Return ``A major``, with a capo also what the hand plays: ``A major, G shapes, capo 2``."""
    if not capo:
        return key.display
    plain = PitchClass.parse(_SHAPES[(key.tonic.semitone - capo) % 12])
    minor = "m" if key.is_minor_like else ""
    return f"{key.display}, {plain.display if plain else ''}{minor} shapes, capo {capo}"


PICKING: dict[str, str] = {
    "alternate": "alternate picking",
    "pendulum": "pendulum picking",
    "hybrid": "pick and fingers",
    "economy": "economy picking",
    "fingers": "fingers",
}
"""The picking hand in words; free picking is not said."""


def tuning_words(tuning: Tuning) -> str:
    """Return ``D A D G B E, low to high``; the number of strings goes before it."""
    names = " ".join(re.sub(r"-?[0-9]+$", "", pitch.display) for pitch in reversed(tuning.strings))
    return f"{capital(count(tuning.count, 'string'))}, {names}, low to high"


def guitar_words(guitar: Guitar) -> str:
    """Return how the guitar of a course is tuned, and its capo."""
    return tuning_words(guitar.tuning) + (f", capo {guitar.capo}" if guitar.capo else "")


def picking_words(picking: Picking) -> str:
    """Return the picking hand in words: ``alternate picking, up first``, ``pick and fingers``."""
    said = PICKING.get(picking.style, "")
    return said + f", {'up' if picking.first == 'u' else 'down'} first" if said and picking.first else said


def piece_facts(piece: Piece, course: Guitar | None = None) -> str:
    """Return the line beside the title of a lick: ``four bars · A major · at 96``.

    Args:
        piece: Resolved.
        course: The guitar of the course; another tuning, or no capo where it has one, is said.
    """
    music = piece.music
    parts = [count(music.counted_bars, "bar")] if music.counted_bars else ["pickup"]
    if piece.kind != "excerpt":
        parts.append(key_words(music.key, music.guitar.capo))
        parts.append("at " + tempo_words(piece.tempo, meter_of(music)))
        parts += [picking_words(music.picking)] if picking_words(music.picking) else []
        if course is not None and music.guitar.tuning != course.tuning:
            parts.append(tuning_words(music.guitar.tuning))
        if course is not None and course.capo and not music.guitar.capo:
            parts.append("no capo")
    return " · ".join(parts)


def lesson_facts(pieces: Sequence[Piece]) -> str:
    """Return the line of a lesson: the keys of its licks and their tempi, ``A major, 84 to 132``.

    Choruses are of licks; scales, a page of material, speak only where there is nothing else.
    """
    licks = [piece for piece in pieces if piece.kind in ("lick", "chorus")]
    whole = licks or [piece for piece in pieces if piece.kind == "scale"]
    if not whole:
        return ""
    keys = list(dict.fromkeys(piece.music.key.display for piece in whole))
    named = " and ".join(keys) if len(keys) < 3 else count(len(keys), "key")
    tempi = sorted({piece.tempo.bpm for piece in whole})
    return f"{named}, {tempi[0]}" + (f" to {tempi[-1]}" if len(tempi) > 1 else "")
