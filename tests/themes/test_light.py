"""The light switch, and the page without script."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

pytestmark = pytest.mark.browser

PAPER = "getComputedStyle(document.body).backgroundColor"


def test_light_is_chosen_and_kept(desk):
    """Lamp darkens the page at once and after a reload; giving it back to the computer undoes it."""
    page = desk.page
    assert page.evaluate(PAPER) == "rgb(245, 245, 241)"
    page.locator("label:has([value=lamp])").click()
    assert page.evaluate(PAPER) == "rgb(20, 25, 30)"
    page.reload()
    assert page.evaluate(PAPER) == "rgb(20, 25, 30)"
    assert page.locator("[value=lamp]").is_checked()
    page.locator("label:has([name=light][value=''])").click()
    assert page.evaluate(PAPER) == "rgb(245, 245, 241)"


def test_the_computer_may_ask_for_lamp(desk):
    """Without a choice of the reader the computer's own setting counts, and day can be forced."""
    page = desk.page
    page.emulate_media(color_scheme="dark")
    assert page.evaluate(PAPER) == "rgb(20, 25, 30)"
    page.locator("label:has([value=day])").click()
    assert page.evaluate(PAPER) == "rgb(245, 245, 241)"


def test_print_is_black_on_white(desk):
    """On paper the page is white with black ink even under lamp, and no control is printed."""
    page = desk.page
    page.locator("label:has([value=lamp])").click()
    page.emulate_media(media="print", color_scheme="dark")
    assert page.evaluate(PAPER) == "rgb(255, 255, 255)"
    assert page.evaluate("getComputedStyle(document.body).color") == "rgb(0, 0, 0)"
    expect(page.locator(".play").first).to_be_hidden()
    expect(page.locator("#first .wide")).to_be_visible()


def test_without_script_there_is_no_dead_control(chromium: Browser, trial_page: Path, press):
    """Notation, margin and words are there; nothing that needs script is."""
    page = press.open_desk(chromium, trial_page, script=False).page
    expect(page.locator("#first .wide svg").first).to_be_visible()
    expect(page.get_by_text("II position").first).to_be_visible()
    expect(page.locator("summary").first).to_be_visible()
    for control in (".play", ".bars", ".foot fieldset", "[data-part=tempo]"):
        expect(page.locator(control).first).to_be_hidden()
    expect(page.get_by_text("allow this page its scripts")).to_be_visible()
    assert page.locator("a.lick").get_attribute("href") == "#first"
    page.context.close()
