"""The page of a lesson: what it orders, what it shows, what it never lets through."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from lickwright.model.orders import Recorded, ScoreOrder, SoundOrder, System
from lickwright.pages.lesson import lesson_page
from lickwright.pages.player_data import sound_key, sound_path, sound_script
from lickwright.pages.practice import level
from lickwright.pages.prefixes import short_prefixes


class Outline(HTMLParser):
    """Reads a page: its elements with their attributes, ids, and tags left open."""

    VOID = frozenset({"meta", "link", "input", "img", "br", "hr", "path", "circle", "use"})

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.faults: list[str] = []

    def handle_starttag(self, tag, attrs):  # noqa: D102 - the parser's own
        self.elements.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):  # noqa: D102 - the parser's own
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag):  # noqa: D102 - the parser's own
        if not self.open or self.open.pop() != tag:
            self.faults.append(tag)

    def all(self, tag: str) -> list[dict[str, str | None]]:
        """The attributes of every element of a name."""
        return [attrs for name, attrs in self.elements if name == tag]


def outline(html: str) -> Outline:
    """Read a page."""
    read = Outline()
    read.feed(html)
    return read


@pytest.fixture(scope="module")
def html(edition, made) -> str:
    return lesson_page(edition, edition.course.lessons[0]).render(made)


@pytest.fixture(scope="module")
def music(html) -> list[dict]:
    return [json.loads(text) for text in re.findall(r'class="music">(.*?)</script>', html)]


def test_orders_two_widths_and_two_tempi(edition):
    """Each piece with music orders every view in two widths, and its sound at the slow and the full tempo."""
    orders = lesson_page(edition, edition.course.lessons[0]).orders
    scores = [order for order in orders if isinstance(order, ScoreOrder)]
    sounds = [order for order in orders if isinstance(order, SoundOrder)]
    assert [order.width for order in scores] == ["wide", "narrow"] * 6
    assert [order.view for order in scores[::2]] == ["both", "tab", "staff"] * 2
    assert [int(order.bpm) for order in sounds] == [60, 120] * 2
    assert len({order.prefix for order in scores if order.view == "both"}) == 2


def test_without_sound_nothing_is_ordered_or_offered(edition, made):
    """An edition without sound orders notation only, and shows no control for playing."""
    page = lesson_page(replace(edition, sound=False), edition.course.lessons[0])
    assert not any(isinstance(order, SoundOrder) for order in page.orders)
    html = page.render(made)
    assert 'data-part="play"' not in html
    assert 'class="bars"' not in html
    assert "data-bars" in html


def test_markup_is_whole(html):
    """Every element is closed in order, and no id stands twice."""
    read = outline(html)
    assert (read.open, read.faults) == ([], [])
    ids = [attrs["id"] for _, attrs in read.elements if "id" in attrs]
    assert len(ids) == len(set(ids)) > 5


def test_author_text_stays_text(html):
    """Tags, template signs and script addresses of an author come out as letters or not at all."""
    read = outline(html)
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in html
    assert "{{ 7 * 7 }}" in html
    assert "&lt;b&gt;no&lt;/b&gt;" in html
    assert "Porch step &lt;i&gt;" in html
    assert {attrs.get("src", "").rpartition("/")[2] for attrs in read.all("script") if "src" in attrs} == {
        *("light.js", "time.js", "sound.js", "bars.js", "player.js", "views.js")
    }
    assert all("src" in attrs or attrs.get("type") == "application/json" for attrs in read.all("script"))
    assert [
        attrs for _, attrs in read.elements if any(n.startswith("on") or n == "style" for n in attrs)
    ] == []
    assert [attrs["href"] for attrs in read.all("a") if ":" in (attrs["href"] or "")] == [
        "https://example.org/x"
    ]
    assert "secret" not in html


def test_pictures_are_the_courses_own(edition, html):
    """A picture of the course is shown with its description; a remote one is only described."""
    pictures = outline(html).all("img")
    assert [(attrs["src"], attrs["alt"]) for attrs in pictures] == [("../pictures/hand.png", "A hand")]
    assert "Not ours" in html
    assert lesson_page(edition, edition.course.lessons[0]).pictures == ("pictures/hand.png",)


def test_passages_asides_and_deck(html):
    """The title, the deck, the side-head and the aside stand where the look has them."""
    assert re.search(r"<h1>.*Porch <em>steps</em> &amp; \{\{ 7 \* 7 \}\}</h1>", html)
    assert '<p class="deck">Two bars, and &lt;b&gt;no&lt;/b&gt; more.</p>' in html
    assert '<section class="passage"><h2>Why it walks</h2>' in html
    assert '<aside class="aside"><p><strong>Let ring.</strong> Leave the finger down.</p>' in html
    assert html.index("Before the first side-head") < html.index("Why it walks")


def test_head_of_a_lick(html):
    """Number, title, bars, both keys of a capo, tempo; the excerpt says what it shows."""
    assert '<h3 id="lick-step-h"><span class="no">1.1</span>Porch step &lt;i&gt;</h3>' in html
    assert "two bars · B major, A shapes, capo 2 · at 120" in html
    assert "Porch step &lt;i&gt;, bar\N{NO-BREAK SPACE}2</h3>" in html
    assert "From a printed book, 1883." in html


def test_margin_and_bars(html):
    """Each bar has its button with a spoken label, and its chord, position and roles in the margin."""
    read = outline(html)
    labels = [attrs["aria-label"] for attrs in read.all("button") if "data-bar" in attrs]
    assert labels == ["Bar 1, chord B7", "Bar 2, chord E7"] * 2 + ["Bar 2, chord E7"] * 2
    assert '<i>bar 1</i> <span class="chord">B7</span> <span class="key">II position</span>' in html
    assert "1+5" in html  # E and B over E7
    assert html.count("II position") == 5  # once a system
    assert re.search(r'<p class="roles-line lining"><b>1</b> 5 5 <i>\(6\)</i> <b>1</b>', html)


def test_the_player_is_told_the_music(music, made, edition):
    """Bars, tempi and lights are those of the sound; the ids are those of the engraving."""
    step = music[0]
    assert (step["name"], step["beats"], step["beat"], step["pickup"]) == ("step", 4, 0.5, 0)
    assert step["prefix"] == short_prefixes(["step"])["step"] + "-"
    assert (step["bars"], step["written"]) == ([[0, 0, 2], [1, 2, 4]], 2)
    assert [(t["label"], t["scale"]) for t in step["tempi"]] == [("60", 2), ("120", 1)]
    assert step["lights"][1] == [0.25, ["1-2u1"]]
    assert step["lights"][15][1] == ["2-8u1", "2-8u2"]
    assert step["lights"][-1] == [4, []]
    sounds = [o for o in lesson_page(edition, edition.course.lessons[0]).orders if isinstance(o, SoundOrder)]
    assert step["tempi"][1]["file"] == "../" + sound_path(made(sounds[1]))


def test_words_point_at_notes(html):
    """A link to notes carries their seconds and ids; to another page it is a plain way there; else words."""
    links = {tuple(a["href"].split("#")): a for a in outline(html).all("a") if a.get("class") == "lick"}
    assert set(links) == {("", "lick-step"), ("far.html?notes=1-1u1", "lick-far")}
    assert "data-span" not in links["far.html?notes=1-1u1", "lick-far"]
    spans = re.findall(r'data-lick="([^"]+)" data-span="([^"]+)" data-notes="([^"]+)"', html)
    assert spans[0] == ("step", "0.25 0.5", "1-2u1")
    assert [span for _, span, _ in spans] == ["0.25 0.5", "0 4", "2 4;0 2"]
    assert spans[2][0].split(" ")[0] == "step"  # bar 2 stands in the lick and in its excerpt
    assert len(spans[2][0].split(" ")) == 2
    assert '<a href="far.html">the next lesson</a>' in html
    assert "nowhere</a>" not in html
    assert "nowhere" in html


def test_blocks_without_notation_are_not_lost(html):
    """A progression in a list, a neck, open strings and the tuner are shown or say that they are not."""
    assert re.search(
        r"<li>.*?Porch · A major · straight · at 100</caption>.*?<td>A</td><td>D7</td>", html, re.DOTALL
    )
    assert html.count("<figcaption>A7 chord tones on the neck, frets 0 to 12, capo at 2</figcaption>") == 1
    cells = (
        "C major",
        "♭5, blue note",
        "outside",
        "6",
        "3",
        "7",
        "♭5, blue note",
    )  # F# C# A E B F# with capo 2
    assert "".join(f"<td>{cell}</td>" for cell in cells[1:]) + "<td>3 of 6</td>" in html
    assert f'<th scope="row">{cells[0]}</th>' in html
    assert "<td>1</td><td>E4</td><td>329.6 Hz</td>" in html
    assert '<pre tabindex="0"><code>&lt;plain&gt; {{ code }}' in html


def test_what_could_not_be_made_is_said(edition):
    """Where the notation is missing the page says so and offers nothing to play."""
    html = lesson_page(edition, edition.course.lessons[0]).render({}.get)
    assert "could not be made" in html
    assert 'data-part="play"' not in html


def test_staves_side_by_side_are_level():
    """The system with less above its staff gets as much; one without a partner stays."""
    systems = [
        System(
            f'<svg viewBox="-200 {top} 100 500"><path d="M0 {staff}H90m0 180H0" class="lines"/></svg>',
            (),
            100,
            500,
        )
        for top, staff in ((0, 100), (500, 640), (1000, 1010))
    ]
    made = [re.search(r'viewBox="([^"]*)"', system.svg)[1] for system in level(systems)]
    assert made == ["-200 -40 100 540", "-200 500 100 500", "-200 1000 100 500"]


def test_same_input_same_bytes(edition, made, html):
    """A page is the same every time it is rendered."""
    assert lesson_page(edition, edition.course.lessons[0]).render(made) == html


def test_sound_script():
    """A sound's script hands its own name and bytes over, and equal sounds have equal names."""
    sound = Recorded(b"\x00\xffmp3", 1.0, (), ())
    script = sound_script(sound).decode("ascii")
    assert script == f'lickwright.sound("{sound_key(sound)}","AP9tcDM=");\n'
    assert sound_path(sound) == f"sound/{sound_key(sound)}.js"
    assert sound_key(sound) != sound_key(replace(sound, mp3=b"other"))
