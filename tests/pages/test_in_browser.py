"""A lesson on the whole path: resolved, engraved, sounded, rendered, opened from disk in Chromium."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from lickwright.pages.lesson import lesson_page
from lickwright.pages.prefixes import short_prefixes

STEP = short_prefixes(["step"])["step"]
pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def lesson_file(edition, on_disk) -> Path:
    """Return the lesson in a folder with its theme and its sounds."""
    return on_disk(lesson_page(edition, edition.course.lessons[0]))


@pytest.fixture
def page(off_line, lesson_file: Path) -> Page:
    """Open the lesson, which shows a picture that is not there."""
    return off_line(lesson_file, ("hand.png", "ERR_FILE_NOT_FOUND"))


def test_every_light_has_its_note(page: Page):
    """Each id that the player is told is in both layouts of the engraving."""
    missing = page.evaluate(
        """() => [...document.querySelectorAll('script.music')].map(data => JSON.parse(data.textContent))
             .flatMap(music => music.lights.flatMap(([, tones]) => tones)
                .flatMap(tone => ['w-', 'n-'].flatMap(width => ['s', 't'].map(
                   staff => width + music.prefix + staff + tone))))
             .filter(id => !document.getElementById(id))"""
    )
    assert missing == []
    assert page.evaluate(f"document.querySelectorAll('[id^=w-{STEP}-s1-]').length") == 8


def test_play_lights_staff_and_tab(page: Page):
    """Play sounds the lick and lights its notes on both staves, the last of them too."""
    page.evaluate(
        """() => { window.lit = new Set(); new MutationObserver(() => {
             for (const note of document.querySelectorAll('.sounding')) lit.add(note.id);
           }).observe(document.body, {subtree: true, attributes: true, attributeFilter: ['class']}); }"""
    )
    play = page.locator("#lick-step .play")
    play.click()
    expect(play).to_have_text("Stop")
    expect(play).to_have_text("Play", timeout=15000)
    lit = set(page.evaluate("[...lit]"))
    ends = ("w", "s1-1u1"), ("w", "t1-1u1"), ("n", "t1-1u1"), ("w", "s2-8u2"), ("n", "t2-8u1")
    assert {f"{width}-{STEP}-{note}" for width, note in ends} <= lit


def test_bars_lie_over_their_bars(page: Page):
    """Each button covers the notes of its own bar."""
    inside = page.evaluate(
        """step => [...document.querySelectorAll('#lick-step .wide .bars button')].map(button => {
             const box = button.getBoundingClientRect();
             return [...document.querySelectorAll(`[id^='w-${step}-t${Number(button.dataset.bar) + 1}-']`)]
               .every(note => { const n = note.getBoundingClientRect();
                                return n.left >= box.left - 1 && n.right <= box.right + 1; }); })""",
        STEP,
    )
    assert inside == [True, True]


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_nothing_is_wider_than_the_page(page: Page, width: int):
    """No width scrolls sideways, and a tab figure is never under 11 px tall."""
    page.set_viewport_size({"width": width, "height": 900})
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    heights = page.evaluate(
        """() => [...document.querySelectorAll('.note > text, text.note')]
             .filter(figure => figure.getClientRects().length)
             .map(figure => parseFloat(getComputedStyle(figure.querySelector('tspan') || figure).fontSize)
                            * figure.ownerSVGElement.getScreenCTM().a * 0.66)"""
    )
    assert heights
    if width >= 360:
        assert min(heights) > 11 * 0.9


def test_the_sound_is_left_out_when_asked(edition, on_disk, off_line):
    """Without sound the page has its notation and no player."""
    silent = lesson_page(replace(edition, sound=False), edition.course.lessons[0])
    page = off_line(on_disk(silent), ("hand.png", "ERR_FILE_NOT_FOUND"))
    assert page.locator("#lick-step svg").count() >= 2
    assert page.locator(".play").count() == 0
