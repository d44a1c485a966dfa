"""The repair of a row: offered where its own entry has slipped, and not where the notes may have."""

from __future__ import annotations

import pytest
from proofroom import Proofroom, only

from lickwright.checks.catalogue import rules
from lickwright.checks.row_repair import RIGHT, ROW_OF
from lickwright.findings import Finding
from lickwright.model.bar import ROW_KINDS

NOTES = "A | 5:0 - 5:4 - 4:2 - 3:2 -\n"
PICKED = "picking: alternate\n\nA | 5:0 5:4 4:2 3:2 5:0 5:4 4:2 3:2\n"
SLURRED = "A | 3:2 h 3:4 4:2 h 4:4 3:2 - 2:2 -\n"


def mended(finding: Finding) -> str:
    """The text with the fix taken over."""
    assert finding.fix is not None
    (edit,) = finding.fix.edits
    text = edit.span.source.text
    return text[: edit.span.start] + edit.text + text[edit.span.end :]


@pytest.mark.parametrize(
    ("lick", "rule", "row"),
    [
        (NOTES + "names | A C E A", "witness/names", "names | A C# E A"),
        (NOTES + "degrees | 1 3 6 1", "witness/degrees", "degrees | 1 3 5 1"),
        # A sixth is no note of the chord; the degrees row speaks for it, then the names row.
        (
            "A | 5:0 - 5:4 - 4:2 - 4:4 -\nnames | A C# E G\ndegrees | 1 3 5 6",
            "witness/names",
            "names | A C# E F#",
        ),
        (
            "A | 5:0 - 5:4 - 4:2 - 4:4 -\nnames | A C# E F#\ndegrees | 1 3 5 b7",
            "witness/degrees",
            "degrees | 1 3 5 6",
        ),
        ("A | 2:2+1:0 - - - 3:2 - - -\nnames | C#+F A", "witness/names", "names | C#+E A"),
        (PICKED + "rh | d u d u d d d u", "picking/alternate", "rh | d u d u d u d u"),
        (SLURRED + "lh | 1 1 1 3 1 1", "hands/finger", "lh | 1 3 1 3 1 1"),
        (SLURRED + "lh | 1 3 1 3 0 1", "hands/finger", "lh | 1 3 1 3 1 1"),
        (NOTES + "lh | 1 3 1 1", "hands/finger", "lh | 0 3 1 1"),
    ],
)
def test_the_entry_of_a_row_is_mended(room: Proofroom, lick: str, rule: str, row: str) -> None:
    """The notes agree with all else: the entry is put right, and the proof has nothing more to say."""
    finding = only(room.prove(lick))
    assert finding.rule == rule
    text = mended(finding)
    assert row in text
    assert only(room.prove(finding.span.source.text)).message == finding.message
    assert room.prove(text).findings == ()


@pytest.mark.parametrize(
    "lick",
    [
        # The fret: 4:5 is no note of A, and the row says what would be.
        "A | 5:0 - 5:4 - 4:2 - 4:5 -\nnames | A C# E F#",
        # Nobody knows: the note is none of the chord, and no other row speaks for it.
        "A | 5:0 - 4:2 h 4:3 3:2 - 2:2 -\nnames | A E D# A C#",
        # A stroke was left out: the other stroke leaves the next ones out of turn.
        PICKED + "rh | d u d u d d u d",
    ],
)
def test_a_row_is_not_mended_where_the_notes_may_have_slipped(room: Proofroom, lick: str) -> None:
    """No entry of a row is offered."""
    fixes = [finding.fix for finding in room.prove(lick).findings]
    assert fixes
    assert all(fix is None or "row" not in fix.title for fix in fixes)


def test_a_row_that_a_variation_takes_over_is_mended_in_its_base(room: Proofroom) -> None:
    """The entry stands in the base: the variation brings no edit of it."""
    base = f"```lick one\n\n{NOTES}names | A C E A\n```\n"
    proof = room.prove(f"{base}\n```lick two\nvary: one\nkey: A major\n1.4: 2:2\n```\n")
    assert [(f.lick, f.fix is None) for f in proof.findings] == [("one", False)]


def test_the_table_names_rules_and_rows() -> None:
    """Every rule is there, and every row that can be mended is one."""
    assert set(ROW_OF) <= set(rules())
    assert set(ROW_OF.values()) == set(RIGHT) <= set(ROW_KINDS)
