"""The role of each note of our own phrases, note by note."""

from __future__ import annotations

import pytest
from scores import read_piece

from lickwright.analysis import Role, classify
from lickwright.analysis.classifier import analyse, role_at_pitch

WORDS = {
    "c": Role.CHORD_TONE, "t": Role.TENSION, "s": Role.SCALE_TONE, "p": Role.PASSING, "n": Role.NEIGHBOUR,
    "a": Role.APPROACH, "e": Role.ENCLOSURE, "b": Role.BLUE, "ant": Role.ANTICIPATION,
    "sus": Role.SUSPENSION, "ret": Role.RETARDATION, "esc": Role.ESCAPE, "dr": Role.DRONE,
    "pat": Role.PATTERN, "res": Role.RESOLVED, "w": Role.WEAK, "x": Role.UNEXPLAINED, "nc": Role.NO_CHORD,
}  # fmt: skip

PHRASES = [
    ("flat third hammered to the third", "A7 | 5:0 5:3 h 5:4 4:2 4:4 3:2 4:4 4:2", "c a c c t c t c"),
    ("bass walk", "A7 | 5:0 - 5:2 - 5:3 - 5:4 -\nD7 | 5:5 - - - - - - -", "c t p c c"),
    (
        "enclosure in half steps",
        "key: F major\n\nC7 | 3:5 3:7 2:5 3:7 3:5 2:5 4:8 4:6\nF | 4:7 - - - 4:3 - - -",
        "c t c t c c c a c c",
    ),
    ("enclosure of the third", "A7 | 2:3 2:1 2:2 - 3:2 - - -", "e a c c"),
    ("bend to the fifth", "A7 | 3:7b9 - 2:5 1:5 2:5 3:6 4:7 -", "c c c c c c"),
    ("bend let down again", "A7 | 3:7b9r7 - - - 3:6 - 4:7 -", "c p c c"),
    ("curl on the flat third", "key: E major\n\nE7 | 6:0 6:3b3.5 - - 5:2 - 6:0 -", "c b c c"),
    (
        "suspension",
        "key: D major\n\nA7 | 3:2 - 2:2 - 1:3 - - -\nD | 1:3 - 1:2 - - - - -",
        "c c c sus c",
    ),
    (
        "retardation",
        "key: C major\n\nG7 | 3:4 - 3:0 - 3:4 - - -\nC | 3:4 - 3:5 - - - - -",
        "c c c ret c",
    ),
    (
        "anticipation over the bar line",
        "key: Bb major\n\nF7 | 1:1 - 2:4 - 2:1 - 3:2 3:3\nBb | - - - - - - - -",
        "c c c c ant",
    ),
    ("neighbour under a drone", "A | 2:5 1:0 2:3 1:0 2:2 1:0 3:2 -", "c c n c c c c"),
    (
        "falling bebop scale",
        "key: Bb major\n\nF7 | 1:1 1:0 2:4 2:3 2:1 3:3 3:2 3:0\nBb | 4:3 - - - - - - -",
        "c p c t c p c t c",
    ),
    (
        "sixths, each line by itself",
        "key: D major\n\nA7 | 3:6+1:5 - 3:5+1:4 - 3:4+1:3 - - -",
        "c c p p t c",
    ),
    (
        "flat ninth resolving over the change",
        "key: F major\n\nC7 | 2:5 - 1:3 - 1:6 - 1:9 -\nF | 1:8 - - - - - - -",
        "c c c a c",
    ),
    ("two half steps from above", "key: D major\n\nD | 1:7 - 1:5 2:9 1:3 1:2 2:5 2:3", "t c p p c t c"),
    ("escape tone", "key: C major\n\nCmaj7 | 2:1 2:2 3:0 - 2:1 - - -", "c esc c c"),
    ("repeated passing note", "key: C major\n\nC | 3:0 3:1 3:1 3:2 2:1 - - -", "c p p t c"),
    (
        "cell moved up a half step and back",
        "A | 3:2 2:2 1:0 2:2 3:3 2:3 1:1 2:3\n | 3:2 - - - 3:2 - - -",
        "c c c c pat w pat w c c",
    ),
    ("foreign note leapt to and from", "A | 5:0 - 5:4 - 4:2 - 3:3 -\n | 2:2 - - - 3:2 - - -", "c c c x c c"),
    ("fourth held and left by leap", "A | 2:3 - - - 3:2 - - -", "x c"),
    ("the same fourth resolving", "A | 2:3 - - - 2:2 - - -", "a c"),
    ("half-step bend held at the end", "A7 | 2:5 - 3:6 - 3:7b8 - - -", "c c x"),
    ("flat third standing at the end", "key: D major\n\nD | 4:0 - 3:2 - 4:3 - - -", "c c x"),
    ("sharp eleventh that resolves two notes on", "key: D major\n\nG | 3:0 - 2:2 - 3:0 - 2:3 -", "c res c c"),
    ("no chord", "N.C. | 3:3 - 2:2 - 3:1 - 2:3 -", "nc nc nc nc"),
    ("slash bass is a chord tone", "A7/G | 6:3 - 5:0 - 5:4 - 4:2 -", "c c c c"),
    (
        "bass that stays under two chords",
        "D | 2:3 - - - - - - -\n  low | 4:0 - - - - - - -\nA | 2:2 - - - - - - -\n  low | 4:0 - - - - - - -",
        "c c c dr",
    ),
]


