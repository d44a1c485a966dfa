"""``lickwright explain``: the handbook's page of a rule, or the guide's page of a topic."""

from __future__ import annotations

import re
from dataclasses import replace
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

import click

from lickwright.cli.speech import say

if TYPE_CHECKING:
    from lickwright.checks.rule import Example
    from lickwright.findings import Finding

MANIFEST = """[course]
title = "Example"
author = "An author"
key = "A major"
tempo = 120
feel = "straight"

[[unit]]
title = "One"
lessons = ["example.md"]
"""
"""The course around an example that has no manifest of its own."""

GUIDE = files("lickwright") / "guide" / "lessons"
MOST = 5
"""Topics that are named for a word."""


@click.command
@click.argument("words", metavar="[RULE-or-TOPIC]", nargs=-1)
def explain(words: tuple[str, ...]) -> None:
    """Explain a rule, `rhythm/bar-length`, or a topic of the author's guide.

    A word that is neither lists the topics that tell of it. Without a name, list what there is.
    """
    topic = " ".join(words)
    if not topic:
        say(contents())
        return
    page = guide_page(topic) if "/" not in topic else rule_page(topic)
    if page is None and (told := topics_with(topic)):
        say("\n".join((f"{topic} is told in these topics:", *(f"  {name}" for name in told))))
        return
    if page is None:
        raise click.UsageError(_unknown(topic))
    say(page)


def contents() -> str:
    """Return the names of all topics and rules, one a line."""
    topics = [f"  {name}" for name in topics_of_the_guide()]
    rules = [f"  {rule:32} {title}" for rule, title in titles().items()]
    return "\n".join(("Topics of the author's guide:", *topics, "", "Rules:", *rules))


def titles() -> dict[str, str]:
    """Return the title of every rule by its name, in the order of the handbook."""
    from lickwright.building.failures import HANDBOOK
    from lickwright.checks.handbook import pages

    ours = {page.id: page.title for page in pages()}
    return ours | {rule: title for rule, (title, _) in HANDBOOK.items()}


def topics_of_the_guide() -> list[str]:
    """Return the names of the guide's pages, in alphabetical order."""
    pages = GUIDE.iterdir() if GUIDE.is_dir() else ()
    return sorted(page.name.removesuffix(".md") for page in pages if page.name.endswith(".md"))


def guide_page(topic: str) -> str | None:
    """Return a page of the guide as it is written, or None; ``proof sheet`` is the page ``proof-sheet``."""
    name = "-".join(topic.lower().split())
    if name not in topics_of_the_guide():
        return None
    return (GUIDE / f"{name}.md").read_text(encoding="utf-8").rstrip()


def topics_with(word: str) -> list[str]:
    """Return the topics that tell of a word, the likeliest first.

    Those that have it in a heading, in any of its forms, or as a row of a table come before those that use
    it as a field, and these before those that begin a line of a list with it or set it in bold; those that
    only say it are named where there are no others. A compound that nobody tells of is looked up by its
    first word.
    """
    said = rf"{re.escape(word)}s?(?![\w-])"
    form = rf"{re.escape(word)}(?:s|ed|ing|ning|ned)?(?![\w-])"
    pages = {name: guide_page(name) or "" for name in topics_of_the_guide()}

    def having(pattern: str) -> list[str]:
        sought = re.compile(pattern, re.IGNORECASE | re.MULTILINE)
        return [name for name, text in pages.items() if sought.search(text)]

    told = having(rf"^(?:#+ .*\b{form}|(?:[-|] *)?`{said}|{said} {{2,}}\S)")
    told += having(rf"^{said} ?[:=]")
    told += having(rf"^(?:- (?:(?:a|an|the) )?|\*\*.*){said}")
    found = list(dict.fromkeys(told or having(rf"\b{said}")))[:MOST]
    first = word.partition("-")[0]
    return found or (topics_with(first) if first and first != word else [])


def rule_page(rule: str) -> str | None:
    """Return the handbook's page of a rule, or None."""
    from lickwright.building.failures import HANDBOOK, WARNING
    from lickwright.checks.handbook import page
    from lickwright.report.text import render_text

    if rule in HANDBOOK:
        title, text = HANDBOOK[rule]
        return f"# {title}\n\n`{rule}` · {'note' if rule == WARNING else 'error'}\n\n{text}"
    found = page(rule)
    if found is None:
        return None
    said = [finding for example in found.bad for finding in _find(example) if finding.rule == rule]
    words = sorted({finding.severity for finding in said}, reverse=True)
    severity = " or ".join(severity.word for severity in words) or found.severity
    told = render_text(said).rsplit("\n\n", 1)[0] if said else ""
    text = replace(found, severity=severity).markdown.rstrip()
    return f"{text}\n\n**What it says** of what it finds above:\n\n````text\n{told}\n````" if told else text


def _find(example: Example) -> tuple[Finding, ...]:
    """Proof an example in a small course of its own."""
    from tempfile import TemporaryDirectory

    from lickwright.building.proofing import proof_course
    from lickwright.checks.handbook import lesson

    with TemporaryDirectory() as made:
        folder = Path(made)
        (folder / "lessons").mkdir()
        if example.course is not None:
            (folder / "course.toml").write_text(example.course or MANIFEST, encoding="utf-8")
        (folder / "lessons" / "example.md").write_text(lesson(example), encoding="utf-8")
        for path, body in example.files:
            place = folder / path
            place.parent.mkdir(parents=True, exist_ok=True)
            if body is None:
                place.mkdir()
            else:
                place.write_bytes(body.encode() if isinstance(body, str) else body)
        return proof_course(folder).proof.findings


def _unknown(topic: str) -> str:
    from difflib import get_close_matches

    near = get_close_matches(topic, [*titles(), *topics_of_the_guide()], n=3)
    hint = f"; did you mean {' or '.join(near)}?" if near else "; `lickwright explain` lists them"
    return f"there is no rule or topic {topic}{hint}"
