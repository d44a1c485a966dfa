"""A finding as the proof sheet prints it: its bars, its words, its notes, its line, its place."""

from __future__ import annotations

import re
from dataclasses import dataclass

from markupsafe import Markup

from lickwright.checks.catalogue import rules
from lickwright.checks.groups import GROUPS
from lickwright.checks.selection import list_paths
from lickwright.findings import Finding, Fix
from lickwright.model.address import Address
from lickwright.model.bar import ROW_KINDS
from lickwright.model.course import Lesson
from lickwright.model.orders import Engraved, Recorded
from lickwright.pages.counting import capital, sentence
from lickwright.pages.edition import Edition
from lickwright.pages.finding_bars import BarOrders, FindingBars
from lickwright.pages.links import relative
from lickwright.pages.page import Made
from lickwright.pages.player_data import sound_path
from lickwright.pages.remarks import RoleLine
from lickwright.pages.shelf import PROOF, rule_path
from lickwright.pages.typed import Run, TypedLine, is_near, lines_of, mended_lines
from lickwright.text import Span

_FRETTED = re.compile(r"(\d+):[th]?(\d+)[^\s\d]*")
"""A fretted note as typed, with no bend."""


@dataclass(frozen=True, slots=True)
class Fact:
    """An entry in the margin of a finding."""

    name: str
    text: str
    typed: bool = False
    href: str = ""


@dataclass(frozen=True, slots=True)
class Figure:
    """A bar of notation with its caption, and the address of its sound or nothing."""

    svg: Markup
    caption: str
    sound: str = ""


@dataclass(frozen=True, slots=True)
class FindingView:
    """A finding as the template prints it.

    Attributes:
        number: On the sheet, and in a list of queries, from 1; 0 is not printed.
        group, group_title: Of its rule. ``lesson``: the name, or empty.
        roles: What the notes of its bar do, or None.
        before, next: Ids of its neighbours on the sheet, or empty.
    """

    id: str
    number: int
    severity: str
    group: str
    group_title: str
    lesson: str
    message: str
    figures: tuple[Figure, ...]
    roles: RoleLine | None
    help: str
    lines: tuple[TypedLine, ...]
    labels: tuple[str, ...]
    facts: tuple[Fact, ...]
    before: str
    next: str


def finding_id(number: int) -> str:
    """Return the id of a finding by its number on the sheet, from 1."""
    return f"finding-{number}"


def finding_view(
    edition: Edition,
    finding: Finding,
    number: int,
    last: int,
    figures: tuple[Figure, ...],
    roles: RoleLine | None,
) -> FindingView:
    """Return a finding as the template prints it.

    Args:
        edition: Its course.
        finding: To be printed.
        number: On the sheet, from 1.
        last: The number of the last one.
        figures: Its bars.
        roles: What the notes of its bar do.
    """
    group, lesson = finding.rule.partition("/")[0], lesson_of(edition, finding)
    return FindingView(
        id=finding_id(number),
        number=number,
        severity=finding.severity.word,
        group=group,
        group_title=GROUPS.get(group, capital(group)),
        lesson=lesson.name if lesson else "",
        message=sentence(finding.message.rstrip(".")),
        figures=figures,
        roles=roles,
        help=sentence(finding.help.rstrip(".")),
        lines=(
            *lines_of(finding.span, [label.span for label in finding.labels]),
            *_mending(finding),
            *_stet_lines(edition, finding),
        ),
        labels=tuple(
            f"{label.span.source.path}:{label.span.place[0]}: {label.text}"
            for label in finding.labels
            if not (is_near(finding.span, label.span) and _is_row(label.span))
        ),
        facts=tuple(_facts(edition, finding, lesson)),
        before=finding_id(number - 1) if number > 1 else "",
        next=finding_id(number + 1) if number < last else "",
    )


def figures_of(
    finding: Finding, bars: FindingBars | None, made: Made, path: str = PROOF
) -> tuple[tuple[Figure, ...], list[Engraved]]:
    """Return the figures of a finding, and the scores they are made of; ``path`` is the page's."""
    at = Address.parse(finding.address)
    if bars is None or at is None:
        return (), []
    named = f"bar {at.bar}" if at.bar else "the pickup"
    wanted = [(f"As written, {named}", bars.written)]
    if bars.better:
        mended = f"Mended: {name_fix(finding.fix)}" if finding.fix else f"Mended, {named}"
        wanted.append((mended if bars.way == "mended" else f"As meant, {named}", bars.better))
    figures, scores = [], []
    for caption, orders in wanted:
        score = made(orders.score)
        if isinstance(score, Engraved) and score.systems:
            svg = Markup(score.systems[0].svg)  # noqa: S704 - the engraver's own
            figures.append(Figure(svg, caption, _sound(orders, made, path)))
            scores.append(score)
    return tuple(figures), scores


def _sound(orders: BarOrders, made: Made, path: str) -> str:
    recorded = made(orders.sound) if orders.sound else None
    return relative(sound_path(recorded), path) if isinstance(recorded, Recorded) else ""


def lesson_of(edition: Edition, finding: Finding) -> Lesson | None:
    """Return the lesson that a finding is in, drafts too."""
    lessons, paths = (*edition.course.lessons, *edition.course.drafts), list_paths(finding)
    return next((lesson for lesson in lessons if lesson.source.path in paths), None)


def _is_row(span: Span) -> bool:
    """Whether the line of a place says itself what it is: ``names | A C# E``."""
    return span.source.line(span.place[0]).partition("|")[0].strip() in ROW_KINDS


def name_fix(fix: Fix) -> str:
    """Return what a fix changes, as a guitarist says it: ``string 2, fret 12``; else in its own words."""
    put, _, why = fix.title.partition(": ")
    fretted = _FRETTED.fullmatch(put)
    return f"string {fretted[1]}, fret {fretted[2]}" if fretted else why or put


def _mending(finding: Finding) -> tuple[TypedLine, ...]:
    lines = mended_lines(finding.fix.edits) if finding.fix else ()
    if finding.fix is None or not lines:
        return ()
    put, _, why = finding.fix.title.partition(": ")  # what is put there is seen in the line
    return (_said(""), _said(f"mended: {why or put}"), *lines)


def _stet_lines(edition: Edition, finding: Finding) -> tuple[TypedLine, ...]:
    stet = edition.offers.stet(finding)
    return (_said(""), _said("to let it stand:"), _said(stet)) if stet else ()


def _said(text: str) -> TypedLine:
    return TypedLine(0, (Run(text),) if text else ())


def _facts(edition: Edition, finding: Finding, lesson: Lesson | None) -> list[Fact]:
    facts = []
    where = [*([lesson.title] if lesson else []), f"{finding.lick} {finding.address}".strip()]
    if any(where):
        facts.append(Fact("Where", ", ".join(word for word in where if word)))
    if path := finding.span.source.path:
        line, column = finding.span.place
        facts.append(Fact("File", f"{path}:{line}:{column}", typed=True))
    href = relative(rule_path(finding.rule), PROOF) if finding.rule in rules() else ""
    facts.append(Fact("Rule", finding.rule, typed=True, href=href))
    if mark := edition.offers.seal(finding):
        facts.append(Fact("Seal", f"#{mark}", typed=True))
    return facts