@pytest.mark.parametrize(("text", "expected"), [pytest.param(t, e, id=name) for name, t, e in PHRASES])
def test_roles(text: str, expected: str) -> None:
    """Each note has the role that a teacher of harmony would give it."""
    roles = sorted(classify(read_piece(text)), key=lambda r: (r.address.bar, r.address, r.tone, r.turn))
    assert [role.role.value for role in roles] == [WORDS[word].value for word in expected.split()]


def test_degrees_weights_and_lengths() -> None:
    """An entry tells the degree over its chord, the weight of its place and how long it is held."""
    roles = classify(read_piece("A7 D7 | 5:0 - - 5:3 5:5 - - -"))
    assert [(str(r.address), r.degree, r.weight, float(r.length)) for r in roles] == [
        ("1.1", "1", 4, 1.5),
        ("1.2", "b3", 1, 0.5),
        ("1.3", "1", 3, 2.0),
    ]


def test_raised_sixth_belongs_to_the_raised_seventh() -> None:
    """In E minor C sharp is of the key beside D sharp, and foreign elsewhere."""
    beside = classify(read_piece("key: E minor\n\nB7 | 4:1 5:4 5:2 - 5:2 - - -"))
    alone = classify(read_piece("key: E minor\n\nEm | 3:0 5:4 3:0 - 3:0 - - -"))
    assert (beside[1].chromatic, alone[1].chromatic) == (False, True)


def test_the_end_of_a_repeat_leads_to_its_beginning() -> None:
    """The last note of a repeated bar has the first as its next: G sharp leads back to A."""
    once = classify(read_piece("key: F major\n\nF | 3:2 - 2:1 - 1:1 - 3:1 -"))
    twice = classify(read_piece("key: F major\n\nF |: 3:2 - 2:1 - 1:1 - 3:1 - :|"))
    assert once[-1].role is not Role.APPROACH
    assert twice[-1].role is Role.APPROACH


def test_a_rest_longer_than_a_beat_ends_the_phrase() -> None:
    """A note before a long rest leads nowhere; before a short one it does."""
    near = classify(read_piece("C | 3:4 - 3:3 . 3:2 - - -"))
    far = classify(read_piece("key: C major\n\nC | 3:0 - 4:4 . . . 3:0 -"))
    assert near[1].role.explained
    assert far[1].role is not Role.NEIGHBOUR


def test_plain_style_wants_blue_notes_led() -> None:
    """A flat third that no half step leads is disconnected in plain style, exempt in country."""
    text = "A7 | 3:2 - 1:0 - 2:1 - 3:2 -"
    assert [r.disconnected for r in classify(read_piece(text))] == [False] * 4
    assert [r.disconnected for r in classify(read_piece(text, "plain"))] == [False, False, True, False]


def test_swing_changes_no_role() -> None:
    """The same notes have the same roles straight and swung."""
    text = "A7 | 5:0 5:3 h 5:4 4:2 4:4 3:2 4:3 4:2"
    assert classify(read_piece(f"feel: shuffle\n\n{text}")) == classify(read_piece(text))


def test_another_pitch_is_tried_in_its_place() -> None:
    """The role a note would have elsewhere, or none where that leaves its neighbour unexplained."""
    analysis = analyse(read_piece("A | 5:0 - 5:4 - 4:2 - 3:3 -\n | 2:2 - - - 3:2 - - -"))
    note = analysis.lines.melodic[0][3]
    assert role_at_pitch(analysis, note, note.pitch - 1) is Role.CHORD_TONE
    assert role_at_pitch(analysis, note, note.pitch) is Role.UNEXPLAINED


@pytest.mark.parametrize(
    "bars",
    [
        pytest.param("C |: 2:6 2:5 1:5 - 2:7 - - - {}", id="in the bar that comes again"),
        pytest.param("meter: 2/4\n\nC |: 2:6 - - -\nC | 2:5 - 1:5 -\nC | 2:7 - - - {}", id="in the next"),
    ],
)
def test_a_loop_goes_on_for_more_than_a_note(bars: str) -> None:
    """F sharp, held at the end, falls through F to E at the beginning, every time round."""
    head = "key: C major\n" if bars.startswith("meter") else "key: C major\n\n"
    loop = classify(read_piece(head + bars.format(":|"), "plain"))
    assert loop[-1].role.explained
    once = classify(read_piece(head + bars.replace("|:", "|").format(""), "plain"))
    assert not once[-1].role.explained
