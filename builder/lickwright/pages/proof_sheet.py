"""The proof sheet: every finding with its bars, its place and how to let it stand; then the statistics."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from lickwright.checks.groups import GROUPS
from lickwright.checks.work_list import in_order
from lickwright.findings import Finding, Severity
from lickwright.model.address import Address
from lickwright.model.orders import Engraved
from lickwright.pages.counting import capital, count, in_digits
from lickwright.pages.edition import Edition
from lickwright.pages.finding_bars import bars_of
from lickwright.pages.finding_view import FindingView, figures_of, finding_id, finding_view
from lickwright.pages.index import drafts_sentence
from lickwright.pages.markdown import Table
from lickwright.pages.page import Made, Page
from lickwright.pages.practice import glyphs_of
from lickwright.pages.remarks import Reading, RoleLine, role_line
from lickwright.pages.shelf import PROOF, shelf
from lickwright.pages.statistics import (
    NOT_CHECKED,
    coverage_of,
    curve_of,
    matrices,
    not_checked,
    rule_table,
    sign_offs,
)
from lickwright.pages.theme import SHEET_SCRIPTS
from lickwright.report.queries import is_asked, render_queries


@dataclass(frozen=True, slots=True)
class CountView:
    """``two queries``, with the way to the first of them."""

    words: str
    href: str


@dataclass(frozen=True, slots=True)
class Choice:
    """One word of a filter: what it lets through, and how many findings that are."""

    value: str
    words: str
    count: int


@dataclass(frozen=True, slots=True)
class Filters:
    """What the findings can be sifted by."""

    severities: tuple[Choice, ...]
    groups: tuple[Choice, ...]
    lessons: tuple[Choice, ...]


NOT_CHECKED_ID = "not-checked"
"""Of the list of claims that were not checked; the template's own."""


def proof_sheet(edition: Edition, *, guide: bool) -> Page:
    """Return the proof sheet.

    Args:
        edition: With its findings.
        guide: Whether the author's guide stands beside it.
    """
    findings = sheet_findings(edition)
    bars = bars_of(edition, findings)

    def render(made: Made) -> str:
        readings: dict[str, Reading] = {}
        views: list[FindingView] = []
        drawn: list[Engraved] = []
        for number, (finding, wanted) in enumerate(zip(findings, bars, strict=True), 1):
            figures, scores = figures_of(finding, wanted, made)
            drawn += scores
            roles = _roles(edition, finding, readings)
            views.append(finding_view(edition, finding, number, len(findings), figures, roles))
        licks = sum(piece.kind == "lick" for piece in edition.music.pieces)
        coverage = coverage_of(edition)
        return edition.theme.render(
            "proof_sheet.html",
            page=edition.view(PROOF, "Proof sheet", scripts=SHEET_SCRIPTS, glyphs=glyphs_of(drawn)),
            course=edition.course,
            counts=_counts(edition.findings, findings),
            read=f"{count(licks, 'lick')} read",
            stets=_stets(edition),
            blocked=_blocked(findings),
            stet_count=capital(f"{count(len(edition.standing), 'finding')} stand{_s(edition.standing)} by"),
            findings=views,
            filters=_filters(edition, views),
            tally=rule_table(edition.findings, edition),
            unchecked=not_checked(edition),
            signed=sign_offs(edition),
            matrices=matrices(coverage) if coverage else (),
            curve=curve_of(coverage) if coverage else None,
            queries=render_queries(findings, edition.course.title) if any(map(is_asked, findings)) else "",
            sources=_sources(edition),
            whose=_whose(edition),
            drafts=drafts_sentence(edition),
            shelf=shelf(PROOF, guide=guide)[1:],
        )

    return Page(PROOF, tuple(order for each in bars if each for order in each.orders), render)


def sheet_findings(edition: Edition) -> tuple[Finding, ...]:
    """Return the findings of the sheet in its order; claims that were not checked are a list of their own."""
    return in_order(edition.course, (f for f in edition.findings if f.rule != NOT_CHECKED))


def _roles(edition: Edition, finding: Finding, readings: dict[str, Reading]) -> RoleLine | None:
    piece, at = edition.music.piece(finding.lick), Address.parse(finding.address)
    if piece is None or at is None or not any(bar.number == at.bar for bar in piece.music.bars):
        return None
    if piece.name not in readings:
        readings[piece.name] = Reading.of(piece)
    return role_line(readings[piece.name], at)


def _counts(found: Sequence[Finding], shown: Sequence[Finding]) -> tuple[CountView, ...]:
    """Count all that was found, as the terminal does, with the way to the first that the sheet shows."""
    views = []
    number = Counter(finding.severity for finding in found)
    digits = in_digits(number.values())
    for severity in sorted(Severity, reverse=True):
        first = next((k for k, finding in enumerate(shown, 1) if finding.severity is severity), None)
        listed = f"#{NOT_CHECKED_ID}" if number[severity] else ""
        words = _plural(count(number[severity], severity.word, digits=digits))
        views.append(CountView(words, listed if first is None else f"#{finding_id(first)}"))
    return (CountView(capital(views[0].words), views[0].href), *views[1:])


def _plural(words: str) -> str:
    return words.replace("querys", "queries")


def _filters(edition: Edition, views: Sequence[FindingView]) -> Filters | None:
    """Only what is there can be chosen; a single finding needs no sieve."""
    if len(views) < 2:
        return None
    severities, groups = Counter(v.severity for v in views), Counter(v.group for v in views)
    lessons = Counter(v.lesson for v in views)
    titles = {lesson.name: lesson.title for lesson in (*edition.course.lessons, *edition.course.drafts)}
    names = {view.group: view.group_title for view in views}
    order = [*GROUPS, *sorted(names.keys() - GROUPS.keys())]
    return Filters(
        tuple(
            Choice(s.word, capital(_plural(f"{s.word}s")), severities[s.word])
            for s in sorted(Severity, reverse=True)
            if severities[s.word]
        ),
        tuple(Choice(group, names[group], groups[group]) for group in order if groups[group]),
        tuple(Choice(name, title, lessons[name]) for name, title in titles.items() if lessons[name]),
    )


def _stets(edition: Edition) -> Table | None:
    rows = tuple(
        (
            f"{stands.finding.lick} {stands.finding.address}".strip(),
            stands.finding.rule,
            stands.finding.message,
            stands.stet.reason,
            f"#{stands.seal}" if stands.seal else "",
        )
        for stands in edition.standing
    )
    return Table("Findings let stand", ("Where", "Rule", "Found", "Reason", "Seal"), rows) if rows else None


def _s(things: Sequence[object]) -> str:
    return "s" if len(things) == 1 else ""


def _blocked(findings: Sequence[Finding]) -> str:
    errors = sum(finding.severity is Severity.ERROR for finding in findings)
    mended = "the error is mended" if errors == 1 else "the errors are mended"
    return f"The course is not to be published until {mended}." if errors else ""


def _sources(edition: Edition) -> Table | None:
    """The licks that are not the author's own."""
    rows = tuple(
        (piece.title, piece.source.kind, piece.source.detail)
        for piece in edition.music.pieces
        if piece.kind == "lick" and piece.source.kind != "own"
    )
    return Table("Sources of the music", ("Lick", "Whose", "Where it is known from"), rows) if rows else None


def _whose(edition: Edition) -> str:
    kinds = [piece.source.kind for piece in edition.music.pieces if piece.kind == "lick"]
    if "own" not in kinds:
        return ""
    return (
        "All others are the author’s own." if set(kinds) - {"own"} else "All the music is the author’s own."
    )
