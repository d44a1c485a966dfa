"""How much an end that leans weighs."""

from __future__ import annotations

import pytest
from proofroom import Proofroom, only

from lickwright.findings import Severity


@pytest.mark.parametrize(
    ("end", "severity"),
    [
        pytest.param("4:4 - 3:0 .", Severity.QUERY, id="short, on the weakest beat"),
        pytest.param("4:4 - - 3:0", Severity.NOTE, id="short, off the beat"),
        pytest.param("4:4 3:0 - -", Severity.QUERY, id="off the beat, held for more than one"),
    ],
)
def test_an_end_off_the_beat_and_short_is_only_noted(room: Proofroom, end: str, severity: Severity) -> None:
    """Any beat gives the last note weight, and so does a beat's length."""
    finding = only(room.prove(f"key: D major\n\nD | 4:0 - 4:4 - {end}"))
    assert (finding.rule, finding.severity) == ("harmony/ending", severity)
