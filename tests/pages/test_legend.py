"""The legend: what a course uses, and only that."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from lickwright.analysis.signs import list_signs
from lickwright.building.proofing import Proofed, proof_course
from lickwright.building.renderers import make
from lickwright.model.slots import JoinKind
from lickwright.model.strike import BendKind
from lickwright.pages.edition import Edition
from lickwright.pages.legend import all_signs, legend_page, signs_of
from lickwright.pages.lesson import lesson_page
from lickwright.pages.site import site_pages
from lickwright.pages.theme import read_theme
from lickwright.terms.signs import WORDS

ROOT = Path(__file__).parents[2]
LEGEND = {sign.key: sign for group in all_signs() for sign in group.signs}
COURSE = """[course]
title = "Small"
author = "A. Player"
key = "A major"
tempo = 96

[[unit]]
title = "All"
lessons = ["one.md"]
"""


def proofed(folder: Path) -> Edition:
    """Read a course."""
    read: Proofed = proof_course(folder)
    return Edition(read.course, read.book, read_theme(), signs=True)


def small(folder: Path, *lines: str) -> Edition:
    """A course of one lick."""
    (folder / "lessons").mkdir(parents=True)
    (folder / "course.toml").write_text(COURSE)
    lick = "\n".join(lines)
    (folder / "lessons" / "one.md").write_text(f"# One\n\n```lick one\n{lick}\n```\n")
    return proofed(folder)


def keys(edition: Edition) -> set[str]:
    """The signs on the page of an edition."""
    return {sign.key for group in signs_of(edition) for sign in group.signs}


@pytest.mark.parametrize("course", ["content", "tests/courses/low-water", "tests/courses/every-sign"])
def test_every_sign_of_a_course_is_explained(course: str) -> None:
    """What the pieces use is on the page, nothing else is, and all of it is known to the legend."""
    edition = proofed(ROOT / course)
    used = {name for piece in edition.music.pieces for name in list_signs(piece.music)}
    assert used <= LEGEND.keys()
    assert keys(edition) == used
    if course.endswith("every-sign"):
        assert used == LEGEND.keys() - {"position-numeral"}  # no lick of it claims a position


def test_the_language_has_no_further_signs() -> None:
    """Every word of the signs row, every join and every bend of the language has its entry."""
    assert set(WORDS) <= LEGEND.keys()
    assert len(JoinKind) == len(LEGEND.keys() & {"hammer-on", "pull-off", "slide", "shift-slide"})
    assert len(BendKind) == len(LEGEND.keys() & {"bend", "pre-bend", "nut-bend", "release"})


@pytest.mark.parametrize("key", sorted(LEGEND))
def test_an_example_shows_its_sign(key: str) -> None:
    """The lick of an entry uses the sign, and few others."""
    used = list_signs(LEGEND[key].music)
    assert key in used
    assert len(used - {key, "chord-symbol"}) <= 2


def test_a_sign_that_is_added_has_its_entry(tmp_path: Path) -> None:
    """A course that begins to tremolo has the tremolo in its legend."""
    plain = small(tmp_path / "plain", "A | 5:0 - - - 4:2 - - -")
    assert keys(plain) == {"chord-symbol"}
    more = small(tmp_path / "more", "A | 5:0 - - - 4:2 - - -", "   signs | * tremolo")
    assert keys(more) == {"chord-symbol", "tremolo"}
    assert "Tremolo" in legend_page(more).render({}.get)
    assert "Tremolo" not in legend_page(plain).render({}.get)


def test_an_unknown_sign_would_be_missed() -> None:
    """Planted fault: a legend that lacks an entry does not hold all that the course uses."""
    edition = proofed(ROOT / "tests" / "courses" / "every-sign")
    assert keys(edition) - (LEGEND.keys() - {"pinch"}) == {"pinch"}


def test_the_page_shows_name_drawing_words_and_hand(tmp_path: Path) -> None:
    """An entry has its heading, the engraved example, what the hand does and the words of the example."""
    edition = small(tmp_path, "A | 5:0 h 5:2 - - 4:2 - - -")
    page = legend_page(edition)
    made = {id(order): make(order) for order in page.orders}
    html = page.render(lambda order: made[id(order)])
    entry = html[html.index('id="sign-hammer-on"') :]
    entry = entry[: entry.index("</div>")]
    assert "<h3>Hammer-on</h3>" in entry
    assert 'id="n-sign-hammer-on-t1-1u1"' in entry
    assert "The pick does not move." in entry
    assert "hammer on to string 3 fret 2, A" in entry
    assert html.count("<svg viewBox") == 2


def test_the_book_leads_to_it(tmp_path: Path) -> None:
    """Contents and the foot of every page link it; an edition without it links nothing."""
    edition = small(tmp_path, "A | 5:0 - - - 4:2 - - -")
    found = site_pages(edition.course, edition.music, proof_course(tmp_path).proof)
    pages = {page.path: page for page in found}
    assert pages["index.html"].render({}.get).count('href="signs.html"') == 2
    assert 'href="../signs.html"' in pages["lessons/one.html"].render({}.get)
    without = replace(edition, signs=False)
    assert "signs.html" not in lesson_page(without, edition.course.lessons[0]).render({}.get)
