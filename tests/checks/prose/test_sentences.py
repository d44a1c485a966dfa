"""What is said of sentences that do not agree with their notes, and of those that do."""

from __future__ import annotations

from pathlib import Path

import pytest
from proofroom import Proofroom
from sentences import HERE, Case, list_sentences, load_cases, prove_each

from lickwright.findings import Finding

LICKS = (HERE / "claims" / "licks.md").read_text("utf-8")
DIFFERING = load_cases("prose/differing.md")
AGREEING = list_sentences("prose/agreeing.md")


@pytest.fixture(scope="module")
def findings(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[Finding]]:
    """What the proof finds in each sentence, all of them in one lesson."""
    sentences = [*(case.sentence for case in DIFFERING), *AGREEING]
    return prove_each(Proofroom(tmp_path_factory.mktemp("prose")), LICKS, sentences)


@pytest.fixture(scope="module")
def found(findings: dict[str, list[Finding]]) -> dict[str, list[str]]:
    """The same as the fixture writes it."""
    return {sentence: [say(finding) for finding in here] for sentence, here in findings.items()}


def say(finding: Finding) -> str:
    """A finding in a line: severity, rule, the words marked, the message."""
    words = " ".join(finding.span.text.split())
    return f"{finding.severity.word} {finding.rule} «{words}» {finding.message}"


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


# a sentence's first finding | what its help says
HELPS = """
It walks up, [A, B, C sharp](lick:walk@1.1-1.3). | Write C, link 1.4, which is C sharp, or mend the notes
[A](lick:walk@1.1) is the third. | Write “the root”, or say what it counts from
[A harmonic](lick:walk@1.1), [a tremolo](lick:walk@1.1), [a double stop](lick:walk@1.1). | \
Every note is plainly struck there; mend the word, or the sign in the notes
[A half-step bend](lick:bend@1.1). | Write a whole step, or mend the fret it is bent to
[A on the fourth string](lick:walk@1.1) | Write “the fifth string”, or mend the string in the notes
[B](lick:walk@1.2) with the little finger. | Write the first finger, or mend the lh row
[A downstroke](lick:walk@1.2). | Write “upstroke”, or mend the rh row
[Bar 2](lick:walk@1). | Write bar 1, or link a sound of bar 2
[an E minor chord](lick:pairs@2) | G sharp is not in it: write E7, or name what the notes spell
[A lick in the key of E](lick:walk). | Write A major, or mend the key of the lick
[The triplet](lick:round@2.1-2.2) takes one beat. | Link 1.1-1.3, which is a triplet; or else write what is \
there, half notes, or put the notes into a group
[A, B, C](lick:walk@1.2-1.4), they say. | Link 1.1-1.3, which is A, B, C; or else write B, or mend the notes
The [IV chord](lick:pairs@2). | Write “the V chord”, or mend the chord in the margin
"""


@pytest.mark.parametrize("row", HELPS.strip().splitlines())
def test_the_help_says_what_to_write(findings: dict[str, list[Finding]], row: str) -> None:
    """What the notes are, in words that can stand in the sentence, or what else to mend."""
    sentence, wanted = (cell.strip() for cell in row.split(" | "))
    assert findings[sentence][0].help == wanted


def test_every_finding_has_a_help(findings: dict[str, list[Finding]]) -> None:
    """No finding about words leaves its author alone."""
    assert [say(finding) for here in findings.values() for finding in here if not finding.help] == []
