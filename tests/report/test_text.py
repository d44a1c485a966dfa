"""Findings as text: place, caret, labels, help, counts; nothing of the author's reaches the terminal raw."""

from __future__ import annotations

import re

from lickwright.findings import Finding, Fix, Label, Severity
from lickwright.report.text import clean, count_findings, render_text
from lickwright.text import Source

SOURCE = Source("lessons/a.md", "# T\nA7 | 5:0 9:9\n\tx\n")


def find(start: int, end: int, **rest) -> Finding:
    """Return an error at a place of the source."""
    source = rest.pop("source", SOURCE)
    severity = rest.pop("severity", Severity.ERROR)
    return Finding(
        "syntax/slot", severity, rest.pop("message", "no such thing"), source.span(start, end), **rest
    )


def test_everything_a_finding_says() -> None:
    """Place, message, the line with a caret, label, help and fix."""
    label = Label(SOURCE.span(4, 6), "the chord here")
    finding = find(
        13, 16, labels=(label,), help="look again", fix=Fix("write 1:9", ()), lick="porch", address="1.2"
    )
    assert render_text([finding]) == (
        "lessons/a.md:2:10: error: no such thing (porch 1.2) [syntax/slot]\n"
        "    2 | A7 | 5:0 9:9\n"
        "      |          ^^^\n"
        "    lessons/a.md:2:1: the chord here\n"
        "    help: look again\n"
        "    fix: write 1:9\n"
        "\n"
        "1 error, no queries and no notes\n"
    )


def test_the_caret_stands_under_wide_signs_and_tabs() -> None:
    """A tab is shown as one blank; an East Asian sign takes two columns, a combining one none."""
    source = Source("x", "\t日本e\u0301 X")
    shown = render_text([find(6, 7, source=source)]).split("\n")
    assert shown[1] == "    1 |  日本e\u0301 X"
    assert shown[2] == "      |        ^"


def test_a_long_line_is_cut_round_the_fault() -> None:
    """A megabyte line shows a hundred columns."""
    source = Source("x", "a" * 1_000_000 + "B" + "c" * 1_000)
    shown = render_text([find(1_000_000, 1_000_001, source=source)]).split("\n")
    assert len(shown[1]) < 120
    assert shown[1][shown[2].index("^")] == "B"


def test_a_place_at_the_end_and_in_an_empty_text() -> None:
    """A caret needs no character under it."""
    assert "^" in render_text([find(3, 3)])
    assert render_text([find(0, 0, source=Source("x", ""))]).startswith("x:1:1: error: no such thing")


def test_the_counts() -> None:
    """One is said in the singular, none as no."""
    some = [find(0, 1, severity=s) for s in (Severity.ERROR, Severity.ERROR, Severity.QUERY)]
    assert count_findings(some) == "2 errors, 1 query and no notes"
    assert render_text([]) == "no errors, no queries and no notes\n"


def test_no_control_sign_reaches_the_terminal() -> None:
    """Escapes, C1 controls and signs that turn the direction of writing are shown, not obeyed."""
    bad = "".join(map(chr, [*range(0x20), 0x7F, *range(0x80, 0xA0), 0x202E, 0x2066, 0x200F, 0x2028, 0xFEFF]))
    source = Source(f"a{bad}", f"{bad}fault")
    finding = find(
        len(bad),
        len(bad) + 5,
        source=source,
        message=bad,
        help=bad,
        lick=bad,
        labels=(Label(source.span(0, 1), bad),),
    )
    shown = render_text([finding]).replace("\n", "")
    assert not re.search(
        "[\x00-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\u200e\u200f\u2028\u2029\ufeff]", shown
    )
    assert "\u241b" in shown


def test_plain_text_is_left_alone() -> None:
    """Accents, music signs and other scripts are no danger."""
    text = "Bb7 ♭♯ é ü 日本 𝄞 …"
    assert clean(text) == text


def test_paint_colours_by_role() -> None:
    """The caller decides what a role looks like."""
    shown = render_text([find(13, 16)], lambda text, role: f"<{role}>{text}</>")
    assert "<error>error</>" in shown
    assert "<caret>^^^</>" in shown
