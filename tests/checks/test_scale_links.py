"""Words that link to the notes of a scale are held against them like those of a lick."""

from __future__ import annotations

from pathlib import Path

import pytest

from lickwright.building.proofing import proof_course

MANIFEST = """[course]
title = "Scales"
author = "A. Player"
key = "G major"
tempo = 96

[[unit]]
title = "All"
lessons = ["one.md"]
"""


def found(folder: Path, words: str) -> list[tuple[str, str]]:
    """Rule and address of what is found in a lesson with a scale and some words."""
    (folder / "lessons").mkdir()
    (folder / "course.toml").write_text(MANIFEST, encoding="utf-8")
    scale = "```scale rolling\nscale: G major\nfrom: 6:3 to 1:3\nopen strings: wherever diatonic\n```\n"
    (folder / "lessons" / "one.md").write_text(f"# One\n\n{words}\n\n{scale}", encoding="utf-8")
    return [(finding.rule, finding.address) for finding in proof_course(folder).proof.findings]


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        (
            "It begins on [G](lick:rolling@1.1) and goes on to [A, the open fifth string](lick:rolling@1.2).",
            [],
        ),
        ("It goes on to [C sharp](lick:rolling@1.2).", [("prose/pitch", "1.2")]),
        ("It begins at [the fourth fret](lick:rolling@1.1).", [("prose/fret", "1.1")]),
        ("It has [a ninth bar](lick:rolling@9.1).", [("course/link-address", "9.1")]),
    ],
)
def test_a_scale_is_held_to_its_words(tmp_path, words, wanted):
    """Right words pass, wrong ones are found at their note."""
    assert found(tmp_path, words) == wanted
