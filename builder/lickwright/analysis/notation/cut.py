"""A piece of music cut up for writing down: its sounds, their pieces, their spelled pitches."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from lickwright.analysis.naming import spelled, spelled_graces
from lickwright.analysis.notation.ids import grace_id
from lickwright.analysis.notation.pieces import Head, Layer, Piece, layers_of
from lickwright.theory.spelling import spell

if TYPE_CHECKING:
    from lickwright.analysis.naming import GraceKey
    from lickwright.model.address import Address
    from lickwright.model.music import Music, Sound, Tone
    from lickwright.theory.pitch import Pitch


@dataclass(frozen=True, slots=True)
class Entry:
    """A sound as printed: its pieces, each with the index of its bar."""

    sound: Sound
    pieces: tuple[tuple[int, Piece], ...]

    @property
    def bar(self) -> int:
        """Index of the bar in which it begins."""
        return self.pieces[0][0]

    def heads(self, k: int) -> list[tuple[int, Head]]:
        """The pieces of its ``k``-th tone (from 1), each with the index of its bar."""
        address = self.sound.address
        return [
            (bar, head) for bar, piece in self.pieces for head in piece.heads
            if head.k == k and head.address == address
        ]  # fmt: skip

    def first(self, k: int = 1) -> str:
        """Local id of the ``k``-th tone where it begins."""
        return self.heads(k)[0][1].local

    @property
    def anchor(self) -> str:
        """Local id of the first tone that is not tied: it stands on both staves."""
        heads = self.pieces[0][1].heads
        return next((head.local for head in heads if head.fretted), heads[0].local)

    def last(self, k: int = 1) -> str:
        """Local id of the ``k``-th tone's last piece."""
        return self.heads(k)[-1][1].local

    def on_string(self, string: int) -> tuple[int, Tone] | None:
        """The tone on a string and its number, if it has one there."""
        return next(((k, t) for k, t in enumerate(self.sound.tones, 1) if t.string == string), None)


@dataclass(frozen=True, slots=True)
class Cut:
    """Music with all that writing it down needs to know of it.

    Attributes:
        layers: Of every bar, upper voice first.
        voices: The sounds of the upper and the lower voice, in written order.
        names: Pitches of every tone's path; ``grace_names`` of the grace notes.
    """

    music: Music
    layers: tuple[tuple[Layer, ...], ...]
    voices: tuple[tuple[Entry, ...], tuple[Entry, ...]]
    names: dict[tuple[Address, int], tuple[Pitch, ...]]
    grace_names: dict[GraceKey, tuple[Pitch, ...]]

    @property
    def entries(self) -> tuple[Entry, ...]:
        """All sounds, the upper voice first."""
        return (*self.voices[0], *self.voices[1])

    def fretted(self, head: Head) -> Pitch:
        """The pitch of the fret a bent string is stopped at."""
        names = self.names[head.address, head.k]
        midi = self.music.guitar.midi(head.tone.string, head.tone.fret or 0)
        if names and names[0].midi == midi:
            return names[0]
        return spell(midi, self.music.key, None, None, names[0].midi if names else None)


@lru_cache(maxsize=2)
def cut(music: Music) -> Cut:
    """Cut up a piece of music; what wants it in several widths and views cuts it once."""
    layers = layers_of(music)
    found: tuple[dict[Address, list[tuple[int, Piece]]], ...] = ({}, {})
    for index, bar in enumerate(layers):
        for layer in bar:
            for piece in layer.pieces:
                if piece.sound is not None:
                    found[layer.lower].setdefault(piece.sound.address, []).append((index, piece))
    upper, lower = (
        tuple(Entry(pieces[0][1].sound, tuple(pieces)) for pieces in voice.values() if pieces[0][1].sound)
        for voice in found
    )
    return Cut(music, layers, (upper, lower), spelled(music), spelled_graces(music))


def struck_at_grace(sound: Sound) -> bool:
    """Whether the stroke of a sound is that of its first grace note, slurred on from there."""
    return bool(sound.grace) and all(grace.leads is not None for grace in sound.grace)


def source_of(before: Entry | None, entry: Entry, tone: Tone) -> tuple[str, bool] | None:
    """Return what a linked tone comes from.

    Returns:
        The local id of the tone before it on its string (its last piece, or the last grace note
        there) and whether that is a grace note; ``None`` when there is none.
    """
    for number in range(len(entry.sound.grace), 0, -1):
        for k, grace in enumerate(entry.sound.grace[number - 1].tones, 1):
            if grace.string == tone.string:
                return grace_id(entry.sound.address, number, k), True
    found = before.on_string(tone.string) if before else None
    if before is None or found is None:
        return None
    return before.last(found[0]), False
