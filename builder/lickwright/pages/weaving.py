"""A lesson's text woven with its music: what stands for each block and each link."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from markupsafe import Markup, escape

from lickwright.model.address import AddressRange
from lickwright.model.blocks import Chorus, Excerpt, Lick
from lickwright.model.course import Lesson, Placed
from lickwright.model.music import Piece
from lickwright.pages.blocks import block_body
from lickwright.pages.edition import Edition
from lickwright.pages.links import AWAY, lick_anchor, picture_path, relative, root_of
from lickwright.pages.markdown import Body
from lickwright.pages.player_data import notes_in, seconds_of
from lickwright.pages.practice import Plan, Rendition, Score, plan_piece, score_of
from lickwright.pages.prefixes import short_prefixes

_MARK = re.compile(r"`{3,}|~{3,}")
NO_BREAK = "\N{NO-BREAK SPACE}"


def plans_of(edition: Edition, lesson: Lesson) -> dict[int, Plan]:
    """Return the plan of each block with music by the line of its fence."""
    found = ((placed.line, edition.music.at(lesson.name, placed.line)) for placed in lesson.blocks)
    pieces = {line: piece for line, piece in found if piece is not None}
    prefixes = short_prefixes(piece.name for piece in pieces.values())
    return {
        line: plan_piece(piece, prefixes[piece.name], sound=edition.sound) for line, piece in pieces.items()
    }


@dataclass
class LessonWeaver:
    """Answers for one page what its links and blocks stand for; see ``markdown.Weaver``.

    Attributes:
        number: Of the lesson, put before its licks; empty in the guide.
        renditions: What became of each piece of the lesson, by the line of its fence.
        typed: Whether the source of each block is shown above it.
    """

    edition: Edition
    lesson: Lesson
    path: str
    number: str
    renditions: Mapping[int, Rendition]
    typed: bool = False
    _blocks: dict[int, Placed] = field(init=False)
    _numbers: dict[int, str] = field(init=False)

    def __post_init__(self) -> None:
        self._blocks = {placed.line: placed for placed in self.lesson.blocks}
        whole = [p.line for p in self.lesson.blocks if isinstance(p.block, Lick | Chorus)]
        self._numbers = {line: f"{self.number}.{k}" for k, line in enumerate(whole, 1) if self.number}

    @property
    def playable(self) -> bool:
        """Whether anything on the page can be heard."""
        return any(rendition.versions for rendition in self.renditions.values())

    def is_block(self, line: int) -> bool:
        """Whether the fence on a line is one of our blocks."""
        return line in self._blocks

    def block(self, line: int, level: int) -> tuple[Score | Body, ...]:
        """Return what stands for the block on a line."""
        placed = self._blocks[line]
        source = (Body(self._typed(line)),) if self.typed else ()
        rendition = self.renditions.get(line)
        if rendition is None:
            return (*source, *block_body(placed.block, self.edition.course.settings))
        piece = rendition.plan.piece
        title = excerpt_title(placed.block, piece) if isinstance(placed.block, Excerpt) else piece.title
        number = self._numbers.get(line, "")
        root = root_of(self.path)
        return (*source, score_of(rendition, root=root, title=title, number=number, level=level))

    def nested(self, parts: Sequence[Score | Body]) -> Markup:
        """Return the HTML of a block inside a list or a quote."""
        theme = self.edition.theme
        html = [
            theme.macro("score.html", "practice", part)
            if isinstance(part, Score)
            else theme.macro("passages.html", "body", part)
            for part in parts
        ]
        return Markup("".join(html))  # noqa: S704 - made by the templates

    def link(self, href: str) -> dict[str, str] | None:
        """Return the attributes of a link."""
        if href.startswith("lick:"):
            return self._lick_link(href.removeprefix("lick:"))
        if AWAY.match(href):
            return {"href": href, "rel": "noopener noreferrer", "class": "away"}
        name, _, anchor = href.partition("#")
        path = self.edition.paths.get(name.rpartition("/")[2].removesuffix(".md"))
        if name.endswith(".md") and path:
            return {"href": relative(path, self.path)}
        return {"href": f"#{anchor}"} if not name and anchor else None

    def image(self, source: str) -> str | None:
        """Return the address of a picture of the course."""
        path = picture_path(source)
        return relative(path, self.path) if path else None

    def _lick_link(self, target: str) -> dict[str, str] | None:
        name, _, address = target.partition("@")
        at = AddressRange.parse(address) if address else None
        home = self.edition.home_of(name)
        if home is None:
            return None
        attributes = {"class": "lick", "href": f"#{lick_anchor(name)}"}
        if home != self.path:
            attributes["href"] = relative(home, self.path) + attributes["href"]
            return attributes
        rendition = next((r for r in self.renditions.values() if r.plan.piece.name == name), None)
        if rendition and rendition.versions:
            plan, full = rendition.plan, next(version for version in rendition.versions if version.full)
            begin, end = seconds_of(plan.piece.music, full, at)
            attributes["data-lick"] = name
            attributes["data-span"] = f"{begin:g} {end:g}"
            attributes["data-notes"] = " ".join(notes_in(plan.piece.music, at))
        return attributes

    def _typed(self, line: int) -> Markup:
        lines = self.lesson.source.text.split("\n")
        mark = _MARK.findall(lines[line])[0]
        closing = re.compile(rf"[>\s]*{mark}")  # inside a quote behind its sign
        end = next((k for k in range(line + 1, len(lines)) if closing.match(lines[k])), len(lines) - 1)
        return Markup('<pre tabindex="0"><code>{}</code></pre>\n').format(
            escape("\n".join(lines[line : end + 1]))
        )


def excerpt_title(block: Excerpt, piece: Piece) -> str:
    """Return the heading of an excerpt: ``Walking the gangplank, bars 3 to 5``."""
    show = block.show
    if show is None:
        return piece.title
    first, last = show.first.bar, show.last.bar
    bars = f"bar {last}" if first == last else f"bars {first} to {last}"
    if first == 0:
        bars = "the pickup" if last == 0 else f"the pickup to bar {last}"
    bars = bars.replace(" ", NO_BREAK)
    return f"{piece.title}, {bars}" if show.whole_bars else f"{piece.title}, from {bars}"
