"""A signature: somebody has proofread a lesson and passed it."""

from __future__ import annotations

from dataclasses import dataclass

from lickwright.model.place import place
from lickwright.text import Span


@dataclass(frozen=True, slots=True)
class Signature:
    """What ``proofed.toml`` says of a lesson.

    Attributes:
        lesson: Its name.
        by: Who passed it.
        mark: The mark of its music and words then.
    """

    lesson: str
    by: str
    mark: str
    span: Span = place()
