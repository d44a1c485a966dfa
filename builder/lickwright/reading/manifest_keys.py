"""The keys of the manifest as tables: what each may hold."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from lickwright.findings import Severity
from lickwright.model.course import LEVELS, STYLES
from lickwright.model.fields import FEELS
from lickwright.reading import values
from lickwright.reading.collector import Collector, quote
from lickwright.reading.fields import Reader
from lickwright.reading.lines import Line
from lickwright.reading.nearest import find_nearest, list_words
from lickwright.text import Source

FEWEST_FRETS, MOST_FRETS = 12, 36
SHORTEST, LONGEST = 300, 1000
"""Scale length in mm."""
PROMISES = ("licks", "bars", "lessons", "keys", "tunings", "techniques", "progressions", "choruses")
"""What a course may promise a number of."""
_HUGE = 1e9
_LANGUAGE = re.compile(r"[A-Za-z]{2,3}(?:-[A-Za-z0-9]{1,8})*")


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a value is not what it should be: ``message`` follows the key's name.

    Attributes:
        right: The TOML that should stand there, if there is exactly one.
        usable: What can be read of the value nevertheless.
        rule: Under which it is reported.
    """

    message: str
    hint: str = ""
    right: str | None = None
    usable: Any = None
    rule: str = "course/manifest"


Check = Callable[[Any], Any]
"""Returns the value for the model, or a Fault."""


@dataclass(frozen=True, slots=True)
class Section:
    """A table of the manifest.

    Attributes:
        said: What it is called in a sentence.
        keys: Its keys.
        needed: Those without a default.
        others: What any other key may hold; None = there is none.
    """

    said: str
    keys: Mapping[str, Check] = field(default_factory=dict)
    needed: tuple[str, ...] = ()
    others: Check | None = None


def _say(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f'"{quote(value)}"'
    if isinstance(value, list):
        return "a list"
    return "a table" if isinstance(value, dict) else quote(str(value))


def check_text(value: Any) -> Any:
    """Take words."""
    if isinstance(value, str) and value.strip():
        return " ".join(value.split())
    if isinstance(value, int | float) and not isinstance(value, bool):
        return Fault(f"is {_say(value)}, words were expected", "put it in quotation marks", f'"{value}"')
    return Fault("is empty" if value == "" else f"is {_say(value)}, words were expected")


def _whole(least: int, most: int) -> Check:
    def check(value: Any) -> Any:
        if isinstance(value, int) and not isinstance(value, bool) and least <= value <= most:
            return value
        right = value if isinstance(value, str) and re.fullmatch(r"[0-9]{1,4}", value) else None
        if right is not None and not least <= int(right) <= most:
            right = None
        return Fault(f"is {_say(value)}, a whole number from {least} to {most} was expected", "", right)

    return check


def _number(least: float, most: float) -> Check:
    def check(value: Any) -> Any:
        fine = isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)
        if fine and least <= value <= most:
            return float(value)
        bounds = f"from {least:g} to {most:g} " if most < _HUGE else ""
        return Fault(f"is {_say(value)}, a number {bounds}was expected")

    return check


def _one_of(*words: str) -> Check:
    def check(value: Any) -> Any:
        if value in words:
            return value
        near = find_nearest(value, words) if isinstance(value, str) else None
        right = f'"{near}"' if near else None
        return Fault(f"is {_say(value)}, {list_words(words, 'or')} was expected", "", right)

    return check


def _as_field(reader: Reader) -> Check:
    """Check a value as the lick's field of the same meaning is."""

    def check(value: Any) -> Any:
        text = str(value) if isinstance(value, int) and not isinstance(value, bool) else value
        if isinstance(value, float):
            return Fault(f"is {_say(value)}, a whole number was expected")
        if not isinstance(text, str):
            return Fault(f"is {_say(value)}, words were expected")
        source = Source("", text)
        found = Collector(source)
        read = reader(Line(text, 0).strip(), found)
        if not found.findings:
            return read
        first = found.findings[0]
        queried = first.rule if first.severity < Severity.ERROR else ""
        right = f'"{first.fix.edits[0].text}"' if first.fix else None
        if queried:
            return Fault(f"may be meant otherwise: {first.message}", first.help, right, read, queried)
        return Fault(f"cannot be read: {first.message}", first.help, right)

    return check


def _check_language(value: Any) -> Any:
    if isinstance(value, str) and _LANGUAGE.fullmatch(value) and len(value) < 36:
        return value
    return Fault(f"is {_say(value)}, a language tag was expected", "BCP 47, as in en or pt-BR")


def _check_files(value: Any) -> Any:
    hint = 'as in ["first.md", "second.md"]'
    if isinstance(value, str) and value.strip() and '"' not in value:
        message = f"is {_say(value)}, a list of file names was expected"
        return Fault(message, hint, f'["{value}"]', (value,))
    if not isinstance(value, list):
        return Fault(f"is {_say(value)}, a list of file names was expected", hint)
    files = tuple(file for file in value if isinstance(file, str) and file.strip())
    if len(files) < len(value):
        odd = next(file for file in value if not isinstance(file, str) or not file.strip())
        return Fault(f"lists {_say(odd)}, file names were expected", hint, None, files)
    return files


SECTIONS: dict[str, Section] = {
    "course": Section(
        "the course",
        {
            "title": check_text,
            "author": check_text,
            "edition": check_text,
            "language": _check_language,
            "licence": check_text,
            "source": _as_field(values.read_source),
            "style": _one_of(*STYLES),
            "level": _one_of(*LEVELS),
            "key": _as_field(values.read_key),
            "feel": _one_of(*FEELS),
            "tempo": _as_field(values.read_tempo),
        },
        ("title", "author"),
    ),
    "guitar": Section(
        "the guitar",
        {
            "tuning": _as_field(values.read_tuning),
            "capo": _whole(0, values.HIGHEST_CAPO),
            "frets": _whole(FEWEST_FRETS, MOST_FRETS),
            "scale-length": _number(SHORTEST, LONGEST),
            "sound": _one_of("electric", "acoustic"),
            "hand": _one_of("right", "left"),
        },
    ),
    "promises": Section("the promise list", dict.fromkeys(PROMISES, _whole(0, 100_000))),
    "limits": Section("the list of limits", others=_number(-_HUGE, _HUGE)),
}
"""The tables of the manifest but ``unit``, which may repeat."""

UNIT = Section(
    "the unit",
    {"title": check_text, "lessons": _check_files, "drafts": _check_files},
    ("title", "lessons"),
)
