"""A ``neck`` block: a fretboard picture of a chord, a scale, some notes or a lick."""

from __future__ import annotations

import re
from typing import Any, Literal

from lickwright.model.address import AddressRange
from lickwright.model.blocks import NeckBlock
from lickwright.reading import sayings, values
from lickwright.reading.collector import Collector, quote
from lickwright.reading.fields import Table, read_fields
from lickwright.reading.lines import Body, Line
from lickwright.reading.nearest import find_nearest
from lickwright.reading.scale import read_scale_name
from lickwright.text import Span
from lickwright.theory.chord import parse_chord, suggest_chord
from lickwright.theory.pitch import PitchClass

Labels = Literal["names", "degrees", "fingers"]
_LABELS: tuple[Labels, ...] = ("names", "degrees", "fingers")
_RANGE = re.compile(r"(frets|strings)\s+([0-9]{1,2})\s*[-–]\s*([0-9]{1,2})")
_CHORD = re.compile(r"(\S+)\s+chord\s+tones")
_OF = re.compile(r"(\S+?)(?:\s*,\s*|\s+)(bars?\s.*)")
_HIGHEST_FRET = 36


def read_show(line: Line, found: Collector) -> dict[str, Any] | None:
    """Read what is shown, then where and with which words on the dots."""
    first, *options = [line.part(m.start(), m.end()).strip() for m in re.finditer(r"[^,]+", line.text)] or [
        line
    ]
    shown = _read_subject(first, found)
    known: dict[str, Any] = {"show": shown} if shown is not None else {}
    for option in options[:20]:
        m = _RANGE.fullmatch(option.text)
        label = next((label for label in _LABELS if label == option.text), None)
        if m:
            low, high = int(m[2]), int(m[3])
            if low > high or high > _HIGHEST_FRET or (m[1] == "strings" and low < 1):
                values.refuse(
                    option, found, f"{quote(option.text)} is no range: from low to high was expected"
                )
            else:
                known[m[1]] = (low, high)
        elif label is not None:
            known["labels"] = label
        else:
            near = find_nearest(option.text, _LABELS)
            hint = "after the first comma: frets 0-5, strings 1-4, names, degrees or fingers"
            values.refuse(option, found, f"{quote(option.text)} cannot be read", hint, near)
    return known or None


def _read_subject(line: Line, found: Collector) -> tuple[str, str] | None:
    text = " ".join(line.text.split())
    chord = _CHORD.fullmatch(text)
    if chord:
        symbol = parse_chord(chord[1])
        if symbol is not None:
            return "chord", symbol.symbol
        right = suggest_chord(chord[1])
        word = line.part(0, len(chord[1]))
        span = Span(found.source, word.start, word.end)
        hint = f"did you mean {right}?" if right else ""
        found.add("harmony/chord-symbol", f"{quote(chord[1])} is no chord symbol", span, hint=hint, fix=right)
        return None
    if text.startswith("notes "):
        names = [PitchClass.parse(word) for word in text.split()[1:]]
        if all(names):
            return "notes", " ".join(str(name) for name in names)
        values.refuse(line, found, f"{quote(text)} holds what is no note name", "as in notes A C# E")
        return None
    if parse_chord(text) is not None:
        hint = f"write {text} chord tones"
        values.refuse(
            line, found, f"{quote(text)} alone does not say what is shown", hint, f"{text} chord tones"
        )
        return None
    scale = read_scale_name(line, found)
    return None if scale is None else ("scale", scale)


def read_of(line: Line, found: Collector) -> dict[str, Any] | None:
    """Read a lick's name and perhaps some of its bars."""
    m = _OF.fullmatch(line.text)
    if m is None:
        name = values.read_name(line, found)
        return None if name is None else {"of": name}
    name = values.read_name(line.part(0, m.end(1)), found)
    bars: AddressRange | None = sayings.read_bars(line.part(m.start(2)), found)
    return None if name is None else {"of": name, "bars": bars, "parts": (m.end(1), m.start(2))}


FIELDS: Table = {"show": ("show", read_show), "of": ("of", read_of)}


def read_neck(body: Body, found: Collector) -> NeckBlock:
    """Read a neck block as far as it can be read."""
    read = read_fields(body, FIELDS, "neck", found)
    places = dict(read.places)
    strings = body.strings
    span = Span(found.source, body.opening.start, body.opening.end)
    if "show" in places and "of" in places:
        found.add("syntax/field-value", "a neck has either show or of, not both", places["of"])
    elif not places:
        hint = "as in show: A7 chord tones, frets 0-5, or of: porch-step"
        found.add("syntax/field-missing", "the neck has neither show nor of", span, hint=hint)
    known = {**read.by_name.get("of", {}), **read.by_name.get("show", {})}
    written = read.place_tuple()
    parts = known.pop("parts", None)
    if parts:  # the name and the bars each at their own place
        whole = places["of"]
        named = Span(found.source, whole.start, whole.start + parts[0])
        written = (("of", named), ("bars", Span(found.source, whole.start + parts[1], whole.end)))
    reach = known.get("strings")
    if reach and reach[1] > strings:
        message = f"string {reach[1]} does not exist: strings run from 1 to {strings}"
        found.add("syntax/string", message, places["show"])
        del known["strings"]
    return NeckBlock(span=span, places=written, **known)
