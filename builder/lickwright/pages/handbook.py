"""The handbook: what the builder looks for, a page a rule, made from the rule files themselves."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from lickwright.checks.catalogue import docstring, rules
from lickwright.checks.rule import Example, Rule
from lickwright.pages.counting import capital
from lickwright.pages.edition import Edition
from lickwright.pages.links import relative
from lickwright.pages.markdown import plain
from lickwright.pages.page import Made, Page
from lickwright.pages.shelf import HANDBOOK, rule_path, shelf
from lickwright.pages.typed import Run, TypedLine

Guide = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class ExampleView:
    """An example as typed, the place of the finding underlined."""

    heading: str
    says: str
    lines: tuple[TypedLine, ...]


@dataclass(frozen=True, slots=True)
class RuleView:
    """A rule as its page prints it."""

    name: str
    title: str
    group: str
    severity: str
    text: Markup
    examples: tuple[ExampleView, ...]


@dataclass(frozen=True, slots=True)
class RuleEntry:
    """A rule in the handbook's contents."""

    name: str
    title: str
    severity: str
    href: str


@dataclass(frozen=True, slots=True)
class GroupView:
    """A group of rules in the handbook's contents."""

    title: str
    rules: tuple[RuleEntry, ...]


def handbook_pages(edition: Edition, guide: Guide) -> tuple[Page, ...]:
    """Return the contents and a page for each rule; they order nothing."""
    known = rules()
    return (_contents(edition, known, guide), *(_rule_page(edition, rule, guide) for rule in known.values()))


def _contents(edition: Edition, known: Mapping[str, Rule], guide: Guide) -> Page:
    def render(_: Made) -> str:
        groups = [
            GroupView(
                capital(group),
                tuple(
                    RuleEntry(
                        rule.id,
                        capital(rule.title),
                        rule.severity.word,
                        relative(rule_path(rule.id), HANDBOOK),
                    )
                    for rule in known.values()
                    if rule.group == group
                ),
            )
            for group in dict.fromkeys(rule.group for rule in known.values())
        ]
        return edition.theme.render(
            "handbook.html",
            page=edition.view(HANDBOOK, "The handbook of rules"),
            course=edition.course,
            groups=groups,
            shelf=shelf(HANDBOOK, guide),
        )

    return Page(HANDBOOK, (), render)


def _rule_page(edition: Edition, rule: Rule, guide: Guide) -> Page:
    path = rule_path(rule.id)

    def render(_: Made) -> str:
        text = f"{docstring(rule).strip()}\n\nSource: {rule.source.text} ({rule.source.kind})."
        view = RuleView(
            name=rule.id,
            title=capital(rule.title),
            group=rule.group,
            severity=rule.severity.word,
            text=plain(text),
            examples=(*_examples(rule.bad, "Found here"), *_examples(rule.good, "Good as it is")),
        )
        return edition.theme.render(
            "rule.html",
            page=edition.view(path, view.title),
            course=edition.course,
            rule=view,
            shelf=shelf(path, guide),
        )

    return Page(path, (), render)


def _examples(examples: Sequence[Example], heading: str) -> list[ExampleView]:
    return [
        ExampleView(heading if k == 0 else f"{heading} too", "", _marked(example))
        for k, example in enumerate(examples)
    ]


def _marked(example: Example) -> tuple[TypedLine, ...]:
    """Part an example into lines, the marked texts underlined in the order given."""
    lines = []
    marks = list(example.marks)
    for line in example.text.strip("\n").split("\n"):
        runs, rest = [], line
        while marks and marks[0] and (found := re.search(re.escape(marks[0]), rest)):
            runs += [Run(rest[: found.start()]), Run(found[0], marked=True)]
            rest = rest[found.end() :]
            marks.pop(0)
        runs.append(Run(rest))
        lines.append(TypedLine(0, tuple(run for run in runs if run.text)))
    return tuple(lines)
