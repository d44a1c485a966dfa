"""A change at the wrong address: the address that fits is tried and offered."""

from __future__ import annotations

import pytest
from proofroom import Proofroom, only

SHAPE = "```lick shape\nkey: A major\n\nA7 | 5:0 - {} 3:2 - 2:2 -\n```\n\n"
VARIED = SHAPE + "```lick varied\nvary: shape\n{}\n```\n"
UP, DOWN = "4:2 h 4:4", "4:4 p 4:2"


@pytest.mark.parametrize(
    ("slur", "change", "address"),
    [
        (UP, "1.2: 4:5", "1.3"),  # a hammer-on that would fall: its second note was meant
        (DOWN, "1.3: 4:5", "1.2"),  # a pull-off that would rise: its first
        (UP, "1.2: 4:5\n1.3: 4:2", None),  # both are changed: nothing has slipped by one
        (UP, "1.2: 4:14", None),  # too far for the hand wherever it stands
    ],
)
def test_a_change_one_sound_off(room: Proofroom, slur: str, change: str, address: str | None) -> None:
    """The other sound is as in the base then, and nothing more is found."""
    proof = room.prove(VARIED.format(slur, change))
    fixes = [f.fix for f in proof.findings if f.rule.startswith("hands/") and f.fix is not None]
    assert [fix.edits[0].text for fix in fixes] == ([address] if address else [])
    for fix in fixes:
        (edit,) = fix.edits
        text = edit.span.source.text
        assert room.prove(text[: edit.span.start] + edit.text + text[edit.span.end :]).findings == ()


def test_it_is_said_where_the_change_fits(room: Proofroom) -> None:
    """The joins of a variation are its base's: another sign is no way to mend it."""
    finding = only(room.prove(VARIED.format(UP, "1.2: 4:5")))
    assert (finding.rule, finding.address) == ("hands/falling-hammer", "1.3")
    assert finding.help == "The change of 1.2 fits at 1.3; or mend the change"
    assert finding.fix is not None
    assert finding.fix.edits[0].span.text == "1.2"
