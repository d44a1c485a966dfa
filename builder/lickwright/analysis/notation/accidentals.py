"""Which noteheads need an accidental: the key's and the bar's rules (common practice).

An accidental holds for its line or space, in its octave, to the end of the bar, in both voices; a
tied note needs none and sets none.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.theory.pitch import FIFTHS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.theory.key import Key
    from lickwright.theory.pitch import Pitch


def shown(key: Key, bars: Iterable[Iterable[tuple[str, Pitch, bool]]]) -> dict[str, int]:
    """Return the alteration to be printed, by the name of the note; the others need no sign.

    Args:
        key: Its signature holds for all bars.
        bars: Of each bar the notes of all voices in order of onset: name, pitch, whether it is tied to
            the one before.
    """
    signature = signature_of(key)
    found: dict[str, int] = {}
    for bar in bars:
        state: dict[tuple[str, int], int] = {}
        for name, pitch, tied in bar:
            place = (pitch.letter, pitch.octave)
            if not tied and state.get(place, signature[pitch.letter]) != pitch.alter:
                found[name] = state[place] = pitch.alter
    return found


def signature_of(key: Key) -> dict[str, int]:
    """Return what the key signature does to each letter, in half steps."""
    sharps = key.signature
    return {
        letter: (sharps - 1 - place) // 7 + 1 if sharps > 0 else -((-sharps - 1 - (6 - place)) // 7 + 1)
        for place, letter in enumerate(FIFTHS)
    }
