"""The theme as read: an author's files over ours, templates in a sandbox."""

from __future__ import annotations

import pytest
from jinja2 import UndefinedError
from jinja2.exceptions import SecurityError

from lickwright.pages.theme import SCRIPTS, SHEETS, read_theme


def test_our_theme_is_whole():
    """Every sheet and script that pages link is there, and nothing else."""
    assert set(read_theme().assets) == {*SHEETS, *SCRIPTS, "light.js"}


def test_an_author_replaces_file_by_file(tmp_path):
    """One sheet, one template and one further sheet of an author's change just these."""
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "index.html").write_text("mine {{ course.title }}")
    (tmp_path / "tokens.css").write_text(":root{}")
    (tmp_path / "more.css").write_text("p{}")
    (tmp_path / "notes.txt").write_text("not for the site")
    theme, ours = read_theme(tmp_path), read_theme()
    assert theme.assets["tokens.css"] == b":root{}"
    assert theme.assets["player.js"] == ours.assets["player.js"]
    assert theme.sheets == (*SHEETS, "more.css")
    assert "notes.txt" not in theme.assets
    assert theme.render("index.html", course={"title": "<b>"}) == "mine &lt;b&gt;"
    assert theme.templates["lesson.html"] == ours.templates["lesson.html"]


def test_no_folder_changes_nothing(tmp_path):
    """A course without a theme folder has ours."""
    assert read_theme(tmp_path / "none").assets == read_theme().assets


def test_templates_reach_nothing(tmp_path):
    """A template cannot climb out of the values it is given, nor use a name it was not given."""
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "a.html").write_text("{{ ''.__class__.__mro__[1].__subclasses__() }}")
    (tmp_path / "templates" / "b.html").write_text("{{ nothing }}")
    theme = read_theme(tmp_path)
    with pytest.raises(SecurityError):
        theme.render("a.html")
    with pytest.raises(UndefinedError):
        theme.render("b.html")
