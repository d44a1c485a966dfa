"""The tab alone, the staff alone, and the lines under the notes: opened from disk in Chromium."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from lickwright.building.proofing import proof_course
from lickwright.model.orders import BarBox, Engraved, ScoreOrder
from lickwright.pages.edition import Edition
from lickwright.pages.lesson import lesson_page
from lickwright.pages.prefixes import short_prefixes
from lickwright.pages.theme import read_theme

EVERY_SIGN = Path(__file__).parents[1] / "courses" / "every-sign"
CONTENT = Path(__file__).parents[2] / "content"
STEP = short_prefixes(["step"])["step"]
GONE = ("hand.png", "ERR_FILE_NOT_FOUND")
HEIGHTS = """() => [...document.querySelectorAll('text.note, .note > text')]
  .filter(figure => figure.getClientRects().length)
  .map(figure => parseFloat(getComputedStyle(figure.querySelector('tspan') || figure).fontSize)
                 * figure.ownerSVGElement.getScreenCTM().a * 0.66)"""
"""Heights of the tab figures shown, in CSS pixels: 0.66 of the size is a figure in Times and its like."""
OVER = """() => [...document.querySelectorAll('.bars button')].filter(b => b.getClientRects().length)
.map(button => {
  const box = button.getBoundingClientRect(), svg = button.closest('.system').querySelector('svg');
  const notes = [...svg.querySelectorAll('.note[id]')].filter(note => {
    const bar = Number(note.id.match(/[st](\\d+)-/)[1]);
    return bar === Number(button.getAttribute('aria-label').match(/\\d+/)[0]); });
  return notes.length > 0 && notes.every(note => { const n = note.getBoundingClientRect();
    return n.left >= box.left - 1 && n.right <= box.right + 1; }); })"""
"""Whether each bar button shown covers just the notes of its bar."""
CLASHES = """() => [...document.querySelectorAll('.under')].flatMap(group => {
  const shown = kind => [...group.querySelectorAll(kind)].filter(e => e.getClientRects().length);
  const texts = shown('text').map(t => [t, t.getBoundingClientRect()]);
  const beside = (p, q, near) => Math.abs(p.top - q.top) < near
    && p.left < q.right - 1 && q.left < p.right - 1;
  const covered = texts.flatMap(([a, p], k) => texts.slice(k + 1).filter(([, q]) => beside(p, q, 5))
    .map(([b]) => a.textContent + ' over ' + b.textContent));
  const ringed = shown('circle, path').flatMap(shape => texts
    .filter(([t, q]) => t !== shape.nextSibling && beside(shape.getBoundingClientRect(), q, 8))
    .map(([t]) => t.textContent + ' in a ring that is not its own'));
  return [...covered, ...ringed]; })"""
"""Marks under the notes that run into each other."""


@pytest.fixture(scope="module")
def lesson_file(edition, on_disk) -> Path:
    """Return the lesson in a folder with its theme, sounds and views."""
    return on_disk(lesson_page(edition, edition.course.lessons[0]))


@pytest.fixture(scope="module")
def crowded(on_disk) -> dict[str, Path]:
    """Return lessons of the course of every sign, and one full of blue notes, engraved; without sound."""
    files = {}
    for folder, names in ((EVERY_SIGN, ("hands", "voices", "time")), (CONTENT, ("pilots-curl",))):
        proofed = proof_course(folder)
        edition = Edition(proofed.course, proofed.book, read_theme(), sound=False)
        found = {lesson.name: lesson for lesson in proofed.course.lessons}
        files |= {name: on_disk(lesson_page(edition, found[name])) for name in names}
    return files


def choose(page: Page, name: str, value: str) -> None:
    """Tick or choose, by its words, and wait until it is shown."""
    page.evaluate(
        "document.addEventListener('lickwright:shown', () => { document.body.dataset.told = 'yes' })"
    )
    page.locator(f"label:has(input[name={name}][value='{value}'])").click()
    page.locator("body[data-told=yes]").wait_for()
    page.evaluate("delete document.body.dataset.told")


def staves(page: Page) -> set[str]:
    """Which staves have notes in the page: ``s``, ``t``."""
    return set(
        page.evaluate(
            "[...document.querySelectorAll('.note[id]')].map(n => n.id.match(/([st])\\d+-\\d+[ul]/)[1])"
        )
    )


def test_files_beside_the_page_say_what_was_made(edition, made) -> None:
    """A lesson names the files of its views and its marks, and hands over just these."""
    page = lesson_page(edition, edition.course.lessons[0])
    files = {path: body for path, body in page.files(made).items() if path.startswith("views/")}
    html = page.render(made)
    named = set(re.findall(r' data-(?:tab|staff|marks)="(\w+)"', html))
    assert {f"views/{key}.js" for key in named} == set(files)
    assert len(re.findall(r" data-(?:tab|staff|marks)=", html)) == 6  # two pieces
    for path, body in files.items():
        key = path.removeprefix("views/").removesuffix(".js")
        said = body.decode().removeprefix("lickwright.view(").removesuffix(");\n")
        told, value = json.loads(f"[{said}]")
        assert told == key
        assert value


def test_a_view_with_other_lines_is_not_offered(edition, made) -> None:
    """Where a view breaks its lines elsewhere, bar buttons would lie wrong: the page goes without it."""

    def other(order):
        result = made(order)
        if isinstance(order, ScoreOrder) and order.view == "tab" and order.width == "wide":
            system = result.systems[0]
            return replace(result, systems=(replace(system, bars=(BarBox(9, 0.0, 1.0),)),))
        return result

    page = lesson_page(edition, edition.course.lessons[0])
    assert isinstance(other(page.orders[0]), Engraved)
    html = page.render(other)
    assert "data-staff=" in html
    assert "data-tab=" not in html


def test_equal_music_is_one_file(edition) -> None:
    """A view does not depend on the page that shows it: its ids are neutral."""
    page = lesson_page(edition, edition.course.lessons[0])
    views = [order for order in page.orders if isinstance(order, ScoreOrder) and order.view != "both"]
    assert {order.prefix for order in views} == {"v"}


@pytest.mark.browser
@pytest.mark.parametrize("width", [360, 768, 1280])
def test_each_view_in_each_width(lesson_file: Path, off_line, width: int) -> None:
    """Tab and staff take the place of both, bars stay under their buttons, figures at least 11 px tall."""
    page = off_line(lesson_file, GONE)
    page.set_viewport_size({"width": width, "height": 900})
    assert staves(page) == {"s", "t"}
    for view, shown in (("tab", {"t"}), ("staff", {"s"}), ("", {"s", "t"})):
        choose(page, "view", view)
        assert staves(page) == shown
        assert all(page.evaluate(OVER))
        assert page.evaluate(OVER)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        if "t" in shown:
            assert min(page.evaluate(HEIGHTS)) >= 11
        assert page.evaluate("[...document.querySelectorAll('[id]')].length") == page.evaluate(
            "new Set([...document.querySelectorAll('[id]')].map(e => e.id)).size"
        )


@pytest.mark.browser
def test_glyphs_of_a_view_are_all_there(lesson_file: Path, off_line) -> None:
    """No drawing of a view uses a glyph that the page lacks."""
    page = off_line(lesson_file, GONE)
    for view in ("tab", "staff"):
        choose(page, "view", view)
        uses = "[...document.querySelectorAll('.score use')].map(u => u.getAttribute('href').slice(1))"
        assert page.evaluate(uses)
        assert page.evaluate(f"{uses}.filter(id => !document.getElementById(id))") == []


@pytest.mark.browser
def test_the_choice_is_kept(lesson_file: Path, off_line) -> None:
    """After a reload the tab alone is shown, and both staves come back when they are asked for."""
    page = off_line(lesson_file, GONE)
    before = page.locator("#lick-step .wide svg").first.evaluate("svg => svg.outerHTML")
    choose(page, "view", "tab")
    page.reload()
    page.locator("html[data-shown=tab]").wait_for()
    assert page.locator("input[name=view][value=tab]").is_checked()
    assert staves(page) == {"t"}
    choose(page, "view", "")
    assert page.locator("#lick-step .wide svg").first.evaluate("svg => svg.outerHTML") == before


@pytest.mark.browser
def test_a_loop_goes_on_in_another_view(lesson_file: Path, off_line) -> None:
    """Bars chosen stay chosen, the focus stays where it was, and what sounds is lit in the new drawing."""
    page = off_line(lesson_file, GONE)
    page.locator("#lick-step .wide [data-bar='1']").click()
    page.locator("#lick-step [data-part=tempo]").select_option(index=0)
    page.locator("#lick-step .play").click()
    expect(page.locator("#lick-step .wide .sounding").first).to_be_attached()
    choose(page, "view", "tab")
    assert page.evaluate("document.activeElement.value") == "tab"
    expect(page.locator("#lick-step .wide text.note.sounding").first).to_be_attached()
    assert page.evaluate("[...document.querySelectorAll('.sounding')].every(n => n.isConnected)")
    pressed = "[...document.querySelectorAll('#lick-step .wide [aria-pressed=true]')].map(b => b.dataset.bar)"
    assert page.evaluate(pressed) == ["1"]
    lit = page.evaluate("[...document.querySelectorAll('#lick-step .wide .sounding')].map(n => n.id)")
    assert lit
    assert all(name.startswith(f"w-{STEP}-t2-") for name in lit)
    page.locator("#lick-step .play").click()
    expect(page.locator(".sounding")).to_have_count(0)


@pytest.mark.browser
def test_a_missing_file_is_said(edition, on_disk, off_line) -> None:
    """Both staves stay, and a sentence says what is missing."""
    file = on_disk(lesson_page(edition, edition.course.lessons[0]))
    for view in (file.parents[1] / "views").iterdir():
        view.unlink()
    page = off_line(file, GONE)
    page.locator("label:has([value=tab])").click()
    expect(page.locator("[data-part=shown]")).to_contain_text("missing or damaged")
    assert staves(page) == {"s", "t"}


@pytest.mark.browser
@pytest.mark.parametrize("view", ["", "tab", "staff"])
def test_lines_stand_under_their_notes(lesson_file: Path, off_line, view: str) -> None:
    """Each mark stands at the x of its note, the degrees told by more than colour, and they go again."""
    page = off_line(lesson_file, GONE)
    assert page.locator(".under").count() == 0
    if view:
        choose(page, "view", view)
    tall = page.locator("#lick-step .wide svg").first.evaluate("svg => svg.getBoundingClientRect().height")
    choose(page, "degrees", "on")
    choose(page, "names", "on")
    staff = "s" if view == "staff" else "t"
    found = page.evaluate(
        """([prefix, staff]) => [...document.querySelectorAll('#lick-step .wide .under .name')].map(words => {
             const middle = e => { const b = e.getBoundingClientRect(); return b.left + b.width / 2; };
             const at = middle(words), svg = words.ownerSVGElement;
             const notes = [...svg.querySelectorAll(`[id^='w-${prefix}-${staff}']`)];
             return [words.textContent, Math.min(...notes.map(note => Math.abs(middle(note) - at)))]; })""",
        [STEP, staff],
    )
    assert [name for name, _ in found][:4] == ["B", "F♯", "F♯", "G♯"]
    assert max(away for _, away in found) < 2  # pixels
    assert page.locator("#lick-step .wide .under circle").count() > 0
    assert page.locator("#lick-step .wide .under .r").first.text_content() == "R"
    taller = page.locator("#lick-step .wide svg").first.evaluate("svg => svg.getBoundingClientRect().height")
    assert taller > tall + 30
    for name in ("degrees", "names"):
        choose(page, name, "on")
    assert page.locator(".under").count() == 0


@pytest.mark.browser
@pytest.mark.parametrize("name", ["hands", "voices", "time", "pilots-curl"])
def test_marks_do_not_run_into_each_other(crowded, off_line, name: str) -> None:
    """In crowded bars too no mark covers another or a drawn figure, in any width."""
    page = off_line(crowded[name])
    for line in ("degrees", "names"):
        choose(page, line, "on")
    for width in (360, 1280):
        page.set_viewport_size({"width": width, "height": 900})
        clashes = page.evaluate(CLASHES)
        assert page.locator(".under text").count() > 20
        assert clashes == []


@pytest.mark.browser
def test_without_script_nothing_is_missing(chromium: Browser, lesson_file: Path) -> None:
    """Both staves are there, and no control that would do nothing."""
    page = chromium.new_context(java_script_enabled=False).new_page()
    page.goto(lesson_file.as_uri())
    expect(page.locator("#lick-step .wide svg").first).to_be_visible()
    expect(page.locator(".reading")).to_be_hidden()
    page.context.close()
