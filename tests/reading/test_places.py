"""Every token keeps its place in the file, in lists and quotes too, and no place is part of a value."""

from __future__ import annotations

from lickwright.model.blocks import Lick
from lickwright.model.canonical import digest
from lickwright.model.slots import Group
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source

TEXT = """# Title

> 1. Words.
>
>    ~~~lick quoted
>    tempo: half = 112
>    over: porch bars 1-2
>    stet: hands/stretch 1.1 "meant"
>
>    A7 D7@3 | 5:0 h 4:2+3:15b17 (4:2 ring[ 2:3 ])/2
>       rh   | d   P   u   d
>       low  | 6:3 -
>    ~~~

Play [the *open* fifth
string](lick:quoted@1.1 "x"). Then [stop][there].

[there]: lick:quoted
"""


def read(text: str) -> tuple[Lick, Source]:
    source = Source("lessons/a.md", text)
    lesson, _ = read_lesson(source, "a")
    block = lesson.blocks[0].block
    assert isinstance(block, Lick)
    return block, source


def test_tokens_of_a_quoted_lick() -> None:
    """The text at each span is the token itself."""
    lick, _ = read(TEXT)
    bar = lick.bars[0]
    assert bar.lower is not None
    first, join, second, group = bar.upper.slots
    assert isinstance(group, Group)
    assert [first.span.text, join.span.text, second.span.text] == ["5:0", "h", "4:2+3:15b17"]
    assert [note.span.text for note in second.notes] == ["4:2", "3:15b17"]
    assert second.notes[1].bends[0].span.text == "b17"
    assert [slot.span.text for slot in group.members] == ["4:2", "ring[", "2:3", "]"]
    assert group.span.text == "(4:2 ring[ 2:3 ])/2"
    assert [chord.span.text for chord in bar.margin.chords] == ["A7", "D7@3"]
    assert [entry.span.text for entry in bar.upper.rows[0].entries] == ["d", "P", "u", "d"]
    assert bar.lower.span.text == "6:3 -"
    assert lick.span.text == "~~~lick quoted"
    assert lick.place_of("tempo").text == "half = 112"
    assert lick.place_of("key") == lick.span
    assert lick.stets[0].span.text == 'hands/stretch 1.1 "meant"'
    assert lick.over is not None
    assert lick.over.span.text == "porch bars 1-2"
    assert first.span.place == (10, 16)


def test_links_in_prose() -> None:
    """Words, address and sentence, over a line end and by reference."""
    lesson, findings = read_lesson(Source("lessons/a.md", TEXT), "a")
    assert findings == ()
    one, two = lesson.links
    assert (one.words, one.sentence) == ("the open fifth string", "Play the open fifth string.")
    assert one.words_span.text == "the *open* fifth\nstring"
    assert one.span.text == "lick:quoted@1.1"
    assert str(one.at) == "1.1"
    assert (two.words, two.target, two.at, two.sentence) == ("stop", "quoted", None, "Then stop.")
    assert two.span.text == "[stop][there]"


def test_a_place_is_no_part_of_a_value() -> None:
    """An empty line on top moves every place and changes no value and no cache key."""
    lick, _ = read(TEXT)
    moved, _ = read(f"\n{TEXT}")
    assert lick == moved
    assert digest(lick) == digest(moved)
    assert lick.bars[0].span.start + 1 == moved.bars[0].span.start


def test_another_note_is_another_value() -> None:
    """The digest does tell music apart."""
    assert digest(read(TEXT)[0]) != digest(read(TEXT.replace("5:0", "5:1"))[0])


def test_a_tab_in_the_indent() -> None:
    """Columns count characters, a tab as one."""
    text = "-\t```lick a\n\tA | 5:0 6:00:1\n\t```\n"
    _, findings = read_lesson(Source("lessons/a.md", text), "a")
    assert [finding.span.text for finding in findings] == ["6:00:1"]
    assert findings[0].span.place == (2, 10)
