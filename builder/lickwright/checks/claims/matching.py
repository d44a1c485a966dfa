"""Things said in order, found among sounds in order."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from math import ceil, floor

from lickwright.checks.claims.pointed import Heard, Pointed
from lickwright.model.music import Tone

Test = Callable[[Heard, int], bool]
"""Whether a pitch class of a sound is the one that is said."""


class _Item:
    """A sound, or a grace note of it, whose pitches are taken one after another."""

    def __init__(self, heard: Heard, tones: Sequence[Tone]) -> None:
        self.heard = heard
        self.left = [_turns(tone) for tone in tones if tone.path]

    def take(self, test: Test) -> bool:
        """Take a tone that passes: a bend from pitch to pitch, a chord in any order."""
        for number, turns in enumerate(self.left):
            for place, turn in enumerate(turns):
                if any(test(self.heard, pitch) for pitch in turn):
                    if place + 1 < len(turns):
                        self.left[number] = turns[place + 1 :]
                    else:
                        del self.left[number]
                    return True
        return False


def _turns(tone: Tone) -> list[tuple[int, ...]]:
    """The pitch classes of a tone one after the other; a quarter tone is the half steps beside it."""
    return [tuple(sorted({floor(p) % 12, ceil(p) % 12})) for p in tone.path]


def _items(voice: Sequence[Heard]) -> Iterator[_Item]:
    for heard in voice:
        for grace in heard.sound.grace:
            yield _Item(heard, grace.tones)
        yield _Item(heard, heard.sound.tones)


def find_missing(notes: Pointed, tests: Sequence[Test]) -> int | None:
    """Return which of the things said, from 0, does not follow the others; None where all do.

    Each voice is tried by itself, then all sounds in the order in which they begin.
    """
    together = sorted(notes.heard, key=lambda h: (h.index, h.sound.onset))
    voices = notes.voices if len(notes.voices) == 1 else (*notes.voices, tuple(together))
    missing = [_missing(voice, tests) for voice in voices]
    return None if None in missing else max(place for place in missing if place is not None)


def _missing(voice: Sequence[Heard], tests: Sequence[Test]) -> int | None:
    items = _items(voice)
    item = next(items, None)
    for number, test in enumerate(tests):
        while item is not None and not item.take(test):
            item = next(items, None)
        if item is None:
            return number
    return None
