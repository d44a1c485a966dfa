"""What a help tells an author to write can be written: its fields, values, rows and signs read."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from proofroom import Proofroom

import lickwright
from lickwright.model.bar import ROW_KINDS
from lickwright.reading.lick import FIELDS
from lickwright.terms.signs import TABLE, parse_sign

FOLDER = Path(lickwright.__file__).parent
FRET_SIGNS = "|".join(sign.word for sign in TABLE if sign.takes_fret)
SIGN = re.compile(rf"\b(?:{FRET_SIGNS})\w*")
FIELD = re.compile(r"\b(?:[Ww]rite|or|set) ([a-z-]+): ?([a-z]+)?")
ROW = re.compile(r"\bthe ([a-z]+) row\b")


def _texts(tree: ast.AST) -> Iterator[str]:
    """The strings below, each whole, with nothing where a value is put in."""
    if isinstance(tree, ast.JoinedStr):
        yield "".join(str(part.value) if isinstance(part, ast.Constant) else "" for part in tree.values)
    elif isinstance(tree, ast.Constant) and isinstance(tree.value, str):
        yield tree.value
    else:
        for part in ast.iter_child_nodes(tree):
            yield from _texts(part)


def _helps() -> Iterator[str]:
    for folder in ("checks", "model", "reading"):
        for file in sorted((FOLDER / folder).rglob("*.py")):
            for call in ast.walk(ast.parse(file.read_text("utf-8"))):
                for keyword in call.keywords if isinstance(call, ast.Call) else ():
                    if keyword.arg == "help":
                        yield from _texts(keyword.value)


def _unread_sign(text: str) -> list[str]:
    return [word for word in SIGN.findall(text) if parse_sign(word) is None]


HELPS = tuple(_helps())
VALUES = sorted({found for text in HELPS for found in FIELD.findall(text)})


def test_a_sign_that_takes_a_fret_is_shown_with_it() -> None:
    """``trill`` alone is refused by the reader, and must not be asked for."""
    shown = [word for text in HELPS for word in SIGN.findall(text)]
    assert shown
    assert [text for text in HELPS if _unread_sign(text)] == []
    assert _unread_sign("for a shake of two notes write trill in the signs row") == ["trill"]


def test_rows_that_are_named_are_rows() -> None:
    """The names row, the lh row."""
    named = {row for text in HELPS for row in ROW.findall(text)}
    assert {"lh", "rh", "signs"} <= named
    assert named <= set(ROW_KINDS)


def _refused(room: Proofroom, field: str, value: str) -> list[str]:
    found = room.prove(f"{field}: {value}\n\nA | 5:0 - 5:4 - 4:2 - 3:2 -").findings
    return [finding.message for finding in found if finding.span.text in (field, value)]


@pytest.mark.parametrize(("field", "value"), VALUES)
def test_a_field_that_is_named_reads(room: Proofroom, field: str, value: str) -> None:
    """``ending: open`` is a field of a lick, with a value that it takes."""
    assert field in FIELDS
    assert not value or _refused(room, field, value) == []


def test_what_does_not_read_is_seen(room: Proofroom) -> None:
    """A help that asked for these would fail above; and fields are found with and without a value."""
    assert _refused(room, "ending", "opened")
    assert _refused(room, "feel", "swang")
    assert {("ending", "open"), ("claims", "outside")} <= set(VALUES)
    assert FIELD.findall("Write key: ") == [("key", "")]
