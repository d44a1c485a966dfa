"""What changed between two editions of a course: the music, the hands, the words.

Two courses in, values out.
"""

from lickwright.errata.editions import compare
from lickwright.errata.errata import (
    BarChange,
    CourseChange,
    Detail,
    Errata,
    FieldChange,
    GridChange,
    Kind,
    LickChange,
    LinkChange,
    SentenceChange,
    Unread,
)

__all__ = [
    "BarChange",
    "CourseChange",
    "Detail",
    "Errata",
    "FieldChange",
    "GridChange",
    "Kind",
    "LickChange",
    "LinkChange",
    "SentenceChange",
    "Unread",
    "compare",
]
