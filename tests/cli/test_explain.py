"""``lickwright explain``: the handbook and the guide on the terminal."""

from collections.abc import Callable
from typing import Any

import pytest

from lickwright.checks.handbook import pages
from lickwright.cli.explain import titles, topics_of_the_guide
from lickwright.cli.group import main


def explain(capsys: pytest.CaptureFixture[str], *names: str) -> tuple[int, str]:
    with pytest.raises(SystemExit) as ended:
        main(["explain", *names])
    assert isinstance(ended.value.code, int)
    said = capsys.readouterr()
    return ended.value.code, said.out + said.err


def test_every_rule_has_a_page(capsys: pytest.CaptureFixture[str]) -> None:
    """Each rule's page has its name, its title and, for the rules of the proof, why it matters."""
    assert {page.id for page in pages()} < set(titles())
    for rule, title in titles().items():
        status, page = explain(capsys, rule)
        assert status == 0
        assert page.startswith(f"# {title}\n")
        assert f"`{rule}`" in page


def test_every_topic_has_a_page(capsys: pytest.CaptureFixture[str]) -> None:
    """Each page of the guide can be printed."""
    for topic in topics_of_the_guide():
        status, page = explain(capsys, topic)
        assert status == 0
        assert page.startswith("#")


def test_without_a_name_everything_is_listed(capsys: pytest.CaptureFixture[str]) -> None:
    """The list has every topic and every rule."""
    status, listed = explain(capsys)
    assert status == 0
    assert set(titles()) | set(topics_of_the_guide()) <= set(listed.split())


@pytest.mark.parametrize(
    ("word", "first"),
    [("position", "fields"), ("bend", "bends"), ("mixolydian", "keys"), ("level", "level-and-style")],
)
def test_the_likeliest_topic_comes_first(capsys: pytest.CaptureFixture[str], word: str, first: str) -> None:
    """Not every topic with a lick that has the field; five at most."""
    status, said = explain(capsys, word)
    topics = [line.strip() for line in said.splitlines()[1:] if line.strip()]
    assert status == 0
    assert topics[0] == first
    assert len(topics) <= 5


@pytest.mark.parametrize("name", ["proof-sheet", "proof sheet", "Proof Sheet"])
def test_a_topic_is_asked_for_as_it_is_said(capsys: pytest.CaptureFixture[str], name: str) -> None:
    """With a space, and with capital letters."""
    assert explain(capsys, name)[1].startswith("# The proof sheet\n")


def test_a_topic_of_several_words_needs_no_quotes(capsys: pytest.CaptureFixture[str]) -> None:
    """The words of the command line are one name."""
    assert explain(capsys, "level", "and", "style") == explain(capsys, "level-and-style")
    assert explain(capsys, "proof", "sheet")[1].startswith("# The proof sheet\n")
    status, said = explain(capsys, "no", "such", "page")
    assert (status, "no such page" in said) == (2, True)


@pytest.mark.parametrize(
    ("word", "there", "not_there"),
    [
        ("sign", "proofreading", ""),
        ("sign-off", "proofreading", ""),
        ("stet", "proof-sheet", ""),
        ("tie", "slots", "prose"),
    ],
)
def test_a_word_leads_to_every_page_that_tells_of_it(
    capsys: pytest.CaptureFixture[str], word: str, there: str, not_there: str
) -> None:
    """A heading in another form of the word counts; another sense of it does not."""
    status, said = explain(capsys, word)
    assert status == 0
    assert there in said.split()
    assert not_there not in said.split()


@pytest.mark.parametrize(
    ("name", "near"), [("hands/strech", "hands/stretch"), ("rythm/bar-length", "rhythm/bar-length")]
)
def test_a_slip_gets_the_nearest_name(capsys: pytest.CaptureFixture[str], name: str, near: str) -> None:
    """An unknown name ends with status 2 and names the nearest."""
    status, said = explain(capsys, name)
    assert status == 2
    assert near in said


@pytest.mark.parametrize(("word", "topic"), [("capo", "tunings"), ("shuffle", "fields"), ("step", "fields")])
def test_a_word_inside_a_topic_lists_the_topic(
    capsys: pytest.CaptureFixture[str], word: str, topic: str
) -> None:
    """A field or a heading of the guide leads to its page."""
    status, said = explain(capsys, word)
    assert status == 0
    assert topic in said.split()


def test_a_rule_shows_what_it_says(capsys: pytest.CaptureFixture[str]) -> None:
    """The page prints the finding that the first bad example gives, with a caret under it."""
    _, page = explain(capsys, "rhythm/bar-length")
    assert "bar 1 is an eighth too short" in page
    assert "^^^" in page
    assert "**Stet:**" in page
    assert "`harmony/unexplained` · error or query" in explain(capsys, "harmony/unexplained")[1]


def test_what_the_builder_itself_says_is_explained(
    lickwright: Callable[..., Any],
) -> None:
    """A death of a worker is an error, a sentence of the notation library a note."""
    assert "`building/worker-died` · error" in lickwright("explain", "building/worker-died").out
    assert "`building/engraver-warning` · note" in lickwright("explain", "building/engraver-warning").out
