"""Field lines: which lines they are, and the table-driven reading of their values."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from lickwright.findings import Label
from lickwright.reading.collector import Collector, quote, say_a
from lickwright.reading.lines import Body, Line, note_odd_blanks
from lickwright.reading.nearest import find_nearest, list_words
from lickwright.text import Span

if TYPE_CHECKING:
    from lickwright.model.blocks import FieldPlaces

_NAME = re.compile(r"[^\W\d_]+(?:[\s-]+[^\W\d_]+)*|(?:low)?[0-9]+\.[0-9]+|shape\s+[^|:]+", re.IGNORECASE)
_ADDRESS = re.compile(r"(?:low)?[0-9]+\.[0-9]+", re.IGNORECASE)
_LONGEST_NAME = 60
_LONGEST_VALUE = 1000
_LONGEST_VALUES = {"over": 20_000, "licks": 20_000}

Reader = Callable[[Line, Collector], Any]
"""Reads a value; None when it was reported that it is none."""
Table = Mapping[str, tuple[str, Reader]]
"""Field name to the attribute of the model that it fills, and its reader."""


@dataclass(frozen=True, slots=True)
class Field:
    """A field line in pieces: ``name`` as written, ``key`` as looked up, ``value``."""

    name: Line
    key: str
    value: Line

    @property
    def is_change(self) -> bool:
        """True when the name is an address: a change of a variation."""
        return _ADDRESS.fullmatch(self.key) is not None


def split_field(line: Line) -> Field | None:
    """Take a field line apart; None when the line is none."""
    text = line.text
    colon = text.find(":")
    if colon < 0 or text.find("|", 0, colon) >= 0 or text.startswith("|", colon + 1):
        return None
    name = line.part(0, colon).strip()
    if len(name.text) > _LONGEST_NAME or not _NAME.fullmatch(name.text):
        return None
    return Field(name, " ".join(name.text.split()).casefold(), line.part(colon + 1).strip())


@dataclass(slots=True)
class Values:
    """The values of the fields read so far.

    Attributes:
        by_name: Attribute of the model to value.
        places: Field name and place of its value, in the order written.
        stets: Of the block.
    """

    by_name: dict[str, Any] = field(default_factory=dict)
    places: list[tuple[str, Span]] = field(default_factory=list)
    _names: dict[str, Span] = field(default_factory=dict)
    _meant: set[str] = field(default_factory=set)

    def take(
        self,
        item: Field,
        table: Table,
        kind: str,
        found: Collector,
        *,
        extra: tuple[str, ...] = (),
        late: bool = False,
    ) -> None:
        """Read one field into the values, or report what is wrong with it.

        Args:
            item: The field.
            table: The fields of the block.
            kind: What the block is called, for messages.
            found: Where faults go.
            late: Its place has been reported already: a second fault of the line is not told.
            extra: Names that the block reads by itself, to be offered as the nearest.
        """
        name = Span(found.source, item.name.start, item.name.end)
        entry = table.get(item.key)
        if entry is None:
            near = _report_unknown(item, name, (*table, *extra), kind, found)
            self._meant.add(near or "")
            return
        attribute, reader = entry
        place = Span(found.source, item.value.start, item.value.end)
        repeats = attribute in _REPEATED
        if item.key in self._names and not repeats and not late:
            label = (Label(self._names[item.key], "first given here"),)
            found.add("syntax/field-twice", f"{item.key} is given twice", name, labels=label, hint="keep one")
            return
        if item.key in self._names and not repeats:
            return
        self._names[item.key] = name
        self.places.append((item.key.replace(" ", "_"), place))
        if item.value.blank:
            found.add(
                "syntax/field-value",
                f"{item.key} has no value",
                name,
                hint="leave out a field that says nothing",
            )
            return
        if item.key not in _TEXT:
            note_odd_blanks(item.value, found)
        if item.key not in _TEXT and len(item.value.text) > _LONGEST_VALUES.get(item.key, _LONGEST_VALUE):
            message = f"the value of {item.key} has {len(item.value.text)} characters, too many to be read"
            found.add("syntax/field-value", message, place)
            return
        value = reader(item.value, found)
        if value is None:
            return
        if repeats:
            self.by_name[attribute] = (*self.by_name.get(attribute, ()), value)
        else:
            self.by_name[attribute] = value

    def require(self, name: str, kind: str, opening: Line, found: Collector) -> None:
        """Report that a field which the block needs is not there at all."""
        if name not in self._names and name not in self._meant:
            span = Span(found.source, opening.start, opening.end)
            found.add(
                "syntax/field-missing", f"the {kind} has no {name}", span, hint=_NEEDED.get((kind, name), "")
            )

    def place_tuple(self) -> FieldPlaces:
        """Return the places of the written fields."""
        return tuple(self.places)


def read_fields(body: Body, table: Table, kind: str, found: Collector) -> Values:
    """Read a block that holds fields only."""
    read = Values()
    for line in body.lines:
        if line.blank or line.text.lstrip().startswith(";"):
            continue
        item = split_field(line)
        if item is not None:
            read.take(item, table, kind, found)
            continue
        whole = line.strip()
        span = Span(found.source, whole.start, whole.end)
        hint = _say_fields(table) if table else "leave it empty"
        message = f"{quote(whole.text)} stands in {say_a(kind)}, which has no use for it"
        found.add("syntax/line", message, span, hint=hint)
    return read


_REPEATED = frozenset({"stets"})
OF_THE_COURSE = ("author", "edition", "language", "level", "licence", "style")
"""Keys of the manifest's ``[course]`` that no block has as a field."""
_TEXT = frozenset({"title", "source", "tags", "stet"})
_NEEDED = {
    ("chorus", "licks"): "name them in order: licks: porch-step gate-swing x2 rest 2",
    ("chorus", "over"): "a chorus is played over one progression: over: porch",
    ("excerpt", "of"): "name the lick it shows: of: porch-step",
    ("scale", "scale"): "name the scale: scale: G major",
    ("open-strings", "keys"): "name the keys: keys: C G D A E",
}


def _say_fields(names: Iterable[str]) -> str:
    *most, last = sorted(names) or ("",)
    if most:
        return f"its fields are {list_words((*most, last))}"
    return f"its only field is {last}" if last else "it has no field"


def _report_unknown(
    item: Field, name: Span, right: tuple[str, ...], kind: str, found: Collector
) -> str | None:
    """Report a name that is none, and return the one it is nearest to."""
    if item.is_change:
        message = f"{say_a(kind)} has no changes, only a lick with vary: has them"
        found.add("syntax/change", message, name)
        return None
    near = find_nearest(item.key, (*right, *OF_THE_COURSE))
    message = f"{say_a(kind)} has no field {quote(item.name.text)}"
    if near is not None and near not in right:
        hint = f"{near} is said of the whole course: it stands under [course] in course.toml"
        found.add("syntax/unknown-field", message, name, hint=hint)
        return None
    hint = f"did you mean {near}?" if near else _say_fields(right)
    fix = near if near and "shape" not in near else None
    found.add("syntax/unknown-field", message, name, hint=hint, fix=fix)
    return near
