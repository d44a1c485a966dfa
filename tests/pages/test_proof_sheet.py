"""The proof sheet: each finding with its sign, its bar, its line and its place."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from lickwright.model.address import Address
from lickwright.model.orders import ScoreOrder, SoundOrder
from lickwright.pages.proof_sheet import proof_sheet, sheet_findings


@pytest.fixture(scope="module")
def html(edition, made) -> str:
    return proof_sheet(edition, guide=False).render(made)


def test_orders_the_bar_of_a_finding(edition):
    """A finding with an address orders its bar alone, its sound marked; one without orders nothing."""
    score, sound = proof_sheet(edition, guide=False).orders
    assert [bar.number for bar in score.music.bars] == [1]
    assert (score.width, score.marks) == ("narrow", (Address(1, 3),))
    assert [bar.number for bar in sound.music.bars] == [1]
    silent = proof_sheet(replace(edition, sound=False), guide=False)
    assert silent.orders == (score,)


def test_orders_the_mended_bar(slips):
    """A fix that mends orders the bar once more, without a mark, and its sound at the tempo of the lick."""
    orders = proof_sheet(slips, guide=False).orders
    scores = [order for order in orders if isinstance(order, ScoreOrder) and order.for_lick == "plank"]
    assert [(order.music.bars[0].number, order.marks) for order in scores] == [
        (2, (Address(2, 4),)),
        (2, ()),
        (3, ()),
    ]
    assert len({order.prefix for order in orders if isinstance(order, ScoreOrder)}) == 6
    sounds = [order for order in orders if isinstance(order, SoundOrder)]
    assert {order.bpm for order in sounds} == {96}
    assert len(sounds) == 6


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


def test_the_gravest_first_then_the_order_of_study(slips):
    """Errors of the lesson studied first come first; claims not checked are no findings of the sheet."""
    assert [(finding.rule, finding.lick) for finding in sheet_findings(slips)] == [
        ("hands/range", "reach"),
        ("harmony/unexplained", "again"),
        ("witness/names", "plank"),
        ("rhythm/bar-length", "plank"),
        ("course/changed-since-signed", ""),
    ]


def test_a_whole_sheet(slips, made):
    """Figures with their sounds, roles, filters, statistics and queries; no inline style or script."""
    html = proof_sheet(slips, guide=False).render(made)
    assert html == proof_sheet(slips, guide=False).render(made)
    assert "Mended: string 5, fret 0" in html
    assert len(re.findall(r'data-sound="sound/[0-9a-f]{16}\.js"', html)) == 6
    assert "2.4 <b>♭2</b> unexplained, on the middle of the bar" in html
    assert '<input type="radio" name="severity" value="error"' in html
    assert '<input type="radio" name="group" value="harmony"' in html
    assert '<option value="second">Second (2)</option>' in html
    for part in ("rules", "not-checked", "signed", "covered", "difficulty", "queries", "stets"):
        assert html.count(f'id="{part}"') == 1
    assert "1. hands/range · reach 2.2 · lessons/second.md:7:16" in html
    assert re.findall(r"\sstyle=|<style|\son\w+=", html) == []
    assert re.findall(r"<script(?! src=)", html) == []


def test_the_way_from_one_to_the_next(slips, made):
    """Each finding leads to its neighbours by links; the first has none before, the last none after."""
    html = proof_sheet(slips, guide=False).render(made)
    sections = html.split('<section class="finding"')[1:]
    steps = [re.findall(r'href="#(finding-\d)" data-step', section) for section in sections]
    assert steps[0] == ["finding-2"]
    assert steps[1] == ["finding-1", "finding-3"]
    assert steps[-1] == ["finding-4"]


def test_what_could_not_be_made_is_left_out(slips):
    """Without its engraving and sound a finding keeps its words and its typed line."""
    html = proof_sheet(slips, guide=False).render(lambda _: None)
    assert "<figure" not in html
    assert "data-sound" not in html
    assert "<mark>5:0</mark>" in html


def test_stets_and_sources(html):
    """What stands, with its reason and seal, and whose music each lick is."""
    assert 'One finding stands by <i>stet</i>: <a href="#stets">see them with their reasons</a>.' in html
    assert "<td>the clash is the point</td><td>#a41f</td>" in html
    assert "<td>traditional</td><td>a printed book, 1883</td>" in html
    assert "One lesson is still being written: Later." in html
