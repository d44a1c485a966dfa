"""Path data said briefly: the same lines with shorter numbers.

SVG 2, 9.3: a command in small letters counts from the point before; a sign parts two numbers.
Only whole numbers are made relative, so that nothing is rounded.
"""

from __future__ import annotations

import re
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

Stroke = tuple[str, str, str, str]
"""A straight stroke as written: x and y of its two ends."""
_WHOLE = re.compile(r"-?\d+\Z")
_CURVE = re.compile(r"M(-?\d+),(-?\d+)((?: C-?\d+,-?\d+ -?\d+,-?\d+ -?\d+,-?\d+)+)\Z")
_NUMBER = re.compile(r"-?\d+")


def chained(strokes: Iterable[Stroke]) -> Iterator[str]:
    """Yield the data of strokes in their order, each told from where the one before ended."""
    at: tuple[int, int] | None = None
    for stroke in strokes:
        if not all(_WHOLE.match(number) for number in stroke):
            x, y, x2, y2 = stroke
            yield f"M{x} {y}L{x2} {y2}"
            at = None
            continue
        left, top, right, foot = map(int, stroke)
        if at is not None and at[0] == right and at[0] != left:
            left, top, right, foot = right, foot, left, top  # a line of the staff, drawn back
        yield _shorter("M", (left, top), at) + _line((left, top), (right, foot))
        at = (right, foot)


def joined(lines: Iterable[Stroke]) -> list[Stroke]:
    """Return level lines with those of one height that touch made one, told to and fro from the top.

    Args:
        lines: Of the staves of a system, bar by bar.
    """
    heights: dict[float, list[tuple[float, float]]] = {}
    for x, y, x2, _ in lines:
        heights.setdefault(float(y), []).append((float(x), float(x2)))
    told: list[Stroke] = []
    for number, (height, found) in enumerate(sorted(heights.items())):
        runs: list[tuple[float, float]] = []
        for start, end in sorted(found):
            if runs and start <= runs[-1][1]:
                runs[-1] = (runs[-1][0], max(end, runs[-1][1]))
            else:
                runs.append((start, end))
        level = f"{height:.10g}"
        ahead = [(f"{start:.10g}", level, f"{end:.10g}", level) for start, end in runs]
        told += [(x2, y, x, y) for x, y, x2, _ in reversed(ahead)] if number % 2 else ahead
    return told


def polygon(points: str) -> str:
    """Return the path of a polygon.

    Args:
        points: As the attribute has them: ``1,2 3,4 5,6``.
    """
    if not re.fullmatch(r"(?:-?\d+,-?\d+\s*)+", points):
        return "M" + "L".join(points.split()) + "Z"
    numbers = [int(number) for number in _NUMBER.findall(points)]
    corners = list(zip(numbers[::2], numbers[1::2], strict=True))
    lines = (_line(one, other) for one, other in pairwise(corners))
    return _shorter("M", corners[0], None) + "".join(lines) + "z"


def curve(data: str) -> str:
    """Return the data of a slur told from its start; any other data as it is."""
    found = _CURVE.match(data)
    if found is None:
        return data
    x, y = int(found[1]), int(found[2])
    numbers = [int(number) for number in _NUMBER.findall(found[3])]
    made = []
    for start in range(0, len(numbers), 6):
        six = numbers[start : start + 6]
        made += [number - (x, y)[k % 2] for k, number in enumerate(six)]
        x, y = six[4:]
    return f"M{found[1]} {found[2]}c{_joined(made)}"


def _line(start: tuple[int, int], end: tuple[int, int]) -> str:
    if start[1] == end[1]:
        return min(f"H{end[0]}", f"h{end[0] - start[0]}", key=len)
    if start[0] == end[0]:
        return min(f"V{end[1]}", f"v{end[1] - start[1]}", key=len)
    return _shorter("L", end, start)


def _shorter(command: str, to: tuple[int, int], at: tuple[int, int] | None) -> str:
    """The command from the page's corner or from the point before, whichever is shorter."""
    plainly = command + _joined(to)
    if at is None:
        return plainly
    return min(plainly, command.lower() + _joined((to[0] - at[0], to[1] - at[1])), key=len)


def _joined(numbers: Iterable[int]) -> str:
    return re.sub(r" -", "-", " ".join(map(str, numbers)))
