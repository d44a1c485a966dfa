"""The course: its manifest, its lessons in the order of study, and what stands in them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, TypeVar

from lickwright.instrument.guitar import Guitar
from lickwright.model.address import AddressRange
from lickwright.model.blocks import Block, Chorus, Lick, Progression, ScaleBlock
from lickwright.model.fields import Feel, Provenance, Tempo
from lickwright.model.place import place
from lickwright.model.signature import Signature
from lickwright.text import Passage, Source, Span
from lickwright.theory.key import Key

_Named = TypeVar("_Named", Lick, Progression, Chorus, ScaleBlock)

Style = Literal["country", "blues", "bluegrass", "plain"]
STYLES: tuple[Style, ...] = ("country", "blues", "bluegrass", "plain")
Level = Literal["beginner", "intermediate", "advanced"]
LEVELS: tuple[Level, ...] = ("beginner", "intermediate", "advanced")


@dataclass(frozen=True, slots=True)
class Settings:
    """What a lick takes from the course when it does not say so itself."""

    key: Key
    feel: Feel
    tempo: Tempo
    guitar: Guitar
    source: Provenance
    style: Style = "country"
    level: Level = "intermediate"
    limits: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True)
class LickLink:
    """A prose link to notes: ``[words](lick:NAME@ADDRESS)``.

    Attributes:
        words: The link's text as read (Markdown marks taken off).
        target: Name of a lick or chorus.
        at: Which of its notes; None = all.
        passage: The sentence that carries the link; links of one sentence share it.
        start: Where in the passage the words begin.
        span: The link's address in the text; ``words_span`` its words.
    """

    words: str
    target: str
    at: AddressRange | None = None
    passage: Passage = Passage("")
    start: int = 0
    span: Span = place()
    words_span: Span = place()

    @property
    def sentence(self) -> str:
        """The sentence that carries the link, plain text."""
        return self.passage.text

    @property
    def end(self) -> int:
        """Where in the passage the words end."""
        return self.start + len(self.words)


@dataclass(frozen=True, slots=True)
class Placed:
    """A block and the 0-based line of the file at which its fence opens."""

    line: int
    block: Block


@dataclass(frozen=True, slots=True)
class Lesson:
    """One lesson file.

    Attributes:
        name: File name without ``.md``.
        title: Its first heading, or the name spaced.
        source: The whole file.
        blocks: In the order written.
        links: Prose links to notes, in the order written.
    """

    name: str
    title: str
    source: Source
    blocks: tuple[Placed, ...] = ()
    links: tuple[LickLink, ...] = ()
    draft: bool = False


@dataclass(frozen=True, slots=True)
class Unit:
    """A part of the course: a title and lessons in the order of study."""

    title: str
    lessons: tuple[Lesson, ...]
    drafts: tuple[Lesson, ...] = ()


@dataclass(frozen=True)  # no slots: what is asked for by name is laid out once
class Course:
    """A whole course as read."""

    title: str
    author: str
    settings: Settings
    units: tuple[Unit, ...]
    edition: str = ""
    language: str = "en"
    licence: str = ""
    promises: tuple[tuple[str, int], ...] = ()
    manifest: Source = Source("course.toml", "")
    places: tuple[tuple[str, Span], ...] = ()
    signatures: tuple[Signature, ...] = ()

    @property
    def lessons(self) -> tuple[Lesson, ...]:
        """Published lessons in the order of study."""
        return tuple(lesson for unit in self.units for lesson in unit.lessons)

    @property
    def drafts(self) -> tuple[Lesson, ...]:
        """Lessons that are proofed and left out of the site."""
        return tuple(lesson for unit in self.units for lesson in unit.drafts)

    @cached_property
    def blocks(self) -> tuple[Block, ...]:
        """Every block of every lesson and draft, in the order of study."""
        return tuple(p.block for lesson in (*self.lessons, *self.drafts) for p in lesson.blocks)

    @cached_property
    def licks(self) -> dict[str, Lick]:
        """The licks by name; the first of a name counts."""
        return _by_name(block for block in self.blocks if isinstance(block, Lick))

    @cached_property
    def progressions(self) -> dict[str, Progression]:
        """The progressions by name; the first of a name counts."""
        return _by_name(block for block in self.blocks if isinstance(block, Progression))

    @cached_property
    def choruses(self) -> dict[str, Chorus]:
        """The choruses by name; the first of a name counts."""
        return _by_name(block for block in self.blocks if isinstance(block, Chorus))

    @cached_property
    def scales(self) -> dict[str, ScaleBlock]:
        """The scales by name; the first of a name counts."""
        return _by_name(block for block in self.blocks if isinstance(block, ScaleBlock))


def _by_name(blocks: Iterable[_Named]) -> dict[str, _Named]:
    named: dict[str, _Named] = {}
    for block in blocks:
        named.setdefault(block.name, block)
    return named
