"""The guide is a course that proofs clean, and every mistake in it gives the finding it shows."""

from __future__ import annotations

from pathlib import Path

import pytest
from guide_examples import GUIDE, LESSONS, Mistake, list_mistakes, try_example

from lickwright.building.proofing import proof_course
from lickwright.findings import Severity
from lickwright.theory.quality import QUALITIES

MISTAKES = list_mistakes()


def test_the_guide_proofs_without_any_finding(guide):
    """Not even a note: what a guide shows is right."""
    assert [(f.rule, f.span.source.path, f.message) for f in guide.proof.findings] == []
    assert [standing.finding.rule for standing in guide.proof.standing] == ["harmony/unexplained"]


def test_every_lesson_file_is_listed(guide):
    """A topic that `explain` prints is a page of the guide, too."""
    assert sorted(path.stem for path in LESSONS.glob("*.md")) == sorted(
        lesson.name for lesson in guide.course.lessons
    )


def test_a_slip_of_one_fret_in_the_guide_is_found(tmp_path):
    """A planted fault: one figure of one lick is changed, and nothing else."""
    (tmp_path / "lessons").mkdir()
    for path in (GUIDE / "course.toml", *LESSONS.glob("*.md")):
        text = path.read_text(encoding="utf-8")
        if path.name == "bars.md":
            assert text.count("D | 4:0 4:4 3:2 4:4  3:2 - 4:4 -      ;") == 1
            text = text.replace(
                "D | 4:0 4:4 3:2 4:4  3:2 - 4:4 -      ;", "D | 4:0 4:3 3:2 4:4  3:2 - 4:4 -      ;"
            )
        (tmp_path / path.relative_to(GUIDE)).write_text(text, encoding="utf-8")
    findings = proof_course(tmp_path).proof.findings
    assert [(f.rule, f.lick, f.address) for f in findings] == [("witness/names", "ferry-steps", "1.2")]


@pytest.mark.parametrize("mistake", MISTAKES, ids=[mistake.name for mistake in MISTAKES])
def test_a_mistake_gives_the_finding_that_is_shown(mistake: Mistake, tmp_path):
    """Exactly one, of that rule, in those words; where it takes a setting, without that none."""
    with_it, without = try_example(mistake.text, tmp_path / "set", mistake.setting), None
    if mistake.setting:
        without = try_example(mistake.text, tmp_path / "course")
    telling, silent = (with_it, without) if mistake.kept else (without, with_it)
    assert telling is not None
    assert silent is None or silent.proof.findings == ()
    findings = telling.proof.findings
    said = [(finding.severity.word, finding.rule, " ".join(finding.message.split())) for finding in findings]
    assert said == [(mistake.severity, mistake.rule, mistake.message)]


def test_mistakes_are_found_in_the_guide():
    """The harness sees them: a guide without a mistake in it would pass everything above."""
    assert len(MISTAKES) >= 50
    assert {mistake.severity for mistake in MISTAKES} == {"error", "query", "note"}
    assert len({mistake.rule for mistake in MISTAKES}) >= 35


NOT_YET = {
    "chromatic": "claims: chromatic\n\nAm | 5:0 5:2 5:3 - - - - -\n",
}


@pytest.mark.parametrize("text", NOT_YET.values(), ids=NOT_YET)
def test_what_the_guide_says_is_not_checked_yet_is_not(text, tmp_path):
    """When the proof learns one of these, the last section of the decisions has to be shortened."""
    assert try_example(text, tmp_path / "course").proof.findings == ()


def test_the_examples_of_the_language_proof_without_error_or_query(tmp_path):
    """The language's own description promises it of every example in it."""
    text = (Path(__file__).parent / "language_examples.md").read_text(encoding="utf-8")
    proofed = try_example(text, tmp_path / "course")
    assert [f.message for f in proofed.proof.findings if f.severity is not Severity.NOTE] == []
    assert proofed.course is not None
    assert len(proofed.course.blocks) == 12


def test_the_table_of_chords_is_complete():
    """Every spelling of every quality of the table of the theory stands in the guide."""
    words = set((LESSONS / "chords.md").read_text(encoding="utf-8").split())
    suffixes = [suffix for quality in QUALITIES.values() for suffix in quality.suffixes]
    assert [suffix for suffix in suffixes if f"C{suffix}" not in words] == []
    titles = (LESSONS / "chords.md").read_text(encoding="utf-8")
    assert [quality.title for quality in QUALITIES.values() if quality.title not in titles] == []
