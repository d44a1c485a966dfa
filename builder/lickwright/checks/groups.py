"""The groups of rules: a folder each."""

from __future__ import annotations

GROUPS: dict[str, str] = {
    "course": "The course",
    "hands": "The hands",
    "harmony": "Harmony",
    "open-strings": "Open strings",
    "picking": "The picking hand",
    "prose": "Words and notes",
    "rhythm": "Rhythm",
    "speed": "Speed",
    "spelling": "Spelling",
    "stet": "Stet",
    "syntax": "The language",
    "witness": "The second witness",
}
"""Title of each group, in the order of the handbook."""
