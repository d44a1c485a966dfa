"""Slips of the pen: one note a piece is moved, all else is left alone, names rows too."""

from __future__ import annotations

import random
import zlib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from lickwright.checks.subject import Subject
from lickwright.checks.trial import put_tone
from lickwright.checks.witnesses import top_pitch
from lickwright.instrument.guitar import Guitar
from lickwright.model.address import Address
from lickwright.model.music import Piece, Tone
from lickwright.model.strike import Fretted

KINDS = ("one fret", "two frets", "three frets", "wrong string")


@dataclass(frozen=True, slots=True)
class Slip:
    """A planted slip: the piece with it, and the note it stands on."""

    kind: str
    piece: Piece
    address: Address
    tone: int
    renamed: bool
    """Whether none of the names it may go by before names it now; a quarter tone goes by two."""


@dataclass(frozen=True, slots=True)
class _Spot:
    address: Address
    index: int
    tone: Tone
    strings: frozenset[int]


def plant(piece: Piece, name: str, count: int) -> Iterator[Slip]:
    """Plant slips of every kind on ``count`` notes of a piece, the same ones each time."""
    source = random.Random(zlib.crc32(name.encode()))
    spots = _spots(piece)
    guitar = piece.music.guitar
    for _ in range(count if spots else 0):
        spot = source.choice(spots)
        for kind in KINDS:
            way = source.choice((-1, 1))
            moved = _slip(spot, kind, way, guitar) or _slip(spot, kind, -way, guitar)
            if moved is not None:
                slipped = put_tone(piece, spot.address, spot.index, moved)
                yield Slip(
                    kind, slipped, spot.address, spot.index, _names(spot.tone).isdisjoint(_names(moved))
                )


def _names(tone: Tone) -> frozenset[int]:
    return frozenset(pitch % 12 for pitch in top_pitch(tone))


def _spots(piece: Piece) -> list[_Spot]:
    """Every stopped or open note; not those that a tied one goes on from, nor those repeated by name."""
    found: list[_Spot] = []
    tones = Subject(piece, {}).tones
    for written, following in zip(tones, (*tones[1:], None), strict=True):
        tone = written.tone
        if not isinstance(tone.head, Fretted) or not tone.path or tone.fret is None or tone.tied:
            continue
        if following is not None and following.tone.tied:
            continue
        strings = frozenset(t.string for t in written.sound.tones)
        found.append(_Spot(written.sound.address, written.index, tone, strings))
    return found


def _slip(spot: _Spot, kind: str, way: int, guitar: Guitar) -> Tone | None:
    tone = spot.tone
    assert tone.fret is not None
    if kind == "wrong string":
        string = tone.string + way
        if not 1 <= string <= guitar.strings or string in spot.strings:
            return None
        away = guitar.open_midi(string) - guitar.open_midi(tone.string)
        return replace(tone, string=string, path=tuple(pitch + away for pitch in tone.path))
    frets = way * (KINDS.index(kind) + 1)
    fret = tone.fret + frets
    if not guitar.has_fret(fret):
        return None
    return replace(
        tone,
        head=Fretted(fret),
        fret=fret,
        path=tuple(pitch + frets for pitch in tone.path),
        bends=tuple(replace(bend, to=Fraction(bend.to + frets)) for bend in tone.bends),
    )
