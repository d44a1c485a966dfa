"""Findings as JSON, for editors, scripts and continuous integration.

``{"findings": [{"rule", "severity", "message", "help", "file", "line", "column", "end_line",
"end_column", "lick", "address"}], "counts": {"errors", "queries", "notes"}}``

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

    from lickwright.findings import Finding


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
    source = finding.span.source
    line, column = source.line_column(finding.span.start)
    end_line, end_column = source.line_column(finding.span.end)
    return {
        "rule": finding.rule,
        "severity": finding.severity.word,
        "message": finding.message,
        "help": finding.help,
        "file": source.path,
        "line": line,
        "column": column,
        "end_line": end_line,
        "end_column": end_column,
        "lick": finding.lick,
        "address": finding.address,
    }
