"""The table of qualities against the chord table of the handbook and its colours."""

import pickle

import pytest

from lickwright.theory.quality import QUALITIES, Quality, quality

# Chord-scale teaching as in common practice: free, conditional, avoid, in half steps above the root.
COLOURS = {
    "major": ({2, 9}, {11, 6}, {5}),
    "add9": ({9}, {11, 6}, {5}),
    "6": ({2}, {11, 6}, {5}),
    "6/9": (set(), {11, 6}, {5}),
    "maj7": ({2, 9}, {6}, {5}),
    "maj9": ({9}, {6}, {5}),
    "7": ({2, 9}, {1, 3, 6, 8}, {5, 11}),
    "9": ({9}, {1, 3, 6, 8}, {5, 11}),
    "13": (set(), {1, 3, 6, 8}, {5, 11}),
    "7sus4": ({2, 9}, {4}, set()),
    "sus2": ({9}, {4}, set()),
    "m": ({2, 5, 10}, {9, 11}, {1, 8}),
    "m7": ({2, 5}, {9, 11}, {1, 8}),
    "m6": ({2, 5}, {11, 10}, {1, 8}),
    "m(maj7)": ({2, 5}, {10}, {1, 8}),
    "m7b5": ({5, 8}, {2}, {1}),
    "dim7": (set(), {2, 5, 8, 11}, set()),
    "aug": ({2}, {6}, {5}),
    "7#5": ({2}, {6}, {5}),
    "7b9": (set(), {3, 6, 8}, {5, 11}),
    "7alt": (set(), set(), {5, 11}),
    "5": ({2, 3, 4, 5, 9, 10}, set(), set()),
}


@pytest.mark.parametrize("name", COLOURS)
def test_colours(name: str) -> None:
    """Free, conditional and avoid notes are those of the handbook, less the chord's own."""
    row = quality(name)
    assert (row.free, row.conditional, row.avoid) == COLOURS[name]


@pytest.mark.parametrize("row", QUALITIES.values(), ids=lambda row: row.name)
def test_rows_are_consistent(row: Quality) -> None:
    """The columns do not overlap, the root is a tone, the intervals rise but for alterations."""
    columns = [row.tones, row.free, row.conditional, row.avoid]
    assert sum(map(len, columns)) == len(frozenset().union(*columns))
    assert 0 in row.tones
    assert row.tones == {interval.semitones % 12 for interval in row.intervals}
    assert [interval.steps for interval in row.intervals] == sorted(i.steps for i in row.intervals)
    assert row.suffixes[0] == ("" if row.name == "major" else row.name)


def test_semitones_of_the_handbook(table) -> None:
    """Every quality of the handbook's chord table has its half steps, compound ones included."""
    for row in table("chords"):
        ours = quality(row["quality"])
        assert [interval.semitones for interval in ours.intervals] == [
            int(n) for n in row["semitones"].split()
        ]


def test_travels_by_name() -> None:
    """Between processes a quality stays the one row of the table."""
    assert pickle.loads(pickle.dumps(quality("m7b5"))) is quality("m7b5")
