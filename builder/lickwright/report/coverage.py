"""What a course covers, as a text table: a column a lesson, a row a technique, key, position or tempo.

Conventions: lessons go by their numbers in the order of study, their titles stand below the table. A dot
is no lick. Nothing an author wrote reaches the terminal raw.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.checks.coverage import KINDS
from lickwright.report.text import clean

if TYPE_CHECKING:
    from lickwright.checks.coverage import Coverage, Row

_TITLES = {"technique": "Techniques", "key": "Keys", "position": "Positions", "tempo": "Beats a minute"}
_NONE = "·"


def render_coverage(coverage: Coverage) -> str:
    """Render the matrix and the curve of difficulty; empty for a course without lessons."""
    if not coverage.lessons:
        return ""
    numbers = [str(number) for number in range(1, len(coverage.lessons) + 1)]
    width = max(len(name) for name in (*(clean(row.name) for row in coverage.rows), "hardest lick"))
    columns = [max(len(number), 3) for number in numbers]

    def line(head: str, cells: list[str], tail: str = "") -> str:
        told = " ".join(cell.rjust(size) for cell, size in zip(cells, columns, strict=True))
        return f"{head.ljust(width)}  {told}  {tail}".rstrip()

    lines: list[str] = []
    for kind in KINDS:
        rows = coverage.of(kind)
        if rows:
            lines += [line(_TITLES[kind], numbers)]
            lines += [line(clean(row.name), [str(n or _NONE) for n in row.licks], _say(row)) for row in rows]
            lines.append("")
    scores = [f"{step.difficulty.score:.1f}" if step is not None else _NONE for step in coverage.curve]
    lines += [line("Difficulty", numbers), line("hardest lick", scores), ""]
    lines += [f"{number:>3}  {clean(title)}" for number, title in enumerate(coverage.lessons, 1)]
    return "\n".join(lines) + "\n"


def _say(row: Row) -> str:
    """Where the words come before or after the music: only what is out of the common."""
    if row.kind != "technique" or row.spoken is None:
        return "not spoken of" if row.kind == "technique" else ""
    return f"spoken of from {row.spoken + 1}" if row.spoken > row.first else ""
