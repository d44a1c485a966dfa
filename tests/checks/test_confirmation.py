"""The words of a lesson as a second witness against a note: one finding, surer than without them."""

from __future__ import annotations

import pytest
from proofroom import Proofroom, only

from lickwright.findings import Finding, Severity

SLIP = "```lick x\n{field}A7 | 3:7 3:5 4:{fret} - - - . .\n{rows}```\n\n"


def prove(room: Proofroom, words: str, *, fret: int = 8, field: str = "", rows: str = "") -> Finding:
    """The only finding of the slip and its words."""
    text = SLIP.format(field=field, rows=rows, fret=fret)
    return only(room.prove(f"{text}{words}\n", "blues"))


def test_without_words_the_note_is_accused(room: Proofroom) -> None:
    """What the words are measured by."""
    finding = prove(room, "It ends there.")
    assert (finding.rule, finding.severity) == ("harmony/unexplained", Severity.ERROR)
    assert finding.fix is not None
    assert finding.fix.edits[0].text == "4:7"


@pytest.mark.parametrize(
    "words",
    [
        "It ends on [A](lick:x@1.3).",
        "It ends on [the root](lick:x@1.3).",
        "It goes [D, C, A](lick:x@1.1-1.3).",
        "[The first bar, ending on A](lick:x@1).",
        "Go down to [A](lick:x@1.3). It comes to rest on [A](lick:x@1.3).",
        "[From D to A](lick:x).",
        "It ends on [the fourth string, seventh fret](lick:x@1.3).",
    ],
)
def test_words_that_confirm_a_slip_keep_the_error(room: Proofroom, words: str) -> None:
    """They are true with the repair that was tried: it stays, and the note is to be mended first."""
    finding = prove(room, words)
    assert (finding.rule, finding.severity, finding.address) == (
        "harmony/unexplained",
        Severity.ERROR,
        "1.3",
    )
    assert finding.fix is not None
    assert finding.fix.edits[0].text == "4:7"
    assert finding.help.startswith("Mend the note")
    assert any(label.text == "what the words say" for label in finding.labels)
    assert prove_nothing(room, words)


def prove_nothing(room: Proofroom, words: str) -> bool:
    """Whether the words are true of the lick as it was meant: the fault was the note's."""
    return room.prove(f"{SLIP.format(field='', rows='', fret=7)}{words}\n", "blues").findings == ()


def test_words_make_an_error_of_a_query(room: Proofroom) -> None:
    """A short foreign note is asked about; where words call it otherwise, and it can be so, it is wrong."""
    lick = "```lick x\nkey: C major\n\nC | 5:3 3:0 4:1 3:0 2:1 - 3:0 -\n```\n\n"
    assert only(room.prove(lick)).severity is Severity.QUERY
    finding = only(room.prove(f"{lick}Then [E](lick:x@1.3).\n"))
    assert (finding.rule.split("/")[0], finding.severity) == ("harmony", Severity.ERROR)
    assert finding.fix is not None
    assert finding.fix.edits[0].text == "4:2"


def test_a_repair_that_the_words_name_is_offered_first(room: Proofroom) -> None:
    """Without words A is the likeliest note, with them B, a fret the other way."""
    finding = prove(room, "It ends on [B](lick:x@1.3).")
    assert finding.fix is not None
    assert finding.fix.edits[0].text == "4:9"


def test_words_that_no_repair_makes_true_are_shown(room: Proofroom) -> None:
    """The finding is about the note; the words stand beside it."""
    finding = prove(room, "It ends on [F](lick:x@1.3).")
    assert (finding.rule, finding.severity) == ("harmony/unexplained", Severity.ERROR)
    assert finding.help.endswith("the words say F, and 1.3 is B flat")


def test_a_note_that_is_let_stand_accuses_nobody(room: Proofroom) -> None:
    """The words have a finding of their own then."""
    finding = prove(room, "It ends on [A](lick:x@1.3).", field='stet: harmony/unexplained 1.3 "meant"\n\n')
    assert finding.rule == "prose/pitch"


