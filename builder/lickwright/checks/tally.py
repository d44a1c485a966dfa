"""What stands by stet, by rule: one that is let stand more often than not asks to be reconsidered."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from lickwright.checks.stets import Standing
from lickwright.findings import Finding


@dataclass(frozen=True, slots=True)
class Tally:
    """How often a rule found something, and how often that was let stand."""

    rule: str
    found: int
    standing: int

    @property
    def to_reconsider(self) -> bool:
        """True when more than half of what it found stands, and more than one."""
        return self.standing > 1 and 2 * self.standing > self.found


def count_rules(findings: Iterable[Finding], standing: Iterable[Standing]) -> tuple[Tally, ...]:
    """Count findings by rule, those that stand among them, in alphabetical order of the rules."""
    let = Counter(one.finding.rule for one in standing)
    found = Counter(finding.rule for finding in findings) + let
    return tuple(Tally(rule, found[rule], let[rule]) for rule in sorted(found))
