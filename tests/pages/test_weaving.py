"""Blocks in quotes and lists, grids of chords, degrees by the spelling of the staff: read from real text."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from lickwright.building.renderers import make
from lickwright.model.timeline import resolve
from lickwright.pages.edition import Edition
from lickwright.pages.lesson import lesson_page
from lickwright.pages.markdown import Body, weave
from lickwright.pages.practice import rendition_of
from lickwright.pages.site import theme_files
from lickwright.pages.theme import read_theme
from lickwright.pages.weaving import NO_BAND, LessonWeaver, plans_of
from lickwright.reading.course import read_course

LICK = """```lick walk
key: D major

D | 4:0 4:1 4:2 4:1  4:0 - - -
```"""
GRID = """```progression stops
|: 4/4 A7 | D G7@4& | Em' | | A Bm'@3 :| | D
```"""
LESSON = f"""# One

{LICK}

Said again:

> {LICK.replace("walk", "again").replace("4:0 - - -", "4:2 - - -").replace(chr(10), chr(10) + "> ")}
>
> So it goes.

- A list

  {GRID.replace(chr(10), chr(10) + "  ")}
"""


@pytest.fixture(scope="module")
def read(tmp_path_factory) -> Edition:
    """The lesson as an author would have it."""
    folder = tmp_path_factory.mktemp("course")
    (folder / "lessons").mkdir()
    (folder / "lessons" / "one.md").write_text(LESSON, encoding="utf-8")
    (folder / "course.toml").write_text(
        '[course]\ntitle = "A course"\nauthor = "An author"\n\n[[unit]]\ntitle = "U"\nlessons = ["one.md"]\n',
        encoding="utf-8",
    )
    course, findings = read_course(folder)
    assert course is not None, findings
    return Edition(course, resolve(course)[0], read_theme(), sound=False)


@pytest.fixture(scope="module")
def html(read) -> str:
    page = lesson_page(read, read.course.lessons[0])
    made = {id(order): make(order) for order in page.orders}
    return page.render(lambda order: made[id(order)])


def test_the_source_of_a_block_ends_with_its_fence(read):
    """Alone and inside a quote the typed source is the block from fence to fence, and no line more."""
    lesson = read.course.lessons[0]
    renditions = {line: rendition_of(plan, {}.get) for line, plan in plans_of(read, lesson).items()}
    weaver = LessonWeaver(read, lesson, "lessons/one.html", "", renditions, typed=True)
    weave(lesson.source.text, weaver)
    typed = [weaver.block(placed.line, 2)[0].html for placed in lesson.blocks]
    assert [text.unescape().count("```") for text in typed] == [2, 2, 2]
    assert all(text.unescape().rstrip().endswith("```</code></pre>") for text in typed)
    assert "So it goes" not in typed[1]


@pytest.mark.parametrize("sound", [True, False])
def test_the_missing_band_is_told_where_something_is_heard(read, sound):
    """A page without sound does not say what one hears."""
    edition, lesson = replace(read, sound=sound), read.course.lessons[0]
    renditions = {line: rendition_of(plan, {}.get) for line, plan in plans_of(read, lesson).items()}
    weaver = LessonWeaver(edition, lesson, "lessons/one.html", "1", renditions)
    parts = [part for placed in lesson.blocks for part in weaver.block(placed.line, 2)]
    assert [part.later for part in parts if isinstance(part, Body) and part.later] == [NO_BAND] * sound


def test_a_grid_prints_stops_and_beats(html):
    """The stop in its word, a chord's beat as written; an empty bar keeps the last, silent after a stop."""
    cells = [cell for cell in re.findall(r"<td>(.*?)</td>", html) if cell]
    assert cells[:4] == ["|: 4/4 A7", "D G7 (on the and of 4)", "Em (stop)", "Em (silent)"]
    assert cells[4:] == ["A Bm (stop on 3) :|", "D"]


def test_degrees_are_spelled_as_the_staff_is(html):
    """D sharp on its way up from D to E is a raised root over D, on the way down a flat second."""
    line = re.search(r'<p class="roles-line lining">(.*?)</p>', html)[1]
    assert re.sub(r"<[^>]+>", "", line).split() == ["1", "(♯1)", "(2)", "(♭2)", "1"]


@pytest.mark.browser
@pytest.mark.parametrize("width", [360, 1280])
def test_music_in_a_quote_is_as_large_as_on_a_phone(html, chromium: Browser, tmp_path: Path, width: int):
    """Beside prose the narrow engraving stands, its figures as tall as those of a phone or taller."""
    for path, body in (*theme_files(), ("lessons/one.html", html.encode())):
        (tmp_path / path).parent.mkdir(exist_ok=True)
        (tmp_path / path).write_bytes(body)
    page = chromium.new_page(viewport={"width": width, "height": 900})
    page.goto((tmp_path / "lessons" / "one.html").as_uri())
    shown = page.evaluate(
        """() => [...document.querySelectorAll('.prose .system svg')]
             .filter(svg => svg.getClientRects().length)
             .map(svg => [svg.closest('.narrow') !== null, svg.getScreenCTM().a])"""
    )
    assert shown
    assert all(narrow and size > 0.038 for narrow, size in shown), shown
    page.close()
