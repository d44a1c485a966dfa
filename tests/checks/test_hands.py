"""The hands, the open strings and the speed they need: what the rules' own examples do not show."""

from __future__ import annotations

import pytest
from proofroom import MANIFEST, Proofroom, only, told

from lickwright.checks.rule import Example
from lickwright.instrument.fretboard import span

GUITAR = MANIFEST.format(style="country") + "\n[guitar]\n{}\n"
CHORUS = """```progression home
key: A major
tempo: {tempo}

A | A
```

```lick one
over: home bar 1

{one}
```

```lick two
{fields}over: home bar 1

{two}
```

```chorus both
over: home
licks: one two
```
"""


@pytest.mark.parametrize("frets", [(2, 17), (1, 19)])
def test_a_shift_is_as_fast_as_the_neck_is_long(room: Proofroom, frets: tuple[int, int]) -> None:
    """The speed that is said is the way of the index finger over the time between the two notes."""
    low, high = frets
    bar = f"1:{low} 1:{high} - - 1:{high} - - - 1:{high} - - - - - - -"
    found = only(room.prove(f"step: 1/16\ntempo: 120\n\nN.C. | {bar}"))
    way = span(low + 1, high - 4, 648)
    assert f"at {way / 0.125:.0f} mm a second" in found.message


def test_a_shift_with_a_capo_and_a_short_neck(room: Proofroom) -> None:
    """The same frets lie closer above a capo and on a shorter neck: what was too fast is at ease there."""
    text = "step: 1/16\ntempo: 115\n\nN.C. | 1:2 1:13 - - 1:13 - - - 1:13 - - - - - - -"
    assert only(room.prove(text)).rule == "hands/shift"
    easier = GUITAR.format("capo = 5\nscale-length = 570\nframe = 24").replace("frame", "frets")
    assert told(room.prove(Example(text, course=easier))) == []


def test_fingers_pin_the_hand(room: Proofroom) -> None:
    """Frets that one position could serve need a shift when the row gives them to other fingers."""
    bar = "step: 1/16\ntempo: 120\n\nN.C. | 1:5 2:9 1:5 2:9 1:5 - - - - - - - - - - -\n"
    assert told(room.prove(bar)) == []
    limits = MANIFEST.format(style="country") + "\n[limits]\nshift-query = 300\n"
    assert told(room.prove(Example(bar, course=limits))) == []
    assert only(room.prove(Example(bar + "  lh | 4 1 4 1 4", course=limits))).rule == "hands/shift"


def test_a_limit_of_the_course_is_the_one_that_counts(room: Proofroom) -> None:
    """A course may ask for faster hands."""
    text = "step: 1/16\ntempo: 140\n\nA | 5:0 5:2 5:4 4:0 4:2 4:4 3:2 4:4 5:0 5:2 5:4 4:0 4:2 4:4 3:2 -"
    assert only(room.prove(text)).rule == "speed/strokes"
    limits = MANIFEST.format(style="country") + "\n[limits]\nstrokes-intermediate-query = 10\n"
    assert told(room.prove(Example(text, course=limits))) == []


def test_the_seam_of_a_chorus_has_its_shift(room: Proofroom) -> None:
    """Each lick is at ease by itself; from the one to the other there is no time, and that is said."""
    low, high = "| 5:0 - 5:4 - 4:2 - 3:2 3:2", "| 1:17 - 1:14 - 2:17 - - -"
    found = only(room.prove(CHORUS.format(tempo=170, one=low, two=high, fields="")))
    assert (found.rule, found.lick) == ("hands/shift", "both")
    assert "at the seam of “one” and “two”" in found.message
    rested = "| 5:0 - 5:4 - 4:2 3:2 . ."
    assert told(room.prove(CHORUS.format(tempo=170, one=rested, two=high, fields=""))) == []


PICKUP = "| 5:2 5:4\n| 4:2 - 3:2 - 4:2 - . ."


def test_a_pickup_ends_what_is_held_at_the_seam(room: Proofroom) -> None:
    """A bass note held into the pickup is cut off by it, on its own string too: no bar is short."""
    one = "| 3:2 - 2:2 - 1:0 - . .\n  low | 5:0 - - - - - - -"
    text = CHORUS.format(tempo=120, one=one, two=PICKUP, fields="pickup: 1/4\n")
    assert told(room.prove(text)) == []


