"""A lesson on paper: whole systems, numbered pages, large print. The PDF is Chromium's, read by poppler."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from lickwright.building.proofing import proof_course
from lickwright.pages.edition import Edition
from lickwright.pages.lesson import lesson_page
from lickwright.pages.theme import read_theme

ROOT = Path(__file__).parents[2]
pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(shutil.which("pdftotext") is None, reason="needs poppler's pdftotext"),
]
MARKED = """() => { let k = 0;
  for (const line of document.querySelectorAll('.line')) {
    const svg = line.querySelector('svg'), [x, y, , h] = svg.getAttribute('viewBox').split(' ').map(Number);
    for (const [place, end] of [[y + 150, 'a'], [y + h - 20, 'z']]) {
      const words = document.createElementNS('http://www.w3.org/2000/svg', 'text');
      Object.entries({x: x + 200, y: place, 'font-size': '200px', 'text-anchor': 'start'})
        .forEach(([name, value]) => words.setAttribute(name, value));
      words.textContent = 'Q' + k + end;
      svg.append(words); }
    const note = document.createElement('b'); note.textContent = 'Q' + k + 'm';
    line.querySelector('.marg > div:last-child').append(note);
    k += 1; } }"""
"""Writes a mark into the head and the foot of every system, and behind the last words of its margin."""


@pytest.fixture(scope="module")
def lesson(on_disk) -> Path:
    """The demo's fullest lesson, without sound."""
    proofed = proof_course(ROOT / "content")
    edition = Edition(proofed.course, proofed.book, read_theme(), sound=False, signs=True)
    return on_disk(
        lesson_page(edition, next(each for each in proofed.course.lessons if each.name == "the-set"))
    )


@pytest.fixture
def printed(chromium: Browser, tmp_path: Path, lesson: Path):
    """Return what opens the lesson, lets something be done to it, and gives the text of each printed page."""
    contexts = []

    def run(**kept: str) -> tuple[Page, Callable[[], list[str]]]:
        context = chromium.new_context(offline=True)
        contexts.append(context)
        page = context.new_page()
        for name, value in kept.items():
            page.add_init_script(f"localStorage.setItem('lickwright:{name}', '{value}')")
        page.goto(lesson.as_uri())
        if set(kept) - {"print", "light"}:
            page.locator("html[data-shown]").wait_for(state="attached")

        def text() -> list[str]:
            file = tmp_path / "lesson.pdf"
            page.pdf(path=file, prefer_css_page_size=True)
            command = ["pdftotext", "-layout", str(file), "-"]
            said = subprocess.run(command, check=True, stdout=subprocess.PIPE).stdout.decode()
            return said.split("\f")[:-1]

        return page, text

    yield run
    for context in contexts:
        context.close()


def cut(pages: list[str]) -> list[str]:
    """The systems whose head, foot and margin do not stand on one page."""
    places: dict[str, set[int]] = {}
    for number, text in enumerate(pages):
        for system in re.findall(r"Q(\d+)[azm]", text):
            places.setdefault(system, set()).add(number)
    assert len(places) > 20
    return [system for system, found in places.items() if len(found) != 1]


@pytest.mark.parametrize(
    "kept",
    [{}, {"view": "tab"}, {"view": "staff", "degrees": "on", "names": "on"}, {"print": "large"}],
    ids=str,
)
def test_no_system_is_cut_by_a_page(printed, kept: dict[str, str]) -> None:
    """Head, foot and margin words of every system stand on one page, in every view and in large print."""
    page, text = printed(**kept)
    page.evaluate(MARKED)
    assert cut(text()) == []


def test_a_cut_system_is_seen(printed) -> None:
    """Planted fault: margins sent to the next page are told."""
    page, text = printed()
    page.evaluate(MARKED)
    page.evaluate("for (const m of document.querySelectorAll('.marg')) m.style.breakBefore = 'page'")
    assert cut(text()) != []


def test_a_handout(printed) -> None:
    """Title first, every page numbered, source and licence on the last; no control, no closed words."""
    page, text = printed()
    pages = text()
    assert re.search(r"10\s+The set", pages[0])
    for number, each in enumerate(pages, 1):
        assert each.rstrip().splitlines()[-1].strip() == str(number)
    assert "CC-BY-4.0" in pages[-1]
    whole = "\n".join(pages)
    for words in (
        "Under the notes",
        "As the computer has it",
        "Large print",
        "Count-in",
        "In words",
        "Why it fits",
    ):
        assert words not in whole
    assert "Beat 1: " not in whole
    page.locator("details.words summary:has-text('In words')").first.click()
    assert "Beat 1: " in "\n".join(text())


def test_lines_are_printed_when_they_are_on(printed) -> None:
    """Names of notes under the staff come onto the paper."""
    _, plain = printed()
    _, named = printed(names="on")
    assert "\n".join(named()).count("F♯") > "\n".join(plain()).count("F♯") + 20


def test_large_print_is_half_as_large_again(chromium: Browser, lesson: Path) -> None:
    """Words and figures of the tab are at least 1.4 times as tall, at every width and on paper."""

    def sizes(width: int, media: str, large: str) -> tuple[float, float]:
        page = chromium.new_page(viewport={"width": width, "height": 900})
        page.add_init_script(f"localStorage.setItem('lickwright:print', '{large}')")
        page.goto(lesson.as_uri())
        page.emulate_media(media=media)
        found = page.evaluate(
            """() => { const notes = [...document.querySelectorAll('text.note')];
                 const note = notes.find(n => n.getClientRects().length);
                 return [parseFloat(getComputedStyle(document.querySelector('.prose p')).fontSize),
                         note.ownerSVGElement.getScreenCTM().a, document.documentElement.scrollWidth]; }"""
        )
        page.close()
        assert found[2] <= width
        return found[0], found[1]

    for width, media in (
        (360, "screen"),
        (768, "screen"),
        (1280, "screen"),
        (1900, "screen"),
        (673, "print"),
    ):
        plain, large = sizes(width, media, ""), sizes(width, media, "large")
        assert large[0] / plain[0] >= 1.4
        assert large[1] / plain[1] >= 1.4


@pytest.mark.parametrize("width", [320, 640])
def test_zoomed_to_twice_the_size_nothing_is_lost(chromium: Browser, lesson: Path, width: int) -> None:
    """At 200 % a page of 640 or 1280 px has half the room (WCAG 1.4.4): nothing is cut off."""
    page = chromium.new_page(viewport={"width": width, "height": 450})
    page.goto(lesson.as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    lost = page.evaluate(
        """() => [...document.querySelectorAll('p, h1, h2, h3, label, .score svg')]
             .filter(e => e.getClientRects().length && !e.closest('.vh, .scroll, .skip'))
             .map(e => [e.textContent.slice(0, 30), e.getBoundingClientRect()])
             .filter(([, box]) => box.width > 1 && (box.right > innerWidth + 1 || box.left < -1))
             .map(([words]) => words)"""
    )
    assert lost == []
    page.close()
