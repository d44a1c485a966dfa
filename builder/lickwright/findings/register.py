"""Registers of faults: a stage's rules as a table of ``id | severity | title``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from lickwright.findings.finding import Severity


@dataclass(frozen=True, slots=True)
class Fault:
    """A rule of a stage below the checks.

    Attributes:
        id: ``group/fault``, stable for ever.
        severity: Of each of its findings.
        title: The fault in one line.
    """

    id: str
    severity: Severity
    title: str


def read_register(table: str) -> Mapping[str, Fault]:
    """Return the faults of a table by their ids, in the table's order."""
    rows = (tuple(cell.strip() for cell in row.split("|")) for row in table.strip().splitlines())
    faults = (Fault(name, Severity[severity.upper()], title) for name, severity, title in rows)
    return MappingProxyType({fault.id: fault for fault in faults})
