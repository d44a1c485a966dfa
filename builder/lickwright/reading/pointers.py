"""Pictures and links of the prose: each must lead to a file, a lesson or a heading that is there."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise
from posixpath import normpath
from typing import TYPE_CHECKING
from urllib.parse import unquote

from lickwright.reading.collector import Collector, quote
from lickwright.reading.links import SCHEME, locate, parse_prose, read_inline, read_plain
from lickwright.reading.nearest import find_nearest
from lickwright.reading.pictures import PICTURES, find_picture

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

    from lickwright.findings import Finding
    from lickwright.model.course import Course, Lesson
    from lickwright.text import Source, Span

_AWAY = re.compile(r"https?://|mailto:", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Pointer:
    """A picture or a link of the prose as written; one to notes is none.

    Attributes:
        picture: Whether it is a picture.
        address: Where it leads. ``place``: of the address, else of its paragraph.
    """

    picture: bool
    address: str
    place: Span


def check_pointers(
    lesson: Lesson, pointers: Iterable[Pointer], course: Course, folder: Path
) -> tuple[Finding, ...]:
    """Return what is wrong with the pictures and links of a lesson; links to notes are read elsewhere."""
    found = Collector(lesson.source)
    for pointer in pointers:
        if pointer.picture:
            _check_picture(pointer.address, pointer.place, folder, found)
        elif not _AWAY.match(pointer.address):
            _check_link(pointer.address, pointer.place, lesson, course, found)
    return tuple(found.findings)


def find_pointers(source: Source) -> tuple[Pointer, ...]:
    """Return the pictures and links of a lesson's prose."""
    return tuple(_find_pointers(source)) if "](" in source.text or "]:" in source.text else ()


def _find_pointers(source: Source) -> Iterator[Pointer]:
    tokens, env = parse_prose(source.text)
    for block in tokens:
        if block.type != "inline" or "[" not in block.content:
            continue
        at = 0
        for child in read_inline(block, env):
            if child.type not in ("link_open", "image"):
                continue
            picture = child.type == "image"
            address = unquote(str(child.attrs.get("src" if picture else "href", "")))
            start = block.content.find(address, at) if address else -1
            end = start + len(address)
            if start < 0:  # by reference, or written with escapes: the paragraph's first line is shown
                start = end = 0
            at = max(at, end)
            if picture or not address.casefold().startswith(SCHEME):
                place = source.span(locate(block, source, start), locate(block, source, end))
                yield Pointer(picture, address, place)


def _check_picture(address: str, place: Span, folder: Path, found: Collector) -> None:
    path = address.removeprefix("../")
    hint = f"a picture is a file of the course's own {PICTURES}/, written {PICTURES}/NAME"
    if _AWAY.match(address) or re.match(r"[a-z]+:", address, re.IGNORECASE):
        message = f"{quote(address)} is no picture of the course, and the site loads no other"
        found.add("course/missing-picture", message, place, hint=hint)
    elif _leaves(path) or "\\" in address:
        found.add("course/path", f"{quote(address)} leaves {PICTURES}/", place, hint=hint)
    elif not path.startswith(f"{PICTURES}/") or find_picture(folder, path) is None:
        found.add("course/missing-picture", f"there is no picture {quote(address)}", place, hint=hint)


def _leaves(path: str) -> bool:
    return path.startswith("/") or normpath(path).startswith("..")


def _check_link(address: str, place: Span, lesson: Lesson, course: Course, found: Collector) -> None:
    path, mark, heading = address.partition("#")
    lessons = {each.name: each for each in (*course.lessons, *course.drafts)}
    hint = "a link leads to a lesson, gangplank.md or gangplank.md#heading, to notes, or to https://…"
    if _leaves(f"lessons/{path}") or path.startswith("/") or "\\" in path:
        found.add("course/path", f"{quote(address)} leaves the course", place, hint=hint)
        return
    name = path.rpartition("/")[2]
    aim = lessons.get(name.removesuffix(".md")) if name.endswith(".md") else None
    if path and aim is None:
        near = find_nearest(name, [f"{each}.md" for each in lessons])
        hint = f"did you mean {near}?" if near else hint
        fix = near if near and place.text == address and path == name and not mark else None
        found.add("course/dead-link", f"there is no lesson {quote(path)}", place, hint=hint, fix=fix)
        return
    shown = aim or lesson
    if mark and _slug(heading) not in _list_anchors(shown):
        message = f"{shown.name}.md has no heading {quote(heading)}"
        found.add("course/unknown-anchor", message, place, hint="write the heading's words with hyphens")


def _list_anchors(lesson: Lesson) -> set[str]:
    anchors = {f"lick-{_slug(getattr(placed.block, 'name', ''))}" for placed in lesson.blocks}
    tokens, env = parse_prose(lesson.source.text)
    for before, token in pairwise(tokens):
        if before.type == "heading_open" and token.type == "inline":
            anchors.add(_slug(read_plain(read_inline(token, env))))
    return anchors


def _slug(text: str) -> str:
    return re.sub(r"[\W_]+", "-", text.casefold()).strip("-")
