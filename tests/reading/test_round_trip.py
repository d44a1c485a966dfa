"""What is printed reads back as the same value: licks with every form, and the other blocks."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from lickwright.model.bar import Bar, Entry, Margin, MarginChord, Row, Voice
from lickwright.model.blocks import (
    Lick,
    Progression,
)
from lickwright.model.strike import (
    Fretted,
    Note,
    Strike,
)
from lickwright.reading.lesson import read_lesson
from lickwright.reading.printing import print_block
from lickwright.text import Source

if TYPE_CHECKING:
    from lickwright.model.blocks import Block

from written_music import CHORDS, KEYS, OTHERS, licks, progressions, variations


def assert_reads_back(block: Block) -> None:
    """Print a block, read it, and find the same value and nothing to say."""
    text = print_block(block)
    lesson, findings = read_lesson(Source("lessons/printed.md", text), "printed", strings=6)
    assert not findings, f"{findings[0].rule} {findings[0].message}\n{text}"
    read = [placed.block for placed in lesson.blocks]
    if read != [block]:
        pytest.fail(f"read back as\n{print_block(read[0]) if read else 'nothing'}\ninstead of\n{text}")


def tries(count: int) -> settings:
    """Settings for so many examples, on however slow a machine."""
    slow = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example]
    return settings(
        max_examples=count,
        deadline=None,
        database=None,
        phases=(Phase.explicit, Phase.generate),
        suppress_health_check=slow,
    )


@tries(20)
@given(licks())
def test_a_lick_with_every_form_reads_back(lick: Lick) -> None:
    """Groups, joins, brackets, bends, rows, voices, margins and fields survive print and read."""
    assert_reads_back(lick)


@pytest.mark.slow
@tries(60)
@given(licks())
def test_more_licks_with_every_form_read_back(lick: Lick) -> None:
    """The same, on more of them."""
    assert_reads_back(lick)


@tries(40)
@given(variations())
def test_a_variation_reads_back(lick: Lick) -> None:
    """Changes, and fields given again, survive print and read."""
    assert_reads_back(lick)


@tries(40)
@given(progressions())
def test_a_progression_reads_back(block: Progression) -> None:
    """Cells with endings, pushes, stops, meters and repeats survive print and read."""
    assert_reads_back(block)


@tries(60)
@given(OTHERS)
def test_every_other_block_reads_back(block: Block) -> None:
    """Choruses, excerpts, scales, necks, open strings and tuners survive print and read."""
    assert_reads_back(block)


def test_a_lost_sign_is_noticed() -> None:
    """The round trip is no tautology: a printer that forgets vibrato is caught."""
    lick = Lick("x", (Bar(Margin(), Voice((Strike((Note(1, Fretted(5), (), True),)),))),))
    text = print_block(lick).replace("~", "")
    lesson, _ = read_lesson(Source("x.md", text), "x")
    assert lesson.blocks[0].block != lick


CANONICAL = """```lick porch
key: A major

A        | 5:0 4:2+3:2
   names | A   E+A
   lh    | 0   12
```
"""


def test_the_canonical_form() -> None:
    """Bar lines stand in one column and entries under their sounds."""
    slots = (Strike((Note(5, Fretted(0)),)), Strike((Note(4, Fretted(2)), Note(3, Fretted(2)))))
    rows = (
        Row("names", (Entry(("A",)), Entry(("E", "A")))),
        Row("lh", (Entry(("0",)), Entry(("1", "2")))),
    )
    bar = Bar(Margin((MarginChord(CHORDS[0]),)), Voice(slots, rows))
    assert print_block(Lick("porch", (bar,), key=KEYS[0])) == CANONICAL
