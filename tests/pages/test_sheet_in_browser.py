"""The proof sheet on the whole path: engraved, sounded, opened from disk in Chromium."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from lickwright.pages.proof_sheet import proof_sheet

pytestmark = pytest.mark.browser
SHOWN = ".finding:not([hidden])"


@pytest.fixture(scope="module")
def sheet_file(slips, on_disk) -> Path:
    """Return the sheet in a folder with its theme and its sounds."""
    return on_disk(proof_sheet(slips, guide=False))


@pytest.fixture
def page(off_line, sheet_file: Path) -> Page:
    """Open the sheet."""
    return off_line(sheet_file)


def test_sifting(page: Page):
    """What is chosen is shown, the sentence says how many that are; all comes back."""
    said = page.locator(".sift [role=status]")
    expect(said).to_have_text("All 5 findings shown.")
    page.get_by_label("Queries (1)").check()
    expect(page.locator(SHOWN)).to_have_count(1)
    expect(said).to_have_text("1 of 5 findings shown.")
    page.get_by_role("group", name="Show", exact=True).get_by_label("Everything").check()
    page.get_by_label("Harmony (1)").check()
    expect(page.locator(SHOWN)).to_have_count(1)
    page.get_by_label("Lesson", exact=True).select_option("first")
    expect(page.locator(SHOWN)).to_have_count(0)
    page.get_by_role("link", name="Four errors").click()
    expect(page.locator(SHOWN)).to_have_count(5)
    expect(page.locator("#finding-1 .says")).to_be_focused()


def test_from_one_to_the_next(page: Page):
    """Links and arrows go to the next finding that is shown, and no further than the last."""
    page.locator("#finding-1").get_by_role("link", name="Next finding").click()
    expect(page.locator("#finding-2 .says")).to_be_focused()
    page.get_by_label("The second witness (1)").check()
    page.get_by_role("group", name="About").get_by_label("Everything").check()
    page.get_by_label("Lesson", exact=True).select_option("first")
    page.locator("#finding-3 .says").focus()
    page.keyboard.press("ArrowDown")
    expect(page.locator("#finding-4 .says")).to_be_focused()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    expect(page.locator("#finding-3 .says")).to_be_focused()


def test_one_bar_sounds_at_a_time(page: Page):
    """Play says Stop while the bar sounds; another one stops it; the end of the bar, or Escape, does too."""
    written, mended = page.locator("#finding-3 .play").all()
    expect(written).to_have_accessible_name("Play As written, bar 2")
    written.click()
    expect(written).to_have_accessible_name("Stop As written, bar 2")
    mended.click()
    expect(written).to_have_accessible_name("Play As written, bar 2")
    expect(mended.locator("span").first).to_have_text("Stop")
    page.keyboard.press("Escape")
    expect(mended.locator("span").first).to_have_text("Play")
    written.click()
    expect(written.locator("span").first).to_have_text("Stop")
    expect(written.locator("span").first).to_have_text("Play", timeout=15000)


@pytest.mark.parametrize("width", [320, 768, 1280])
def test_nothing_is_wider_than_the_page(page: Page, width: int):
    """No width scrolls sideways, and every control is 44 px high."""
    page.set_viewport_size({"width": width, "height": 900})
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    heights = page.evaluate(
        """() => [...document.querySelectorAll('.row :is(button,label,select), summary, .turn a')]
             .filter(one => one.getClientRects().length).map(one => one.getBoundingClientRect().height)"""
    )
    assert len(heights) > 10
    assert min(heights) >= 44


def test_without_script_everything_is_there(chromium: Browser, sheet_file: Path):
    """Every finding is shown, no control stands that does nothing, the links lead on."""
    context = chromium.new_context(java_script_enabled=False, offline=True)
    page = context.new_page()
    page.goto(sheet_file.as_uri())
    expect(page.locator(SHOWN)).to_have_count(5)
    assert [one.is_visible() for one in page.locator(".sift, .play").all()] == [False] * 7
    page.locator("#finding-1").get_by_role("link", name="Next finding").click()
    assert page.url.endswith("#finding-2")
    context.close()


def test_print_says_what_is_left_out(page: Page):
    """On paper the filter is not seen, so the line of counts says how many findings the sheet shows."""
    after = "getComputedStyle(document.querySelector('.tallyline'), '::after').content"
    page.emulate_media(media="print")
    assert page.evaluate(after) == "none"
    page.emulate_media(media="screen")
    page.get_by_label("Queries (1)").check()
    assert page.evaluate(after) == "none"
    page.emulate_media(media="print")
    assert "1 of 5 findings shown." in page.evaluate(after)


def test_print(page: Page):
    """On paper there are no controls; a long finding flows, its head stays with its bars, a bar is whole."""
    page.emulate_media(media="print")
    assert not any(one.is_visible() for one in page.locator(".row, .turn, .finding details").all())
    style = "(which, name) => [...document.querySelectorAll(which)].map(one => getComputedStyle(one)[name])"

    def styles(which: str, name: str) -> set[str]:
        return set(page.evaluate(f"([which, name]) => ({style})(which, name)", [which, name]))

    assert styles(".finding:has(figure + figure)", "breakInside") == {"auto"}
    assert styles(".finding > .sev, .finding > .sev + div", "breakAfter") == {"avoid"}
    assert styles(".bars-pair", "breakInside") == {"avoid"}
    assert not page.locator("#queries").is_visible()
