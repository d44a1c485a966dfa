"""The proof room as pages: licks with one fault each, what is found in them, and how they were meant."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from markupsafe import Markup

from lickwright.checks.catalogue import rules
from lickwright.findings import Finding
from lickwright.model.address import Address
from lickwright.model.course import Lesson
from lickwright.model.orders import Engraved, Order, ScoreOrder
from lickwright.model.reduced import for_score
from lickwright.pages.counting import capital
from lickwright.pages.edition import Edition
from lickwright.pages.finding_bars import FindingBars, bars_of
from lickwright.pages.finding_view import FindingView, figures_of, finding_view
from lickwright.pages.lesson import Neighbour
from lickwright.pages.links import lick_anchor, relative
from lickwright.pages.markdown import Body, Part, deck_of, weave
from lickwright.pages.page import Made, Page
from lickwright.pages.practice import glyphs_of
from lickwright.pages.prefixes import short_prefixes
from lickwright.pages.remarks import Reading, RoleLine, role_line
from lickwright.pages.room import Room, Section, read_room
from lickwright.pages.shelf import ROOM, Entry, Group, rule_path, shelf
from lickwright.pages.weaving import LessonWeaver


@dataclass(frozen=True, slots=True)
class SectionView:
    """A rule as its place in the room prints it.

    Attributes:
        rule, title, href: Of its handbook page. ``fault``: its name without the group, as a side-head.
        before: Words, and the licks as typed. ``after``: what stands behind the findings.
    """

    rule: str
    fault: str
    title: str
    href: str
    before: tuple[Part, ...]
    findings: tuple[FindingView, ...]
    after: tuple[Part, ...]


@dataclass
class RoomWeaver(LessonWeaver):
    """Puts the text of a block and, where it is in order, its notation in its place.

    Attributes:
        drawn: Notation by the line of the fence.
    """

    drawn: dict[int, Markup] = field(default_factory=dict)
    _named: set[str] = field(default_factory=set)

    def block(self, line: int, level: int) -> tuple[Body, ...]:  # noqa: ARG002 - no headings here
        """Return the block as typed, with an address of its own, and its notation."""
        name = str(getattr(self._blocks[line].block, "name", "") or "")
        typed = self._typed(line)
        if name and name not in self._named:  # two blocks of one name are a fault of the room's own
            self._named.add(name)
            typed = Markup('<div id="{}">{}</div>\n').format(lick_anchor(name), typed)
        return (Body(typed + self.drawn.get(line, Markup(""))),)

    def link(self, href: str) -> dict[str, str] | None:
        """Return the attributes of a link; headings have no addresses here."""
        return None if href.startswith("#") else super().link(href)

    def image(self, source: str) -> str | None:  # noqa: ARG002
        """Return None: the room has no pictures."""
        return None


def room_pages(edition: Edition) -> tuple[Page, ...]:
    """Return the contents of the proof room and a page for each group of rules.

    Args:
        edition: The course beside which it stands.
    """
    room = read_room(edition.theme)
    return tuple(_page(edition, room, lesson) for lesson in room.edition.course.lessons)


def _path(room: Room, lesson: Lesson) -> str:
    return ROOM if lesson == room.edition.course.lessons[0] else room.edition.paths[lesson.name]


def _page(edition: Edition, room: Room, lesson: Lesson) -> Page:
    path = _path(room, lesson)
    sections = tuple(room.sections(lesson))
    found = [each for section in sections for each in section.found]
    bars = [_bars(home, finding) for home, finding in found]
    scores = _scores(room.edition, lesson, found)

    def render(made: Made) -> str:
        drawn: list[Engraved] = []
        views = [
            _finding(each, number, len(found), wanted, made, path, drawn)
            for number, (each, wanted) in enumerate(zip(found, bars, strict=True), 1)
        ]
        weaver = RoomWeaver(room.edition, lesson, path, "", {}, drawn=_drawn(scores, made, drawn))
        document = weave(_lines(lesson, 0, sections[0].first if sections else None), weaver)
        rest = iter(views)
        shown = [_section(section, weaver, [next(rest) for _ in section.found], path) for section in sections]
        return edition.theme.render(
            "proof_room.html",
            page=edition.view(path, lesson.title, glyphs=glyphs_of(drawn)),
            course=edition.course,
            title=document.title,
            deck=document.deck,
            opening=document.parts,
            sections=shown,
            groups=_contents(room) if path == ROOM else (),
            before=_neighbour(room, lesson, -1),
            following=_neighbour(room, lesson, 1),
            shelf=shelf(path, guide=True),
        )

    orders = (*(order for each in bars if each for order in each.orders), *scores.values())
    return Page(path, orders, render)


def _bars(home: Edition, finding: Finding) -> FindingBars | None:
    """What the finding orders: what leaves no music to stand by has no bar to show."""
    return bars_of(home, [finding])[0] if rules()[finding.rule].stettable else None


def _scores(edition: Edition, lesson: Lesson, found: Sequence[tuple[Edition, Finding]]) -> dict[int, Order]:
    """The notation of every block that nothing is found in, by the line of its fence."""
    lines = lesson.source.text.split("\n")
    told = {f.span.place[0] - 1 for _, f in found if f.span.source.path == lesson.source.path}
    pieces = {}
    for placed in lesson.blocks:
        piece = edition.music.at(lesson.name, placed.line)
        end = next((k for k in range(placed.line + 1, len(lines)) if lines[k].startswith("```")), len(lines))
        if piece is not None and told.isdisjoint(range(placed.line, end + 1)):
            pieces[placed.line] = piece
    prefixes = short_prefixes(piece.name for piece in pieces.values())
    return {
        line: ScoreOrder(
            for_score(piece.music), prefix=f"t{prefixes[piece.name]}", width="narrow", for_lick=piece.name
        )
        for line, piece in pieces.items()
    }


def _drawn(scores: dict[int, Order], made: Made, drawn: list[Engraved]) -> dict[int, Markup]:
    figures = {}
    for line, order in scores.items():
        score = made(order)
        if isinstance(score, Engraved) and score.systems:
            drawn.append(score)
            systems = [Markup(system.svg) for system in score.systems]  # noqa: S704 - the engraver's own
            figure = Markup('<figure class="score"><div>{}</div></figure>')
            shown = Markup("").join(figure.format(svg) for svg in systems)
            figures[line] = Markup('<div class="right">{}</div>\n').format(shown)
    return figures


def _finding(
    each: tuple[Edition, Finding],
    number: int,
    last: int,
    bars: FindingBars | None,
    made: Made,
    path: str,
    drawn: list[Engraved],
) -> FindingView:
    """The finding as the proof sheet prints it, its addresses seen from here."""
    home, finding = each
    figures, scores = figures_of(finding, bars, made)
    drawn += scores
    view = finding_view(home, finding, number, last, figures, _roles(home, finding))
    facts = tuple(replace(fact, href=relative(fact.href, path) if fact.href else "") for fact in view.facts)
    return replace(view, facts=facts)


def _roles(edition: Edition, finding: Finding) -> RoleLine | None:
    piece, at = edition.music.piece(finding.lick), Address.parse(finding.address)
    if piece is None or at is None or not any(bar.number == at.bar for bar in piece.music.bars):
        return None
    return role_line(Reading.of(piece), at)


def _section(section: Section, weaver: RoomWeaver, findings: Sequence[FindingView], path: str) -> SectionView:
    first, cut, last = section.first + 1, section.cut, section.last
    before, after = (
        tuple(weave(_lines(section.lesson, a, b), weaver).parts) for a, b in ((first, cut), (cut, last))
    )
    return SectionView(
        section.rule,
        capital(section.rule.partition("/")[2].replace("-", " ")),
        capital(rules()[section.rule].title) + ".",
        relative(rule_path(section.rule), path),
        before,
        tuple(findings),
        after,
    )


def _lines(lesson: Lesson, first: int, last: int | None) -> str:
    """Part of the text, every line in its place: blocks are known by their lines."""
    return "\n" * first + "\n".join(lesson.source.text.split("\n")[first:last])


def _contents(room: Room) -> tuple[Group, ...]:
    course = room.edition.course
    return tuple(
        Group(
            unit.title,
            tuple(
                Entry(lesson.title, relative(_path(room, lesson), ROOM), deck=deck_of(lesson.source.text))
                for lesson in unit.lessons
            ),
        )
        for unit in course.units[1:]
    )


def _neighbour(room: Room, lesson: Lesson, step: int) -> Neighbour | None:
    lessons = room.edition.course.lessons
    at = lessons.index(lesson) + step
    if not 0 <= at < len(lessons):
        return None
    return Neighbour(relative(_path(room, lessons[at]), _path(room, lesson)), 0, lessons[at].title)
