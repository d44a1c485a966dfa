"""Rows under a bar, laid on its sounds.

Conventions: entries follow the sounds in order; in a chord the values follow its
notes as written. ``*`` says nothing. A wrong count is the reader's finding; here
the entries simply go as far as they go.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from lickwright.model.bar import Entry, Row
from lickwright.model.music import Sound
from lickwright.model.timeline.draft import Draft

STROKES = frozenset({"d", "u", "P"})
"""Entries of ``rh`` that are a stroke of the pick for the whole sound."""

_OF_TONES = {"rh": "hand", "lh": "finger", "names": "name", "degrees": "degree"}
"""What an entry's values say of the tones, by the kind of row."""


def finish(drafts: Sequence[Draft], rows: Sequence[Row]) -> tuple[Sound, ...]:
    """Return the sounds of a bar, held as long as they are, with what the rows say of them."""
    return tuple(
        _told(draft, [(row.kind, row.entries[index]) for row in rows if index < len(row.entries)])
        for index, draft in enumerate(drafts)
    )


def _told(draft: Draft, entries: Sequence[tuple[str, Entry]]) -> Sound:
    whole: dict[str, Any] = {"duration": draft.length}
    tones: list[dict[str, Any]] = [{} for _ in draft.tones]
    for kind, entry in entries:
        values = entry.values
        if kind == "signs":
            whole["signs"] = tuple(value for value in values if value is not None)
        elif kind == "rh" and len(values) == 1 and values[0] in STROKES:
            whole["stroke"] = values[0]
        else:
            for told, value in zip(tones, values, strict=False):
                if value is not None:
                    told[_OF_TONES[kind]] = value
    if entries:
        whole["entries"] = tuple((kind, entry.span) for kind, entry in entries)
    whole["tones"] = tuple(
        replace(tone, **told) if told else tone for tone, told in zip(draft.tones, tones, strict=True)
    )
    return draft.make(**whole)
