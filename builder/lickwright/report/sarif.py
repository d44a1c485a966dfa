"""Findings as SARIF 2.1.0, for review tools and continuous integration.

Conventions: lines and columns count from 1, in code points; files are relative to the base ``COURSE``, the
course's folder. A query is a *warning*. Findings that stand by stet are in it, suppressed in the source,
with the author's reason. The text is ASCII: no sign of an author's reaches a terminal raw.

References: Static Analysis Results Interchange Format (SARIF) Version 2.1.0, OASIS Standard, 27 March 2020.
"""

from __future__ import annotations

import json
from hashlib import sha256
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from lickwright import __version__
from lickwright.checks.groups import GROUPS
from lickwright.checks.handbook import page
from lickwright.findings import Severity

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.checks.stets import Standing
    from lickwright.findings import Edit, Finding, Fix, Label
    from lickwright.text import Span

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json"
BASE = "COURSE"
LEVELS = {Severity.ERROR: "error", Severity.QUERY: "warning", Severity.NOTE: "note"}


def render_sarif(findings: Iterable[Finding], standing: Iterable[Standing] = ()) -> str:
    """Render findings, and those that stand by stet, as one SARIF log with a newline at the end."""
    told: list[tuple[Finding, str | None]] = [(finding, None) for finding in findings]
    told += [(one.finding, one.stet.reason) for one in standing]
    ids = sorted({finding.rule for finding, _ in told})
    index = {rule: number for number, rule in enumerate(ids)}
    driver = {
        "name": "Lickwright",
        "version": __version__,
        "rules": [_rule(rule) for rule in ids],
    }
    run = {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "originalUriBaseIds": {BASE: {"description": {"text": "The folder of the course."}}},
        "results": [_result(finding, index, reason) for finding, reason in told],
    }
    return json.dumps({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}, indent=2) + "\n"


def _rule(rule: str) -> dict[str, Any]:
    told = page(rule)
    if told is None:  # found while the site was made: the builder's own
        return {"id": rule}
    return {
        "id": rule,
        "shortDescription": {"text": told.title},
        "fullDescription": {"text": told.text.split("\n\n", 1)[0]},
        "help": {"text": told.text, "markdown": told.markdown},
        "defaultConfiguration": {"level": LEVELS[Severity[told.severity.upper()]]},
        "properties": {"tags": [rule.partition("/")[0], GROUPS[rule.partition("/")[0]]]},
    }


def _result(finding: Finding, index: dict[str, int], reason: str | None) -> dict[str, Any]:
    text = f"{finding.message}. {finding.help}." if finding.help else f"{finding.message}."
    result: dict[str, Any] = {
        "ruleId": finding.rule,
        "ruleIndex": index[finding.rule],
        "level": LEVELS[finding.severity],
        "message": {"text": text},
        "partialFingerprints": {"found/v1": _fingerprint(finding)},
    }
    if finding.span.source.path:
        place: dict[str, Any] = {"physicalLocation": _place(finding.span)}
        if finding.lick:
            music = f"{finding.lick}@{finding.address}" if finding.address else finding.lick
            place["logicalLocations"] = [{"fullyQualifiedName": music}]
        result["locations"] = [place]
    if related := [_related(k, label) for k, label in enumerate(finding.labels) if label.span.source.path]:
        result["relatedLocations"] = related
    if finding.fix is not None and finding.fix.edits:
        result["fixes"] = [_fix(finding.fix)]
    if reason is not None:
        result["suppressions"] = [{"kind": "inSource", "status": "accepted", "justification": reason}]
    return result


def _fingerprint(finding: Finding) -> str:
    """The same for the same finding wherever its line has moved to."""
    music = f"{finding.lick}\n{finding.address}"
    said = f"{finding.rule}\n{finding.span.source.path}\n{music}\n{finding.message}"
    return sha256(said.encode()).hexdigest()[:16]


def _place(span: Span) -> dict[str, Any]:
    return {"artifactLocation": _file(span), "region": _region(span)}


def _file(span: Span) -> dict[str, Any]:
    return {"uri": quote(span.source.path), "uriBaseId": BASE}


def _region(span: Span) -> dict[str, int]:
    line, column = span.source.line_column(span.start)
    end_line, end_column = span.source.line_column(max(span.start, span.end))
    return {"startLine": line, "startColumn": column, "endLine": end_line, "endColumn": end_column}


def _related(number: int, label: Label) -> dict[str, Any]:
    return {"id": number, "physicalLocation": _place(label.span), "message": {"text": f"{label.text}."}}


def _fix(fix: Fix) -> dict[str, Any]:
    files: dict[str, list[Edit]] = {}
    for edit in fix.edits:
        files.setdefault(edit.span.source.path, []).append(edit)
    return {
        "description": {"text": f"{fix.title}."},
        "artifactChanges": [
            {
                "artifactLocation": _file(edits[0].span),
                "replacements": [
                    {"deletedRegion": _region(edit.span), "insertedContent": {"text": edit.text}}
                    for edit in edits
                ],
            }
            for edits in files.values()
        ],
    }
