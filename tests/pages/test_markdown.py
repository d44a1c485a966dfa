"""Text to passages: our customs on top of CommonMark."""

from __future__ import annotations

import pytest

from lickwright.pages.links import file_name, picture_path, relative
from lickwright.pages.markdown import Body, deck_of, pictures_of, weave


class Nothing:
    """A weaver that knows no link and no block but one on line 2."""

    line = 2

    def link(self, href):  # noqa: ARG002, D102
        return None

    def image(self, source):  # noqa: ARG002, D102
        return None

    def is_block(self, line):  # noqa: D102
        return line == self.line

    def block(self, line, level):  # noqa: ARG002, D102
        return (Body(later=f"block at level {level}"),)

    def nested(self, parts):  # noqa: D102
        return parts[0].later


def html(text: str) -> str:
    """All prose of a text."""
    parts = weave(text, Nothing()).parts
    return "".join(str(body.html or body.later) for part in parts for body in part.body)


def test_title_and_deck():
    """The first heading is the title, an emphasis straight after it the deck."""
    document = weave("# A *b*\n\n*Deck & all*\n\nText\n", Nothing())
    assert (document.title, document.deck) == ("A <em>b</em>", "Deck &amp; all")
    assert deck_of("# A\n\n*Deck [x](y.md)*\n") == "Deck x"
    assert deck_of("# A\n\n*Deck* and more\n") == ""
    assert deck_of("# A\n\n*One* and *two*\n") == ""


def test_first_and_second_level_begin_passages():
    """Deeper headings stay in the prose."""
    parts = weave("# T\n\nx\n\n## One\n\ny\n\n### Deep\n\n# Two\n\nz\n", Nothing()).parts
    assert [str(part.heading) for part in parts] == ["", "One", "Two"]
    assert "<h3>Deep</h3>" in parts[1].body[-1].html


def test_quotes_are_asides_unless_they_hold_music():
    """A plain quote goes to the margin; one with a block in it stays in the text."""
    assert [str(aside) for aside in weave("# T\n\n> x\n", Nothing()).parts[0].asides] == ["<p>x</p>\n"]
    part = weave("# T\n> ```lick\n> ```\n", type("W", (Nothing,), {"line": 1})()).parts[0]
    assert (part.asides, "blockquote" in part.body[0].html) == ([], True)


def test_a_block_in_a_list_stays_in_the_list():
    """Music in a list item is put where it stands."""
    assert "<li>" in html("# T\n\n- ```lick x\n  ```\n")
    assert "block at level 2" in html("# T\n\n- ```lick x\n  ```\n")


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "[x](javascript:alert(1))",
        "![x](javascript:alert(1))",
        "[x](data:text/html,y)",
        "<https://example.org>",
        "```html\n<script>x</script>\n```",
        "    <script>x</script>",
        "&lt;script&gt;",
        "[x]: javascript:y\n\n[x]",
    ],
)
def test_nothing_becomes_script(text):
    """No text of an author makes an element but those of prose."""
    made = html("# T\n\n" + text)
    assert "<script" not in made
    assert "<img" not in made
    assert "href" not in made


@pytest.mark.parametrize(
    ("source", "path"),
    [
        ("pictures/a.png", "pictures/a.png"),
        ("../pictures/b/a%20b.png", "pictures/b/a b.png"),
        ("../../pictures/a.png", None),
        ("pictures/../course.toml", None),
        ("pictures/%2e%2e/course.toml", None),
        ("pictures/a\\..\\b", None),
        ("pictures//a.png", None),
        ("/pictures/a.png", None),
        ("https://example.org/pictures/a.png", None),
    ],
)
def test_picture_path(source, path):
    """Only what lies in the course's pictures folder is shown."""
    assert picture_path(source) == path


def test_addresses():
    """Relative addresses are quoted; names become small letters, digits and hyphens."""
    assert relative("lessons/a b.html", "guide/x.html") == "../lessons/a%20b.html"
    assert relative("index.html", "index.html") == "index.html"
    assert file_name("Über/Den  Fluss!") == "ber-den-fluss"
    assert file_name("") == "page"
    assert pictures_of("![a](b.png) ![a](b.png)") == ("b.png",)
