"""All pages of an edition together: links lead somewhere, nothing comes from elsewhere."""

from __future__ import annotations

import re
from collections.abc import Iterable
from posixpath import dirname, join, normpath

import pytest

from lickwright.checks.proof import Proof
from lickwright.pages.page import Page
from lickwright.pages.site import shelf_pages, site_pages, student_pages, theme_files


@pytest.fixture(scope="module")
def pages(edition) -> tuple[Page, ...]:
    """Every page."""
    proof = Proof(tuple(edition.findings), tuple(edition.standing))
    return (*site_pages(edition.course, edition.music, proof), *shelf_pages(edition.course))


@pytest.fixture(scope="module")
def site(pages, made) -> dict[str, str]:
    """Every page by its path."""
    assert len({page.path for page in pages}) == len(pages)
    return {page.path: page.render(made) for page in pages}


def dead_links(site: dict[str, str], beside: Iterable[str] = ()) -> list[str]:
    """Every address in the site that leads to no file or no id; ``beside``: files of the pages' own."""
    files = {*site, *beside, *(path for path, _ in theme_files())}
    dead = []
    for path, html in site.items():
        for address in re.findall(r'(?:href|src)="([^"]*)"', html):
            file, _, anchor = address.partition("#")
            file = file.partition("?")[0]
            target = normpath(join(dirname(path), file)) if file else path
            if address.startswith(("https:", "#g-")) or file.startswith("../pictures/"):
                continue
            if target not in files or (anchor and f'id="{anchor}"' not in site.get(target, "")):
                dead.append(f"{path}: {address}")
    return dead


def test_every_link_leads_somewhere(site, pages, made):
    """No address in the site is dead; one that is put in is found, and a file that is not made."""
    beside = {path for page in pages for path in page.files(made)}
    assert dead_links(site, beside) == []
    assert "lessons/step.html: ../music/step.mid" in dead_links(site, beside - {"music/step.mid"})
    assert dead_links({**site, "x.html": '<a href="index.html#no">'}, beside) == ["x.html: index.html#no"]


def test_every_page_keeps_the_policy(site):
    """The policy stands on every page; no style, no inline script, nothing remote is loaded."""
    for html in site.values():
        assert "default-src 'none'; script-src 'self'; style-src 'self'" in html
        assert re.findall(r"<style|\sstyle=|\son[a-z]+=\"", html) == []
        assert re.findall(r"<script(?! src=| type=\"application/json\")", html) == []
        assert re.findall(r"(?:src|srcset|data)=\"(?:https?:)?//|<link[^>]+href=\"https?:", html) == []


def test_start_page(site):
    """Title, units, lessons with deck and facts, the draft, the cautions."""
    html = site["index.html"]
    assert "<h1>Saturday &lt;script&gt;</h1>" in html
    assert "Two lessons, two licks" in html
    assert '<a href="lessons/step.html">' in html
    assert "B major, 120" in html
    assert "Two bars, and &lt;b&gt;no&lt;/b&gt; more." in html
    assert "One lesson is still being written: Later." in html
    assert "see a doctor" in html
    assert '<a href="index.html" aria-current="page">Contents</a>' in html


def test_students_do_not_see_the_shelf(edition, made):
    """No page of the student's leads to the proof sheet."""
    pages = student_pages(edition)
    assert [page.path for page in pages] == [
        *("index.html", "lessons/step.html", "lessons/far.html", "signs.html")
    ]
    assert not any("proof.html" in page.render(made) for page in pages)


def test_neighbours(site):
    """Lessons lead to each other in the order of study."""
    assert '<span class="label">Next</span> 2. Far</a>' in site["lessons/step.html"]
    assert (
        '<span class="label">Before</span> 1. Porch steps &amp; {{ 7 * 7 }}</a>' in site["lessons/far.html"]
    )


def test_handbook_has_every_rule(site):
    """Each rule has a page with its reason and its examples, and the contents list it."""
    from lickwright.checks.handbook import pages

    for rule in pages():
        html = site[f"handbook/{rule.id.replace('/', '-')}.html"]
        assert f"<code>{rule.id}</code>" in html
        assert f"<code>{rule.id}</code>" in site["handbook/index.html"]
        texts = [
            text
            for example in (*rule.good, *rule.bad)
            for text in (example.text, example.course, *(body for _, body in example.files))
        ]
        assert html.count('class="src"') == sum(bool(text and text.strip()) for text in texts)
        assert ("<mark>" in html) == any(mark for bad in rule.bad for mark in bad.marks if mark)


def test_theme_files():
    """Sheets and scripts travel with the site; templates do not."""
    names = [path for path, _ in theme_files()]
    assert {"theme/tokens.css", "theme/player.js", "theme/light.js"} <= set(names)
    assert not [name for name in names if name.endswith(".html")]


def test_guide(site):
    """The author's guide has its contents and its pages; each form stands there typed and engraved."""
    contents = site["guide/index.html"]
    assert "How a course is written" in contents
    pages = [html for path, html in site.items() if path.startswith("guide/") and path != "guide/index.html"]
    assert len(pages) > 10
    joins = site["guide/joins.html"]
    assert joins.index("<code>```lick stepping-stones") < joins.index('id="lick-stepping-stones"')
    assert '<a href="../proof.html">Proof sheet</a>' in joins
