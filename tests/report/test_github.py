"""Annotations: one line a finding, with nothing of the author's obeyed.

The form is that of GitHub Docs, "Workflow commands for GitHub Actions" (from memory).
"""

from __future__ import annotations

from dataclasses import replace

from lickwright.findings import Edit, Finding, Fix, Severity
from lickwright.report.github import render_github
from lickwright.text import Source

SOURCE = Source("lessons/a,b.md", "# T\nA7 | 5:0 9:9\n")


def test_an_annotation() -> None:
    """Severity, file from where the command ran, place, rule and words."""
    finding = Finding(
        "syntax/slot", Severity.QUERY, "100 % odd", SOURCE.span(13, 16), help="Look", lick="porch"
    )
    assert render_github([finding], "courses/one/") == (
        "::warning file=courses/one/lessons/a%2Cb.md,line=2,col=10,endLine=2,endColumn=13,"
        "title=syntax/slot::100 %25 odd (porch). Look\n"
    )


def test_nothing_begins_a_command() -> None:
    """A line end in a message would begin a new line of output; it is shown, not obeyed."""
    finding = Finding("syntax/slot", Severity.ERROR, "a\n::error::b", Source("x", "").span(0, 0))
    told = render_github([finding])
    assert told.count("\n") == 1
    assert told.startswith("::error file=x,line=1")


def test_severities() -> None:
    """An error, a warning and a notice; without a file only the rule is named."""
    nowhere = Source("", "").span(0, 0)
    told = render_github([Finding("a/b", severity, "c", nowhere) for severity in sorted(Severity)])
    assert told.splitlines() == ["::notice title=a/b::c", "::warning title=a/b::c", "::error title=a/b::c"]


def test_an_annotation_carries_the_fix() -> None:
    """As the other forms do: what would stand there, after the help, or by itself."""
    fix = Fix("5:4: one fret lower is C sharp", (Edit(SOURCE.span(13, 16), "5:4"),))
    bare = Finding("witness/names", Severity.ERROR, "the row says C#", SOURCE.span(13, 16), fix=fix)
    assert render_github([bare]).endswith("::the row says C#. Fix: 5:4: one fret lower is C sharp\n")
    helped = replace(bare, help="Look at both")
    assert ". Look at both. Fix: 5:4: one fret lower" in render_github([helped])
