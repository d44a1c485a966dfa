"""The proof sheet: each finding with its sign, its bar, its line and its place."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from lickwright.checks.work_list import in_order
from lickwright.findings import Finding, Fix, Severity
from lickwright.model.address import Address
from lickwright.model.orders import ScoreOrder, SoundOrder
from lickwright.pages.counting import sentence
from lickwright.pages.finding_bars import bars_of
from lickwright.pages.finding_view import name_fix
from lickwright.pages.proof_sheet import proof_sheet, sheet_findings
from lickwright.report.queries import render_queries
from lickwright.report.text import count_findings
from lickwright.text import Source


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


def test_notes_are_counted_as_the_terminal_counts_them(slips, made):
    """Claims not checked are notes in a list of their own: counted in the head, which leads there."""
    html = proof_sheet(slips, guide=False).render(made)
    line = re.search(r'<p class="tallyline">(.*?)</p>', html)[1]
    words = re.sub("<[^>]+>", "", line).split(";")[0].split(", ")
    numbers = ("no", "one", "two", "three", "four", "five", "six")
    counted = [str(numbers.index(word.split()[0].lower())) for word in words]
    assert counted == re.findall("[0-9]+", count_findings(slips.findings))
    assert '<a href="#not-checked">one note</a>' in line


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


def test_the_row_stands_under_the_bar(slips, made):
    """A note that its name contradicts is shown with its name, both underlined."""
    html = proof_sheet(slips, guide=False).render(made)
    section = next(
        part for part in html.split("<section") if "witness-names.html" in part and "figure" in part
    )
    assert re.findall(r"<mark>([^<]+)</mark>", section)[:2] == ["5:1", "A"]
    assert "the names row</li>" not in section
    assert "mended: one fret lower is A" in section


def test_numbers_are_those_of_the_queries(slips, made):
    """No. 3 of the sheet is number 3 of the list that goes to the author."""
    html = proof_sheet(slips, guide=False).render(made)
    shown = re.findall(r"No\. (\d+)</span>.*?<dt>Rule</dt><dd><a[^>]*>([^<]+)</a>", html, re.DOTALL)
    queries = render_queries(in_order(slips.course, slips.findings))
    asked = re.findall(r"^(\d+)\. (\S+)", queries, re.MULTILINE)
    assert len(asked) == 4
    assert asked == [each for each in shown if each in asked]
    assert re.search(r"^To be mended where it stands", queries, re.MULTILINE)


def test_a_line_of_counts_is_all_words_or_all_digits(slips, made):
    """One number that has no word takes the others with it; none is still none."""
    many = replace(slips, findings=tuple(f for f in slips.findings for _ in range(4)))
    line = re.search(r'<p class="tallyline">(.*?)</p>', proof_sheet(many, guide=False).render(made))[1]
    words = [word.split()[0] for word in re.sub("<[^>]+>", "", line).split(";")[0].split(", ")]
    assert any(word.isdigit() and int(word) > 12 for word in words)
    assert all(word.isdigit() or word.lower() == "no" for word in words)


@pytest.mark.parametrize(
    ("message", "head"),
    [
        ("m on string 3 lies across P", "m on string 3 lies across P"),
        ("a on string 1 lies across m", "a on string 1 lies across m"),
        ("a slide to another string", "A slide to another string"),
        ("“waltz-last-boat” has changed", "“waltz-last-boat” has changed"),
        ("mute it", "Mute it"),
    ],
)
def test_a_token_stays_as_it_is_typed(message, head):
    """A finger at the head of a finding is no word."""
    assert sentence(message) == head


def test_whose_music(slips, made, html):
    """Only what is not the author's own is listed."""
    assert "All others are the author’s own." in html
    assert "<td>own</td>" not in html
    assert "All the music is the author’s own." in proof_sheet(slips, guide=False).render(made)


def test_what_keeps_the_course_from_publishing(slips, edition, made, html):
    """Errors do, queries do not."""
    assert "The course is not to be published until the error is mended." in html
    assert "until the errors are mended." in proof_sheet(slips, guide=False).render(made)
    clean = proof_sheet(replace(edition, findings=()), guide=False).render(made)
    assert "not to be published" not in clean


def test_one_note_of_a_double_stop_is_marked(slips):
    """A finding about one of two notes marks that one; about both, both."""
    piece = slips.music.piece("reach")
    sound = piece.music.bars[0].upper.sounds[0]
    text = Source("lessons/second.md", "3:7+1:6")
    pair = tuple(replace(sound.tones[0], span=text.span(*ends)) for ends in ((0, 3), (4, 7)))
    bar = replace(
        piece.music.bars[0], upper=replace(piece.music.bars[0].upper, sounds=(replace(sound, tones=pair),))
    )
    double = replace(piece, music=replace(piece.music, bars=(bar, *piece.music.bars[1:])))
    edition = replace(
        slips,
        music=replace(
            slips.music,
            placed=tuple(
                replace(each, piece=double) if each.piece.name == "reach" else each
                for each in slips.music.placed
            ),
        ),
    )
    told = Finding("witness/names", Severity.ERROR, "m", text.span(4, 7), lick="reach", address="1.1")
    one, both = bars_of(edition, [told, replace(told, span=text.span(0, 7))])
    assert (one.written.score.tone, both.written.score.tone) == (2, None)


@pytest.mark.parametrize(
    ("title", "said"),
    [
        ("2:12: one fret lower is B", "string 2, fret 12"),
        ("4:4~: one fret higher is the third", "string 4, fret 4"),
        ("2:8b10: bent one half step higher is the third", "bent one half step higher is the third"),
        ("write *", "write *"),
    ],
)
def test_a_fix_has_a_guitarists_name(title, said):
    """String and fret where that is all it changes."""
    assert name_fix(Fix(title, ())) == said


def test_code_stays_code():
    """A word of the code at the head of a message keeps its small letter."""
    assert sentence("rh has 4 entries for 5 sounds") == "rh has 4 entries for 5 sounds"
    assert sentence("two-guitars.md has no heading") == "two-guitars.md has no heading"
    assert sentence("the names row says B") == "The names row says B"
    assert sentence("names has 3 entries") == "names has 3 entries"


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
