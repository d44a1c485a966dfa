"""A lesson: Markdown with blocks of music, and words that point at notes."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from lickwright.instrument.tuning import STANDARD
from lickwright.model.course import Lesson, LickLink, Placed
from lickwright.reading.blocks import read_block, read_info
from lickwright.reading.collector import Collector
from lickwright.reading.fences import find_fences
from lickwright.reading.lines import Body
from lickwright.reading.links import find_links, mentions_notes, parse_prose, read_inline, read_plain
from lickwright.text import Source

if TYPE_CHECKING:
    from collections.abc import Mapping

    from markdown_it.token import Token

    from lickwright.findings import Finding
    from lickwright.instrument.guitar import Guitar
    from lickwright.model.fields import Shape


@dataclass(frozen=True, slots=True)
class Base:
    """What a variation's text is read against: the strings and shapes of the lick it varies."""

    strings: int
    shapes: tuple[Shape, ...] = ()


def read_lesson(
    source: Source,
    name: str,
    *,
    draft: bool = False,
    strings: int = STANDARD.count,
    bases: Mapping[str, Base] | None = None,
    guitar: Guitar | None = None,
) -> tuple[Lesson, tuple[Finding, ...]]:
    """Read a lesson.

    Args:
        source: The file.
        name: Its name without ``.md``.
        draft: Whether it is left out of the site.
        strings: How many strings the course's guitar has.
        guitar: The course's guitar, where it is known.
        bases: What variations have from the licks they vary, by the variation's name.

    Returns:
        The lesson as far as it could be read, and every fault of the file.
    """
    if "\r" in source.text:
        source = Source(source.path, source.text.replace("\r\n", "\n").replace("\r", "\n"))
    found = Collector(source)
    if not source.text.strip():
        found.add("course/empty-lesson", f"the lesson {name} is empty", source.span(0, 0))
    tokens, env = parse_prose(source.text)
    blocks: list[Placed] = []
    for fence in find_fences(tokens, source, found):
        read = read_info(fence.info, found)
        if read is None:
            continue
        kind, block_name = read
        base = (bases or {}).get(block_name) or Base(strings)
        body = Body(fence.opening, block_name, fence.lines, base.strings, base.shapes)
        if guitar is not None:
            tuning = guitar.tuning if guitar.tuning.count == base.strings else None
            body = replace(body, tuning=tuning, frets=guitar.highest_fret)
        block = read_block(kind, body, found)
        if block is not None:
            blocks.append(Placed(fence.number, block))
    title, links = _read_prose(tokens, env, source, found)
    title = title or re.sub(r"[-_]+", " ", name).strip().capitalize() or name
    lesson = Lesson(name, title, source, tuple(blocks), links, draft)
    return lesson, tuple(sorted(found.findings, key=lambda finding: finding.sort_key))


def _read_prose(
    tokens: list[Token], env: dict[str, Any], source: Source, found: Collector
) -> tuple[str, tuple[LickLink, ...]]:
    """Return the first heading and the links to notes."""
    title = ""
    links: list[LickLink] = []
    for before, token in zip([None, *tokens], tokens, strict=False):
        if token.type != "inline":
            continue
        heads = not title and before is not None and before.type == "heading_open"
        points = mentions_notes(token, env)
        if not heads and not points:
            continue
        children = read_inline(token, env)
        if heads:
            title = " ".join(read_plain(children).split())
        if points:
            links.extend(find_links(token, children, source, found))
    return title, tuple(links)
