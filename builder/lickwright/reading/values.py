"""The values of fields that one word, number or text says."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING, get_args

from lickwright.instrument.tuning import FEWEST_STRINGS, MOST_STRINGS, STANDARD, Tuning, parse_tuning
from lickwright.model.fields import FEELS, Feel, Provenance, Take, Tempo
from lickwright.reading.collector import Collector, quote
from lickwright.reading.nearest import find_nearest, list_words
from lickwright.reading.tunings import HIGHEST, LOWEST, find_extreme, is_upside_down, suggest_tuning
from lickwright.text import Span
from lickwright.theory.key import Key, parse_key, suggest_key
from lickwright.theory.meter import Meter, parse_meter

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.reading.lines import Line

NAME = re.compile(r"[a-z0-9]+(?:-+[a-z0-9]+)*")
"""A name in the course."""
SLOWEST, FASTEST = 20, 400
HIGHEST_CAPO = 12
MOST_LADDER = 6

BEATS: dict[str, Fraction] = {
    "whole": Fraction(4),
    "dotted half": Fraction(3),
    "half": Fraction(2),
    "dotted quarter": Fraction(3, 2),
    "quarter": Fraction(1),
    "dotted eighth": Fraction(3, 4),
    "eighth": Fraction(1, 2),
    "sixteenth": Fraction(1, 4),
}
"""Beats that a tempo may count, in quarters."""

_TEMPO = re.compile(r"(?:([a-z][a-z ]*?)\s*=\s*)?([0-9]{1,4})")
_LENGTH = re.compile(r"([0-9]{1,2})/([0-9]{1,2})")
_STEP_HINT = "a length is a fraction of a whole note: 1/8, 1/16, 1/4"
_TAKE = re.compile(r"(.+?)(?:\s+from\s+([0-9]{1,5}(?:\.[0-9]{1,6})?)\s*s)?")
_TAKES = (".wav", ".flac", ".mp3")
_SOURCES = ("own", "traditional", "licensed")


_MEANT = {
    **dict.fromkeys(("swing", "swung", "swing eighths"), "shuffle"),
    **dict.fromkeys(("even", "even eighths"), "straight"),
    **dict.fromkeys(("fingerstyle", "fingerpicking", "finger style", "finger"), "fingers"),
}
"""What is said elsewhere, to the word that is meant."""


def refuse(line: Line, found: Collector, message: str, hint: str = "", fix: str | None = None) -> None:
    """Report a value that cannot be read."""
    found.add("syntax/field-value", message, Span(found.source, line.start, line.end), hint=hint, fix=fix)


def choose(line: Line, found: Collector, words: Iterable[str], what: str) -> str | None:
    """Read one of some words."""
    text = " ".join(line.text.split())
    right = tuple(words)
    if text in right:
        return text
    near = _MEANT.get(text.casefold())
    near = near if near in right else find_nearest(text, right)
    hint = f"did you mean {near}?" if near else ""
    message = f"{quote(text)} is no {what}: {list_words(right, 'or')} was expected"
    refuse(line, found, message, hint, near)
    return None


def read_text(line: Line, found: Collector) -> str:
    """Read free text."""
    del found
    return line.text


def read_key(line: Line, found: Collector) -> Key | None:
    """Read a key."""
    key = parse_key(" ".join(line.text.split()))
    if key is None:
        right = suggest_key(line.text)
        hint = (
            f"did you mean {right}?"
            if right
            else "a key is a note and a mode: A major, E minor, D mixolydian"
        )
        refuse(line, found, f"{quote(line.text)} is no key", hint, right)
    return key


def read_meter(line: Line, found: Collector) -> Meter | None:
    """Read a meter."""
    meter = parse_meter(line.text)
    if meter is None:
        common = {"C": "4/4", "c": "4/4", "C|": "2/2"}.get(line.text)
        refuse(
            line,
            found,
            f"{quote(line.text)} is no meter",
            "a meter is 1 to 16 over 2, 4, 8 or 16, as in 6/8",
            common,
        )
    return meter


def read_length(line: Line, found: Collector) -> Fraction | None:
    """Read the length of a step or a pickup, in quarters."""
    m = _LENGTH.fullmatch(line.text)
    length = Fraction(4 * int(m[1]), int(m[2])) if m and int(m[2]) else Fraction(0)
    if m is None or not 0 < length <= 16 or int(m[2]) & (int(m[2]) - 1) or int(m[2]) > 64:
        refuse(line, found, f"{quote(line.text)} is no length of a note", _STEP_HINT)
        return None
    return length


def read_tempo(line: Line, found: Collector) -> Tempo | None:
    """Read beats a minute, perhaps with the beat counted."""
    text = " ".join(line.text.split())
    m = _TEMPO.fullmatch(text)
    span = Span(found.source, line.start, line.end)
    if not m:
        hint = "beats a minute, 168, or with the beat: half = 112"
        typed = re.fullmatch(r"([0-9]{2,3})\s*(?:bpm|BPM)", text)
        refuse(line, found, f"{quote(text)} is no tempo", hint, typed[1] if typed else None)
        return None
    bpm = int(m[2])
    if not SLOWEST <= bpm <= FASTEST:
        refuse(line, found, f"{bpm} is no tempo: {SLOWEST} to {FASTEST} beats a minute was expected")
        return None
    if m[1] is None:
        return Tempo(bpm, None, span)
    beat = BEATS.get(m[1])
    if beat is None:
        near = find_nearest(m[1], BEATS)
        hint = f"did you mean {near}?" if near else f"a beat is {list_words(BEATS, 'or')}"
        refuse(line, found, f"{quote(m[1])} is no beat to count", hint, f"{near} = {bpm}" if near else None)
        return None
    return Tempo(bpm, beat, span)


def read_ladder(line: Line, found: Collector) -> tuple[Tempo, ...] | None:
    """Read further tempi, at most six."""
    tempi: list[Tempo] = []
    faulty = False
    for m in re.finditer(r"[^,\s=](?:[^,=]*?=\s*[0-9]+|[^,\s]*)", line.text):
        tempo = read_tempo(line.part(m.start(), m.end()).strip(), found)
        if tempo is None:
            faulty = True
            if len(tempi) > MOST_LADDER:
                break
        else:
            tempi.append(tempo)
    if len(tempi) > MOST_LADDER:
        refuse(line, found, f"{len(tempi)} tempi in the ladder: it has {MOST_LADDER} at most")
        return tuple(tempi[:MOST_LADDER])
    if not tempi and not faulty:
        refuse(line, found, f"{quote(line.text)} is no list of tempi", "as in 100 120 140")
    return tuple(tempi) or None


def read_feel(line: Line, found: Collector) -> Feel | None:
    """Read a feel."""
    word = choose(line, found, FEELS, "feel")
    return next((feel for feel in get_args(Feel) if feel == word), None)


def read_tuning(line: Line, found: Collector) -> Tuning | None:
    """Read the open strings, the lowest first."""
    tuning = parse_tuning(line.text)
    if tuning is None:
        right = suggest_tuning(line.text) if len(line.text) <= 80 else None
        hint = f"{FEWEST_STRINGS} to {MOST_STRINGS} strings, the lowest first: {right or STANDARD.text}"
        refuse(line, found, f"{quote(line.text)} is no tuning", hint, right)
        return None
    far = find_extreme(tuning)
    if far is not None:
        message = f"{far} is no string: {LOWEST} to {HIGHEST} was expected"
        refuse(line, found, message, f"as in {STANDARD.text}")
        return None
    if is_upside_down(tuning):
        right = " ".join(reversed(line.text.split()))
        span = Span(found.source, line.start, line.end)
        message = "these strings run from the highest to the lowest: the lowest is written first"
        found.add("syntax/tuning-order", message, span, hint=f"write {right}, if that is meant", fix=right)
    return tuning


def read_number(line: Line, found: Collector, least: int, most: int, what: str) -> int | None:
    """Read a whole number within bounds."""
    if (
        line.text.isascii()
        and line.text.isdecimal()
        and len(line.text) < 6
        and least <= int(line.text) <= most
    ):
        return int(line.text)
    refuse(line, found, f"{quote(line.text)} is no {what}: {least} to {most} was expected")
    return None


def read_capo(line: Line, found: Collector) -> int | None:
    """Read the fret of the capo."""
    return read_number(line, found, 0, HIGHEST_CAPO, "fret for a capo")


def read_ending(line: Line, found: Collector) -> str | None:
    """Read whether the lick closes."""
    return choose(line, found, ("closed", "open"), "ending")


def read_source(line: Line, found: Collector) -> Provenance | None:
    """Read whose music it is."""
    span = Span(found.source, line.start, line.end)
    kind, colon, detail = line.text.partition(":")
    kind, detail = kind.strip(), detail.strip()
    if kind == "own" and not colon:
        return Provenance("own", "", span)
    if kind == "traditional" and detail:
        return Provenance("traditional", detail, span)
    if kind == "licensed" and detail:
        return Provenance("licensed", detail, span)
    hint = "own, or traditional: where it is printed, year, or licensed: by whom"
    near = find_nearest(kind, _SOURCES)
    if near == "own":
        message, fix = f"{quote(line.text)} is no source: own says it all", "own"
    elif near and detail:
        message, fix = f"{quote(kind)} is no source", f"{near}: {detail}"
    elif near:
        message, fix = f"{near} needs where the music is known from", None
    else:
        message, fix = f"{quote(line.text)} does not say whose music it is", None
    refuse(line, found, message, hint, fix)
    return None


def read_take(line: Line, found: Collector) -> Take | None:
    """Read a recording and where in it the lick begins, in seconds."""
    m = _TAKE.fullmatch(line.text) if len(line.text) < 500 else None
    hint = "a WAV, FLAC or MP3 file of the course and a start: takes/porch.flac from 2.35 s"
    if m is None or not m[1].casefold().endswith(_TAKES):
        refuse(line, found, f"{quote(line.text)} names no recording", hint)
        return None
    return Take(m[1], Fraction(m[2] or 0), Span(found.source, line.start, line.end))


def read_tags(line: Line, found: Collector) -> tuple[str, ...] | None:
    """Read words parted by commas."""
    tags = tuple(" ".join(tag.split()) for tag in line.text.split(",") if tag.strip())
    if not tags:
        refuse(line, found, "no word among the tags")
    return tags or None


def read_name(line: Line, found: Collector) -> str | None:
    """Read the name of a block."""
    if NAME.fullmatch(line.text):
        return line.text
    right = to_name(line.text)
    hint = "names are lower-case letters, digits and hyphens"
    refuse(line, found, f"{quote(line.text)} is no name", hint, right or None)
    return None


def to_name(text: str) -> str:
    """Return the name nearest to a text, empty when there is none."""
    return "-".join(re.findall(r"[a-z0-9]+", text[:80].casefold()))
