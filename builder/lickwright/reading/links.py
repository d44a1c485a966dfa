"""Links of the prose to notes: ``[words](lick:NAME@ADDRESS)``, each with its sentence."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Any
from urllib.parse import unquote

from markdown_it import MarkdownIt

from lickwright.model.address import AddressRange
from lickwright.model.course import LickLink
from lickwright.reading.collector import Collector, quote
from lickwright.reading.values import NAME, to_name
from lickwright.text import Passage

if TYPE_CHECKING:
    from collections.abc import Iterator, MutableMapping

    from markdown_it.rules_inline import StateInline
    from markdown_it.token import Token

    from lickwright.text import Source, Span

SCHEME = "lick:"
_SENTENCE_END = re.compile(r"(?<=[.!?…])[\"”’')\]]*\s+(?=[\"“‘'(\[]?[^\Wa-z])|(?:\s+\|)+\s*")
"""After a full stop, before a capital; at the edge of a cell where an author draws a table."""
_MIXED = re.compile(rf"({NAME.pattern})([#:/.,])((?:low)?[0-9].*)")
_BROKEN = re.compile(r"\]\(\s*(lick:[^()\n]*\S)\s*\)", re.IGNORECASE)
_SAID = re.compile(
    rf"lick:\s*(?P<name>{NAME.pattern})\s*"
    r"(?:(?:@\s*(?:bars?[\s-]*)?|\sbars?[\s-]*)(?P<at>(?:low)?[0-9][0-9.\s–-]*(?:low[0-9.\s]*)?))?",
    re.IGNORECASE,
)
"""An address as it may be said: ``lick: one @ bars 1 - 2``."""
SHAPE = "a link to notes is lick:NAME, or lick:NAME@ADDRESS, as in lick:porch-step@1.3"
_WORDS = ("text", "text_special", "code_inline")


def build_parser() -> MarkdownIt:
    """Return a CommonMark parser that finds blocks only and whose link rule tells places."""
    md = MarkdownIt("commonmark", {"html": False})
    md.core.ruler.enableOnly(["normalize", "block"])
    rules = {rule.name: rule.fn for rule in md.inline.ruler.__rules__}
    for name in ("link", "autolink"):
        md.inline.ruler.at(name, _telling(rules[name]))
    return md


def _telling(rule: Any) -> Any:
    """Wrap an inline rule so that the link it opens knows its place in the text."""

    def tell(state: StateInline, silent: bool) -> bool:
        start, before = state.pos, len(state.tokens)
        done = bool(rule(state, silent))
        if done and not silent:
            for token in state.tokens[before:]:
                if token.type == "link_open":
                    token.meta["stop"] = state.pos
                    if SCHEME in str(token.attrs.get("href", "")).casefold():
                        label = state.md.helpers.parseLinkLabel(state, start, True)
                        token.meta["lick"] = (start, label, state.pos)
                    break
        return done

    return tell


_PARSER = build_parser()


@lru_cache(maxsize=1)
def parse_prose(text: str) -> tuple[list[Token], dict[str, Any]]:
    """Return the blocks of a text and its link references; the last is remembered, being read twice."""
    env: dict[str, Any] = {}
    return _PARSER.parse(text, env), env


def read_inline(token: Token, env: dict[str, Any]) -> list[Token]:
    """Return the inline tokens of a block, read when they are first asked for."""
    if not token.children:
        token.children = []
        _PARSER.inline.parse(token.content, _PARSER, env, token.children)
    return token.children


def mentions_notes(token: Token, env: MutableMapping[str, Any]) -> bool:
    """Tell whether an inline token may hold a link to notes."""
    if SCHEME in token.content.casefold():
        return True
    references = env.get("references", {})
    return "[" in token.content and any(
        str(entry.get("href", "")).casefold().startswith(SCHEME) for entry in references.values()
    )


def read_plain(children: list[Token]) -> str:
    """Return the words of inline tokens without their marks."""
    parts: list[str] = []
    for child in children:
        if child.type in _WORDS:
            parts.append(child.content)
        elif child.type in ("softbreak", "hardbreak"):
            parts.append(" ")
        elif child.type == "image":
            parts.append(read_plain(child.children or []))
    return "".join(parts)


def find_links(token: Token, children: list[Token], source: Source, found: Collector) -> Iterator[LickLink]:
    """Yield the links to notes of one inline token, reporting those that cannot be read."""
    _report_broken(token, children, source, found)
    whole = read_passage(token, children, source)
    passages: dict[int, Passage] = {}
    for at, child in enumerate(children):
        if child.type != "link_open" or "lick" not in child.meta:
            continue
        href = unquote(str(child.attrs.get("href", "")))
        end = next((i for i in range(at, len(children)) if children[i].type == "link_close"), len(children))
        words = read_plain(children[at + 1 : end])
        start, label, stop = child.meta["lick"]
        place, words_place = _place_link(token, source, start, label, stop)
        link = _read_target(href, place, found)
        if link is None:
            continue
        offset = len(read_plain(children[:at]))
        begin, finish = _find_sentence(whole.text, offset)
        passage = passages.setdefault(begin, whole.cut(begin, finish))
        yield LickLink(words, link[0], link[1], passage, offset - begin, place, words_place)


def read_passage(token: Token, children: list[Token], source: Source) -> Passage:
    """Return the words of an inline token, as :func:`read_plain` does, with the places of their letters."""
    content = token.content
    text: list[str] = []
    runs: list[tuple[int, int]] = []
    length = cursor = 0
    stops: list[int] = []
    for child in children:
        if child.type == "link_open":
            stops.append(child.meta.get("stop", 0))
        elif child.type == "link_close" and stops:
            cursor = max(cursor, stops.pop())
        words = read_plain([child])
        if not words:
            continue
        written = _written(child, words)
        at = content.find(written, cursor)
        at = cursor if at < 0 else at
        runs.append((length, locate(token, source, min(at, len(content)))))
        cursor = at + len(written)
        if child.type == "image":
            cursor = max(cursor, content.find(")", cursor) + 1)
        text.append(words)
        length += len(words)
    return Passage("".join(text), source, tuple(runs))


def _written(child: Token, words: str) -> str:
    """How the words of an inline token stand in the text: an entity, an escape, a line end."""
    if child.type in ("softbreak", "hardbreak"):
        return "\n"
    return child.markup if child.type == "text_special" and child.markup else words


def _report_broken(token: Token, children: list[Token], source: Source, found: Collector) -> None:
    """Report ``[D](lick: one@1.1)``: with a blank in its address a link prints as it is typed."""
    if any(child.type == "text_special" and child.content in "[]" for child in children):
        return
    at = 0
    for child in children:
        if child.type != "text":
            continue
        for m in _BROKEN.finditer(child.content):
            start = token.content.find(m[0], at)
            if start < 0 or not re.search(r"\s", m[1]):
                continue
            at = start + len(m[0])
            first = start + m.start(1) - m.start()
            place = source.span(locate(token, source, first), locate(token, source, first + len(m[1])))
            right = _mend_target(m[1])
            message = "a blank in the address of a link: it prints as it is typed"
            fix = right if place.text == m[1] else None
            found.add("course/link", message, place, hint=f"write {right}" if right else SHAPE, fix=fix)


def _mend_target(target: str) -> str | None:
    """Return what ``lick: one @ bars 1 - 2`` is meant to be, ``lick:one@1-2``; None where nobody knows."""
    found = _SAID.fullmatch(target)
    if found is None:
        return None
    at = re.sub(r"\s", "", found["at"] or "").replace("–", "-").replace("-low", "-")
    if at and AddressRange.parse(at) is None:
        return None
    return f"{SCHEME}{found['name']}@{at}" if at else f"{SCHEME}{found['name']}"


def _place_link(token: Token, source: Source, start: int, label: int, stop: int) -> tuple[Span, Span]:
    """Place address and words of a link that stands at ``start`` to ``stop`` of the token's text."""
    content = token.content
    if label < 0:  # an address in angle brackets is its own words
        words = (start + 1, max(stop - 1, start + 1))
        address = words
    else:
        words = (start + 1, label)
        at = content.casefold().find(SCHEME, label, stop)
        address = (start, stop)
        if at >= 0:
            tail = re.match(r"[^\s>)]*", content[at:stop])
            address = (at, at + (tail.end() if tail else 0))
    return (
        source.span(locate(token, source, address[0]), locate(token, source, address[1])),
        source.span(locate(token, source, words[0]), locate(token, source, words[1])),
    )


