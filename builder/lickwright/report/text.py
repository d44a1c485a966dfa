"""Findings as text: place, message, the line of the author's text with a caret under it.

Conventions: lines and columns count from 1, in code points. Nothing an author wrote reaches
the terminal raw: control characters and signs that turn the direction of writing are shown
as visible ones.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from typing import TYPE_CHECKING
from unicodedata import category, combining, east_asian_width

from lickwright.checks.tally import count_rules
from lickwright.findings import Severity

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.checks.stets import Standing
    from lickwright.findings import Finding
    from lickwright.text import Span

Paint = Callable[[str, str], str]
"""Colours a text by its role: ``error``, ``query``, ``note``, ``place``, ``caret`` or ``help``."""

NOTES = "--notes"
"""The option that shows the notes."""
_UNUSUAL = re.compile(r"[^ -~¡-˿]")
_WIDTH = 100
"""Columns of the author's line that are shown around the fault."""
_MARGIN = 30
_SAID = {
    Severity.ERROR: ("error", "errors"),
    Severity.QUERY: ("query", "queries"),
    Severity.NOTE: ("note", "notes"),
}


def render_text(
    findings: Iterable[Finding],
    paint: Paint | None = None,
    *,
    offer: Callable[[Finding], str] | None = None,
    standing: Iterable[Standing] = (),
    notes: bool = True,
) -> str:
    """Render findings and their count, in the order given.

    Args:
        findings: To be shown.
        paint: Colours a piece of text by its role; None leaves it plain.
        offer: Gives the stet by which a finding could stand, to be copied, or an empty text.
        standing: Findings the author lets stand: listed at the end, with reason and seal. Rules that
            are let stand twice or more, and in more than half of what they find, are named after them.
        notes: False leaves the notes out, but for their number.

    Returns:
        Lines with a newline at the end.
    """
    painted = paint or _leave_plain
    told = tuple(findings)
    shown = [finding for finding in told if notes or finding.severity is not Severity.NOTE]
    parts = [_render(finding, painted, "" if offer is None else offer(finding)) for finding in shown]
    let_stand = tuple(standing)
    if let_stand:
        parts.append("\n".join(("Standing by stet:", *(_render_standing(one, painted) for one in let_stand))))
        parts += _reconsider(told, let_stand)
    left_out = len(told) - len(shown)
    parts.append(count_findings(told) + (f" ({NOTES} shows the notes)" if left_out else ""))
    return "\n\n".join(parts) + "\n"


def _reconsider(told: Iterable[Finding], standing: Iterable[Standing]) -> list[str]:
    lines = [
        f"  {each.rule} stands in {each.standing} of {each.found}"
        for each in count_rules(told, standing)
        if each.to_reconsider
    ]
    if not lines:
        return []
    return ["\n".join(("Let stand more often than not; reconsider the rule, or its limits:", *lines))]


def count_findings(findings: Iterable[Finding]) -> str:
    """Return ``2 errors, 1 query and no notes``."""
    counts = Counter(finding.severity for finding in findings)
    said = [f"{counts[severity] or 'no'} {words[counts[severity] != 1]}" for severity, words in _SAID.items()]
    return f"{said[0]}, {said[1]} and {said[2]}"


def clean(text: str) -> str:
    """Return a text without anything that a terminal or the direction of writing obeys."""
    if not _UNUSUAL.search(text):
        return text
    return "".join(_show(sign) for sign in text)


def _show(sign: str) -> str:
    code = ord(sign)
    if sign == "\t":
        return " "
    if code < 0x20:
        return chr(0x2400 + code)
    if code == 0x7F:
        return "␡"
    if category(sign) in ("Cc", "Cf", "Cs", "Zl", "Zp"):
        return "\ufffd"
    return sign


def _render_standing(standing: Standing, paint: Paint) -> str:
    finding, stet = standing.finding, standing.stet
    seal = f" #{standing.seal}" if standing.seal else ""
    said = clean(f"“{stet.reason}”: {finding.message} ({_say_music(finding)})")
    return f"  {paint(say_place(finding.span), 'place')}: {finding.rule}{seal} {said}"


def _render(finding: Finding, paint: Paint, stet: str = "") -> str:
    word = finding.severity.word
    where = f" ({_say_music(finding)})" if finding.lick else ""
    place = paint(say_place(finding.span), "place")
    said = clean(finding.message + where)
    lines = [f"{place}: {paint(word, word)}: {said} [{finding.rule}]"]
    lines += quote_line(finding.span, paint)
    for label in finding.labels:
        lines.append(f"    {paint(say_place(label.span), 'place')}: {clean(label.text)}")
    if finding.help:
        lines.append(f"    {paint('help', 'help')}: {clean(finding.help)}")
    if finding.fix is not None:
        lines.append(f"    {paint('fix', 'help')}: {clean(finding.fix.title)}")
    if stet:
        lines.append(f"    {paint('to let it stand', 'help')}: {clean(stet)}")
    return "\n".join(lines)


def _leave_plain(text: str, role: str) -> str:
    del role
    return text


def _say_music(finding: Finding) -> str:
    return f"{finding.lick} {finding.address}" if finding.address else finding.lick


def say_place(span: Span) -> str:
    """Return ``lessons/a.md:3:5``."""
    line, column = span.place
    return clean(f"{span.source.path}:{line}:{column}")


def quote_line(span: Span, paint: Paint | None = None) -> list[str]:
    """Return the line in which a place begins, cut to a readable width, and a caret line."""
    number, column = span.place
    line = span.source.line(number)
    if not line.strip():
        return []
    first = column - 1
    last = min(max(first + 1, first + span.end - span.start), max(len(line), first + 1))
    begin = 0 if first < _WIDTH - _MARGIN else first - _MARGIN
    end = min(len(line), begin + _WIDTH)
    last = min(last, max(end, first + 1))
    before, inside = line[begin:first], line[first:last]
    shown = ("…" if begin else "") + clean(line[begin:end]) + ("…" if end < len(line) else "")
    painted = paint or _leave_plain
    gutter = f"{number:>5} | "
    blanks = " " * (_measure(clean(before)) + (1 if begin else 0))
    carets = "^" * max(_measure(clean(inside)), 1)
    return [gutter + shown, " " * (len(gutter) - 2) + "| " + blanks + painted(carets, "caret")]


def _measure(text: str) -> int:
    """Return how many columns of a terminal a text takes."""
    if text.isascii():
        return len(text)
    return sum(0 if combining(c) else 2 if east_asian_width(c) in "WF" else 1 for c in text)
