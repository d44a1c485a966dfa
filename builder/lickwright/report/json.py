"""Findings as JSON, for editors, scripts and continuous integration.

``{"findings": [{"rule", "severity", "message", "help", "file", "line", "column", "end_line",
"end_column", "lick", "address", "labels", "fix"}], "counts": {"errors", "queries", "notes"}}``

``labels`` are the further places of a finding, ``{PLACE, "text"}`` each; ``fix`` is null, or what mends it,
``{"title", "edits": [{PLACE, "text"}]}``: the text stands in the place of what the place holds. A PLACE is
``"file", "line", "column", "end_line", "end_column"``.

Conventions: lines and columns count from 1, in code points; the end is the place after the
last character. Files are relative to the course. The text is ASCII: no sign of an author's
reaches a terminal raw.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from lickwright.findings import Severity

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.findings import Finding, Fix
    from lickwright.text import Span


def render_json(findings: Iterable[Finding]) -> str:
    """Render findings and their counts as one JSON object with a newline at the end."""
    told = tuple(findings)
    severities = [finding.severity for finding in told]
    counts = {
        "errors": severities.count(Severity.ERROR),
        "queries": severities.count(Severity.QUERY),
        "notes": severities.count(Severity.NOTE),
    }
    return json.dumps({"findings": [_shape(finding) for finding in told], "counts": counts}, indent=2) + "\n"


def _shape(finding: Finding) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "severity": finding.severity.word,
        "message": finding.message,
        "help": finding.help,
        **_place(finding.span),
        "lick": finding.lick,
        "address": finding.address,
        "labels": [{**_place(label.span), "text": label.text} for label in finding.labels],
        "fix": None if finding.fix is None else _fix(finding.fix),
    }


def _fix(fix: Fix) -> dict[str, Any]:
    edits = [{**_place(edit.span), "text": edit.text} for edit in fix.edits]
    return {"title": fix.title, "edits": edits}


def _place(span: Span) -> dict[str, Any]:
    line, column = span.source.line_column(span.start)
    end_line, end_column = span.source.line_column(span.end)
    return {
        "file": span.source.path,
        "line": line,
        "column": column,
        "end_line": end_line,
        "end_column": end_column,
    }
