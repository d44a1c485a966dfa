"""The rows under a bar: one entry for each of its sounds, in order."""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import islice
from typing import TYPE_CHECKING

from lickwright.model.bar import ROW_KINDS, Entry, Row, RowKind
from lickwright.model.strike import Dead, Fretted
from lickwright.reading.collector import quote
from lickwright.reading.nearest import count_edits, find_nearest
from lickwright.terms.signs import TABLE, WORDS, parse_sign
from lickwright.text import Span
from lickwright.theory.interval import degree_label, parse_degree
from lickwright.theory.pitch import PitchClass

if TYPE_CHECKING:
    from lickwright.model.strike import Strike
    from lickwright.reading.collector import Collector
    from lickwright.reading.lines import Line

_WORD = re.compile(r"\S+")
_FRAME = re.compile(r"(?:ring|mute|open|pos[0-9]{1,2})?\[|\]|\)(?:/[0-9]+)?|\(")
_STROKES = frozenset("duP")
_PICKING_HAND = frozenset("duPpimac*")
_FRETTING_HAND = frozenset("01234T*")
_RIGHT = {
    "rh": {
        "r": "a",
        "R": "a",
        "t": "p",
        "T": "p",
        "D": "d",
        "U": "u",
        "I": "i",
        "M": "m",
        "A": "a",
    },
    "lh": {"t": "T", "o": "0", "O": "0", "i": "1", "m": "2", "r": "3", "a": "3", "p": "4", "c": "4"},
    "names": {},
    "degrees": {"R": "1", "r": "1", "maj7": "7", "M7": "7"},
    "signs": {"tr": "trill", "trem": "tremolo", "ritard": "rit", "rit.": "rit"},
}
_TWO_WAYS = frozenset("vV^")
"""As signs over a staff they are upstrokes (bowing, as guitar books print it: common practice), as arrows in
typed text v points down: nobody knows which is meant."""
_EXPECTED = {
    "rh": "d u p i m a c P or *",
    "lh": "0 1 2 3 4 T or *",
    "names": "a note name such as C#, or *",
    "degrees": "a degree such as b7, or *",
    "signs": f"{', '.join(sign.example for sign in TABLE)} or *",
}
_NO_SOUNDS = frozenset("-.")
_MOST_FAULTS = 30
_MOST_ENTRIES = 4096


def find_row_kind(word: str) -> str | None:
    """Return the name of the row that ``word`` is nearly, None when it is nearly none."""
    folded = word.casefold()
    if len(folded) > 9:
        return None
    for kind in (*ROW_KINDS, "low"):
        if folded == kind or (len(kind) > 4 and count_edits(folded, kind) <= 1):
            return kind
    return None


def read_row(kind: RowKind, line: Line, sounds: list[Strike | None], found: Collector) -> Row | None:
    """Read the entries of a row.

    Args:
        kind: Which row.
        line: What stands after its ``|``.
        sounds: The sounds of its voice and bar; None where a slot could not be read.
        found: Where faults go.

    Returns:
        The row; None when a fault has been reported that leaves nothing of it.
    """
    text = line.text
    if "(" in text or "[" in text or ")" in text or "]" in text:
        text = _FRAME.sub(lambda m: " " * len(m[0]), text)
    source = found.source
    words = [
        (m[0], Span(source, line.start + m.start(), line.start + m.end()))
        for m in islice(_WORD.finditer(text), _MOST_ENTRIES)
    ]
    words = _without_holds(kind, words, len(sounds), found)
    if len(words) != len(sounds):
        if None not in sounds:
            _report_count(kind, words, line, len(sounds), found)
        sounds = [None] * len(words)
    entries: list[Entry] = []
    faults = len(found.findings)
    for (word, span), sound in zip(words, sounds, strict=True):
        values = _read_entry(kind, word)
        if values is None:
            _report_entry(kind, word, span, found)
            if len(found.findings) - faults > _MOST_FAULTS:
                break
        elif sound is not None and not _fits(kind, values, len(sound.notes)):
            _report_chord(kind, word, span, len(sound.notes), found)
            values = None
        elif sound is not None and "scrape" in values and not _is_dead(sound):
            hint = "a scrape is written on a dead note, 6:x"
            found.add("syntax/row-entry", "scrape stands under a sound that has a pitch", span, hint=hint)
        elif sound is not None and any(_trills_nowhere(value, sound) for value in values):
            hint = "the fret of a trill is the other one: trill4 on fret 2"
            found.add("syntax/row-entry", f"{quote(word, 24)} names the fret that is held", span, hint=hint)
        entries.append(Entry(values or (None,), span))
    if len(entries) != len(sounds) or (len(words) != len(sounds)):
        return None
    return Row(kind, tuple(entries), Span(source, line.start, line.end))


