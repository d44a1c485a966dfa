"""SARIF: valid by the schema of the standard, and saying what the findings say.

The schema is the standard's own (SARIF 2.1.0 with errata 01, OASIS; ``sarif-schema-2.1.0.json``, unchanged).
"""

from __future__ import annotations

import json
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft4Validator

import lickwright
from lickwright.building.proofing import proof_course
from lickwright.checks.stets import Standing
from lickwright.findings import Edit, Finding, Fix, Label, Severity
from lickwright.model.fields import Stet
from lickwright.report.sarif import render_sarif
from lickwright.text import Source

SCHEMA = Draft4Validator(json.loads((Path(__file__).parent / "sarif-schema-2.1.0.json").read_text("utf-8")))
ROOM = Path(lickwright.__file__).parent / "proof_room"
SOURCE = Source("lessons/a b.md", "# T\nA7 | 5:0 4:3 | é\n")


def find(start: int, end: int, rule: str = "harmony/unexplained", **rest: Any) -> Finding:
    """Return a finding at a place of the source."""
    severity = rest.pop("severity", Severity.QUERY)
    return Finding(rule, severity, "F natural over A", SOURCE.span(start, end), **rest)


def log() -> dict[str, Any]:
    """A log with everything that a finding may carry."""
    mended = Fix("4:2: one fret lower is the fifth", (Edit(SOURCE.span(13, 16), "4:2"),))
    label = Label(SOURCE.span(4, 6), "the chord in force")
    whole = find(13, 16, labels=(label,), help="Mend it", fix=mended, lick="porch", address="1.2")
    bare = Finding("building/worker-died", Severity.ERROR, "it died", Source("", "").span(0, 0))
    note = find(0, 3, "syntax/missing-blank-line", severity=Severity.NOTE)
    stands = Standing(find(17, 18, lick="porch"), Stet("harmony/unexplained", "on purpose"), "a41f")
    made: dict[str, Any] = json.loads(render_sarif([whole, bare, note], [stands]))
    return made


def test_the_log_is_valid() -> None:
    """The standard's schema has nothing to say."""
    assert [error.message for error in SCHEMA.iter_errors(log())] == []


@pytest.mark.parametrize(
    "fault",
    [
        ("level", "query"),
        ("message", "F natural"),
        ("locations", [{"physicalLocation": {"region": {"startLine": 0}}}]),
        ("suppressions", [{"kind": "stet"}]),
        ("colour", "blue"),
    ],
)
def test_a_planted_fault_is_caught(fault: tuple[str, Any]) -> None:
    """The schema is no idle one: a level of ours, a bare text, line 0, an unknown kind or key are refused."""
    broken = deepcopy(log())
    broken["runs"][0]["results"][0][fault[0]] = fault[1]
    assert list(SCHEMA.iter_errors(broken))


def test_what_it_says() -> None:
    """Place, level, label, fix and rule are the finding's; what stands is suppressed with its reason."""
    run = log()["runs"][0]
    whole, bare, note, stands = run["results"]
    place = whole["locations"][0]
    assert place["physicalLocation"] == {
        "artifactLocation": {"uri": "lessons/a%20b.md", "uriBaseId": "COURSE"},
        "region": {"startLine": 2, "startColumn": 10, "endLine": 2, "endColumn": 13},
    }
    assert place["logicalLocations"] == [{"fullyQualifiedName": "porch@1.2"}]
    assert [each["level"] for each in run["results"]] == ["warning", "error", "note", "warning"]
    assert whole["fixes"][0]["artifactChanges"][0]["replacements"] == [
        {
            "deletedRegion": {"startLine": 2, "startColumn": 10, "endLine": 2, "endColumn": 13},
            "insertedContent": {"text": "4:2"},
        }
    ]
    assert "locations" not in bare
    assert stands["suppressions"] == [
        {"kind": "inSource", "status": "accepted", "justification": "on purpose"}
    ]
    rules = run["tool"]["driver"]["rules"]
    assert all(rules[each["ruleIndex"]]["id"] == each["ruleId"] for each in run["results"])
    assert rules[note["ruleIndex"]]["help"]["markdown"].startswith("# No empty line")


def test_an_insertion_is_an_empty_region() -> None:
    """3.57.3: a region of no length is put in before; edits of two places are replacements of one change."""
    fix = Fix("put | before it", (Edit(SOURCE.span(7, 7), "| "), Edit(SOURCE.span(13, 16), "4:2")))
    made = json.loads(render_sarif([find(13, 16, fix=fix)]))
    assert [error.message for error in SCHEMA.iter_errors(made)] == []
    (change,) = made["runs"][0]["results"][0]["fixes"][0]["artifactChanges"]
    first, second = change["replacements"]
    assert first["deletedRegion"] == {"startLine": 2, "startColumn": 4, "endLine": 2, "endColumn": 4}
    assert (first["insertedContent"], second["insertedContent"]) == ({"text": "| "}, {"text": "4:2"})
    broken = deepcopy(made)
    del broken["runs"][0]["results"][0]["fixes"][0]["artifactChanges"][0]["replacements"][0]["deletedRegion"]
    assert list(SCHEMA.iter_errors(broken))


def test_a_moved_line_keeps_its_fingerprint() -> None:
    """An empty line on top leaves the fingerprint; another message does not."""
    moved = Source(SOURCE.path, "\n" + SOURCE.text)
    one, two = (
        find(13, 16),
        Finding("harmony/unexplained", Severity.QUERY, "F natural over A", moved.span(14, 17)),
    )
    other = Finding("harmony/unexplained", Severity.QUERY, "G natural over A", moved.span(14, 17))
    marks = [
        result["partialFingerprints"]["found/v1"]
        for result in json.loads(render_sarif([one, two, other]))["runs"][0]["results"]
    ]
    assert marks[0] == marks[1] != marks[2]


def test_a_whole_course_of_faults_is_valid() -> None:
    """Every fault that there is goes through the schema, and every fix puts its text where it belongs."""
    findings = proof_course(ROOM).proof.findings
    made = json.loads(render_sarif(findings))
    assert [error.message for error in SCHEMA.iter_errors(made)] == []
    results = made["runs"][0]["results"]
    assert len(results) == len(findings)
    mended = 0
    for finding, result in zip(findings, results, strict=True):
        edits = finding.fix.edits if finding.fix else ()
        changes = [change for fix in result.get("fixes", []) for change in fix["artifactChanges"]]
        replaced = [each for change in changes for each in change["replacements"]]
        assert len(replaced) == len(edits)
        for edit, each in zip(edits, replaced, strict=True):
            region = each["deletedRegion"]
            lines = edit.span.source.text.split("\n")
            starts = [
                sum(len(line) + 1 for line in lines[: region[key] - 1]) for key in ("startLine", "endLine")
            ]
            first, last = starts[0] + region["startColumn"] - 1, starts[1] + region["endColumn"] - 1
            assert (first, last) == (edit.span.start, edit.span.end)
            assert each["insertedContent"]["text"] == edit.text
            mended += 1
    assert mended > 20
