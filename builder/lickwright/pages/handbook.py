"""The handbook: what the builder looks for, a page a rule, made from the rule files themselves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from lickwright.checks import handbook
from lickwright.checks.rule import Example
from lickwright.pages.counting import capital
from lickwright.pages.edition import Edition
from lickwright.pages.links import relative
from lickwright.pages.markdown import plain
from lickwright.pages.page import Made, Page
from lickwright.pages.shelf import HANDBOOK, Entry, Group, rule_path, shelf
from lickwright.pages.typed import Run, TypedLine


@dataclass(frozen=True, slots=True)
class ExamplesView:
    """Examples as typed, the places of their findings underlined."""

    heading: str
    texts: tuple[tuple[TypedLine, ...], ...]


@dataclass(frozen=True, slots=True)
class RuleView:
    """A rule as its page prints it."""

    name: str
    title: str
    group: str
    severity: str
    text: Markup
    examples: tuple[ExamplesView, ...]


def handbook_pages(edition: Edition, *, guide: bool) -> tuple[Page, ...]:
    """Return the contents and a page for each rule; they order nothing."""
    known = handbook.pages()
    return (
        _contents(edition, known, guide=guide),
        *(_rule_page(edition, rule, guide=guide) for rule in known),
    )


def _contents(edition: Edition, known: Sequence[handbook.Page], *, guide: bool) -> Page:
    def render(_: Made) -> str:
        groups = [
            Group(group, tuple(_entry(rule) for rule in known if rule.group == group))
            for group in dict.fromkeys(rule.group for rule in known)
        ]
        return edition.theme.render(
            "contents.html",
            page=edition.view(HANDBOOK, "The handbook of rules"),
            course=edition.course,
            deck="What the builder looks for when it proofs a course, one rule a page",
            groups=groups,
            shelf=shelf(HANDBOOK, guide=guide),
        )

    return Page(HANDBOOK, (), render)


def _entry(rule: handbook.Page) -> Entry:
    href = relative(rule_path(rule.id), HANDBOOK)
    return Entry(capital(rule.title), href, fact=rule.severity, typed=rule.id)


def _rule_page(edition: Edition, rule: handbook.Page, *, guide: bool) -> Page:
    path = rule_path(rule.id)

    def render(_: Made) -> str:
        limits = "\n".join(f"- `{x.name}` = {x.value:g} {x.unit}: {x.meaning}" for x in rule.limits)
        if limits:
            limits = "Limits, to be set anew under `[limits]` in `course.toml`:\n\n" + limits
        view = RuleView(
            name=rule.id,
            title=capital(rule.title),
            group=rule.group,
            severity=rule.severity,
            text=plain(f"{rule.text}\n\n{limits}\n\n*Source, {rule.source}*"),
            examples=(_examples("Found here", rule.bad), _examples("Left alone", rule.good)),
        )
        return edition.theme.render(
            "rule.html",
            page=edition.view(path, view.title),
            course=edition.course,
            rule=view,
            shelf=shelf(path, guide=guide),
        )

    return Page(path, (), render)


def _examples(heading: str, examples: Sequence[Example]) -> ExamplesView:
    return ExamplesView(heading, tuple(text for example in examples for text in _typed(example)))


def _typed(example: Example) -> Iterator[tuple[TypedLine, ...]]:
    """The example's own manifest, its lesson, its further files; marks in the order given."""
    marks = list(example.marks)
    for text in (example.course, handbook.lesson(example), *(body for _, body in example.files)):
        if text and text.strip():
            shown = text if isinstance(text, str) else text.decode(errors="replace")
            yield tuple(_marked_lines(shown, marks))


def _marked_lines(text: str, marks: list[str]) -> Iterator[TypedLine]:
    for line in text.strip("\n").split("\n"):
        runs, rest = [], line
        while marks and marks[0] and marks[0] in rest:
            before, mark, rest = rest.partition(marks.pop(0))
            runs += [Run(before), Run(mark, marked=True)]
        runs.append(Run(rest))
        yield TypedLine(0, tuple(run for run in runs if run.text))
