"""The kinds of block, by the first word of their fence."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lickwright.reading.chorus import read_chorus
from lickwright.reading.collector import Collector, quote
from lickwright.reading.excerpt import read_excerpt
from lickwright.reading.lick import read_lick
from lickwright.reading.lines import Body, Line
from lickwright.reading.nearest import count_edits
from lickwright.reading.neck import read_neck
from lickwright.reading.open_strings import read_open_strings
from lickwright.reading.progression import read_progression
from lickwright.reading.scale import read_scale
from lickwright.reading.tuner import read_tuner
from lickwright.reading.values import NAME, to_name
from lickwright.text import Span

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.model.blocks import Block


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of block: whether it has a name, and how it is read."""

    named: bool
    read: Callable[[Body, Collector], Block | None]


KINDS: dict[str, Kind] = {
    "lick": Kind(named=True, read=read_lick),
    "progression": Kind(named=True, read=read_progression),
    "chorus": Kind(named=True, read=read_chorus),
    "excerpt": Kind(named=False, read=read_excerpt),
    "scale": Kind(named=True, read=read_scale),
    "neck": Kind(named=False, read=read_neck),
    "open-strings": Kind(named=False, read=read_open_strings),
    "tuner": Kind(named=False, read=read_tuner),
}
_WORD = re.compile(r"\S+")


def find_near_kind(word: str) -> str | None:
    """Return the kind that ``word`` is within one letter of, or is in another case."""
    if word in KINDS or not 3 <= len(word) <= 13:
        return None
    folded = word.casefold()
    return next((kind for kind in KINDS if count_edits(folded, kind) <= 1), None)


def read_info(info: Line, found: Collector) -> tuple[str, str] | None:
    """Read the words after a fence: kind and name.

    Returns:
        The kind, and the name or an empty one; None for an ordinary code block.
    """
    words = [info.part(m.start(), m.end()) for m in _WORD.finditer(info.text)]
    if not words:
        return None
    kind = KINDS.get(words[0].text)
    if kind is None:
        near = find_near_kind(words[0].text)
        if near:
            span = Span(found.source, words[0].start, words[0].end)
            message = f"{quote(words[0].text)} is no block kind, so this is shown as plain text"
            found.add("syntax/block-kind", message, span, hint=f"did you mean {near}?", fix=near)
        return None
    return words[0].text, _read_name(words, found) if kind.named else _refuse_name(words, found)


def _refuse_name(words: list[Line], found: Collector) -> str:
    if len(words) > 1:
        span = Span(found.source, words[1].start, words[-1].end)
        found.add("syntax/block-name", f"a block {words[0].text} takes no name", span, fix="")
    return ""


def _read_name(words: list[Line], found: Collector) -> str:
    if len(words) == 1:
        span = Span(found.source, words[0].start, words[0].end)
        hint = f"as in {words[0].text} porch-step"
        found.add("syntax/block-name", f"a block {words[0].text} needs a name", span, hint=hint)
        return ""
    span = Span(found.source, words[1].start, words[-1].end)
    name = words[1].text
    if len(words) == 2 and NAME.fullmatch(name):
        return name
    right = to_name(" ".join(word.text for word in words[1:]))
    hint = "names are lower-case letters, digits and hyphens"
    found.add("syntax/block-name", f"{quote(span.text)} is no name", span, hint=hint, fix=right or None)
    return right


def read_block(kind: str, body: Body, found: Collector) -> Block | None:
    """Read a block of a known kind; None when nothing of use can be read."""
    found.block, found.address = body.name, ""
    block = KINDS[kind].read(body, found)
    found.block = found.address = ""
    return None if KINDS[kind].named and not body.name else block
