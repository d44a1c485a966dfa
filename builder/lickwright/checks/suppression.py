"""One cause, one finding: which rule makes which others pointless, and how far.

A bar whose sum does not come out has no harmony worth judging; two notes on one string have
no stretch. The reach is the sound or the bar of the cause.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fnmatch import fnmatchcase
from typing import Literal

from lickwright.findings import Finding
from lickwright.model.address import Address


@dataclass(frozen=True, slots=True)
class Cause:
    """A rule that silences others.

    Attributes:
        rule: Id.
        silences: Ids, or patterns with ``*``.
        reach: Within one sound, or the whole bar.
    """

    rule: str
    silences: tuple[str, ...]
    reach: Literal["sound", "bar"]


# rule | reach | silences
_TABLE = """
rhythm/bar-length | bar | harmony/* witness/degrees rhythm/pickup-length
harmony/shifted-chord | bar | harmony/unexplained
harmony/chord-disagrees | bar | harmony/unexplained harmony/shifted-chord witness/degrees
witness/names | sound | witness/degrees harmony/unexplained
witness/degrees | sound | harmony/unexplained
hands/range | sound | harmony/* witness/* hands/stretch
hands/one-note-a-string | sound | hands/* harmony/*
hands/open-string | sound | hands/falling-hammer hands/rising-pull hands/slide harmony/*
hands/falling-hammer | sound | hands/join-stands-still
hands/harmonic-node | sound | harmony/* witness/*
syntax/late-bend | sound | hands/* harmony/* witness/*
"""


def _read_row(row: str) -> Cause:
    rule, reach, silences = (cell.strip() for cell in row.split("|"))
    return Cause(rule, tuple(silences.split()), "bar" if reach == "bar" else "sound")


CAUSES: tuple[Cause, ...] = tuple(map(_read_row, _TABLE.strip().splitlines()))


def keep_causes(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the findings of one piece without those that another one explains.

    Args:
        findings: Of the same lick; those without an address silence nothing.
    """
    given = tuple(findings)
    acting = [(finding.rule, *reach) for finding in given for reach in _reaches(finding)]
    return tuple(f for f in given if not any(_silences(f, *reach) for reach in acting))


def _reaches(finding: Finding) -> Iterator[tuple[Cause, Address]]:
    address = Address.parse(finding.address)
    if address is not None:
        for cause in CAUSES:
            if cause.rule == finding.rule:
                yield cause, address


def _silences(finding: Finding, rule: str, cause: Cause, at: Address) -> bool:
    if finding.rule == rule or not any(fnmatchcase(finding.rule, p) for p in cause.silences):
        return False
    address = Address.parse(finding.address)
    if address is None:
        return False
    return address == at or (cause.reach == "bar" and address.bar == at.bar)
