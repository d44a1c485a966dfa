"""The statistics of a proof sheet: rules, claims not checked, sign-offs, what the course covers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from lickwright.checks.catalogue import rules
from lickwright.checks.coverage import KINDS, Coverage, Kind, cover
from lickwright.checks.signing import list_sign_offs
from lickwright.checks.tally import count_rules
from lickwright.findings import Finding
from lickwright.pages.counting import capital, signs
from lickwright.pages.edition import Edition
from lickwright.pages.finding_view import lesson_of
from lickwright.pages.links import relative
from lickwright.pages.markdown import Table
from lickwright.pages.shelf import PROOF, rule_path

NOT_CHECKED = "prose/not-checked"
"""Notes of this rule are one list on the sheet, not findings one by one."""
TITLES: dict[Kind, str] = {
    "technique": "Techniques",
    "key": "Keys",
    "position": "Positions",
    "tempo": "Beats a minute",
}
NONE = "·"
_STEP, _RISE, _EDGE = 48, 32, 6  # of the curve, in its own units


@dataclass(frozen=True, slots=True)
class Matrix:
    """A table with a column a lesson and a row a thing.

    Attributes:
        lessons: Numbers of the lessons, in the order of study.
        rows: Name, a cell a lesson, and what is out of the common or nothing.
    """

    title: str
    lessons: tuple[str, ...]
    rows: tuple[tuple[str, tuple[str, ...], str], ...]


@dataclass(frozen=True, slots=True)
class Curve:
    """How hard the hardest lick of each lesson is.

    Attributes:
        table: In numbers.
        width, height: Of the picture.
        points: Of its line, as SVG has them; ``dots``: the same one by one.
    """

    table: Table
    width: int
    height: int
    points: str
    dots: tuple[tuple[int, int], ...]


def rule_table(findings: Sequence[Finding], edition: Edition) -> Table | None:
    """Return findings and stets by rule; a rule that stands more often than not is to be reconsidered."""
    rows = tuple(
        (
            _rule_link(each.rule),
            str(each.found),
            str(each.standing),
            "to reconsider" if each.to_reconsider else "",
        )
        for each in count_rules(findings, edition.standing)
    )
    return Table("Findings by rule", ("Rule", "Found", "Let stand", ""), rows) if rows else None


def _rule_link(rule: str) -> str:
    """A rule's name, leading to its page in the handbook where it has one."""
    if rule not in rules():
        return rule
    return Markup('<a class="typed" href="{}">{}</a>').format(relative(rule_path(rule), PROOF), rule)


def not_checked(edition: Edition) -> Table | None:
    """Return the claims in the prose that could not be held against the notes."""
    rows = []
    for finding in edition.findings:
        if finding.rule != NOT_CHECKED:
            continue
        lesson = lesson_of(edition, finding)
        place = f"{finding.lick} {finding.address}".strip()
        title = lesson.title if lesson else finding.span.source.path
        rows.append((title, str(finding.span.place[0]), place, capital(finding.message)))
    head = ("Lesson", "Line", "Notes", "What was said")
    return Table("Claims in the prose that were not checked", head, tuple(rows)) if rows else None


def sign_offs(edition: Edition) -> Table | None:
    """Return how far each lesson is."""
    rows = tuple(
        (each.lesson.title, each.state, each.signature.by if each.signature else "")
        for each in list_sign_offs(edition.course, edition.music)
    )
    return Table("Lessons proofread and passed", ("Lesson", "State", "By"), rows) if rows else None


def coverage_of(edition: Edition) -> Coverage | None:
    """Return what the course covers; None for one without lessons."""
    found = cover(edition.course, edition.music)
    return found if found.lessons else None


def matrices(coverage: Coverage) -> tuple[Matrix, ...]:
    """Return one table for each kind of thing that a course covers."""
    numbers = tuple(str(number) for number in range(1, len(coverage.lessons) + 1))
    made = []
    for kind in KINDS:
        rows = []
        for row in coverage.of(kind):
            said = ""
            if kind == "technique" and row.spoken is None:
                said = "not spoken of"
            elif row.spoken is not None and row.spoken > row.first:
                said = f"spoken of from {row.spoken + 1}"
            cells = tuple(str(licks or NONE) for licks in row.licks)
            rows.append((capital(row.name if kind != "key" else signs_of_key(row.name)), cells, said))
        if rows:
            made.append(Matrix(TITLES[kind], numbers, tuple(rows)))
    return tuple(made)


def signs_of_key(name: str) -> str:
    """Return a key with printed accidentals: ``B♭ major``."""
    tonic, _, mode = name.partition(" ")
    return f"{tonic[:1]}{signs(tonic[1:])} {mode}".strip()


def curve_of(coverage: Coverage) -> Curve:
    """Return the curve of difficulty."""
    rows, dots = [], []
    scores = [step.difficulty.score if step else None for step in coverage.curve]
    top = max((score for score in scores if score is not None), default=0.0)
    height = 2 * _EDGE + round(_RISE * top)
    for number, (title, step, score) in enumerate(
        zip(coverage.lessons, coverage.curve, scores, strict=True), 1
    ):
        told = "" if score is None else f"{score:.1f}"
        rows.append((str(number), title, step.lick if step else "", told))
        if score is not None:
            dots.append((_EDGE + _STEP * (number - 1), height - _EDGE - round(_RISE * score)))
    table = Table("The hardest lick of each lesson", ("", "Lesson", "Lick", "Difficulty"), tuple(rows))
    width = 2 * _EDGE + _STEP * (len(rows) - 1)
    return Curve(table, width, height, " ".join(f"{x},{y}" for x, y in dots), tuple(dots))
