"""The proof room: every rule fires in its place there, once for its cause, and nothing else does."""

from __future__ import annotations

import re
import shutil
from collections import Counter
from pathlib import Path

import pytest

from lickwright.checks import proof
from lickwright.checks.catalogue import rules
from lickwright.checks.groups import GROUPS
from lickwright.model.blocks import Chorus, Lick, ScaleBlock
from lickwright.model.orders import Engraved, Order, ScoreOrder, SoundOrder, System
from lickwright.model.timeline import Book, resolve
from lickwright.pages.edition import Edition
from lickwright.pages.page import Page
from lickwright.pages.proof_room import HEARD, room_pages
from lickwright.pages.room import FAULTS, RIGHT, Room, Section, read_room, room_folder
from lickwright.pages.shelf import ROOM
from lickwright.pages.theme import read_theme
from lickwright.reading.course import read_course

WITHOUT_TWIN = {
    "course",  # what leads nowhere has nothing beside it
    "prose",  # its twin is the sentence that was meant
    "stet",
    "syntax",  # here and there one right line serves several wrong ones
}


@pytest.fixture(scope="module")
def room() -> Room:
    return read_room(read_theme())


@pytest.fixture(scope="module")
def sections(room: Room) -> list[Section]:
    return [section for lesson in room.edition.course.lessons for section in room.sections(lesson)]


def test_every_rule_has_its_place(sections: list[Section]) -> None:
    """A new rule without a place in the room, or a place without a rule, breaks this."""
    places = [section.rule for section in sections]
    assert set(places) == set(rules())
    assert len(places) == len(set(places))


def test_every_place_gives_its_rule_and_no_other(sections: list[Section]) -> None:
    """One cause, one finding: what a side-head names, and nothing more."""
    told = {s.rule: [finding.rule for _, finding in s.found] for s in sections}
    assert told == {rule: [rule] for rule in rules()}


def test_nothing_is_found_outside_the_places(room: Room, sections: list[Section]) -> None:
    """The introduction is in order, and so is what a folder of faults holds besides."""
    placed = Counter(id(finding) for section in sections for _, finding in section.found)
    found = [f for edition in (room.edition, *room.faults.values()) for f in edition.findings]
    assert [f.rule for f in found if placed[id(f)] != 1] == []


def test_a_rule_stands_in_the_lesson_of_its_group(sections: list[Section]) -> None:
    """An editor who looks for harmony looks into Harmony."""
    assert {(s.rule.partition("/")[0], s.lesson.name) for s in sections} == {(g, g) for g in GROUPS}


def test_what_is_in_order_is_clean(sections: list[Section]) -> None:
    """A lick as it was meant, or one that looks alike and is idiom, gives nothing at all."""
    found = [finding for section in sections for _, finding in section.found]
    assert [f.lick for f in found if f.lick.endswith(RIGHT)] == []


def test_musical_faults_have_a_twin(sections: list[Section]) -> None:
    """Beside each fault of the music stands the lick as it was meant, or its idiom."""
    alone = [
        section.rule
        for section in sections
        if section.rule.partition("/")[0] not in WITHOUT_TWIN
        and not any(
            isinstance(placed.block, Lick | Chorus | ScaleBlock) and placed.block.name.endswith(RIGHT)
            for placed in section.lesson.blocks
            if section.first < placed.line < section.last
        )
    ]
    assert alone == []


def test_findings_stand_before_the_twin(sections: list[Section]) -> None:
    """The page shows what is found before it shows how it was meant."""
    for section in sections:
        told = [f.span.place[0] for _, f in section.found if f.span.source.path == section.lesson.source.path]
        assert all(line <= section.cut for line in told)
        assert section.first < section.cut <= section.last


def test_the_words_tell_of_every_folder_of_faults(room: Room) -> None:
    """No folder is left that no section names."""
    text = "".join(lesson.source.text for lesson in room.edition.course.lessons)
    assert set(FAULTS.findall(text)) == set(room.faults)