def locate(token: Token, source: Source, offset: int) -> int:
    """Return where in the file a place of an inline token's text stands."""
    content = token.content
    first = token.map[0] if token.map else 0
    number = content.count("\n", 0, offset)
    begin = content.rfind("\n", 0, offset) + 1
    finish = content.find("\n", begin)
    line = content[begin:] if finish < 0 else content[begin:finish]
    whole = source.line(min(first + 1 + number, source.line_count))
    indent = max(whole.rfind(line.rstrip()), 0)
    return source.line_start(first + 1 + number) + min(indent + offset - begin, len(whole))


def _read_target(href: str, place: Span, found: Collector) -> tuple[str, AddressRange | None] | None:
    if not href.startswith(SCHEME):
        if href.casefold().startswith(SCHEME):
            right = SCHEME + href[len(SCHEME) :]
            found.add("course/link", "lick: is written in small letters", place, hint=SHAPE, fix=right)
        return None
    mixed = _MIXED.fullmatch(href.removeprefix(SCHEME))
    if mixed and AddressRange.parse(mixed[3]) is not None:
        right = f"{SCHEME}{mixed[1]}@{mixed[3]}"
        message = f"an address follows the name after @, not after {mixed[2]}"
        fix = right if place.text.startswith(SCHEME) else None
        found.add("course/link", message, place, hint=SHAPE, fix=fix)
        return None
    name, at_sign, address = href.removeprefix(SCHEME).partition("@")
    if not NAME.fullmatch(name):
        right = to_name(name)
        fix = f"{SCHEME}{right}{at_sign}{address}" if right and place.text.startswith(SCHEME) else None
        found.add(
            "course/link", f"{quote(name) or 'nothing'} is no name of a lick", place, hint=SHAPE, fix=fix
        )
        return None
    where = AddressRange.parse(address) if at_sign else None
    if at_sign and where is None:
        message = f"{quote(address) or 'nothing'} after @ is no address"
        hint = "a sound 2.3, a bar 2, or a range: 2-3, 1.3-2.1, low1.2-2.1"
        fix = _mend_target(href) if address and place.text.startswith(SCHEME) else None
        found.add("course/link", message, place, hint=hint, fix=fix)
        return None
    return name, where


def _find_sentence(plain: str, offset: int) -> tuple[int, int]:
    """Return where the sentence around a place begins and ends."""
    start, end = 0, len(plain)
    for m in _SENTENCE_END.finditer(plain):
        if m.end() > offset:
            end = m.start()
            break
        start = m.end()
    while start < end and plain[start].isspace():
        start += 1
    while end > start and plain[end - 1].isspace():
        end -= 1
    return start, end
