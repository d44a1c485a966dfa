"""Findings as annotations: lines that a hosted build reads off a command's output and puts beside the text.

``::error file=content/lessons/a.md,line=3,col=5,endLine=3,endColumn=8,title=rhythm/bar-length::…``

Conventions: a query is a *warning*, a note a *notice*. Lines and columns count from 1; files are named from
where the command ran. Values are percent-encoded, so that nothing an author wrote begins a command.

References: GitHub Docs, Workflow commands for GitHub Actions: setting a notice, warning or error message.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.findings import Severity
from lickwright.report.text import clean

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.findings import Finding

COMMANDS = {Severity.ERROR: "error", Severity.QUERY: "warning", Severity.NOTE: "notice"}


def render_github(findings: Iterable[Finding], folder: str = "") -> str:
    """Render findings as annotations, one a line.

    Args:
        findings: To be shown.
        folder: The course's folder as the command was given it; files are named from there.
    """
    return "".join(f"{_annotate(finding, folder.rstrip('/'))}\n" for finding in findings)


def _annotate(finding: Finding, folder: str) -> str:
    source = finding.span.source
    values: dict[str, str | int] = {}
    if source.path:
        line, column = source.line_column(finding.span.start)
        end_line, end_column = source.line_column(max(finding.span.start, finding.span.end))
        path = f"{folder}/{source.path}" if folder not in ("", ".") else source.path
        values = {"file": path, "line": line, "col": column, "endLine": end_line, "endColumn": end_column}
    values["title"] = finding.rule
    named = ",".join(f"{name}={_property(str(value))}" for name, value in values.items())
    music = f" ({f'{finding.lick} {finding.address}'.strip()})" if finding.lick else ""
    parts = [f"{finding.message}{music}", finding.help, f"Fix: {finding.fix.title}" if finding.fix else ""]
    text = clean(". ".join(part.removesuffix(".") for part in parts if part))
    return f"::{COMMANDS[finding.severity]} {named}::{_data(text)}"


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(clean(text)).replace(":", "%3A").replace(",", "%2C")
