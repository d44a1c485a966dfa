"""Repairs are tried over the bars around a fault: in a long piece as in a short one."""

from __future__ import annotations

from typing import Any

import pytest
from proofroom import Proofroom

from lickwright.checks.trial import put_tone
from lickwright.model.music import Piece

GOOD = "A | 5:0 - 5:4 - 4:2 - 3:2 -"
BAD = "A | 5:0 - 5:4 - 4:2 - 3:3 -"


def test_repairs_are_tried_over_the_bars_around(room: Proofroom, monkeypatch: pytest.MonkeyPatch) -> None:
    """A long piece with a fault in every bar gets its repairs, and each trial judges three bars at most."""
    judged: list[int] = []

    def put(piece: Piece, *rest: Any) -> Piece:
        judged.append(len(piece.music.bars))
        return put_tone(piece, *rest)

    monkeypatch.setattr("lickwright.checks.trial.put_tone", put)
    findings = room.prove("\n".join([BAD] * 30)).findings
    assert [f.fix and f.fix.edits[0].text for f in findings] == ["3:2"] * 30
    assert judged
    assert max(judged) == 3


@pytest.mark.parametrize("bars", [3, 9, 24])
def test_the_length_of_a_piece_does_not_change_a_repair(room: Proofroom, bars: int) -> None:
    """The same bar in the middle of a short and of a long piece is mended alike."""
    lines = [GOOD] * bars
    lines[bars // 2] = BAD
    (finding,) = room.prove("\n".join(lines)).findings
    assert finding.message.endswith("; one fret lower is the root")
    assert finding.fix is not None
    assert finding.fix.edits[0].text == "3:2"
