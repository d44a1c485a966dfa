"""Rows under a bar, laid on its sounds.

Conventions: entries follow the sounds in order; in a chord the values follow its
notes as written. ``*`` says nothing. A wrong count is the reader's finding; here
the entries simply go as far as they go.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import zip_longest

from lickwright.model.bar import Entry, Row
from lickwright.model.music import Sound, Tone

STROKES = frozenset({"d", "u", "P"})
"""Entries of ``rh`` that are a stroke of the pick for the whole sound."""


def with_rows(sounds: tuple[Sound, ...], rows: Sequence[Row]) -> tuple[Sound, ...]:
    """Return the sounds with what the rows say of them."""
    told = list(sounds)
    for row in rows:
        for index, entry in enumerate(row.entries[: len(told)]):
            told[index] = _told(told[index], row, entry)
    return tuple(told)


def _told(sound: Sound, row: Row, entry: Entry) -> Sound:
    values = entry.values
    if row.kind == "signs":
        return replace(sound, signs=tuple(value for value in values if value is not None))
    if row.kind == "rh" and len(values) == 1 and values[0] in STROKES:
        return replace(sound, stroke=values[0])
    pairs = zip_longest(sound.tones, values[: len(sound.tones)])
    return replace(sound, tones=tuple(_tone_told(tone, row, value) for tone, value in pairs))


def _tone_told(tone: Tone, row: Row, value: str | None) -> Tone:
    if value is None:
        return tone
    match row.kind:
        case "rh":
            return replace(tone, hand=value)
        case "lh":
            return replace(tone, finger=value)
        case "names":
            return replace(tone, name=value)
        case _:
            return replace(tone, degree=value)
