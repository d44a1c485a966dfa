"""The proof sheet: every finding with its bar as written, its place, and how to let it stand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from lickwright.checks.catalogue import rules
from lickwright.checks.stets import seal
from lickwright.findings import Finding, Severity
from lickwright.model.address import Address, AddressRange
from lickwright.model.orders import Engraved, ScoreOrder
from lickwright.model.reduced import for_score
from lickwright.model.timeline.excerpt import excerpt_music
from lickwright.pages.counting import capital, count
from lickwright.pages.edition import Edition
from lickwright.pages.index import drafts_sentence
from lickwright.pages.links import relative
from lickwright.pages.markdown import Table
from lickwright.pages.page import Made, Page
from lickwright.pages.practice import glyphs_of
from lickwright.pages.prefixes import short_prefixes
from lickwright.pages.shelf import PROOF, rule_path, shelf
from lickwright.pages.typed import Run, TypedLine, lines_of, mended_lines


@dataclass(frozen=True, slots=True)
class Fact:
    """An entry in the margin of a finding."""

    name: str
    text: str
    typed: bool = False
    href: str = ""


@dataclass(frozen=True, slots=True)
class Figure:
    """A bar of notation with its caption."""

    svg: Markup
    caption: str


@dataclass(frozen=True, slots=True)
class FindingView:
    """A finding as the template prints it."""

    id: str
    severity: str
    message: str
    figures: tuple[Figure, ...]
    help: str
    lines: tuple[TypedLine, ...]
    labels: tuple[str, ...]
    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class CountView:
    """``two queries``, with the way to the first of them."""

    words: str
    href: str


def proof_sheet(edition: Edition, *, guide: bool) -> Page:
    """Return the proof sheet.

    Args:
        edition: With its findings.
        guide: Whether the author's guide stands beside it.
    """
    prefixes = _prefixes(edition.findings)
    orders = {
        k: order
        for k, (finding, prefix) in enumerate(zip(edition.findings, prefixes, strict=True), 1)
        if (order := bar_order(edition, finding, prefix))
    }

    def render(made: Made) -> str:
        drawn = {k: score for k, order in orders.items() if isinstance(score := made(order), Engraved)}
        views = [
            finding_view(edition, finding, k, drawn.get(k)) for k, finding in enumerate(edition.findings, 1)
        ]
        licks = sum(piece.kind == "lick" for piece in edition.music.pieces)
        standing = len(edition.standing)
        return edition.theme.render(
            "proof_sheet.html",
            page=edition.view(PROOF, "Proof sheet", glyphs=glyphs_of(drawn.values())),
            course=edition.course,
            counts=_counts(edition.findings),
            read=f"{count(licks, 'lick')} read",
            stets=_stets(edition),
            stet_count=capital(f"{count(standing, 'finding')} let stand, with the reasons") + ".",
            findings=views,
            sources=_sources(edition),
            drafts=drafts_sentence(edition),
            shelf=shelf(PROOF, guide=guide)[1:],
        )

    return Page(PROOF, tuple(orders.values()), render)


def _prefixes(findings: Sequence[Finding]) -> list[str]:
    """A prefix for each finding's bar, by what it says: one more finding leaves the other bars as made."""
    told: Counter[str] = Counter()
    names = []
    for finding in findings:
        name = f"{finding.rule}\n{finding.lick}\n{finding.address}\n{finding.message}"
        told[name] += 1
        names.append(f"{name}\n{told[name]}")
    prefixes = short_prefixes(names)
    return [prefixes[name] for name in names]


def bar_order(edition: Edition, finding: Finding, prefix: str) -> ScoreOrder | None:
    """Return the order of the bar a finding is about, its sound marked; None where there is no bar."""
    piece, at = edition.music.piece(finding.lick), Address.parse(finding.address)
    if piece is None or at is None:
        return None
    bar = Address(at.bar)
    music = excerpt_music(piece.music, AddressRange(bar, bar))
    if music is None:
        return None
    marks = (at,) if at.sound is not None and music.sound(at) else ()
    return ScoreOrder(for_score(music), prefix=prefix, width="narrow", marks=marks, for_lick=piece.name)