def test_a_mended_lick_is_missed(tmp_path: Path) -> None:
    """A planted fault: where a wrong lick is put in order, its rule no longer fires."""
    copy = tmp_path / "room"
    shutil.copytree(room_folder(), copy)
    lesson = copy / "lessons" / "witness.md"
    text = lesson.read_text(encoding="utf-8")
    assert text.count("3:0 - 2:0 - 2:5 - - -\n   names") == 1
    lesson.write_text(
        text.replace("3:0 - 2:0 - 2:5 - - -\n   names", "3:0 - 2:0 - 2:3 - - -\n   names"), encoding="utf-8"
    )
    course, findings = read_course(copy)
    assert course is not None
    book, unresolved = resolve(course)
    found = {f.rule for f in proof(course, book, (*findings, *unresolved)).findings}
    assert "witness/degrees" in found
    assert "witness/names" not in found


@pytest.fixture(scope="module")
def pages(room: Room) -> tuple[Page, ...]:
    return room_pages(Edition(room.edition.course, Book(), room.edition.theme))


def unmade(_: Order) -> None:
    return None


def drawn(order: Order) -> Engraved | None:
    box = System("<svg></svg>", (), 9.0, 9.0)
    return Engraved((box,)) if isinstance(order, ScoreOrder) else None


def test_a_page_a_group(pages: tuple[Page, ...]) -> None:
    """The introduction with the contents, and a page for each group of rules."""
    groups = {f"proof-room/{group}.html" for group in GROUPS}
    assert {page.path for page in pages} == {ROOM, *groups}
    first = pages[0].render(unmade)
    assert set(re.findall(r'href="([a-z-]+\.html)"', first)) >= {f"{group}.html" for group in GROUPS}


def test_the_pages_show_every_rule_with_its_finding(pages: tuple[Page, ...]) -> None:
    """Each finding in the form of the proof sheet, with the way to its handbook page."""
    text = "".join(page.render(unmade) for page in pages)
    assert text.count('<section class="finding"') == len(rules())
    for rule in rules():
        assert f'href="../handbook/{rule.replace("/", "-")}.html">{rule}</a>' in text


def test_nothing_on_a_page_is_named_twice(pages: tuple[Page, ...]) -> None:
    """Every id is one element's, and every address on the page has one."""
    for page in pages:
        text = page.render(unmade)
        ids = Counter(re.findall(r' id="([^"]+)"', text))
        assert [name for name, times in ids.items() if times > 1] == [], page.path
        assert set(re.findall(r'href="#([^"]+)"', text)) <= set(ids), page.path


def test_as_written_beside_as_meant(pages: tuple[Page, ...]) -> None:
    """Where the twin has another bar it stands beside the faulty one, and is not drawn once more."""
    page = next(page for page in pages if page.path.endswith("/harmony.html"))
    text = page.render(drawn)
    assert text.count("As meant, bar") >= 5
    names = [order.for_lick for order in page.orders if isinstance(order, ScoreOrder)]
    assert names.count("barn-door") == names.count("barn-door-mended") == names.count("barn-door-stands") == 1


def test_what_the_ear_teaches_is_heard(pages: tuple[Page, ...]) -> None:
    """Sounds of a few bars where they differ, in the groups of the ear; never a fault that is heard alone."""
    heard = {page.path: [o for o in page.orders if isinstance(o, SoundOrder)] for page in pages}
    groups = {Path(path).stem for path, orders in heard.items() if orders}
    assert groups == HEARD
    orders = [order for each in heard.values() for order in each]
    assert 20 < len(orders) <= 60
    assert all(len(order.music.bars) <= 2 for order in orders)
    for each in heard.values():
        licks = {order.for_lick for order in each}
        alone = {n for n in licks if not n.endswith(RIGHT) and not licks & {n + end for end in RIGHT}}
        assert alone == set()


def test_without_sound_the_room_is_silent(room: Room) -> None:
    """A site without sound has none here either."""
    silent = room_pages(Edition(room.edition.course, Book(), room.edition.theme, sound=False))
    orders = [order for page in silent for order in page.orders]
    assert all(isinstance(order, ScoreOrder) and order.width == "narrow" for order in orders)
    assert len(orders) > len(rules())
    assert "data-sound" not in "".join(page.render(unmade) for page in silent)
