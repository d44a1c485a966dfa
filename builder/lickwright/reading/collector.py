"""Where the readers put what they find."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from lickwright.findings import Edit, Finding, Fix, Label
from lickwright.reading.rules import RULES

if TYPE_CHECKING:
    from lickwright.text import Source, Span


@dataclass(slots=True)
class Collector:
    """Findings of one file, or of one block of it.

    Attributes:
        source: The file.
        block: Name of the block being read, or empty.
        address: Bar being read, ``2`` or ``low2``, or empty.
        findings: In the order found.
    """

    source: Source
    block: str = ""
    address: str = ""
    findings: list[Finding] = field(default_factory=list)

    def add(
        self,
        rule: str,
        message: str,
        span: Span,
        *,
        hint: str = "",
        fix: Fix | str | None = None,
        labels: tuple[Label, ...] = (),
    ) -> None:
        """Report a fault.

        Args:
            rule: An id of the table of rules.
            message: One sentence without a full stop: what is there, what was expected.
            span: The smallest text to change.
            hint: What to do, one sentence.
            fix: A correction, or the text that should stand instead of ``span``.
            labels: Other places involved.
        """
        if isinstance(fix, str):
            fix = replace(span, fix)
        severity = RULES[rule].severity
        self.findings.append(
            Finding(rule, severity, message, span, labels, hint, fix, self.block, self.address)
        )

    def span(self, start: int, end: int) -> Span:
        """Return the place from ``start`` to ``end`` of the file."""
        return self.source.span(start, end)


def replace(span: Span, text: str) -> Fix:
    """Return the correction that puts ``text`` in the place of ``span``."""
    if span.start == span.end:
        title = f"write {text.strip()}" if text.strip() else "put a blank here"
    else:
        title = f"write {text.strip()}" if text.strip() else "leave it out"
    return Fix(title, (Edit(span, text),))


def say_a(word: str) -> str:
    """Return a word with its article: ``a lick``, ``an excerpt``."""
    return f"an {word}" if word[:1] in "aeio" else f"a {word}"


def quote(text: str, longest: int = 40) -> str:
    """Return an author's text for a message: on one line, not too long."""
    flat = " ".join(text.split())
    return flat if len(flat) <= longest else f"{flat[: longest - 1]}…"
