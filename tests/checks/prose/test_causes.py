"""One cause, one finding: words beside witnesses, unread bars and stets; several claims of one link."""

from __future__ import annotations

from proofroom import Proofroom, only, told

from lickwright.checks.rule import Example

LICK = "```lick example\n{field}A7 | 5:0 5:2 5:3 {slot} 4:2 - 3:2 -\n{rows}```\n\n{words}\n"


def lesson(words: str, *, slot: str = "5:4", rows: str = "", field: str = "") -> str:
    """A lesson of one lick and some words."""
    return LICK.format(slot=slot, rows=rows, words=words, field=field)


def test_a_wrong_fret_is_told_by_the_witness_alone(room: Proofroom) -> None:
    """The names row and the words say the same of one wrong fret: the row is told."""
    rows = "  names | A B C C# E A\n"
    words = "It walks up, [A, B, C, C sharp](lick:example@1.1-1.4)."
    assert told(room.prove(lesson(words, rows=rows))) == []
    assert [rule for rule, _ in told(room.prove(lesson(words, slot="5:5", rows=rows)))] == ["witness/names"]


def test_without_a_witness_the_words_tell(room: Proofroom) -> None:
    """The words are a second witness where there is no row."""
    words = "It walks up, [A, B, C, C sharp](lick:example@1.1-1.4)."
    finding = only(room.prove(lesson(words, slot="5:5")))
    assert (finding.rule, finding.lick, finding.address) == ("prose/pitch", "example", "1.4")


def test_one_link_gives_one_finding(room: Proofroom) -> None:
    """Name, fret and string of a note all differ, because another note is linked."""
    words = "[C sharp at the fourth fret of the fifth string](lick:example@1.5)."
    finding = only(room.prove(lesson(words)))
    assert finding.rule == "prose/pitch"


def test_a_bar_that_cannot_be_read_claims_nothing(room: Proofroom) -> None:
    """What the words say of a bar with a fault in its text is not asked."""
    found = told(room.prove(lesson("[C sharp](lick:example@1.4)", slot="5:zz")))
    assert found
    assert [rule for rule, _ in found if rule.startswith("prose/")] == []


def test_a_stet_of_the_lick_lets_words_stand(room: Proofroom) -> None:
    """It stands in the lick that the link names, at the address of the link."""
    words = "It walks up to [D](lick:example@1.4)."
    assert only(room.prove(lesson(words))).rule == "prose/pitch"
    field = 'stet: prose/pitch 1.4 "we call it so"\n\n'
    proof = room.prove(lesson(words, field=field))
    assert proof.findings == ()
    assert [standing.finding.rule for standing in proof.standing] == ["prose/pitch"]


def test_a_name_is_respelled_in_the_author_s_way(room: Proofroom) -> None:
    """The fix of a spelling is written as the author writes names."""
    lick = "```lick example\nkey: F major\n\nC7 | 3:5 - 3:3 - 3:2 - 3:0 -\n```\n\n"
    for typed, right in (("A sharp", "B flat"), ("A♯", "B♭"), ("A#", "Bb")):
        finding = only(room.prove(f"{lick}Down by [{typed}](lick:example@1.2).\n"))
        assert finding.fix is not None
        assert [(edit.span.text, edit.text) for edit in finding.fix.edits] == [(typed, right)]


def test_a_note_outside_a_scale_is_called_as_its_author_calls_it(room: Proofroom) -> None:
    """The sentence, then the names row, then the staff; the key's own table knows sharps alone here."""
    lick = "```lick x\nkey: A minor\n\nAm | 5:0 - 5:{} - 4:2 - 3:2 -\n{}```\n\n"
    row = "  names | A B♭ E A\n"
    minor = "[A minor pentatonic](lick:x)"
    for rows, words in ((row, f"It is {minor}."), ("", f"It is {minor}, its [B flat](lick:x@1.2) apart.")):
        found = room.prove(f"{lick.format(1, rows)}{words}\n").findings
        scale = next(f for f in found if f.rule == "prose/scale")
        assert scale.message.endswith("B flat is not in it")
    found = room.prove(f"{lick.format(2, '')}It is {minor}.\n").findings
    assert [f.message.rpartition(", and ")[2] for f in found] == ["B is not in it"]


def test_a_list_that_is_moved_by_a_bar_says_the_bar_before(room: Proofroom) -> None:
    """Nearer sounds, across the bar line, are the same list; a link slips by whole bars more often."""
    lick = "```lick x\nkey: D minor\n\nDm | 1:5 - 1:3 1:1 1:0 - 1:3 -\n | 1:1 - 1:0 1:1 2:3 - 2:3 -\n```\n\n"
    finding = next(iter(room.prove(f"{lick}It goes [A, G, F, E](lick:x@2.1-2.4).\n").findings))
    assert finding.help.startswith("Link 1.1-1.4, which is A, G, F, E; or else")
    finding = next(iter(room.prove(f"{lick}It goes [G, F, E](lick:x@2.2-2.4).\n").findings))
    assert finding.help.startswith("Link 1.2-1.4, which is G, F, E; or else")


def test_a_grace_note_is_looked_for_among_the_grace_notes(room: Proofroom) -> None:
    """The chord, and a plain note beside it, have the note that is named; the grace note is another."""
    lick = "```lick x\nkey: D minor\n\nDm | g(1:{}) 1:5 - 1:3 - 1:5 - - -\n```\n\n"
    words = "[The A at the fifth fret](lick:x@1.1) has a grace note hammered into it from G.\n"
    assert room.prove(f"{lick.format(3)}{words}").findings == ()
    found = room.prove(f"{lick.format(4)}{words}").findings
    assert [(f.span.text, f.message) for f in found if f.rule == "prose/mention"] == [
        ("G", "the words name a grace note G, which is not used in “x”")
    ]


def test_words_of_drafts_are_read_too(room: Proofroom) -> None:
    """Drafts are proofed, their prose among the rest."""
    course = (
        '[course]\ntitle = "X"\nauthor = "Y"\nkey = "A major"\n\n[[unit]]\ntitle = "One"\n'
        'lessons = ["other.md"]\ndrafts = ["example.md"]\n'
    )
    other = ("lessons/other.md", "# Other\n\nWords.\n")
    example = Example(lesson("[D](lick:example@1.4)"), course=course, files=(other,))
    assert "prose/pitch" in {rule for rule, _ in told(room.prove(example))}
