"""The handbook is drawn from the rule files."""

from __future__ import annotations

from lickwright.checks.catalogue import rules
from lickwright.checks.groups import GROUPS
from lickwright.checks.handbook import page, pages
from lickwright.checks.limits import LIMITS


def test_every_rule_has_a_page_in_its_group() -> None:
    """Pages come group by group and hold text, source and fenced examples."""
    assert {p.id for p in pages()} == set(rules())
    assert [p.group for p in pages()] == sorted((p.group for p in pages()), key=list(GROUPS.values()).index)
    for each in pages():
        assert each.markdown.startswith(f"# {each.title}\n")
        assert each.source in each.markdown
        assert each.markdown.count("````") % 2 == 0


def test_a_page_shows_examples_and_limits() -> None:
    """The page of the stretch has its marks of a fault, its good examples and its limits."""
    stretch = page("hands/stretch")
    assert stretch is not None
    assert "6:1+1:8" in stretch.markdown
    assert "```lick example" in stretch.markdown
    assert "`stretch-query` = 112 mm" in stretch.markdown
    assert "**Why it matters:**" in stretch.markdown
    assert page("hands/nothing") is None


def test_every_limit_belongs_to_a_rule() -> None:
    """No threshold stands in the table that no rule has."""
    assert {rule for limit in LIMITS.values() for rule in limit.rules} <= set(rules())
    assert {limit.name for limit in LIMITS.values()} == set(LIMITS)