def finding_view(edition: Edition, finding: Finding, number: int, engraved: Engraved | None) -> FindingView:
    """Return a finding as the template prints it."""
    figures: tuple[Figure, ...] = ()
    if engraved and engraved.systems:
        bar = Address.parse(finding.address)
        caption = f"As written, bar {bar.bar}" if bar and bar.bar else "As written, the pickup"
        svg = Markup(engraved.systems[0].svg)  # noqa: S704 - the engraver's own
        figures = (Figure(svg, caption),)
    return FindingView(
        id=f"finding-{number}",
        severity=finding.severity.word,
        message=capital(finding.message.rstrip(".")),
        figures=figures,
        help=capital(finding.help),
        lines=(*lines_of(finding.span), *_mending(finding), *_stet_lines(edition, finding)),
        labels=tuple(
            f"{label.span.source.path}:{label.span.place[0]}: {label.text}" for label in finding.labels
        ),
        facts=tuple(_facts(edition, finding)),
    )


def _mending(finding: Finding) -> tuple[TypedLine, ...]:
    lines = mended_lines(finding.fix.edits) if finding.fix else ()
    return (_said(""), _said(f"mended: {finding.fix.title}"), *lines) if finding.fix and lines else ()


def _stet_lines(edition: Edition, finding: Finding) -> tuple[TypedLine, ...]:
    rule, mark = rules().get(finding.rule), _seal(edition, finding)
    if not mark or rule is None or not rule.stettable or finding.rule.startswith("stet/"):
        return ()
    address = f" {finding.address}" if finding.address else ""
    return (_said(""), _said("to let it stand:"), _said(f'stet: {finding.rule}{address} #{mark} "…"'))


def _said(text: str) -> TypedLine:
    return TypedLine(0, (Run(text),) if text else ())


def _seal(edition: Edition, finding: Finding) -> str:
    piece = edition.music.piece(finding.lick)
    return seal(piece.music, Address.parse(finding.address)) if piece else ""


def _facts(edition: Edition, finding: Finding) -> list[Fact]:
    facts = []
    path = finding.span.source.path
    lessons = (*edition.course.lessons, *edition.course.drafts)
    lesson = next((lesson for lesson in lessons if lesson.source.path == path), None)
    where = [*([lesson.title] if lesson else []), f"{finding.lick} {finding.address}".strip()]
    if any(where):
        facts.append(Fact("Where", ", ".join(word for word in where if word)))
    if path:
        line, column = finding.span.place
        facts.append(Fact("File", f"{path}:{line}:{column}", typed=True))
    href = relative(rule_path(finding.rule), PROOF) if finding.rule in rules() else ""
    facts.append(Fact("Rule", finding.rule, typed=True, href=href))
    if mark := _seal(edition, finding):
        facts.append(Fact("Seal", f"#{mark}", typed=True))
    return facts


def _counts(findings: Sequence[Finding]) -> tuple[CountView, ...]:
    views = []
    for severity in sorted(Severity, reverse=True):
        places = [k for k, finding in enumerate(findings, 1) if finding.severity is severity]
        words = count(len(places), severity.word).replace("querys", "queries")
        views.append(CountView(words, f"#finding-{places[0]}" if places else ""))
    return (CountView(capital(views[0].words), views[0].href), *views[1:])


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


def _sources(edition: Edition) -> Table | None:
    rows = tuple(
        (piece.title, piece.source.kind, piece.source.detail)
        for piece in edition.music.pieces
        if piece.kind == "lick"
    )
    return Table("Sources of the music", ("Lick", "Whose", "Where it is known from"), rows) if rows else None
