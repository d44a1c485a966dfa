"""Pictures of the neck and chords on a page in Chromium: legible, clear of each other, of use on a phone."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page

from lickwright.building.proofing import proof_course
from lickwright.pages.edition import Edition
from lickwright.pages.lesson import lesson_page
from lickwright.pages.theme import read_theme

pytestmark = pytest.mark.browser

MANIFEST = """[course]
title = "Necks"
author = "A. Player"
key = "A major"
tempo = 96

[guitar]
hand = "left"
capo = 2

[[unit]]
title = "All"
lessons = ["necks.md"]
"""
LESSON = """# Necks

```neck
show: C#7 chord tones, names
```

```neck
show: Abdim7 chord tones, frets 0-20, degrees
```

```neck
show: A blues, frets 5-9, fingers
```

```neck
of: strum
```

```scale rolling
scale: G major
open strings: wherever diatonic
```

```lick strum
key: B major

B | 5:0+4:2+3:2+2:2+1:0 - - - 6:5+5:7+4:7+3:6+2:5+1:5 - - -
   lh | 01230 134211
```

```open-strings
keys: C G D A E B F#
```
"""
BOXES = """svg => [...svg.querySelectorAll('text')].map(word => {
  const box = word.getBoundingClientRect(), dot = word.closest('.dot');
  const around = dot && dot.querySelector('circle,path').getBoundingClientRect();
  const edge = svg.getBoundingClientRect();
  return {word: word.textContent, left: box.left, right: box.right, top: box.top + box.height * .2,
          foot: box.bottom - box.height * .2, size: parseFloat(getComputedStyle(word).fontSize),
          inside: !around || (box.left >= around.left && box.right <= around.right),
          within: box.left >= edge.left && box.right <= edge.right && box.bottom <= edge.bottom + 1}; })"""


@pytest.fixture(scope="module")
def necks(tmp_path_factory, on_disk) -> Path:
    """Return the page of a left-handed course with a capo, engraved, in a folder."""
    folder = tmp_path_factory.mktemp("necks")
    (folder / "lessons").mkdir()
    (folder / "course.toml").write_text(MANIFEST, encoding="utf-8")
    (folder / "lessons" / "necks.md").write_text(LESSON, encoding="utf-8")
    proofed = proof_course(folder)
    assert [finding.message for finding in proofed.proof.findings if finding.severity.name == "ERROR"] == []
    edition = Edition(proofed.course, proofed.book, read_theme(), sound=False)
    return on_disk(lesson_page(edition, edition.course.lessons[0]))


@pytest.fixture
def page(off_line, necks: Path) -> Page:
    """Open it, every fold unfolded."""
    opened = off_line(necks)
    opened.evaluate("document.querySelectorAll('details').forEach(fold => fold.open = true)")
    return opened


def overlapping(words: list[dict]) -> list[tuple[str, str]]:
    """Pairs of words whose boxes meet."""
    return [
        (a["word"], b["word"])
        for k, a in enumerate(words)
        for b in words[k + 1 :]
        if a["left"] < b["right"] and b["left"] < a["right"] and a["top"] < b["foot"] and b["top"] < a["foot"]
    ]


@pytest.mark.parametrize("width", [320, 1280])
def test_letters_are_legible_and_clear(page: Page, width: int) -> None:
    """No word meets another, each letter lies in its dot, none is under 11 px."""
    page.set_viewport_size({"width": width, "height": 900})
    pictures = page.locator(".neck svg, .grip svg").all()
    assert len(pictures) == 4 + 2
    for picture in pictures:
        words = picture.evaluate(BOXES)
        assert overlapping(words) == []
        assert [word["word"] for word in words if not (word["inside"] and word["within"])] == []
        assert min(word["size"] for word in words) >= 11
    twice = [*words, {**words[0], "left": words[0]["left"] + 1}]
    assert overlapping(twice)  # a planted word upon another is seen


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_wide_pictures_and_tables_scroll_in_themselves(page: Page, width: int) -> None:
    """The page does not scroll sideways; what is wide can be scrolled by keyboard, and says what it is."""
    page.set_viewport_size({"width": width, "height": 900})
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    hidden = page.evaluate(
        """() => [...document.querySelectorAll('.neck svg, .grid')].filter(
             wide => wide.getBoundingClientRect().width > wide.parentElement.clientWidth + 1
               && !wide.closest('.scroll[tabindex="0"][aria-label]')).length"""
    )
    assert hidden == 0
    long = page.locator(".neck .scroll").nth(1)
    assert long.evaluate("box => box.scrollWidth > box.clientWidth")
    nut = "box => box.querySelector('.nut').getBoundingClientRect().left < box.getBoundingClientRect().right"
    assert long.evaluate(nut)  # a left-handed neck begins at its right


def test_paper_is_the_paper_of_the_page(page: Page) -> None:
    """Day or lamp, letters on filled dots have the page's own colour, and dots are told apart in grey."""
    for light in ("day", "lamp"):
        page.evaluate(f"document.documentElement.dataset.light = '{light}'")
        colours = page.evaluate(
            """() => { const of = (what, kind) => getComputedStyle(document.querySelector(what))[kind];
                 return [of('body', 'backgroundColor'), of('.neck .tone text', 'fill'),
                         of('.neck .tone circle', 'fill'), of('.neck .wood', 'stroke')]; }"""
        )
        assert colours[0] == colours[1]
        assert len({colours[0], *colours[2:]}) == 3


def test_forced_colours(chromium, necks: Path) -> None:
    """Where the reader's own colours are forced, dots have the text's and letters the ground's."""
    context = chromium.new_context(forced_colors="active", color_scheme="dark")
    opened = context.new_page()
    opened.goto(necks.as_uri())
    opened.evaluate("document.documentElement.dataset.light = 'day'")
    colours = opened.evaluate(
        """() => ['.neck .tone circle', '.neck .tone text', '.neck .at'].map(
             what => getComputedStyle(document.querySelector(what)).fill)"""
    )
    assert colours == ["rgb(255, 255, 255)", "rgb(0, 0, 0)", "rgb(255, 255, 255)"]
    context.close()


def test_the_rolls_stand_under_their_scale(page: Page) -> None:
    """In words, between the notation and the folds."""
    said = page.locator("#lick-rolling > .later").first.inner_text()
    assert said.startswith("Rolls: ")
