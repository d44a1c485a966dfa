"""How far a bend may go before it is put to the author, and before it is wrong."""

from __future__ import annotations

import pytest
from proofroom import Proofroom, only

from lickwright.findings import Severity

FAR = [
    ("2:9b12", None),  # three half steps on the upper half of the strings
    ("2:9b13", Severity.QUERY),
    ("2:9b13.5", Severity.ERROR),
    ("2:9b14", Severity.ERROR),
    ("5:9b11", None),  # two on the lower half
    ("5:9b12", Severity.QUERY),
    ("5:9b12.5", Severity.ERROR),
    ("5:9b13", Severity.ERROR),
    ("3:9b13", Severity.QUERY),  # of six strings the third is the last of the upper half
    ("4:9b13", Severity.ERROR),
    ("3:2b3", None),  # beside the nut
    ("3:2b4", Severity.QUERY),
    ("3:2b7", Severity.ERROR),
    ("3:3b5", None),
]


@pytest.mark.parametrize(("note", "severity"), FAR)
def test_a_bend_too_far(room: Proofroom, note: str, severity: Severity | None) -> None:
    """Beyond the first limit it is a query, beyond the second an error; it says which of the two."""
    found = [f for f in room.prove(f"N.C. | {note} - - - - - - -").findings if f.rule == "hands/bend-reach"]
    assert [f.severity for f in found] == ([] if severity is None else [severity])
    words = {Severity.QUERY: "is easily bent", Severity.ERROR: "can be bent"}
    assert all(f.message.endswith(words[f.severity]) for f in found)
    assert all(f.span.text == note for f in found)


@pytest.mark.parametrize(("finger", "told"), [("1", True), ("3", False)])
def test_the_first_finger_alone(room: Proofroom, finger: str, told: bool) -> None:
    """Three half steps are for a finger with others behind it."""
    found = room.prove(f"N.C. | 2:9b12 - - - - - - -\n  lh | {finger}").findings
    assert [(f.rule, f.severity) for f in found] == ([("hands/bend-reach", Severity.QUERY)] if told else [])


def test_a_curl_that_has_slipped_by_a_fret(room: Proofroom) -> None:
    """What sounds is said as a quarter tone, and the bend a half step less far is offered."""
    lick = "A7 | 3:14 - 2:13b{} 3:14 3:12 4:14 - .\n  names | A C A G E"
    assert room.prove(lick.format("13.5"), "blues").findings == ()
    finding = only(room.prove(lick.format("14.5"), "blues"))
    assert finding.message == "the names row says C, and 2:13b14.5 is a quarter tone above C sharp"
    assert finding.fix is not None
    assert finding.fix.title == "2:13b13.5: bent one half step lower is a quarter tone above C"