def test_a_bracket_ends_at_the_seam(room: Proofroom) -> None:
    """Two licks that let ring, end to end: the strings of the first do not ring into the second."""
    one, two = "| ring[6:1 - 5:3 - 6:1 - 5:3 -]", "| ring[1:8 - 2:8 - 1:8 - 2:8 -]"
    text = CHORUS.format(tempo=120, one=one, two=two, fields="").replace("A | A", "F | F")
    text = text.replace("key: A", "key: F")
    assert told(room.prove(text)) == []
    joined = "F | ring[6:1 - 5:3 - 1:8 - 2:8 -]"
    assert only(room.prove(joined)).rule == "hands/stretch"


@pytest.mark.parametrize(
    ("bar", "rule"),
    [
        ("A | 3:2 - - - 1:0~ - - -", "hands/open-string"),
        ("A | 3:2 - s 3:0 - 5:0 - - -", "hands/open-string"),
        ("A | 3:2 - - - /1:0 - - -", "hands/open-string"),
        ("A | 3:2 - - - 5:<12>b13 - - -", "hands/open-string"),
        ("A | 3:2 - - - 2:0 - 2:b2 -", "hands/open-string"),
    ],
)
def test_what_an_open_string_cannot_do(room: Proofroom, bar: str, rule: str) -> None:
    """Bent, slid and shaken, at once, late, and as a harmonic."""
    assert {name for name, _ in told(room.prove(bar))} == {rule}


def test_a_capo_takes_frets_away(room: Proofroom) -> None:
    """Fret 21 above a capo at 2 is off a neck of 22."""
    text = "N.C. | 1:19 - 1:21 - 1:17 - - -"
    assert told(room.prove(text)) == []
    found = only(room.prove(Example(text, course=GUITAR.format("capo = 2"))))
    assert (found.rule, found.span.text) == ("hands/range", "1:21")


def test_a_slipped_digit_is_one_finding(room: Proofroom) -> None:
    """A fret beyond the neck is not told a second time by the rules of reach, to it or from it."""
    found = only(room.prove("step: 1/16\n\nN.C. | 1:2 1:23 1:2 - 1:2 - - - 1:2 - - - - - - -"))
    assert found.rule == "hands/range"


def test_a_swell_of_levels(room: Proofroom) -> None:
    """The same run is too much for a beginner, much for the middle, and at ease for the advanced."""
    text = "step: 1/16\ntempo: 150\n\nA | 5:0 5:2 5:4 4:0 4:2 4:4 3:2 4:4 5:0 5:2 5:4 4:0 4:2 4:4 3:2 -"
    found = {}
    for level in ("beginner", "intermediate", "advanced"):
        course = MANIFEST.format(style="country").replace("tempo", f'level = "{level}"\ntempo')
        found[level] = told(room.prove(Example(text, course=course)))
    assert found == {
        "beginner": [("speed/strokes", "5:0")],
        "intermediate": [("speed/strokes", "5:0")],
        "advanced": [],
    }


@pytest.mark.parametrize(
    ("tuning", "bar"),
    [
        ("E2 A2 D3 G3", "claims: cascade\n\nN.C. | ring[1:5 2:9 1:0 2:5 3:9 2:0 3:5 -]"),
        ("B1 E2 A2 D3 G3 B3 E4", "N.C. | 7:2 - 7:4 h 7:5 7:5 - - -\n  lh | 1 3 4 4"),
    ],
)
def test_four_strings_and_seven(room: Proofroom, tuning: str, bar: str) -> None:
    """Nothing is counted for six strings."""
    assert told(room.prove(Example(bar, course=GUITAR.format(f'tuning = "{tuning}"')))) == []


def test_a_rung_of_the_ladder_is_a_goal(room: Proofroom) -> None:
    """A rung may be faster than the level, as long as an advanced player plays it."""
    row = "5:0 5:2 5:4 4:0 4:2 4:4 3:2 4:4 5:0 5:2 5:4 4:0 4:2 4:4 3:2 -"
    text = f"step: 1/16\ntempo: 100\nladder: {{}}\n\nA | {row}"
    assert told(room.prove(text.format(170))) == []
    assert "at 190, a rung of the ladder" in only(room.prove(text.format(190))).message


