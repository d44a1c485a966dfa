"""The proof sheet: each finding with its sign, its bar, its line and its place."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lickwright.model.address import Address
from lickwright.pages.proof_sheet import proof_sheet


@pytest.fixture(scope="module")
def html(edition, made) -> str:
    return proof_sheet(edition, guide=False).render(made)


def test_orders_the_bar_of_a_finding(edition):
    """A finding with an address orders its bar alone, its sound marked; one without orders nothing."""
    (order,) = proof_sheet(edition, guide=False).orders
    assert [bar.number for bar in order.music.bars] == [1]
    assert (order.width, order.marks) == ("narrow", (Address(1, 3),))


def test_counts(edition, made, html):
    """The head counts in words and leads to the first of each."""
    assert (
        '<a href="#finding-1">One error</a>, <a href="#finding-2">one query</a>, no notes; two licks read.'
        in html
    )
    clean = proof_sheet(replace(edition, findings=()), guide=False).render(made)
    assert "No errors, no queries, no notes" in clean


def test_a_finding(edition, html):
    """Severity as a word, the sentence, the figure, the help, the marked line, the mended one, the margin."""
    assert "<span>Query</span>" in html
    assert "G natural over A: &lt;not&gt; in the chord.</h2>" in html
    assert "As written, bar 1" in html
    assert "One fret higher is the third" in html
    assert "<mark>porch</mark>" in html
    assert "<mark>stoop</mark>" in html
    line = edition.course.lessons[0].source.text.split("\n").index("porch") + 1
    assert f"lessons/step.md:{line}:1" in html
    assert '<a class="typed" href="handbook/harmony-unexplained.html">harmony/unexplained</a>' in html
    assert '<span class="typed">building/not-made</span>' in html
    assert "the chord stands here" in html


def test_how_to_let_it_stand(html):
    """A query prints the line that lets it stand, with the seal; an error does not."""
    assert html.count("to let it stand:") == 1
    assert "stet: harmony/unexplained 1.3 #" in html


def test_stets_and_sources(html):
    """What stands, with its reason and seal, and whose music each lick is."""
    assert "One finding let stand, with the reasons." in html
    assert "<td>the clash is the point</td><td>#a41f</td>" in html
    assert "<td>traditional</td><td>a printed book, 1883</td>" in html
    assert "One lesson is still being written: Later." in html
