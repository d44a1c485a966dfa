"""An edition: a course with its music resolved and proofed, ready to be made into pages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from markupsafe import Markup

from lickwright.checks.stets import Offers, Standing
from lickwright.findings import Finding
from lickwright.model.blocks import Chorus, Lick, ScaleBlock
from lickwright.model.course import Course, Lesson
from lickwright.model.music import Piece
from lickwright.model.timeline import Book
from lickwright.pages.links import lesson_paths, root_of
from lickwright.pages.theme import Theme

NO_GLYPHS = Markup("")
LEGEND = "signs.html"
"""Where the signs of a course are explained."""


@dataclass(frozen=True, slots=True)
class PageView:
    """What the base template must know of a page."""

    title: str
    root: str
    sheets: tuple[str, ...]
    scripts: tuple[str, ...]
    glyphs: Markup
    is_start: bool
    legend: str


@dataclass(frozen=True, slots=True)
class Edition:
    """What the pages are made of.

    Attributes:
        music: The course's pieces.
        findings: All that do not stand by stet, in the order of the work list.
        standing: Those that do.
        sound: Whether the edition has sound.
        folder: Of the lessons' pages in the site.
        paths: Of the lessons' pages, by the lesson's name.
        offers: The stets by which its findings could stand.
        signs: Whether the signs of its music are explained on a page of their own.
    """

    course: Course
    music: Book
    theme: Theme
    findings: Sequence[Finding] = ()
    standing: Sequence[Standing] = ()
    sound: bool = True
    folder: str = "lessons"
    signs: bool = False
    paths: dict[str, str] = field(init=False, compare=False, repr=False)
    offers: Offers = field(init=False, compare=False, repr=False)
    _homes: dict[str, str] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        put = object.__setattr__  # the class is frozen; these follow from the fields
        put(self, "paths", lesson_paths(self.course.lessons, self.folder))
        put(self, "offers", Offers(self.course, self.music, self.findings))
        homes: dict[str, str] = {}
        for lesson in self.course.lessons:
            for placed in lesson.blocks:
                if isinstance(placed.block, Lick | Chorus | ScaleBlock):
                    homes.setdefault(placed.block.name, self.paths[lesson.name])
        put(self, "_homes", homes)

    def home_of(self, name: str) -> str | None:
        """Return the path of the page that a lick, chorus or scale stands on; None in a draft or nowhere."""
        return self._homes.get(name)

    def pieces_in(self, lesson: Lesson) -> tuple[Piece, ...]:
        """Return the pieces of a lesson in the order written."""
        found = (self.music.at(lesson.name, placed.line) for placed in lesson.blocks)
        return tuple(piece for piece in found if piece is not None)

    def view(
        self, path: str, title: str, *, scripts: tuple[str, ...] = (), glyphs: Markup = NO_GLYPHS
    ) -> PageView:
        """Return what the base template must know of a page."""
        return PageView(
            title=title,
            root=root_of(path),
            sheets=self.theme.sheets,
            scripts=scripts,
            glyphs=glyphs,
            is_start=path == "index.html",
            legend=root_of(path) + LEGEND if self.signs and path != LEGEND else "",
        )
