"""The finding: one thing the author should know, with its place."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum

from lickwright.text import Span


class Severity(IntEnum):
    """How much a finding matters; an ERROR stops the course from publishing."""

    NOTE = 1
    QUERY = 2
    ERROR = 3

    @property
    def word(self) -> str:
        """The word an editor writes: ``note``, ``query`` or ``error``."""
        return self.name.lower()


@dataclass(frozen=True, slots=True)
class Label:
    """A further place that explains the finding (the chord that a note clashes with)."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Edit:
    """Replace ``span`` by ``text``; an empty span inserts."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Fix:
    """A correction that the author may take over as it stands."""

    title: str
    edits: tuple[Edit, ...]


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding.

    Attributes:
        rule: ``group/fault``, stable for ever, e.g. ``rhythm/bar-length``.
        severity: After the course's own settings have been applied.
        message: One sentence: what is there against what was expected. No full stop.
        span: The smallest text that the author has to change.
        labels: Other places involved.
        help: What to do, one sentence, or empty.
        fix: A ready correction, if there is exactly one.
        lick: Name of the lick, chorus, progression … concerned, or empty.
        address: Place in its music, ``2.3``, ``2`` or ``low1.2``, or empty.
    """

    rule: str
    severity: Severity
    message: str
    span: Span
    labels: tuple[Label, ...] = ()
    help: str = ""
    fix: Fix | None = None
    lick: str = ""
    address: str = ""

    @property
    def sort_key(self) -> tuple[str, int, int, str, str]:
        """Order of a work list: file, place, rule."""
        return (self.span.source.path, self.span.start, self.span.end, self.rule, self.message)
