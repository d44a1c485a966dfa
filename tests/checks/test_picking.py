"""Rules of the picking hand on what players write."""

from __future__ import annotations

import pytest
from proofroom import Proofroom, only, told

PENDULUM = "picking: pendulum\n\nA |"
ALTERNATE = "picking: alternate\n\nA |"
SAID = {
    "a triplet alternates": f"{PENDULUM} (3:2 2:2 1:0)/2 1:5 1:0 2:2 - 3:2 -\n  rh | d u d d u d d",
    "jig strokes": f"meter: 6/8\n{PENDULUM} 3:2 2:2 1:0 2:2 1:0 1:5\n  rh | d u d d u d",
    "jig strokes all in turn": f"meter: 6/8\n{PENDULUM} 3:2 2:2 1:0 2:2 1:0 1:5\n  rh | d u d u d u",
    "seven eighths go on over the bar line": (
        f"meter: 7/8\n{PENDULUM} 5:0 5:4 4:2 4:4 3:2 4:4 4:2\n  rh | d u d u d u d\n"
        "A | 5:0 5:4 4:2 4:4 3:2 4:4 4:2\n  rh | u d u d u d u"
    ),
    "the hand begins again after a rest": f"{ALTERNATE} 3:2 . . 2:2 1:0 2:2 3:2 -\n  rh | d d u d u",
    "a pickup that is not said": (
        "picking: alternate, down first\npickup: 1/8\n\n | 3:2\n"
        "A | 2:2 1:0 2:2 1:0 2:2 3:2 -\n  rh | d u d u d u"
    ),
    "a tremolo has any number of strokes": (
        "picking: alternate\n\nA | 3:2 - - - 2:2 1:0 2:2 1:0\n  rh | d d u d u\n  signs | tremolo * * * *"
    ),
    "a rake is one stroke": f"{ALTERNATE} g(5:x 4:x 3:x) 2:5 - 2:2 - 3:2 - 2:2 -\n  rh | d d u d",
    "second endings follow the body": (
        "picking: alternate, down first\n\nA |: 3:2 2:2 1:0 2:2 3:2 2:2 1:0 2:2\n  rh | d u d u d u d u\n"
        "1. A | 3:2 2:2 1:0 2:2 3:2 - 1:0 - :|\n  rh | d u d u d u\n"
        "2. A | 3:2 2:2 1:0 2:2 3:2 - - -\n  rh | d u d u d"
    ),
    "nothing is claimed": "A | 3:2 2:2 1:0 2:2 3:2 2:2 1:0 2:2\n  rh | d d d u u u d d",
    "nothing is said": "picking: alternate, down first\n\nA | 3:2 2:2 1:0 2:2 3:2 2:2 1:0 2:2",
    "thumb and brush": (
        "tempo: 100\npicking: fingers\n\nA | 5:0 4:2+3:2+2:2 4:2 3:2+2:2 5:0 - - -\n  rh | p iii p im p"
    ),
    "octaves with one stroke": "A | 5:3+3:5 - 5:5+3:7 - - - - -\n  rh | d d",
    "a thumb that brushes on": "tempo: 200\npicking: fingers\n\nA | 5:0 4:2 3:2 - 2:2 - - -\n  rh | p p p m",
    "a seven-string chord": (
        "tuning: B1 E2 A2 D3 G3 B3 E4\npicking: fingers\n\n"
        "B | 7:0+6:2+5:2+4:4 - - - 7:0 - - -\n  rh | pima p"
    ),
}  # fmt: skip


@pytest.mark.parametrize("text", SAID.values(), ids=SAID)
def test_what_players_do_is_left_alone(room: Proofroom, text: str) -> None:
    """Idiomatic strokes give nothing under picking; other groups may have their say."""
    assert [f for f in told(room.prove(text)) if f[0].startswith("picking/")] == []


OUT_OF_TURN = "the lick claims alternate picking, an upstroke was expected"
EIGHT = "picking: alternate\n\nA | 3:2 2:2 1:0 2:2 3:2 2:2 1:0 2:2\n  rh | "


@pytest.mark.parametrize(
    ("strokes", "messages"),
    [
        ("d u d d u d u d", [f"a downstroke after a downstroke: {OUT_OF_TURN}"]),
        ("d * * * d u d u", []),
        ("* * d u d u d u", []),
        (
            "d * * d u d u d",
            [f"a downstroke out of turn, with the strokes before it filled in: {OUT_OF_TURN}"],
        ),
        ("d d d d d d d d", [f"a downstroke after a downstroke: {OUT_OF_TURN}; 6 more follow out of turn"]),
    ],
)
def test_missing_strokes_are_filled_in_first(room: Proofroom, strokes: str, messages: list[str]) -> None:
    """One slip is told once, where the turn is broken; a gap is filled, whatever its length."""
    findings = [f for f in room.prove(EIGHT + strokes).findings if f.rule.startswith("picking/")]
    assert [f.message for f in findings] == messages


