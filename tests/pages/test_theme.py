"""The theme as read: an author's files over ours, templates in a sandbox."""

from __future__ import annotations

import pytest
from jinja2 import UndefinedError

from lickwright.pages.theme import SCRIPTS, SHEET_SCRIPTS, SHEETS, Theme, ThemeError, read_theme


def test_our_theme_is_whole():
    """Every sheet and script that pages link is there, and nothing else."""
    assert set(read_theme().assets) == {*SHEETS, *SCRIPTS, *SHEET_SCRIPTS, "light.js"}


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
    with pytest.raises(ThemeError, match=r"theme/templates/a.html, line 1: access to attribute"):
        theme.render("a.html")
    with pytest.raises(ThemeError, match=r"theme/templates/b.html, line 1: 'nothing' is undefined"):
        theme.render("b.html")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (b"<p>\n{% if %}", "line 2: Expected an expression"),
        (b"<p>\n\n{{ course.title", "line 3: unexpected end of template"),
        (b"<p>\n<p>caf\xe9", "line 2: the file is not UTF-8 text"),
    ],
)
def test_a_slip_in_a_template_is_told_before_any_work(tmp_path, text, said):
    """A template of the author's that cannot be read is named with its line, before a page is rendered."""
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "lesson.html").write_bytes(text)
    with pytest.raises(ThemeError) as told:
        read_theme(tmp_path)
    assert str(told.value).startswith(f"theme/templates/lesson.html, {said}")


def test_a_fault_of_ours_is_not_put_on_the_author(tmp_path):
    """What fails in our own templates, or in a value that we hand to the author's, is raised as it is."""
    with pytest.raises(UndefinedError):
        Theme({"ours.html": "{{ nothing }}"}, {}).render("ours.html")
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "mine.html").write_text("{{ view() }}")

    def view():
        raise KeyError("ours")

    with pytest.raises(KeyError, match="ours"):
        read_theme(tmp_path).render("mine.html", view=view)


def test_scripts_are_ours_alone(tmp_path):
    """A script in an author's theme neither replaces one of ours nor reaches the site."""
    for name in ("player.js", "more.js"):
        (tmp_path / name).write_text("alert(1)")
    assert read_theme(tmp_path).assets == read_theme().assets
