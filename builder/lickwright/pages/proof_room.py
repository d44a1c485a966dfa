"""The proof room as pages: licks with one fault each, what is found in them, and how they were meant."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from markupsafe import Markup

from lickwright.checks.catalogue import rules
from lickwright.findings import Finding
from lickwright.model.address import Address
from lickwright.model.course import Lesson
from lickwright.model.orders import Engraved, Recorded
from lickwright.pages.counting import capital
from lickwright.pages.edition import Edition
from lickwright.pages.finding_bars import BarOrders, FindingBars, bars_of, order_bars
from lickwright.pages.finding_view import FindingView, figures_of, finding_view
from lickwright.pages.lesson import Neighbour
from lickwright.pages.links import lick_anchor, relative
from lickwright.pages.markdown import Body, Part, deck_of, weave
from lickwright.pages.page import Made, Page
from lickwright.pages.player_data import sound_path
from lickwright.pages.practice import glyphs_of
from lickwright.pages.prefixes import short_prefixes
from lickwright.pages.remarks import Reading, RoleLine, role_line
from lickwright.pages.room import MENDED, STANDS, Room, Section, read_room
from lickwright.pages.shelf import ROOM, Entry, Group, rule_path, shelf
from lickwright.pages.theme import SHEET_SCRIPTS
from lickwright.pages.weaving import LessonWeaver

HEARD = frozenset({"harmony", "open-strings", "rhythm", "witness"})
"""Groups of rules that are taught by ear, too; each sound costs every site some kilobytes."""
PLAY = Markup(
    '<div class="row"><button type="button" class="play" data-sound="{}"><span>Play</span>'
    '<span class="vh">{}</span></button><p class="said" role="status"></p></div>'
)


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
    room = read_room(edition.theme, sound=edition.sound)
    return tuple(_page(edition, room, lesson) for lesson in room.edition.course.lessons)


def _path(room: Room, lesson: Lesson) -> str:
    return ROOM if lesson == room.edition.course.lessons[0] else room.edition.paths[lesson.name]


def _page(edition: Edition, room: Room, lesson: Lesson) -> Page:
    path = _path(room, lesson)
    sections = tuple(room.sections(lesson))
    found = [each for section in sections for each in section.found]
    bars = [_bars(home, finding) for home, finding in found]
    blocks = _blocks(room.edition, lesson, found, bars)

    def render(made: Made) -> str:
        drawn: list[Engraved] = []
        views = [
            _finding(each, number, len(found), wanted, made, path, drawn)
            for number, (each, wanted) in enumerate(zip(found, bars, strict=True), 1)
        ]
        weaver = RoomWeaver(room.edition, lesson, path, "", {}, drawn=_drawn(blocks, made, path, drawn))
        document = weave(_lines(lesson, 0, sections[0].first if sections else None), weaver)
        rest = iter(views)
        shown = [_section(section, weaver, [next(rest) for _ in section.found], path) for section in sections]
        return edition.theme.render(
            "proof_room.html",
            page=edition.view(path, lesson.title, scripts=SHEET_SCRIPTS, glyphs=glyphs_of(drawn)),
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

    alone = (order for each in blocks.values() for order in (each.score, each.sound) if order)
    return Page(path, (*(order for each in bars if each for order in each.orders), *alone), render)


def _bars(home: Edition, finding: Finding) -> FindingBars | None:
    """What the finding orders: what leaves no music to stand by has no bar to show.

    It is heard where there is something in order to compare it with, and that sounds otherwise.
    """
    if not rules()[finding.rule].stettable:
        return None
    meant = home.music.piece(finding.lick + MENDED)
    bars = bars_of(_heard(home, finding), [finding], {finding.lick: meant} if meant else {})[0]
    if bars is None or (bars.better and bars.better.sound) or home.music.piece(finding.lick + STANDS):
        return bars
    return replace(bars, written=replace(bars.written, sound=None))


def _heard(home: Edition, finding: Finding) -> Edition:
    return home if finding.rule.partition("/")[0] in HEARD else replace(home, sound=False)


def _blocks(
    edition: Edition,
    lesson: Lesson,
    found: Sequence[tuple[Edition, Finding]],
    bars: Sequence[FindingBars | None],
) -> dict[int, BarOrders]:
    """What every block orders that nothing is found in, by the line of its fence.

    What stands beside its fault as it was meant is not drawn once more; what is alike, and idiom, is heard
    where the fault is.
    """
    lines = lesson.source.text.split("\n")
    told = {f.span.place[0] - 1 for _, f in found if f.span.source.path == lesson.source.path}
    shown = {f.lick + MENDED for (_, f), b in zip(found, bars, strict=True) if b and b.way == "meant"}
    heard = {f.lick + STANDS for (_, f), b in zip(found, bars, strict=True) if b and b.written.sound}
    pieces = {}
    for placed in lesson.blocks:
        piece = edition.music.at(lesson.name, placed.line)
        end = next((k for k in range(placed.line + 1, len(lines)) if lines[k].startswith("```")), len(lines))
        if piece and piece.name not in shown and told.isdisjoint(range(placed.line, end + 1)):
            pieces[placed.line] = piece
    prefixes = short_prefixes(piece.name for piece in pieces.values())
    silent = replace(edition, sound=False)
    return {
        line: order_bars(
            edition if piece.name in heard else silent, piece, piece.music, f"t{prefixes[piece.name]}"
        )
        for line, piece in pieces.items()
    }


def _drawn(blocks: dict[int, BarOrders], made: Made, path: str, drawn: list[Engraved]) -> dict[int, Markup]:
    figures = {}
    for line, orders in blocks.items():
        score, sound = made(orders.score), made(orders.sound) if orders.sound else None
        if isinstance(score, Engraved) and score.systems:
            drawn.append(score)
            systems = [Markup(system.svg) for system in score.systems]  # noqa: S704 - the engraver's own
            figure = Markup('<figure class="score"><div>{}</div></figure>')
            shown = Markup("").join(figure.format(svg) for svg in systems)
            if isinstance(sound, Recorded):
                shown += PLAY.format(relative(sound_path(sound), path), orders.score.for_lick)
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
    figures, scores = figures_of(finding, bars, made, path)
    drawn += scores
    view = finding_view(home, finding, number, last, figures, _roles(home, finding))
    facts = tuple(replace(fact, href=relative(fact.href, path) if fact.href else "") for fact in view.facts)
    return replace(view, facts=facts, number=0)


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
