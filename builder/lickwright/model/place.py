"""Places inside values.

A place is never part of a value: every ``span`` field is left out of equality,
hashing and the canonical bytes, so moving a lick down a line changes nothing
that has to be made again.
"""

from __future__ import annotations

from dataclasses import field
from typing import Any

from lickwright.text import Source, Span

NOWHERE = Span(Source("", ""), 0, 0)
"""The place of a value that no author wrote."""


def place() -> Any:
    """Return the dataclass field that keeps a token's place."""
    return field(default=NOWHERE, compare=False, repr=False)
