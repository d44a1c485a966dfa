"""Every claim of the demo course with one word of it changed: found, listed as not checked, or silent.

The figures are printed (``pytest -s``). They count what an absent-minded writer would get told, not what is
true: a changed word now and then still agrees with its notes (two notes of a bar are the third of something).
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

import pytest
from changed_words import change, claimed, outcome, rewrite, sentences, unclaimed

from lickwright.checks.claims.claim import KINDS, Held
from lickwright.checks.claims.ledger import judge_links
from lickwright.checks.limits import set_limits
from lickwright.checks.subject import Subject
from lickwright.checks.survey import Survey
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course

CONTENT = Path(__file__).parents[3] / "content"
OUTCOMES = ("found", "listed", "silent")


@pytest.fixture(scope="module")
def survey() -> Survey:
    """The course, resolved once."""
    course, _ = read_course(CONTENT)
    assert course is not None
    book, _ = resolve(course)
    limits = set_limits(())
    return Survey(course, book, limits, {piece.name: Subject(piece, limits) for piece in book.pieces})


def count(survey: Survey, kinds: frozenset[str] | None) -> dict[str, Counter[str]]:
    """What comes of each changed word, by kind of term; ``kinds`` None for words that no claim is made of."""
    counts: dict[str, Counter[str]] = {}
    for links in sentences(survey.course):
        for term in unclaimed(links, survey) if kinds is None else claimed(links, survey, kinds):
            words = change(term)
            if term.kind != "hedge" and words is not None and words != term.text:
                counts.setdefault(term.kind, Counter())[outcome(rewrite(links, term, words), survey)] += 1
    return counts


def show(title: str, counts: dict[str, Counter[str]]) -> Counter[str]:
    """Print a table of counts and return their sum."""
    total: Counter[str] = sum(counts.values(), Counter())
    lines = [f"{title}: " + ", ".join(f"{total[o]} {o}" for o in OUTCOMES) + f" of {total.total()}"]
    lines += [
        f"  {kind:<10}" + "".join(f"{here[o]:>6}" for o in OUTCOMES) for kind, here in sorted(counts.items())
    ]
    sys.stdout.write("\n" + "\n".join(lines) + "\n")
    return total


def test_a_changed_word_of_a_claim_is_told(survey: Survey) -> None:
    """Nearly every change of what words claim of a link is found; of what stands beside, half is told."""
    tied = show("Claims about a link", count(survey, frozenset(KINDS) - {"mention"}))
    beside = show("Words beside the links", count(survey, frozenset({"mention"})))
    assert tied["found"] >= 0.98 * tied.total()
    assert beside["found"] + beside["listed"] >= 0.5 * beside.total()


def test_what_sends_a_hand_somewhere_is_never_passed_over(survey: Survey) -> None:
    """A string, a fret, a finger, a stroke, a bar of a link; a note hardly ever (``G sharp and G sharp``)."""
    counts = count(survey, frozenset(KINDS) - {"mention"})
    for kind in ("string", "fret", "finger", "stroke", "bar", "chord", "count"):
        assert counts[kind]["silent"] == 0, kind
    assert counts["note"]["silent"] <= 0.01 * counts["note"].total()


def test_words_that_claim_nothing_are_few(survey: Survey) -> None:
    """What no claim is made of is counting (``the first``, ``the second``), and what a hedge takes back."""
    rest = show("Words that claim nothing", count(survey, None))
    claims = sum(count(survey, frozenset(KINDS)).values(), Counter())
    assert rest.total() < 0.15 * claims.total()


def test_the_course_as_it_stands(survey: Survey) -> None:
    """Every claim is held, and nothing is left unchecked."""
    verdicts = [one.verdict for links in sentences(survey.course) for one in judge_links(links, survey)]
    sys.stdout.write(f"\n{len(verdicts)} claims\n")
    assert len(verdicts) > 900
    assert all(isinstance(verdict, Held) for verdict in verdicts)
