"""``lickwright explain``: the handbook's page of a rule, or the guide's page of a topic."""

from __future__ import annotations

from importlib.resources import files

import click

from lickwright.cli.speech import say

GUIDE = files("lickwright") / "guide" / "lessons"


@click.command
@click.argument("topic", metavar="RULE-or-TOPIC", required=False)
def explain(topic: str | None) -> None:
    """Explain a rule, `rhythm/bar-length`, or a topic of the author's guide.

    Without a name, list what there is.
    """
    if topic is None:
        say(contents())
        return
    page = guide_page(topic) if "/" not in topic else rule_page(topic)
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
    """Return a page of the guide as it is written, or None."""
    if topic not in topics_of_the_guide():
        return None
    return (GUIDE / f"{topic}.md").read_text(encoding="utf-8").rstrip()


def rule_page(rule: str) -> str | None:
    """Return the handbook's page of a rule, or None."""
    from lickwright.building.failures import HANDBOOK
    from lickwright.checks.handbook import page

    if rule in HANDBOOK:
        title, text = HANDBOOK[rule]
        return f"# {title}\n\n`{rule}` · error\n\n{text}"
    found = page(rule)
    return None if found is None else found.markdown.rstrip()


def _unknown(topic: str) -> str:
    from difflib import get_close_matches

    near = get_close_matches(topic, [*titles(), *topics_of_the_guide()], n=3)
    hint = f"; did you mean {' or '.join(near)}?" if near else "; `lickwright explain` lists them"
    return f"there is no rule or topic {topic}{hint}"
