"""A page of the proof room on the whole path: engraved, sounded, opened from disk in Chromium."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from lickwright.building.renderers import make
from lickwright.model.orders import Recorded
from lickwright.model.timeline import Book
from lickwright.pages.edition import Edition
from lickwright.pages.player_data import sound_path, sound_script
from lickwright.pages.proof_room import room_pages
from lickwright.pages.room import read_room
from lickwright.pages.site import theme_files
from lickwright.pages.theme import read_theme

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def witness_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the page of the second witness with its theme and its sounds."""
    site = tmp_path_factory.mktemp("room")
    theme = read_theme()
    edition = Edition(read_room(theme).edition.course, Book(), theme)
    page = next(page for page in room_pages(edition) if page.path == "proof-room/witness.html")
    made = {id(order): make(order) for order in page.orders}
    files = {page.path: page.render(lambda order: made[id(order)]).encode(), **dict(theme_files())}
    files |= {sound_path(r): sound_script(r) for r in made.values() if isinstance(r, Recorded)}
    for path, body in files.items():
        (site / path).parent.mkdir(exist_ok=True)
        (site / path).write_bytes(body)
    return site / page.path


def test_the_fault_is_heard_and_what_was_meant(chromium: Browser, witness_file: Path) -> None:
    """Both bars stand side by side and sound one at a time; so does the lick that is in order."""
    context = chromium.new_context(viewport={"width": 1280, "height": 900}, offline=True)
    page = context.new_page()
    faults: list[str] = []
    page.on("console", lambda message: faults.append(message.text))
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.goto(witness_file.as_uri())
    first = page.locator("#finding-1")
    written, meant = (first.locator("figure").nth(k) for k in (0, 1))
    left, right = written.bounding_box(), meant.bounding_box()
    assert left is not None
    assert right is not None
    assert left["y"] == right["y"]
    assert left["x"] + left["width"] <= right["x"]
    buttons = [written.locator(".play"), meant.locator(".play")]
    expect(buttons[0]).to_have_accessible_name("Play As written, bar 1")
    expect(buttons[1]).to_have_accessible_name("Play As meant, bar 1")
    buttons.append(page.locator(".right .play").first)
    expect(buttons[2]).to_have_accessible_name("Play mail-bag-stands")
    for before, button in zip((None, *buttons), buttons, strict=False):
        button.click()
        expect(button.locator("span").first).to_have_text("Stop")
        if before is not None:
            expect(before.locator("span").first).to_have_text("Play")
    page.keyboard.press("Escape")
    assert page.locator(".play.on").count() == 0
    assert faults == []
    context.close()