def test_a_names_row_is_confirmed_as_well(room: Proofroom) -> None:
    """Row and words say the same: the row tells it, with its fix."""
    finding = prove(room, "It ends on [A](lick:x@1.3).", rows="  names | D C A\n")
    assert (finding.rule, finding.severity) == ("witness/names", Severity.ERROR)
    assert finding.fix is not None
    assert finding.fix.edits[0].text == "4:7"


def test_two_sentences_about_one_note_are_one_finding(room: Proofroom) -> None:
    """The note is in the chord, and two sentences call it by one other name."""
    lick = "```lick x\nA7 | 3:2 - 2:2 - 1:0 - 2:2 -\n```\n\n"
    words = "It begins with [B](lick:x@1.1). Then [B, C sharp](lick:x@1.1-1.2) again.\n"
    finding = only(room.prove(f"{lick}{words}"))
    assert (finding.rule, finding.severity) == ("prose/pitch", Severity.ERROR)
    assert [label.span.text for label in finding.labels] == ["B"]


def test_words_about_a_chorus_and_the_slip_in_its_lick(room: Proofroom) -> None:
    """The note is told in the lick, and the words that link the chorus are no second finding."""
    progression = "```progression p\nkey: A major\n\nA7\n```\n\n"
    chorus = "```chorus c\nover: p\nlicks: x\n```\n\n"
    text = progression + SLIP.format(field="over: p\n\n", rows="", fret=8) + chorus
    finding = only(room.prove(f"{text}It ends on [the root](lick:c@1.3).\n", "blues"))
    assert (finding.rule, finding.lick) == ("harmony/unexplained", "x")


def test_a_bend_that_stops_short_of_what_the_words_say(room: Proofroom) -> None:
    """How far it goes, and the degree it goes to, are true with the repair."""
    lick = "```lick x\nA7 | 2:5 - 3:6 - 3:7b8 - - -\n```\n\n"
    for words in (
        "[Bend it a whole step](lick:x@1.3).",
        "Bend [the third string](lick:x@1.3) at the seventh fret to the fifth.",
    ):
        finding = only(room.prove(f"{lick}{words}\n"))
        assert (finding.rule, finding.severity) == ("harmony/bend-target", Severity.ERROR)
        assert finding.fix is not None
        assert finding.fix.edits[0].text == "3:7b9"


WORDS_ALONE = "```lick x\nA7 | 5:0 5:2 5:3 {} 4:2 - 3:2 -\n```\n\n"
"""A, B, C, C sharp, E, A: the fourth is the one that slips, and no rule objects to it."""


@pytest.mark.parametrize(
    ("slot", "words", "fix"),
    [
        ("5:5", "It walks up, [A, B, C, C sharp](lick:x@1.1-1.4).", "5:4"),
        ("5:5", "It lands on [C sharp](lick:x@1.4), [the third](lick:x@1.4).", "5:4"),
        ("5:5", "[C sharp, E, A](lick:x@1.4-1.6) is where it goes.", "5:4"),
        ("5:3", "It lands on [the major third](lick:x@1.4) of A.", "5:4"),
    ],
)
def test_words_alone_offer_the_fret_that_makes_them_true(
    room: Proofroom, slot: str, words: str, fix: str
) -> None:
    """As severe as without it: the words may be what has slipped; mended, all is silent."""
    finding = room.prove(f"{WORDS_ALONE.format(slot)}{words}\n").findings[0]
    assert finding.rule.startswith("prose/")
    assert finding.fix is not None
    assert [(edit.span.text, edit.text) for edit in finding.fix.edits] == [(slot, fix)]
    assert room.prove(f"{WORDS_ALONE.format(fix)}{words}\n").findings == ()


@pytest.mark.parametrize(
    "words",
    [
        "It lands on [B flat](lick:x@1.4).",  # three frets off
        "It lands on [E flat](lick:x@1.4). First, [A, B, C, D](lick:x@1.1-1.4).",  # true words turn false
    ],
)
def test_words_alone_offer_nothing_that_is_no_slip_of_a_finger(room: Proofroom, words: str) -> None:
    """The finding stands without a fix."""
    found = room.prove(f"{WORDS_ALONE.format('5:5')}{words}\n").findings
    assert [f.fix for f in found] == [None]
