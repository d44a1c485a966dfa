"""The demo course as its editor would want to see it: nothing left to say."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from lickwright.building.proofing import proof_course

CONTENT = Path(__file__).parents[2] / "content"


def test_the_course_proofs_clean() -> None:
    """No error, no query, no note."""
    assert proof_course(CONTENT).proof.findings == ()


@pytest.mark.parametrize(
    ("lesson", "right", "planted", "rule"),
    [
        ("tuning-up", "D  | 1:2 - - 1:0  2:3 -", "D  | 1:2 - - 1:0  2:2 -", "witness/names"),
        ("tuning-up", "A  | 3:2 - - - - - . .", "A  | 3:2 - - - - - .", "rhythm/bar-length"),
        ("gangplank", "4:2 h 4:4 3:0 h 3:2", "4:4 h 4:2 3:0 h 3:2", "witness/names"),
        ("gangplank", "(lick:gangplank@4.1-4.4)", "(lick:gangplank@4.1-4.5)", "course/link-address"),
        ("devils-dream", "4:2+3:2 4:2+3:2  4:2+3:2", "4:2+3:2 4:2+4:4  4:2+3:2", "hands/one-note-a-string"),
    ],
)
def test_a_planted_slip_is_found(tmp_path: Path, lesson: str, right: str, planted: str, rule: str) -> None:
    """The clean proof is not an idle one: a slip in the same lessons is reported by its rule."""
    folder = shutil.copytree(CONTENT, tmp_path / "course")
    page = folder / "lessons" / f"{lesson}.md"
    text = page.read_text(encoding="utf-8")
    assert right in text
    page.write_text(text.replace(right, planted, 1), encoding="utf-8")
    assert rule in {finding.rule for finding in proof_course(folder).proof.findings}
