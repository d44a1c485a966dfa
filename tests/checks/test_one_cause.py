"""One slip, one finding, however many licks it reaches: planted in the demo and in small courses."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from proofroom import MANIFEST, Proofroom, only, prove_folder, told

from lickwright.checks.rule import Example

ROOT = Path(__file__).resolve().parents[2]
DEMO, LOW_WATER = ROOT / "content", ROOT / "tests" / "courses" / "low-water"

GANGPLANK, SET, TIDE = "lessons/gangplank.md", "lessons/the-set.md", "lessons/the-tide-table.md"
JIG, WALTZ = "lessons/a-jig-for-the-sandbar.md", "lessons/waltz-last-boat.md"
CURL = "lessons/pilots-curl.md"
STANDARD = '"E2 A2 D3 G3 B3 E4"'

# course, file, what is written, what is planted, the rule, the text that is marked
SLIPS = [
    (DEMO, "course.toml", "capo = 0", "capo = 2", "witness/capo", "2"),
    (DEMO, "course.toml", STANDARD, '"D2 G2 D3 G3 B3 D4"', "witness/tuning", '"D2 G2 D3 G3 B3 D4"'),
    (DEMO, "course.toml", STANDARD, '"D2 A2 D3 G3 B3 E4"', "witness/tuning", '"D2 A2 D3 G3 B3 E4"'),
    (LOW_WATER, "course.toml", "capo = 0", "capo = 2", "witness/capo", "2"),
    (LOW_WATER, "course.toml", '"D2 A2 D3', '"E2 A2 D3', "witness/tuning", STANDARD),
    (LOW_WATER, TIDE, "capo: 2\npicking: fingers", "picking: fingers", "witness/capo", "```lick slow-tide"),
    (DEMO, GANGPLANK, "title: Rail run\n", "title: Rail run\ncapo: 2\n", "witness/capo", "2"),
    (DEMO, GANGPLANK, "D | D | E7 | A\n", "D | E7 | D | A\n", "course/progression-order", "E7"),
    (DEMO, GANGPLANK, "rail-run  boarding", "boarding  rail-run", "course/chorus-order", "boarding"),
    (DEMO, SET, "the-set bars 5-8", "the-set bars 4-7", "rhythm/over-shifted", "the-set bars 4-7"),
    (DEMO, SET, "pickup: 1/4\n", "", "rhythm/pickup-missing", "| 4:2 4:4"),
    (LOW_WATER, JIG, "pickup: 1/8\n", "pickup: 1/4\n", "rhythm/pickup-length", "3:2"),
    (LOW_WATER, JIG, "key: D dorian", "key: D minor", "harmony/doubtful-key", "D minor"),
    (DEMO, CURL, "1.7: 2:2\n", "1.7: 2:3\n", "harmony/unchanged-note", "2:3"),
    (DEMO, CURL, "1.3: 3:2\n", "1.2: 3:2\n", "hands/falling-hammer", "channel-marker"),
    (DEMO, WALTZ, "1:0 2:3\n", "1:12 2:3\n", "hands/stray-note", "1:12"),
    (DEMO, GANGPLANK, "tatonic\n\nA  | 5:0", "tatonic\n\nA  | 5:1", "witness/names", "5:1"),
]


@pytest.mark.parametrize(
    ("course", "file", "right", "planted", "rule", "mark"),
    [pytest.param(*slip, id=f"{slip[0].name}: {slip[4]} {n}") for n, slip in enumerate(SLIPS)],
)
def test_a_slip_is_told_once(
    tmp_path: Path, course: Path, file: str, right: str, planted: str, rule: str, mark: str
) -> None:
    """The whole course is proofed, and the slip is its only finding, at the place to be mended."""
    folder = shutil.copytree(course, tmp_path / "course")
    text = (folder / file).read_text("utf-8")
    assert right in text
    (folder / file).write_text(text.replace(right, planted, 1), "utf-8")
    finding = only(prove_folder(folder))
    assert finding.rule == rule
    assert finding.span.text == mark


LADDER = (
    "```lick {}\n{}\nG | 4:3 - 3:2 - 2:1 - 3:2 -\n  names | G B D B\n"
    "G | 3:2 - 4:3 - 4:0 - 3:2 -\n  names | B G E B\n```\n\n"
)


def test_a_wrong_capo_is_named_with_the_right_one(room: Proofroom) -> None:
    """What is written, what would agree, and the correction."""
    finding = only(room.prove(LADDER.format("one", "key: G major\ncapo: 4\n")))
    assert finding.message == "read with capo 2 every name agrees; capo 4 is written"
    assert finding.fix is not None
    assert finding.fix.edits[0].text == "2"


def test_a_forgotten_capo(room: Proofroom) -> None:
    """Nothing is written that could be marked but the head of the lick."""
    finding = only(room.prove(LADDER.format("one", "key: G major\n")))
    assert (finding.rule, finding.lick, finding.fix) == ("witness/capo", "one", None)
    assert finding.message == "read with capo 2 every name agrees; none is written"


def test_two_licks_with_a_capo_of_their_own_do_not_accuse_the_course(room: Proofroom) -> None:
    """Each lick that states a capo answers for it."""
    head = "key: G major\ncapo: 4\n"
    proof = room.prove(LADDER.format("one", head) + LADDER.format("two", head).replace("G |", "G6 |"))
    assert [(f.rule, f.span.text) for f in proof.findings] == [("witness/capo", "4")] * 2


@pytest.mark.parametrize(("capo", "rules"), [("capo: 2\n", []), ("capo: 5\n", ["witness/capo"])])
def test_a_lick_with_a_capo_of_its_own_beside_a_wrong_manifest(
    room: Proofroom, capo: str, rules: list[str]
) -> None:
    """It is not part of what the manifest brings about; what is wrong with it is told as well."""
    manifest = MANIFEST.format(style="country") + "\n[guitar]\ncapo = 4\n"
    licks = "".join(LADDER.format(name, "key: G major\n").replace("G |", f"{chord} |") for name, chord in
                    (("one", "G"), ("two", "G6")))  # fmt: skip
    own = LADDER.format("own", "key: G major\n" + capo).replace("G |", "Em7 |")
    proof = room.prove(Example(licks + own, course=manifest))
    assert [f.rule for f in proof.findings] == ["witness/capo", *rules]
    assert [f.lick for f in proof.findings] == ["", *(["own"] if rules else [])]


def test_one_note_that_is_off_as_well(room: Proofroom) -> None:
    """A capo is wrong even where one name in ten does not agree with the right one; it is said how many."""
    text = LADDER.format("one", "key: G major\ncapo: 4\n")
    more = "G | 4:3 - 3:2 - 2:1 - 3:2 -\n  names | G B D C\n```"
    finding = only(room.prove(text.replace("```\n\n", more)))
    assert finding.message == "read with capo 2 11 of 12 names agree; capo 4 is written"


def test_a_fret_misread_again_and_again_is_no_tuning(room: Proofroom) -> None:
    """One fret of one string is not a string: each is told."""
    bar = "A | 5:0 - 5:4 - 4:2 - 5:4 -\n  names | A D E D\n"
    proof = room.prove(bar + bar)
    assert {f.rule for f in proof.findings} <= {"witness/names", "harmony/avoid-note"}
    assert len(told(proof)) == 4


BASE = "```lick base\nposition: {}\n\nA | 5:0 - 5:4 - 4:2 - 3:{} -\n  names | A C# E A\n```\n\n"
VARIED = "```lick varied\nvary: base\nover: A6\n1.1: 4:4\n```\n"


def test_a_fault_of_the_base_is_not_its_variations_too(room: Proofroom) -> None:
    """What a note of the base brings about where it is taken over has been told there."""
    assert told(room.prove(BASE.format("2", "3") + VARIED)) == [("witness/names", "3:3")]


def test_a_position_that_is_taken_over_is_told_once(room: Proofroom) -> None:
    """The field stands in the base; the variation has fewer notes outside it, and the same fault."""
    assert told(room.prove(BASE.format("9", "2") + VARIED)) == [("hands/position", "9")]


def test_a_changed_note_answers_for_itself(room: Proofroom) -> None:
    """Where the variation changes the sound, the cause in the base says nothing of it."""
    varied = "```lick varied\nvary: base\n1.4: 3:3\n```\n"
    found = told(room.prove(BASE.format("2", "3").replace("3:3", "3:1") + varied))
    assert ("witness/names", "3:1") in found
    assert len(found) == 2


@pytest.mark.parametrize("row", ["A - - B C# - E -", "A . . B C# . E .", "A - - B - C# E -"])
def test_holds_in_a_row_are_told_once(room: Proofroom, row: str) -> None:
    """The slots were copied; the entries between them are still read."""
    lick = "A | 5:0 - - 5:2 5:4 - 4:2 -\n  names | "
    assert only(room.prove(lick + row)).rule == "syntax/row-entry"
    slipped = room.prove(lick + row.replace("B", "B B"))
    assert [rule for rule, _ in told(slipped)] == ["syntax/row-count", "syntax/row-entry"]


def test_an_ending_that_is_not_closed_is_told_once(room: Proofroom) -> None:
    """The sign that is missing is not missing once more at the opening."""
    bar = "A {}| 5:0 - 5:4 - 4:2 - 3:2 -{}\n"
    lick = (
        bar.format("|: ", "").replace("|: |", "|:") + "1. " + bar.format("", "") + "2. " + bar.format("", "")
    )
    finding = only(room.prove(lick))
    assert finding.message == "ending 2. before the one before it is closed with :|"


def test_a_first_bar_that_is_merely_short_is_no_pickup(room: Proofroom) -> None:
    """It states its chord, or holds more than half a bar."""
    for first in ("A | 5:0 5:4", "| 5:0 - 5:4 - 4:2 -"):
        rules = {rule for rule, _ in told(room.prove(f"over: A\n\n{first}\nA | 5:0 - 5:4 - 4:2 - 3:2 -"))}
        assert rules == {"rhythm/bar-length"}


PICKED_UP = "pickup: 1/4\n\n| 5:4\nA | 5:0 - 5:4 - 4:2 - 5:4 -\nA | 5:0 - 5:4 - 4:2 -{} 5:4{}"


def test_a_pickup_of_another_length_is_not_its_last_bar_too(room: Proofroom) -> None:
    """The last bar makes up for the pickup that sounds: it is told once, and what to write."""
    finding = only(room.prove(PICKED_UP.format("", "")))
    assert (finding.rule, finding.span.text) == ("rhythm/pickup-length", "5:4")
    assert finding.help == "Write pickup: 1/8: bar 2 makes up for just that"


def test_a_last_bar_that_goes_with_neither_length_is_told(room: Proofroom) -> None:
    """Two faults: the pickup, and a bar that would be short with any."""
    proof = room.prove(PICKED_UP.format(" -", " - -"))
    assert [rule for rule, _ in told(proof)] == ["rhythm/bar-length", "rhythm/pickup-length"]


UNREAD = """```lick x
A7 | 3:2 - 2:2 - 1:0 - {slot} -
```