def _without_holds(
    kind: str, words: list[tuple[str, Span]], sounds: int, found: Collector
) -> list[tuple[str, Span]]:
    """The entries but for holds and rests, told once a row: the author has copied the bar's slots.

    Where there are as many as sounds they stand in the place of entries, and are read as ``*``.
    """
    holds = [each for each in words if each[0] in _NO_SOUNDS]
    if not holds:
        return words
    word, span = holds[0]
    hint = "leave it out: a row has one entry for each sound that begins"
    found.add("syntax/row-entry", f"{word} is no entry of {kind}: holds and rests have none", span, hint=hint)
    if len(words) == sounds:
        return [("*" if each in _NO_SOUNDS else each, place) for each, place in words]
    return [each for each in words if each not in holds]


@lru_cache(maxsize=1024)
def _read_entry(kind: RowKind, word: str) -> tuple[str | None, ...] | None:
    if word == "*":
        return (None,)
    if len(word) > 60:
        return None
    if kind == "rh":
        letters = tuple(None if letter == "*" else letter for letter in word)
        return letters if _PICKING_HAND.issuperset(word) else None
    if kind == "lh":
        fingers = tuple(None if finger == "*" else finger for finger in word)
        return fingers if _FRETTING_HAND.issuperset(word) else None
    values: list[str | None] = []
    for part in word.split("+"):
        value = None if part == "*" else _READERS[kind](part)
        if value is None and (part != "*" or kind == "signs"):
            return None
        values.append(value)
    return tuple(values)


def _read_name(part: str) -> str | None:
    name = PitchClass.parse(part)
    return str(name) if name else None


def _read_degree(part: str) -> str | None:
    degree = parse_degree(part)
    return degree_label(degree) if degree else None


def _read_sign(part: str) -> str | None:
    return part if parse_sign(part) else None


_READERS = {"names": _read_name, "degrees": _read_degree, "signs": _read_sign}


def _fits(kind: RowKind, values: tuple[str | None, ...], notes: int) -> bool:
    """Tell whether an entry can be that of a sound of so many notes."""
    if kind == "signs" or len(values) == notes:
        return True
    if len(values) > 1:
        return False
    return values[0] is None or (kind == "rh" and values[0] in _STROKES)


def _is_dead(sound: Strike) -> bool:
    return all(isinstance(note.head, Dead) for note in sound.notes)


def _trills_nowhere(value: str | None, sound: Strike) -> bool:
    """Tell whether a trill names the fret on which its one note stands."""
    if value is None or not value.startswith("trill") or len(sound.notes) != 1:
        return False
    return sound.notes[0].head == Fretted(int(value[5:]))


def _report_count(
    kind: str, words: list[tuple[str, Span]], line: Line, sounds: int, found: Collector
) -> None:
    count = len(words)
    if count > sounds:
        span = words[sounds][1].to(words[-1][1])
    elif words:
        span = words[0][1].to(words[-1][1])
    else:
        span = Span(found.source, line.start, line.end)
    entries = f"{count} entr{'y' if count == 1 else 'ies'}"
    hint = "every sound has one, * where nothing is said; holds, rests and grace notes have none"
    found.add(
        "syntax/row-count",
        f"{kind} has {entries} for {sounds} sound{'' if sounds == 1 else 's'}",
        span,
        hint=hint,
    )


def _report_entry(kind: str, word: str, span: Span, found: Collector) -> None:
    shown = quote(word, 24)
    right = _RIGHT[kind].get(word)
    message = f"{shown} is no entry of {kind}: {_EXPECTED[kind]} was expected"
    hint = ""
    if kind == "rh" and word in ("r", "R"):
        message, hint = (
            f"{shown} is no finger of the picking hand: the ring finger is a",
            "p i m a c, from the thumb",
        )
    elif kind == "rh" and word in _TWO_WAYS:
        hint = "a downstroke is d, an upstroke u: v and ^ are read both ways"
    elif kind == "names" and PitchClass.parse(word[:1].upper() + word[1:]):
        right = word[:1].upper() + word[1:]
        message = f"{shown} is no note name: names are capital letters"
    elif kind == "signs":
        right = right or find_nearest(word, WORDS)
        right = None if right == "trill" else right
        hint = "a trill has its fret, trill7" if word.startswith("tr") else ""
    found.add("syntax/row-entry", message, span, hint=hint, fix=right)


def _report_chord(kind: str, word: str, span: Span, notes: int, found: Collector) -> None:
    what = "one note" if notes == 1 else f"{notes} notes"
    hint = {
        "rh": "one letter a note in the order written, Pm, or one d or u for the strum",
        "lh": "one finger a note in the order written, 13",
    }.get(kind, "one a note in the order written, joined by +")
    found.add(
        "syntax/row-entry", f"{quote(word, 24)} stands in {kind} for a sound of {what}", span, hint=hint
    )
