"""Findings as a list of queries that leaves for the author and comes back with answers.

Each query has a head with its addresses, what is found, the author's line, and an arrow for the answer::

    1. harmony/unexplained · fog-bells 3.4 · lessons/fog-bells.md:61:19
       B flat, one beat, over A: neither in the chord nor led to it
          61 | A | 5:0 - 5:4 - 4:2 - 3:3 -
             |                       ^^^
       help: What to do about it
       mend: 3:2 (one fret lower is the root)
    > stet "the clash is the point"

An answer is ``stet "REASON"``, ``mend``, or the text that is to stand in the place of what is marked.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lickwright.checks.selection import LESSONS
from lickwright.findings import Finding, Severity
from lickwright.report.text import clean, quote_line, say_place

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from lickwright.text import Source

NO_QUERY = "building/no-query"
"""The rule of what is found in a list that came back."""

HOW = """Write the answer behind the arrow:
  stet "the reason"   to let it stand as it is
  mend                to take over what is offered
  4:4                 any other text stands in the place of what is marked
An empty answer is left for later. `lickwright answer FILE` puts the answers into the lessons."""
_HEAD = re.compile(r"\d+\. (?P<rule>[a-z-]+/[a-z-]+) · (?P<music>[^·]*) · (?P<place>\S+:\d+:\d+)")
_NONE = re.compile(r"Queries\b.*\n\s*None\.\s")
_STET = re.compile(r'stet:?\s+["“”](?P<reason>[^"“”]*\S[^"“”]*)["“”]\.?', re.IGNORECASE)
_MEND = re.compile(r"mend[.!]?", re.IGNORECASE)
_MEANT = re.compile(r"(?:stet|mend)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Answer:
    """What the author says to a query.

    Attributes:
        rule, lick, address: Of the finding; the place is where it stood when it left.
        line: Of the list, from 1.
        reason: To let it stand, or empty.
        mend: True to take over what is offered.
        text: In the place of what is marked, or empty.
        unclear: True for what begins as a stet or a mend and does not read as one.
    """

    rule: str
    lick: str
    address: str
    place: str
    line: int
    reason: str = ""
    mend: bool = False
    text: str = ""
    unclear: bool = False


def render_queries(findings: Iterable[Finding], title: str = "") -> str:
    """Render errors and queries as a list to be answered; notes ask nothing.

    Numbers are those of all errors and queries. What no answer can be put in for, a promise or a signature,
    is named at the end.
    """
    graver = [(n, f) for n, f in enumerate((f for f in findings if f.severity is not Severity.NOTE), 1)]
    asked = [(number, finding) for number, finding in graver if is_asked(finding)]
    head = f"Queries on {clean(title)}" if title else "Queries"
    parts = [head, HOW if asked else "None."]
    parts += [_ask(number, finding) for number, finding in asked]
    if rest := [finding for _, finding in graver if not is_asked(finding)]:
        lines = (f"  {say_place(f.span)}: {clean(f.message)}" for f in rest)
        parts.append("\n".join(("To be mended where it stands; no answer here can do it:", *lines)))
    return "\n\n".join(parts) + "\n"


def is_asked(finding: Finding) -> bool:
    """Whether an answer can be put in: it stands in a lesson, or brings its correction; and is no note."""
    mends = finding.fix is not None and bool(finding.fix.edits)
    return finding.severity is not Severity.NOTE and (mends or finding.span.source.path.startswith(LESSONS))


def _ask(number: int, finding: Finding) -> str:
    music = f"{finding.lick} {finding.address}".strip() or "-"
    lines = [f"{number}. {finding.rule} · {music} · {say_place(finding.span)}"]
    lines.append(f"   {clean(finding.message)}")
    lines += [f"   {line}" for line in quote_line(finding.span)]
    if finding.help:
        lines.append(f"   help: {clean(finding.help)}")
    if finding.fix is not None and finding.fix.edits:
        lines.append(f"   mend: {clean(finding.fix.title)}")
    return "\n".join((*lines, ">"))


def check_list(source: Source) -> Iterator[Finding]:
    """Yield what keeps a list that came back from being read: it is none, or answers stand under no query."""
    lines = source.text.split("\n")
    if not any(map(_HEAD.match, lines)) and not _NONE.match(source.text):
        hint = "`lickwright proof COURSE --format queries` makes one"
        yield _lost("this is no list of queries", source, 1, hint)
        return
    asked = False
    for number, line in enumerate(lines, 1):
        if _HEAD.match(line):
            asked = True
        elif line.startswith(">") and line[1:].strip():
            if not asked:
                hint = (
                    "One line answers a query; the line above it with the rule and the place is needed, too"
                )
                yield _lost("this answer stands under no query", source, number, hint)
            asked = False


def _lost(message: str, source: Source, line: int, hint: str) -> Finding:
    start = source.line_start(line)
    span = source.span(start, start + len(source.line(line)))
    return Finding(NO_QUERY, Severity.ERROR, message, span, help=hint)


def read_answers(text: str) -> tuple[Answer, ...]:
    """Read the answers of a list that came back; empty ones are left out."""
    answers: list[Answer] = []
    head: re.Match[str] | None = None
    for number, line in enumerate(text.split("\n"), 1):
        if found := _HEAD.match(line):
            head = found
        elif head is not None and line.startswith(">") and (said := line[1:].strip()):
            answers.append(_answer(head, number, said))
            head = None
    return tuple(answers)


def _answer(head: re.Match[str], line: int, said: str) -> Answer:
    lick, _, address = head["music"].strip().partition(" ")
    lick = "" if lick == "-" else lick
    stet = _STET.fullmatch(said)
    about = (head["rule"], lick, address, head["place"], line)
    if stet:
        return Answer(*about, reason=stet["reason"])
    if _MEND.fullmatch(said):
        return Answer(*about, mend=True)
    return Answer(*about, text=said, unclear=_MEANT.match(said) is not None)