@pytest.mark.parametrize(
    ("bar", "found"),
    [
        ("step: 1/16\ntempo: 110\n\nA7 | 3:7b9 2:5 3:7pb9 2:5 3:6 - - - 4:7 - - - - - - -", []),
        ("step: 1/16\ntempo: 150\n\nA7 | 3:7b9 2:5 3:7pb9 2:5 3:6 - - - 4:7 - - - - - - -", ["3:7b9"]),
        ("step: 1/16\ntempo: 200\n\nA7 | 3:7 3:b9 2:5 - 3:6 - - - 4:7 - - - - - - -", ["3:b9"]),
    ],
)
def test_a_bend_takes_its_time(room: Proofroom, bar: str, found: list[str]) -> None:
    """A whole step on a sixteenth: time at 110, none at 150; bent before it needs none; late it does."""
    assert told(room.prove(bar)) == [("speed/bend-time", text) for text in found]


@pytest.mark.parametrize(
    ("slot", "sign", "found"),
    [
        ("4:2+3:9", "trill11", 0),
        ("3:9+4:2", "trill11", 0),
        ("4:2+3:4", "trill14", 1),
        ("3:4+4:2", "trill14", 1),
        ("3:t14", "trill2", 0),
    ],
)
def test_a_trill_is_measured_from_the_nearest_fret_held(
    room: Proofroom, slot: str, sign: str, found: int
) -> None:
    """In whatever order the notes are typed; a tapped note holds no finger of that hand."""
    proof = room.prove(f"N.C. | {slot} - - - - - - -\n  signs | {sign}")
    assert [rule for rule, _ in told(proof) if rule == "hands/slur-reach"] == ["hands/slur-reach"] * found


@pytest.mark.parametrize(
    ("note", "nodes", "mended"),
    [("4:<8>", "7 or 9", None), ("4:<11>", "12", "4:<12>"), ("4:2<13>", "14", "4:2<14>")],
)
def test_the_nearest_node(room: Proofroom, note: str, nodes: str, mended: str | None) -> None:
    """One that is nearest is offered; between two the author chooses."""
    finding = only(room.prove(f"N.C. | {note} - - - 4:0 - - -"))
    assert (finding.rule, finding.help) == ("hands/harmonic-node", f"Touch it over {nodes}")
    assert (finding.fix and finding.fix.edits[0].text) == mended


@pytest.mark.parametrize(
    ("bar", "sign"),
    [("4:4 - {} 4:2 - 5:0 - - -", "h"), ("4:2 - {} 4:4 - 5:0 - - -", "p")],
    ids=["falls", "rises"],
)
def test_a_slur_the_wrong_way_is_mended_by_the_other_sign(room: Proofroom, bar: str, sign: str) -> None:
    """The sign alone is exchanged, and with it nothing is found."""
    finding = only(room.prove("A7 | " + bar.format(sign)))
    assert finding.fix is not None
    (edit,) = finding.fix.edits
    assert (edit.span.text, edit.text) == (sign, "p" if sign == "h" else "h")
    assert told(room.prove("A7 | " + bar.format(edit.text))) == []


def test_no_sign_is_right_for_a_chord_that_goes_both_ways(room: Proofroom) -> None:
    """One string rises and one falls: neither sign is offered; nor is one in a variation."""
    both = room.prove("A7 | 4:4+3:2 - h 4:2+3:4 - 5:0 - - -")
    assert [(f.rule, f.fix) for f in both.findings if f.rule.endswith("hammer")] == [
        ("hands/falling-hammer", None)
    ]
    base = "```lick one\nA7 | 4:2 - h 4:4 - 5:0 - - -\n```\n\n```lick two\nvary: one\n1.2: 4:0\n```\n"
    (varied,) = [f for f in room.prove(base).findings if f.rule == "hands/falling-hammer"]
    assert (varied.lick, varied.fix) == ("two", None)
    assert varied.help == "Write p for a pull-off, or mend the fret"
