"""The spelled pitch of every tone: the names that notation, words and exchange all use.

Spelling goes along each voice: the melodic neighbours of a tone are the tone of the same rank in
the sounds before and after (a chord's highest to the next one's highest), so that a chromatic note
is written by where it goes. A single note and a chord are neighbours by the tone of it that lies nearest.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from lickwright.theory.spelling import spell

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lickwright.model.address import Address
    from lickwright.model.music import Music, Sound, Tone
    from lickwright.theory.chord import ChordSymbol
    from lickwright.theory.key import Key
    from lickwright.theory.pitch import Pitch

GraceKey = tuple["Address", int, int]
"""Sound, grace note (from 1), tone of the grace note (from 1)."""


def spelled(music: Music) -> dict[tuple[Address, int], tuple[Pitch, ...]]:
    """Spell every tone.

    Returns:
        ``(address, k)``, ``k`` from 1, to one pitch for each entry of the tone's path; a quarter-tone
        target keeps the pitch before it; dead notes have an empty tuple.
    """
    names: dict[tuple[Address, int], tuple[Pitch, ...]] = {}
    for voice in _voices(music):
        for number, (sound, chord) in enumerate(voice):
            before = voice[number - 1][0].tones if number else ()
            after = voice[number + 1][0].tones if number + 1 < len(voice) else ()
            for k, tone in enumerate(sound.tones, 1):
                rank = _rank(sound.tones, tone)
                near = tone.path[0] if len(sound.tones) == 1 and tone.path else None
                names[sound.address, k] = _path(
                    tone,
                    music.key,
                    chord,
                    _neighbour(before, rank, near, last=True),
                    _neighbour(after, rank, near),
                )
    return names


def spelled_graces(music: Music) -> dict[GraceKey, tuple[Pitch, ...]]:
    """Spell every tone of every grace note, led to the note that follows it."""
    names: dict[GraceKey, tuple[Pitch, ...]] = {}
    for voice in _voices(music):
        for sound, chord in voice:
            for number, grace in enumerate(sound.grace, 1):
                ahead = sound.grace[number].tones if number < len(sound.grace) else sound.tones
                for k, tone in enumerate(grace.tones, 1):
                    following = _neighbour(ahead, _rank(grace.tones, tone))
                    names[sound.address, number, k] = _path(tone, music.key, chord, None, following)
    return names


def _voices(music: Music) -> Iterator[list[tuple[Sound, ChordSymbol]]]:
    for lower in (False, True):
        lines = [(bar, bar.lower if lower else bar.upper) for bar in music.bars]
        yield [
            (sound, bar.chord_at(sound.onset))
            for bar, line in lines
            if line is not None
            for sound in line.sounds
        ]


def _rank(tones: Sequence[Tone], tone: Tone) -> int:
    """How many of the tones lie above this one."""
    if not tone.path:
        return 0
    return sum(1 for other in tones if other.path and other.path[0] > tone.path[0])


def _neighbour(
    tones: Sequence[Tone], rank: int, near: Fraction | None = None, *, last: bool = False
) -> int | None:
    paths = sorted((tone.path for tone in tones if tone.path), key=lambda path: path[0], reverse=True)
    if not paths:
        return None
    if near is not None and len(paths) > 1:
        return _whole(min(paths, key=lambda path: abs(path[0] - near)), -1 if last else 0)
    return _whole(paths[min(rank, len(paths) - 1)], -1 if last else 0)


def _whole(path: tuple[Fraction, ...], index: int) -> int:
    """The nearest entry at or before ``index`` that is no quarter tone."""
    index %= len(path)
    while index and path[index].denominator != 1:
        index -= 1
    return int(path[index])


def _path(
    tone: Tone, key: Key, chord: ChordSymbol, previous: int | None, following: int | None
) -> tuple[Pitch, ...]:
    midis = [_whole(tone.path, index) for index in range(len(tone.path))]
    pitches = []
    for index, midi in enumerate(midis):
        before = midis[index - 1] if index else previous
        later = [m for m in midis[index + 1 :] if m != midi]
        after = later[0] if later else following
        pitches.append(spell(midi, key, chord, before, after))
    return tuple(pitches)
