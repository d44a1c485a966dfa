"""The signatures, ``proofed.toml``: which lessons have been passed, by whom, and the mark they had."""

from __future__ import annotations

import re
import tomllib
from typing import TYPE_CHECKING, Any

from lickwright.model.signature import Signature
from lickwright.reading.collector import Collector, quote
from lickwright.reading.nearest import find_nearest
from lickwright.reading.toml_places import find_places

if TYPE_CHECKING:
    from collections.abc import Collection

    from lickwright.findings import Finding
    from lickwright.text import Source

NAME = "proofed.toml"
_RULE = "course/signatures"
_LINE = re.compile(r"line (\d+)")


def read_signatures(
    source: Source, lessons: Collection[str]
) -> tuple[tuple[Signature, ...], tuple[Finding, ...]]:
    """Read the signatures of a course.

    Args:
        source: The file.
        lessons: Names of the lessons there are.

    Returns:
        The signatures that could be read, and every fault of the file.
    """
    found = Collector(source)
    try:
        data: dict[str, Any] = tomllib.loads(source.text)
    except (ValueError, RecursionError) as error:
        at = _LINE.search(str(error))
        start = source.line_start(int(at[1])) if at else 0
        found.add(_RULE, f"{NAME} is not TOML", source.span(start, start), hint="sign the lessons again")
        return (), tuple(found.findings)
    places = find_places(source.text)
    read: list[Signature] = []
    for name, table in data.items():
        span = source.span(*places.find((name,)))
        by, mark = (table.get("by"), table.get("mark")) if isinstance(table, dict) else (None, None)
        if not isinstance(by, str) or not isinstance(mark, str) or not by or not mark:
            hint = f"lickwright sign {quote(name)} COURSE, the folder of this course"
            found.add(_RULE, f"{quote(name)} lacks by or mark", span, hint=hint)
        elif name not in lessons:
            near = find_nearest(name, list(lessons))
            hint = f"did you mean {near}?" if near else "take its table out"
            found.add(_RULE, f"there is no lesson {quote(name)} that could be signed", span, hint=hint)
        else:
            read.append(Signature(name, by, mark, span))
    return tuple(read), tuple(found.findings)
