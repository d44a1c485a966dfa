"""The handbook: a page a rule, drawn from its file.

Conventions: text is Markdown; examples are fenced as an author fences them.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from inspect import cleandoc

from lickwright.checks.catalogue import docstring, rules
from lickwright.checks.groups import GROUPS
from lickwright.checks.limits import LIMITS, Limit
from lickwright.checks.rule import Example, Rule


@dataclass(frozen=True, slots=True)
class Page:
    """A rule's page.

    Attributes:
        id: ``group/fault``. ``group``: the group's title.
        title: The fault in one line.
        severity: ``error``, ``query`` or ``note``: the most it comes to.
        text: What it finds, why it matters, what to do: Markdown paragraphs.
        source: Where the rule comes from.
        good, bad: Examples.
        limits: Thresholds that the manifest may set anew.
    """

    id: str
    group: str
    title: str
    severity: str
    text: str
    source: str
    good: tuple[Example, ...]
    bad: tuple[Example, ...]
    limits: tuple[Limit, ...] = ()

    @property
    def markdown(self) -> str:
        """The whole page."""
        parts = [f"# {self.title}", f"`{self.id}` · {self.severity}", self.text]
        if self.limits:
            rows = "\n".join(f"- `{x.name}` = {x.value:g} {x.unit}: {x.meaning}" for x in self.limits)
            parts.append(f"**Limits**, set anew under `[limits]` in `course.toml`:\n\n{rows}")
        if self.bad:
            parts.append("**Finds**\n\n" + "\n\n".join(map(fence, self.bad)))
        if self.good:
            parts.append("**Leaves alone**\n\n" + "\n\n".join(map(fence, self.good)))
        parts.append(f"**Source:** {self.source}")
        return "\n\n".join(parts) + "\n"


@lru_cache(maxsize=1)
def pages() -> tuple[Page, ...]:
    """Return every page, by group and name."""
    order = list(GROUPS)
    return tuple(
        _page(rule) for rule in sorted(rules().values(), key=lambda rule: (order.index(rule.group), rule.id))
    )


def page(rule_id: str) -> Page | None:
    """Return the page of a rule, or None when there is no such rule."""
    rule = rules().get(rule_id)
    return None if rule is None else _page(rule)


def _page(rule: Rule) -> Page:
    text = cleandoc(docstring(rule))
    for heading in ("Why it matters:", "What to do:"):
        text = text.replace(heading, f"**{heading}**")
    if rule.stettable:
        text += "\n\n**Stet:** it may be let stand, with a reason."
    else:
        why = f": {rule.no_stet}" if rule.no_stet else ""
        text += f"\n\n**Stet:** it cannot be let stand{why}."
    return Page(
        rule.id,
        GROUPS[rule.group],
        rule.title,
        rule.severity.word,
        text,
        f"{rule.source.kind}: {rule.source.text}",
        rule.good,
        rule.bad,
        tuple(limit for limit in LIMITS.values() if rule.id in limit.rules),
    )


def limits_table() -> str:
    """Return every limit as the guide shows it: a Markdown table for each group of rules.

    A limit is there with its name, its default, what it bounds and the rules that go by it.
    """
    parts = []
    for group, title in GROUPS.items():
        rows = [limit for limit in LIMITS.values() if limit.rules[0].startswith(f"{group}/")]
        if rows:
            lines = (f"| `{x.name}` | {x.value:g} {x.unit} | {_bounds(x)} | {_ruled(x)} |" for x in rows)
            head = "| limit | default | what it bounds | rules |\n| --- | --- | --- | --- |"
            parts.append(f"## {title}\n\n{head}\n" + "\n".join(lines))
    return "\n\n".join(parts)


def _ruled(limit: Limit) -> str:
    return " ".join(f"`{rule}`" for rule in limit.rules)


def _bounds(limit: Limit) -> str:
    return limit.meaning.removesuffix(" (own threshold)")


def fence(example: Example) -> str:
    """Return an example as an author would fence it in a lesson, shown as text; its other files by name."""
    shown = [_shown("toml", example.course or ""), _shown("markdown", lesson(example))]
    for path, body in example.files:
        if body is None:
            shown.append(f"and a folder `{path}`")
            continue
        text = body if isinstance(body, str) else body.decode("utf-8", errors="replace")
        shown.append(f"and a file `{path}`" + (f":\n\n{_shown('text', text)}" if text.strip() else ""))
    return "\n\n".join(block for block in shown if block)


def lesson(example: Example) -> str:
    """Return the lesson text of an example; one without a fence is the content of a lick."""
    text = example.text
    if not text or "```" in text or "~~~" in text or text.lstrip().startswith("#"):
        return text
    return f"```lick example\n{text}\n```"


def _shown(kind: str, text: str) -> str:
    return f"````{kind}\n{text.rstrip()}\n````" if text.strip() else ""