```lick y
vary: x
1.4: 5:4
```

```excerpt
of: x
show: 1.1-1.4
```

[It](lick:x@1.4) is held, and [so is it](lick:x@1.3-1.4).
"""


@pytest.mark.parametrize(("slot", "rule"), [("4:2v", "syntax/habit"), ("4:q", "syntax/slot")])
def test_a_sound_that_could_not_be_read_is_not_missed_as_well(room: Proofroom, slot: str, rule: str) -> None:
    """Links, changes and excerpts count the sounds of its bar; with the slot mended nothing is left."""
    assert only(room.prove(UNREAD.format(slot=slot))).rule == rule
    assert told(room.prove(UNREAD.format(slot="4:2~"))) == []


def test_an_address_in_a_bar_that_was_read_is_missed(room: Proofroom) -> None:
    """A bar that nobody could read hides no fault of another one."""
    two = UNREAD.format(slot="4:q").replace("4:q -\n", "4:q -\nA7 | 3:2 - 2:2 - 1:0 - . -\n")
    found = [f.rule for f in room.prove(two.replace("lick:x@1.4", "lick:x@2.4")).findings]
    assert sorted(found) == ["course/link-address", "syntax/slot"]


EXCHANGED = "D7 | 3:7 h 3:5 - - 2:7 - 1:5 -\n{rows}"
ROWS = {"names": "  names | C D F# A\n", "degrees": "  degrees | b7 1 3 5\n"}


@pytest.mark.parametrize("rows", [("names",), ("degrees",), ("names", "degrees")])
def test_two_notes_exchanged_are_one_finding(room: Proofroom, rows: tuple[str, ...]) -> None:
    """Whichever row says so, and where both do; the fix puts them right."""
    text = EXCHANGED.format(rows="".join(ROWS[row] for row in rows))
    finding = only(room.prove(text))
    assert finding.rule == f"witness/{rows[0]}"
    assert finding.message.endswith("the other way round")
    assert finding.fix is not None
    assert [edit.text for edit in finding.fix.edits] == ["3:5", "3:7"]
    assert told(room.prove(text.replace("3:7 h 3:5", "3:5 h 3:7"))) == []


TIED = "A7 | 3:2 - 4:2 - 5:4 - 5:0 -\nD7 | {bar}\n  lh | 0 4 3 1 0\n  names | A D F# E D"


def test_rows_that_count_a_held_note_are_told_why(room: Proofroom) -> None:
    """The number once, and that a tied note has no entry; another extra entry is not laid on it."""
    finding = only(room.prove(TIED.format(bar="- - 5:5 - 4:4 4:2 4:0 -")))
    assert finding.message == "lh has 5 entries for 4 sounds"
    assert finding.help.endswith("look at the bar's slots; it begins with a held note, which has no entry")
    assert [label.text for label in finding.labels] == ["and so it is here"]
    other = only(room.prove(TIED.format(bar="5:5 - 4:4 - 4:2 - 4:0 -")))
    assert other.help.endswith("holds, rests and grace notes have no entry")


DORIAN = (
    "key: D minor\n{}\nDm | 3:2 - 3:0 - 3:2 - 2:0 -\nC | 2:1 - 2:0 - 3:0 - 3:2 -\n"
    "Dm | 3:2 - 2:0 2:1 2:0 - 3:2 -\n"
)


@pytest.mark.parametrize(
    ("stet", "promised", "rules"),
    [
        ("", "keys = 2", ["harmony/doubtful-key"]),
        ("", "licks = 2", ["course/promise", "harmony/doubtful-key"]),
        (
            'stet: harmony/doubtful-key "meant"\n',
            "keys = 2",
            ["course/promise"],
        ),
    ],
)
def test_keys_are_not_counted_while_one_is_in_doubt(
    room: Proofroom, stet: str, promised: str, rules: list[str]
) -> None:
    """What else is promised is; and so are the keys when the author lets the doubt stand."""
    manifest = MANIFEST.format(style="country") + f"\n[promises]\n{promised}\n"
    proof = room.prove(Example(DORIAN.format(stet), course=manifest))
    assert [rule for rule, _ in told(proof)] == rules
