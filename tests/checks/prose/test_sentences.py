"""What is said of sentences that do not agree with their notes, and of those that do."""

from __future__ import annotations

from pathlib import Path

import pytest
from proofroom import Proofroom
from sentences import HERE, Case, load_cases

LICKS = (HERE / "claims" / "licks.md").read_text("utf-8")
DIFFERING = load_cases("prose/differing.md")
AGREEING = [
    line.removeprefix("- ")
    for line in (HERE / "prose" / "agreeing.md").read_text("utf-8").splitlines()
    if line.startswith("- ")
]


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[str]]:
    """What the proof says of each sentence, all of them in one lesson."""
    text = LICKS
    lines: dict[int, str] = {}
    sentences = [*(case.sentence for case in DIFFERING), *AGREEING]
    for sentence in sentences:
        text += f"\n{sentence}\n"
        lines[text.count("\n")] = sentence
    said: dict[str, list[str]] = {sentence: [] for sentence in sentences}
    for finding in Proofroom(tmp_path_factory.mktemp("prose")).prove(text).findings:
        sentence = lines[finding.span.place[0]]
        words = " ".join(finding.span.text.split())
        said[sentence].append(f"{finding.severity.word} {finding.rule} «{words}» {finding.message}")
    return said


@pytest.mark.parametrize("case", [pytest.param(c, id=c.title) for c in DIFFERING])
def test_what_differs_is_found(found: dict[str, list[str]], case: Case) -> None:
    """Each sentence gives exactly the findings under it, each at its own words."""
    assert found[case.sentence] == case.expected


@pytest.mark.parametrize("sentence", AGREEING)
def test_what_agrees_is_silent(found: dict[str, list[str]], sentence: str) -> None:
    """Nothing is said of a sentence that is true, or that claims nothing."""
    assert found[sentence] == []


def test_the_licks_themselves_are_clean(tmp_path: Path) -> None:
    """What is found is found in the words."""
    assert Proofroom(tmp_path).prove(LICKS).findings == ()
