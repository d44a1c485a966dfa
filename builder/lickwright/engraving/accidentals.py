"""Which noteheads of the staff need an accidental, the small notes before bends among them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.analysis.notation.accidentals import shown
from lickwright.analysis.notation.ids import grace_id
from lickwright.model.strike import BendKind, Late

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lickwright.analysis.notation.pieces import Head, Layer, Piece
    from lickwright.engraving.score import Score
    from lickwright.theory.pitch import Pitch

WRITTEN = {-2: "ff", -1: "f", 0: "n", 1: "s", 2: "x"}
SOUNDED = {-2: "ff", -1: "f", 0: "n", 1: "s", 2: "ss"}


def bend_grace(head: Head) -> bool:
    """Whether a small note stands before a bent one, where the finger is.

    A late bend needs none: the note before it is the one that is bent; nor does a quarter tone.
    """
    if head.piece > 1 or isinstance(head.tone.head, Late) or not (head.tone.bends and head.tone.path):
        return False
    return head.step > 0 or head.tone.bends[0].kind is BendKind.PRE


def shown_accidentals(score: Score) -> dict[str, int]:
    """Return the alteration to be printed, by the local id of the note; the others need no sign."""
    bars = (_in_order(score, layers) for layers in score.layers)
    return shown(score.music.key, bars)


def _in_order(score: Score, layers: tuple[Layer, ...]) -> Iterator[tuple[str, Pitch, bool]]:
    pieces = sorted((piece for layer in layers for piece in layer.pieces), key=lambda piece: piece.onset)
    for piece in pieces:
        yield from _of_piece(score, piece)


def _of_piece(score: Score, piece: Piece) -> Iterator[tuple[str, Pitch, bool]]:
    sound = piece.sound
    if sound is None:
        return
    if piece.first:
        for number, grace in enumerate(sound.grace, 1):
            for k, _ in enumerate(grace.tones, 1):
                path = score.grace_names[sound.address, number, k]
                if path:
                    yield grace_id(sound.address, number, k), path[0], False
        for head in piece.heads:
            if bend_grace(head):
                yield f"{head.local}b", score.fretted(head), False
    for head in piece.heads:
        path = score.names[head.address, head.k]
        if path:
            yield head.local, path[head.step], head.tied
