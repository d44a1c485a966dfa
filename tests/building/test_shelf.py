"""The editor's shelf kept between publishes."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from lickwright.building import shelf
from lickwright.building.cache import Cache
from lickwright.building.proofing import proof_course

CONTENT = Path(__file__).parents[2] / "content"


def test_a_shelf_comes_back_as_it_was_put(tmp_path):
    """Text by path; what is not there, or damaged, is None."""
    cache = Cache(tmp_path)
    pages = {"handbook/index.html": "<p>♭ & ♯</p>", "guide/bends.html": "x"}
    shelf.keep_shelf(cache, "shelf-a", pages)
    assert shelf.kept_shelf(cache, "shelf-a") == pages
    assert shelf.kept_shelf(cache, "shelf-b") is None
    entry = cache.path("shelf-a")
    entry.write_bytes(entry.read_bytes()[:-3])
    assert shelf.kept_shelf(Cache(tmp_path), "shelf-a") is None


def test_the_key_holds_what_the_shelf_shows(monkeypatch):
    """Lessons and licks do not count; title, theme and our own source do."""
    course = proof_course(CONTENT).course
    assert course is not None
    theme = {"base.html": "text", "page.css": b"p{}"}
    key = shelf.shelf_key(course, theme)
    assert shelf.shelf_key(replace(course, units=course.units[:0]), theme) == key
    assert shelf.shelf_key(replace(course, title="Another"), theme) != key
    assert shelf.shelf_key(course, {**theme, "page.css": b"p{color:red}"}) != key
    monkeypatch.setattr(shelf, "builder_version", lambda: "a changed line")
    assert shelf.shelf_key(course, theme) != key
