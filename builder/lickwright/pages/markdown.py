"""From an author's Markdown to passages: side-head, prose, asides, with the blocks between them.

CommonMark, raw HTML off: a tag an author writes comes out as letters. Our own customs: the first
heading is the title; a paragraph straight after it that is one emphasis is the deck; a heading of
the first or second level begins a passage and becomes its side-head; a quote is an aside in the
outer margin, unless there is music in it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markupsafe import Markup, escape

from lickwright.pages.drawings import Drawn
from lickwright.pages.practice import Score
from lickwright.pages.typography import is_english

_READER = MarkdownIt("commonmark", {"html": False})
_ENGLISH = MarkdownIt("commonmark", {"html": False, "typographer": True}).enable("smartquotes")


@dataclass(frozen=True, slots=True)
class Table:
    """A plain table: caption, head and rows of text; an empty caption or head is not printed.

    Attributes:
        headed: Whether the first cell of each row is its head.
        legend: A sentence under it.
    """

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    headed: bool = False
    legend: str = ""


@dataclass(frozen=True, slots=True)
class Body:
    """A piece of a passage: prose, a table, a picture, or one sentence about what is not in this edition."""

    html: Markup = Markup("")
    table: Table | None = None
    picture: Drawn | None = None
    later: str = ""


@dataclass(slots=True)
class Passage:
    """A stretch of prose with its side-head and its asides."""

    heading: Markup = Markup("")
    body: list[Body] = field(default_factory=list)
    asides: list[Markup] = field(default_factory=list)
    kind: str = "passage"


@dataclass(frozen=True, slots=True)
class Practice:
    """A piece of music between two passages."""

    score: Score
    kind: str = "practice"


Part = Passage | Practice


class Weaver(Protocol):
    """Knows what the links and blocks of a text stand for."""

    def link(self, href: str) -> dict[str, str] | None:
        """Return the attributes of a link, or None: then its words stand without one."""

    def image(self, source: str) -> str | None:
        """Return the address of a picture, or None: then its description stands for it."""

    def is_block(self, line: int) -> bool:
        """Whether the fence on a line (from 0) is one of our blocks; any other is code."""

    def block(self, line: int, level: int) -> tuple[Score | Body, ...]:
        """Return what stands for the block on a line; ``level`` is that of its heading."""

    def nested(self, parts: Sequence[Score | Body]) -> Markup:
        """Return the HTML of a block that stands inside a list or a quote."""


@dataclass(frozen=True, slots=True)
class Document:
    """A text, ready to be printed."""

    title: Markup
    deck: Markup
    parts: tuple[Part, ...]


def weave(text: str, weaver: Weaver, language: str = "en") -> Document:
    """Return the title, deck and passages of a text, its music put in; ``language`` as its tag."""
    units = list(_units(_reader(language).parse(text)))
    for unit in units:
        _settle(unit, weaver)
    at = next((k for k, unit in enumerate(units) if unit[0].type == "heading_open"), None)
    title = deck = Markup("")
    if at is not None:
        title = _inline(units[at][1])
        del units[at]
        if at < len(units) and _is_deck(units[at]):
            deck = Markup(_READER.renderer.render(_children(units[at][1])[1:-1], _READER.options, {}))  # noqa: S704
            del units[at]
    return Document(title, deck, tuple(_parts(units, weaver)))


def _reader(language: str) -> MarkdownIt:
    return _ENGLISH if is_english(language) else _READER


def deck_of(text: str, language: str = "en") -> Markup:
    """Return the deck of a text, links taken out; empty when it has none."""
    units = list(_units(_reader(language).parse(text)))
    at = next((k for k, unit in enumerate(units) if unit[0].type == "heading_open"), None)
    if at is None or at + 1 >= len(units) or not _is_deck(units[at + 1]):
        return Markup("")
    plainly = [
        t for t in _children(units[at + 1][1])[1:-1] if t.type not in ("link_open", "link_close", "image")
    ]
    return Markup(_READER.renderer.render(plainly, _READER.options, {}))  # noqa: S704 - raw HTML is off


def pictures_of(text: str) -> tuple[str, ...]:
    """Return the addresses of the pictures of a text as written, each once."""
    if "![" not in text:
        return ()
    inner = (child for token in _READER.parse(text) for child in token.children or ())
    return tuple(dict.fromkeys(str(child.attrGet("src")) for child in inner if child.type == "image"))


def plain(text: str) -> Markup:
    """Return the HTML of a text of our own that has neither music nor links to it."""
    return Markup(_READER.render(text))  # noqa: S704 - raw HTML is off


def _units(tokens: list[Token]) -> Iterator[list[Token]]:
    """Part the tokens into the elements of the top level."""
    unit: list[Token] = []
    for token in tokens:
        unit.append(token)
        if token.level == 0 and token.nesting <= 0:
            yield unit
            unit = []


def _parts(units: Sequence[list[Token]], weaver: Weaver) -> Iterator[Part]:
    passage = Passage()
    level = 2
    for unit in units:
        first = unit[0]
        if first.type == "heading_open" and first.tag in ("h1", "h2"):
            yield from _filled(passage)
            passage = Passage(_inline(unit[1]))
            level = 3
        elif first.type == "fence" and (line := _block_line(first, weaver)) is not None:
            for part in weaver.block(line, level):
                if isinstance(part, Score):
                    yield from _filled(passage)
                    passage = Passage()
                    yield Practice(part)
                else:
                    passage.body.append(part)
        elif first.type == "blockquote_open" and all(_block_line(t, weaver) is None for t in unit):
            passage.asides.append(_html(unit[1:-1], weaver, level))
        else:
            passage.body.append(Body(_html(unit, weaver, level)))
    yield from _filled(passage)


def _filled(passage: Passage) -> Iterator[Passage]:
    if passage.heading or passage.body or passage.asides:
        yield passage


def _block_line(token: Token, weaver: Weaver) -> int | None:
    """The line of a fence that is one of our blocks."""
    line = token.map[0] if token.type == "fence" and token.map else None
    return line if line is not None and weaver.is_block(line) else None


def _html(tokens: Sequence[Token], weaver: Weaver, level: int) -> Markup:
    made = [
        _fence(token, weaver, level) if token.type in ("fence", "code_block") else token for token in tokens
    ]
    return Markup(_READER.renderer.render(made, _READER.options, {}))  # noqa: S704 - raw HTML is off


def _fence(token: Token, weaver: Weaver, level: int) -> Token:
    line = _block_line(token, weaver)
    if line is not None:
        made = weaver.nested(weaver.block(line, level))
    else:
        made = Markup('<pre tabindex="0"><code>{}</code></pre>\n').format(escape(token.content))
    return Token("html_block", "", 0, content=str(made), block=True)


def _inline(token: Token) -> Markup:
    return Markup(_READER.renderer.render(_children(token), _READER.options, {}))  # noqa: S704 - as above


def _children(token: Token) -> list[Token]:
    return token.children or []


def _is_deck(unit: Sequence[Token]) -> bool:
    if unit[0].type != "paragraph_open":
        return False
    children = _children(unit[1])
    kinds = [child.type for child in children]
    if len(kinds) < 3 or kinds[0] != "em_open" or kinds[-1] != "em_close":
        return False
    return not any(child.type == "em_close" and child.level == children[-1].level for child in children[1:-1])


def _settle(unit: Sequence[Token], weaver: Weaver) -> None:
    """Put the real addresses of links and pictures in; take out what has none."""
    for token in unit:
        if token.type == "inline":
            token.children = list(_settled(_children(token), weaver))


def _settled(children: Sequence[Token], weaver: Weaver) -> Iterator[Token]:
    open_link = True
    for child in children:
        if child.type == "link_open":
            attributes = weaver.link(str(child.attrGet("href") or ""))
            open_link = attributes is not None
            if attributes is not None:
                child.attrs = dict(attributes)
                yield child
        elif child.type == "link_close":
            if open_link:
                yield child
        elif child.type == "image":
            source = weaver.image(str(child.attrGet("src") or ""))
            if source is None:
                yield Token("text", "", 0, content=child.content, level=child.level)
            else:
                child.attrs = {"src": source, "alt": ""}
                yield child
        else:
            yield child
