"""The cambiata: each of its moves is needed."""

from __future__ import annotations

import pytest
from scores import read_piece

from lickwright.analysis import Role, classify


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("key: C major\n\nC | 2:1 - 2:0 3:0 3:2 - - -", id="down, a third to a stable note"),
        pytest.param("key: A minor\n\nE7 | 1:0 - 1:1 1:5 1:4 - - -", id="up, turning back to a stable note"),
    ],
)
def test_a_cambiata(text: str) -> None:
    """A step from a stable note, a third the same way, a step back; one of the last two is stable."""
    assert classify(read_piece(text))[1].role is Role.CAMBIATA


@pytest.mark.parametrize(
    ("text", "role"),
    [
        pytest.param("key: C major\n\nC | 2:1 - 2:0 3:0 4:3 - - -", Role.WEAK, id="goes on the same way"),
        pytest.param("key: C major\n\nC | 2:1 - 2:0 3:0 3:0 - - -", Role.WEAK, id="stands still"),
        pytest.param("key: A minor\n\nAm | 1:0 - 1:1 1:5 1:5 - - -", Role.WEAK, id="up, and stands still"),
        pytest.param("key: C major\n\nC | 2:1 - 2:0 3:0 2:0 - - -", Role.WEAK, id="turns back by a third"),
        pytest.param("key: C major\n\nG7 | 2:3 - 2:1 3:0 3:2 - - -", Role.WEAK, id="leaps a fourth"),
        pytest.param("key: C major\n\nEm7 | 1:0 - 1:1 - 2:3 - 2:4 -", Role.WEAK, id="leaps the other way"),
        pytest.param("key: C major\n\nC | 2:2 - 2:0 3:0 3:2 - - -", Role.WEAK, id="from no stable note"),
        pytest.param("key: C major\n\nF | 2:1 - 2:2 2:6 2:4 - - -", Role.UNEXPLAINED, id="chromatic"),
        pytest.param("key: C major\n\nC | 2:1 - 2:0 3:0 . . . 3:2", Role.WEAK, id="a rest before it turns"),
    ],
)
def test_no_cambiata(text: str, role: Role) -> None:
    """With one of its moves otherwise it is none."""
    assert classify(read_piece(text))[1].role is role