def test_one_stroke_turned_round_is_one_finding(room: Proofroom) -> None:
    """Its neighbours on both sides are right."""
    finding = only(
        room.prove("picking: alternate\n\nA | 3:2 2:2 1:0 2:2 3:2 2:2 1:0 2:2\n  rh | d u d u u u d u")
    )
    assert (finding.rule, finding.address) == ("picking/alternate", "1.5")


def test_a_stroke_on_a_slur_is_not_told_twice(room: Proofroom) -> None:
    """The stroke that should not be there turns round the others: one cause."""
    finding = only(
        room.prove("picking: alternate\n\nA | 3:2 h 3:4 2:2 1:0 2:2 3:2 2:2 3:2\n  rh | d u d u d u d u")
    )
    assert finding.rule == "picking/stroke-on-slur"


def test_one_finger_is_told_once(room: Proofroom) -> None:
    """A finger that never rests is one finding, with its speed."""
    fields = "tempo: 120\nstep: 1/16\nmeter: 2/4\npicking: fingers"
    text = f"{fields}\n\nA | 2:2 2:3 2:5 2:3 2:2 2:3 2:5 2:3\n  rh | m m m m m m m m"
    finding = next(f for f in room.prove(text).findings if f.rule == "picking/one-finger")
    assert "at 8.0 notes a second" in finding.message
    assert sum(f.rule == "picking/one-finger" for f in room.prove(text).findings) == 1


def test_crossed_fingers_of_two_voices(room: Proofroom) -> None:
    """What is plucked together counts, whichever voice it stands in."""
    text = "picking: fingers\n\nA | 3:2 - - - - - - -\n  rh | p\n  low | 5:0 - - - - - - -\n  rh | i"
    finding = next(f for f in room.prove(text).findings if f.rule == "picking/finger-order")
    assert finding.message.startswith("i on string 5 lies across p on string 3")


def test_a_claim_for_some_bars_asks_each_of_them(room: Proofroom) -> None:
    """A roll in bar 1 does not serve for bar 2."""
    bars = "A | 4:2 3:2 2:2 4:2 3:2 2:2 4:2 2:2\n  | 2:2 3:2 4:2 2:2 3:2 4:2 2:2 4:2"
    findings = room.prove(f"claims: forward roll (bars 1-2)\n\n{bars}").findings
    assert [f.message for f in findings if f.rule == "picking/roll"] == [
        "bar 2 is claimed to be a forward roll: no three picked notes in a row rise over three strings"
    ]


@pytest.mark.parametrize(
    ("chord", "letters", "mended"),
    [
        ("4:2+2:2", "mP", "Pm"),
        ("2:2+4:2", "Pm", "mP"),  # written from the top: so are the letters
        ("5:0+3:2+2:2", "pmi", "pim"),
        ("4:2+2:2", "mm", None),  # nobody knows which finger the other string has
    ],
)
def test_crossed_fingers_are_exchanged(room: Proofroom, chord: str, letters: str, mended: str | None) -> None:
    """Each letter is there once, and the strings say in what order; then nothing more is found."""
    lick = f"A | {chord} - - - 5:0 - - -\n  rh | {{}} p"
    finding = only(room.prove(lick.format(letters)))
    assert finding.rule == "picking/finger-order"
    assert finding.help
    assert (finding.fix and finding.fix.edits[0].text) == mended
    if mended:
        assert told(room.prove(lick.format(mended))) == []


@pytest.mark.parametrize(("last", "found"), [("4:2 5:4", 1), ("- 4:2", 1), ("4:2 -", 0)])
def test_a_beat_is_time_to_come_back(room: Proofroom, last: str, found: int) -> None:
    """Down at the end and down again at the beginning: within a beat it is noted, after a whole one not."""
    rh = "d u d u d u d" if last == "4:2 5:4" else "d u d u d d"
    bar = f"picking: alternate\n\nA |: 5:0 5:4 4:2 4:4 3:2 - {last} :|\n  rh | {rh}"
    assert [rule for rule, _ in told(room.prove(bar))].count("picking/seam") == found
