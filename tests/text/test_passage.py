"""Words of the prose know where they stand, through marks, line ends, lists, quotes, entities."""

from __future__ import annotations

import pytest

from lickwright.model.course import LickLink
from lickwright.reading.lesson import read_lesson
from lickwright.text import Passage, Source


def links_of(text: str) -> tuple[LickLink, ...]:
    """The links of a lesson."""
    return read_lesson(Source("lessons/a.md", text), "a")[0].links


@pytest.mark.parametrize(
    ("text", "word", "place"),
    [
        ("From [C *sharp*](lick:one) to E.", "sharp", (1, 10)),
        ("From **the** [very\n_third_ string](lick:one)", "third", (2, 2)),
        ("- one\n- from [D](lick:one) *to*\n  the fret", "fret", (3, 7)),
        ("> ## On [the root](lick:one)", "root", (1, 14)),
        ("R&amp;B, then [E](lick:one)", "then", (1, 10)),
        (r"a \* star, then [E](lick:one)", "then", (1, 12)),
        ("![a boat](boat.png) and [E](lick:one)", "and", (1, 21)),
        ("[E](lick:one@1.1 'and so on') and [F](lick:one@1.2) so", "so", (1, 53)),
        ("see [here](other.md 'then') then [E](lick:one)", "then", (1, 29)),
        ("with `code` then [E](lick:one)", "then", (1, 13)),
    ],
)
def test_a_word_is_found_in_the_file(text: str, word: str, place: tuple[int, int]) -> None:
    """Line and column of a word of the sentence are those of the file."""
    passage = links_of(text)[-1].passage
    span = passage.span(passage.text.rindex(word), passage.text.rindex(word) + len(word))
    assert (span.place, span.text) == (place, word)


def test_links_of_one_sentence_share_it() -> None:
    """Two links of a sentence have one passage, the next sentence another."""
    one, two, three = links_of("From [D](lick:one) to [E](lick:one). Then [F](lick:one).")
    assert one.passage is two.passage
    assert three.sentence == "Then F."
    assert [link.sentence[link.start : link.end] for link in (one, two, three)] == ["D", "E", "F"]


def test_cells_of_a_table_are_sentences() -> None:
    """What an author draws as a table is not read across its bars."""
    one, two = links_of("| [D](lick:one) | the root |\n| [E](lick:one) | the ninth |")
    assert (one.sentence, two.sentence) == ("| D", "E")


def test_a_passage_without_places_has_none() -> None:
    """Words that no author wrote stand nowhere."""
    assert Passage("words").span(0, 5).text == ""
