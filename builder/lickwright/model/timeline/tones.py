"""Notes of a strike become tones: pitch, and how each continues what its string sounded before."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from functools import cache

from lickwright.instrument.guitar import Guitar
from lickwright.instrument.harmonics import node
from lickwright.model.music import Tone
from lickwright.model.slots import JoinKind
from lickwright.model.strike import Bend, BendKind, Dead, Harmonic, Late, Note, Strike

Sounding = Mapping[int, Tone]
"""The tone each string sounds at the moment, by string."""


def tones_of(strike: Strike, guitar: Guitar, sounding: Sounding) -> tuple[Tone, ...]:
    """Return the tones of a strike that stands by itself (no join leads to it)."""
    return tuple(_tone(note, guitar, sounding.get(note.string)) for note in strike.notes)


def _tone(note: Note, guitar: Guitar, before: Tone | None) -> Tone:
    if isinstance(note.head, Late):
        start = before.path[-1:] if before else ()
        target = (*start, _pitch(guitar, note.string, note.head.bend.to)) if start else ()
        return Tone(
            note.string,
            note.head,
            before.fret if before else None,
            _known(guitar, note, target),
            struck=False,
            bends=(note.head.bend,),
            vibrato=note.vibrato,
            span=note.span,
        )
    return Tone(
        note.string,
        note.head,
        note.fret,
        _known(guitar, note, _path(note, guitar)),
        bends=note.bends,
        vibrato=note.vibrato,
        span=note.span,
    )


def _known(guitar: Guitar, note: Note, path: tuple[Fraction, ...]) -> tuple[Fraction, ...]:
    return path if 1 <= note.string <= guitar.tuning.count else ()


@cache
def _whole(number: int) -> Fraction:
    """A number as a fraction; remembered, for making fractions is slow."""
    return Fraction(number)


def _pitch(guitar: Guitar, string: int, fret: Fraction) -> Fraction:
    return _open(guitar, string) + fret


def _open(guitar: Guitar, string: int) -> int:
    return guitar.midi(string, 0) if 1 <= string <= guitar.tuning.count else 0


def _path(note: Note, guitar: Guitar) -> tuple[Fraction, ...]:
    if isinstance(note.head, Dead) or note.fret is None:
        return ()
    start = _whole(_open(guitar, note.string) + note.fret)
    if isinstance(note.head, Harmonic):
        harmonic = node(note.head.touch, note.head.fret)
        start += harmonic.semitones if harmonic else 0
    path = [start]
    for bend in note.bends:
        _extend(path, bend, _pitch(guitar, note.string, bend.to))
    return tuple(path)


def _extend(path: list[Fraction], bend: Bend, target: Fraction) -> None:
    if bend.kind is BendKind.PRE:
        path[:] = [target]
    else:
        path.append(target)


def join(after: tuple[Tone, ...], kind: JoinKind, sounding: Sounding) -> tuple[Tone, ...]:
    """Return the tones after a join, each told how it continues its string.

    A string both sounds name with the same fret is tied (after a shift slide: struck
    again); a string only the second names is struck with it.

    Args:
        after: Tones of the second sound.
        kind: The join.
        sounding: What the strings of the first sound hold, with those that rang on through it.
    """
    joined = []
    for tone in after:
        old = sounding.get(tone.string)
        if old is None:
            joined.append(tone)
        elif old.fret == tone.fret and old.path[-1:] == tone.path[:1]:
            joined.append(tone if kind is JoinKind.SHIFT else replace(tone, struck=False, tied=True))
        else:
            joined.append(replace(tone, link=kind, struck=kind is JoinKind.SHIFT))
    return tuple(joined)


def moves(tones: tuple[Tone, ...]) -> bool:
    """True when a join leads at least one string to another fret."""
    return any(tone.link is not None for tone in tones)


def lead_of(grace: tuple[Tone, ...], following: tuple[Tone, ...]) -> JoinKind | None:
    """How a grace note leads on: hammered up or pulled down on its own string, else not at all."""
    frets = {tone.string: tone.fret for tone in following}
    for tone in grace:
        fret = frets.get(tone.string)
        if fret is not None and tone.fret is not None and fret != tone.fret:
            return JoinKind.HAMMER if fret > tone.fret else JoinKind.PULL
    return None
