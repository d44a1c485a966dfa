"""Findings as JSON: the shape that editors and scripts read."""

from __future__ import annotations

import json

from lickwright.findings import Edit, Finding, Fix, Label, Severity
from lickwright.report.json import render_json
from lickwright.text import Source

SOURCE = Source("lessons/a.md", "# T\nA7 | 5:0 9:9\n\x1b[31m\x9b\n")
SHAPE = {
    "rule",
    "severity",
    "message",
    "help",
    "file",
    "line",
    "column",
    "end_line",
    "end_column",
    "lick",
    "address",
    "labels",
    "fix",
}


def test_the_shape() -> None:
    """Every key of the contract and no other; places count from 1, the end is after the last character."""
    finding = Finding(
        "syntax/slot", Severity.QUERY, "what", SOURCE.span(13, 16), help="look", lick="porch", address="1.2"
    )
    read = json.loads(render_json([finding]))
    assert set(read) == {"findings", "counts"}
    assert set(read["findings"][0]) == SHAPE
    assert read["findings"][0] == {
        "rule": "syntax/slot",
        "severity": "query",
        "message": "what",
        "help": "look",
        "file": "lessons/a.md",
        "line": 2,
        "column": 10,
        "end_line": 2,
        "end_column": 13,
        "lick": "porch",
        "address": "1.2",
        "labels": [],
        "fix": None,
    }
    assert read["counts"] == {"errors": 0, "queries": 1, "notes": 0}


def test_labels_and_fix_have_their_places() -> None:
    """A further place with its words; what mends it, edit by edit, an insertion as an empty place."""
    edits = (Edit(SOURCE.span(13, 16), "4:2"), Edit(SOURCE.span(9, 9), "- "))
    labels = (Label(SOURCE.span(4, 6), "the chord"),)
    finding = Finding(
        "a/b", Severity.QUERY, "what", SOURCE.span(13, 16), labels, fix=Fix("4:2: there", edits)
    )
    (read,) = json.loads(render_json([finding]))["findings"]
    line = {"file": "lessons/a.md", "line": 2, "end_line": 2}
    assert read["labels"] == [{**line, "column": 1, "end_column": 3, "text": "the chord"}]
    assert read["fix"] == {
        "title": "4:2: there",
        "edits": [
            {**line, "column": 10, "end_column": 13, "text": "4:2"},
            {**line, "column": 6, "end_column": 6, "text": "- "},
        ],
    }


def test_nothing_found() -> None:
    """An empty list and counts of nought."""
    assert json.loads(render_json([])) == {"findings": [], "counts": {"errors": 0, "queries": 0, "notes": 0}}


def test_the_text_is_plain_ascii() -> None:
    """No control sign of an author's reaches a terminal raw, and all of them read back."""
    message = "a \x1b[31m \x9b \u202e ♭"
    text = render_json([Finding("a/b", Severity.ERROR, message, SOURCE.span(0, 1))])
    assert text.isascii()
    assert not any(ord(sign) < 0x20 and sign != "\n" for sign in text)
    assert json.loads(text)["findings"][0]["message"] == message
