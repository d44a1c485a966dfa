"""A lesson's text woven with its music: what stands for each block and each link."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby

from markupsafe import Markup, escape

from lickwright.model.address import AddressRange
from lickwright.model.blocks import Block, Chorus, Excerpt, Lick, Progression
from lickwright.model.course import Lesson, Placed
from lickwright.model.music import Piece
from lickwright.pages.blocks import block_body
from lickwright.pages.drawings import Drawn, grips
from lickwright.pages.edition import Edition
from lickwright.pages.exchange_files import plan_files
from lickwright.pages.links import AWAY, lick_anchor, picture_path, relative, root_of
from lickwright.pages.margin import Positions
from lickwright.pages.markdown import Body
from lickwright.pages.player_data import notes_in, seconds_of
from lickwright.pages.practice import Plan, Rendition, Score, plan_piece, score_of
from lickwright.pages.prefixes import short_prefixes
from lickwright.pages.scale_notes import scale_notes
from lickwright.pages.typography import printed

_MARK = re.compile(r"`{3,}|~{3,}")
NO_BREAK = "\N{NO-BREAK SPACE}"
NO_BAND = "The band is not in this edition yet: you hear the lead guitar alone."


def plans_of(edition: Edition, lesson: Lesson, *, views: bool = False) -> dict[int, Plan]:
    """Return the plan of each block with music by the line of its fence.

    Args:
        edition: What the page is made of.
        lesson: Whose page it is.
        views: Whether it offers further views, and files for other programs.
    """
    found = ((placed.line, edition.music.at(lesson.name, placed.line)) for placed in lesson.blocks)
    pieces = {line: piece for line, piece in found if piece is not None}
    prefixes = short_prefixes(piece.name for piece in pieces.values())
    return {
        line: plan_piece(
            piece,
            prefixes[piece.name],
            sound=edition.sound,
            views=views,
            files=plan_files(piece, edition.course) if views else (),
        )
        for line, piece in pieces.items()
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
    _turns: dict[int, int] = field(init=False)
    _band: int | None = field(init=False)

    def __post_init__(self) -> None:
        self._blocks = {placed.line: placed for placed in self.lesson.blocks}
        whole = [p.line for p in self.lesson.blocks if isinstance(p.block, Lick | Chorus)]
        self._numbers = {line: f"{self.number}.{k}" for k, line in enumerate(whole, 1) if self.number}
        told: Counter[str] = Counter()
        self._turns = {}
        for placed in self.lesson.blocks:
            if placed.line in self.renditions:
                heading = f"{self._numbers.get(placed.line, '')} {self._title(placed)}"
                told[heading] += 1
                self._turns[placed.line] = told[heading]
        over = (p.line for p in self.lesson.blocks if self.number and wants_band(p.block))
        self._band = next(over, None) if self.edition.sound else None

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
            told = (Body(later=NO_BAND),) if line == self._band else ()
            return (*source, *block_body(placed.block, self.edition.course, self.edition.music), *told)
        piece = rendition.plan.piece
        score = score_of(
            rendition,
            root=root_of(self.path),
            title=self._title(placed),
            number=self._numbers.get(line, ""),
            level=level,
            turn=self._turns[line],
            notes=(
                *self._variation(piece),
                *scale_notes(piece),
                *((NO_BAND,) if line == self._band else ()),
            ),
            grips=self._grips(placed, piece),
            guitar=self.edition.course.settings.guitar,
            language=self.edition.course.language,
            positions=self._positions(piece) if piece.sections else None,
        )
        return (*source, score)

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
            piece = self.edition.music.piece(name)
            tones = notes_in(piece.music, at) if piece and at else []
            asked = f"?notes={'+'.join(tones)}" if tones and self.edition.sound else ""
            attributes["href"] = relative(home, self.path) + asked + attributes["href"]
            return attributes
        return attributes | self._quoted(name, at)

    def _quoted(self, name: str, at: AddressRange | None) -> dict[str, str]:
        """What the player must know of a link: the pieces on this page that hold all its notes, and when."""
        holders, spans = [], []
        tones: list[str] = []
        for rendition in self.renditions.values():
            piece = rendition.plan.piece
            whole = piece.name == name
            if not rendition.versions or not (whole or (piece.kind == "excerpt" and piece.of == name)):
                continue
            found = notes_in(piece.music, at)
            lick = self.edition.music.piece(name)
            if not found or (lick is not None and found != notes_in(lick.music, at)):
                continue
            full = next(version for version in rendition.versions if version.full)
            begin, end = seconds_of(piece.music, full, at)
            holders.append(piece.name)
            spans.append(f"{begin:g} {end:g}")
            tones = found
        if not holders:
            return {}
        return {
            "data-lick": " ".join(holders),
            "data-span": ";".join(spans),
            "data-notes": " ".join(tones),
        }

    def _grips(self, placed: Placed, piece: Piece) -> tuple[Drawn, ...]:
        """The chords of a lick as they are held; a part of it is not shown them again."""
        block = placed.block
        if not isinstance(block, Lick):
            return ()
        return grips(piece, block.shapes, self.edition.course.language)

    def _title(self, placed: Placed) -> str:
        piece = self.renditions[placed.line].plan.piece
        title = excerpt_title(placed.block, piece) if isinstance(placed.block, Excerpt) else piece.title
        return printed(title, self.edition.course.language)

    def _variation(self, piece: Piece) -> tuple[Markup, ...]:
        """Where a variation comes from, and its changed sounds, each a link that shows it."""
        base = self.edition.music.piece(piece.of)
        if piece.kind != "lick" or base is None:
            return ()
        title = printed(base.title, self.edition.course.language)
        said = Markup("From {}.").format(self._anchor(base.name, "", title))
        bars = []
        for bar, found in groupby(piece.changed, key=lambda address: (address.bar, address.lower)):
            sounds = [self._anchor(piece.name, str(a), str(a.sound)) for a in found if piece.music.sound(a)]
            if sounds:
                place = (f"bar {bar[0]}" if bar[0] else "the pickup") + (", lower voice" if bar[1] else "")
                noun = "sound" if len(sounds) == 1 else "sounds"
                *first, last = sounds
                several = Markup(", ").join(first) + Markup(" and ") if first else Markup("")
                bars.append(Markup("{}, {} {}{}").format(place, noun, several, last))
        return (said + Markup(" Changed: {}.").format(Markup("; ").join(bars)),) if bars else (said,)

    def _anchor(self, name: str, address: str, words: str) -> Markup:
        attributes = self._lick_link(f"{name}@{address}" if address else name)
        if attributes is None:
            return escape(words)
        written = Markup(" ").join(Markup('{}="{}"').format(k, v) for k, v in attributes.items())
        return Markup("<a {}>{}</a>").format(written, words)

    def _positions(self, piece: Piece) -> Positions:
        """The position at every bar of a chorus: that of the lick it plays there."""
        found: dict[int, int | None] = {bar.number: None for bar in piece.music.bars}
        for section in piece.sections:
            lick = self.edition.music.piece(section.lick)
            if lick is None:
                continue
            starts, position = dict(lick.music.positions), None
            held: dict[int, int | None] = {}
            for bar in lick.music.bars:
                held[bar.number] = position = starts.get(bar.number, position)
            played = [lick.music.bars[k].number for k in lick.music.order]
            counted = [number for number in played if number]
            found.update((section.first + k, held[number]) for k, number in enumerate(counted))
        return found

    def _typed(self, line: int) -> Markup:
        lines = self.lesson.source.text.split("\n")
        mark = _MARK.findall(lines[line])[0]
        closing = re.compile(rf"[>\s]*{mark}")  # inside a quote behind its sign
        end = next((k for k in range(line + 1, len(lines)) if closing.match(lines[k])), len(lines) - 1)
        return Markup('<pre tabindex="0"><code>{}</code></pre>\n').format(
            escape("\n".join(lines[line : end + 1]))
        )


def wants_band(block: Block) -> bool:
    """Whether the text promises a band here: chords to play over, or music over them."""
    return isinstance(block, Progression | Chorus) or (isinstance(block, Lick) and block.over is not None)


def excerpt_title(block: Excerpt, piece: Piece) -> str:
    """Return the heading of an excerpt: ``Walking the gangplank, bars 3 to 5``."""
    show = block.show
    if show is None:
        return piece.title
    first, last = show.first.bar, show.last.bar
    bars = f"bar {last}" if first == last else f"bars {first} to {last}"
    if first == 0:
        bars = "the pickup" if last == 0 else f"the pickup to bar {last}"
    if not show.whole_bars and first != last:
        bars = f"from {f'bar {first}' if first else 'the pickup'} to bar {last}"
    elif not show.whole_bars:
        bars = f"from {bars}"
    return f"{piece.title}, {bars.replace(' ', NO_BREAK)}"
