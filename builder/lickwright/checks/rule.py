"""The form of a rule: one fault, its reason, its examples, and the function that finds it.

A rule file is a module ``checks/GROUP/FAULT.py`` that holds one ``RULE``. Its docstring is the
page of the handbook: first what the rule finds, then ``Why it matters:`` and ``What to do:``. Its
examples are its tests: a bad one yields exactly this rule at the marked text, a good one nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lickwright.findings import Finding, Severity

if TYPE_CHECKING:
    from lickwright.checks.subject import Subject
    from lickwright.checks.survey import Survey

__all__ = ["Example", "Finding", "Rule", "Severity", "Source"]

Kind = Literal["published", "common practice", "own threshold", "language contract"]


@dataclass(frozen=True, slots=True)
class Source:
    """Where a rule comes from: what kind of authority, and which."""

    kind: Kind
    text: str


@dataclass(frozen=True, slots=True)
class Example:
    """Author's text for the handbook and for the tests.

    Attributes:
        text: A lesson; without a fence in it, the content of one lick.
        marks: The texts, in order, that get a finding; empty for a good example.
        course: The manifest, where the standard one of the examples does not serve; None for none.
        files: Further files of the course: path and content; None for a folder in its place.
    """

    text: str
    marks: tuple[str, ...] = ()
    course: str | None = ""
    files: tuple[tuple[str, str | bytes | None], ...] = ()


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule.

    Attributes:
        id: ``group/fault``: the module's folder and name.
        title: The fault in one line.
        severity: The most severe of its findings.
        source: Where it comes from.
        good: Examples that give no finding at all.
        bad: Examples that give this finding and no other.
        run: Finds it in one piece; None where reading or resolving the course finds it.
        survey: Finds it in the course as a whole.
        stettable: False for what leaves no music to stand by.
        no_stet: Why it cannot be let stand, where it is the music itself that nobody can play or count.
        one_note: True where a finding marks one note that another fret may mend: such are tried.
    """

    id: str
    title: str
    severity: Severity
    source: Source
    good: tuple[Example, ...]
    bad: tuple[Example, ...]
    run: Callable[[Subject], Iterable[Finding]] | None = None
    survey: Callable[[Survey], Iterable[Finding]] | None = None
    stettable: bool = True
    no_stet: str = ""
    one_note: bool = False

    @property
    def group(self) -> str:
        """The folder: ``rhythm``."""
        return self.id.partition("/")[0]
