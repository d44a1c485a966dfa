"""Rules of the course as a whole."""

from __future__ import annotations

import pytest
from proofroom import Proofroom, told

from lickwright.checks.rule import Example

MANIFEST = """[course]
title = "Example"
author = "An author"
key = "A major"
level = "{level}"

[[unit]]
title = "One"
lessons = ["example.md", "second.md"]
drafts = ["draft.md"]

[promises]
{promises}
"""
LICK = "```lick {name}\n{fields}\nA | 3:2 {slots}\n```\n"
HAMMERED = LICK.format(name="a", fields="", slots="h 3:4 - - - - - -")
PLAIN = LICK.format(name="b", fields="tuning: D2 A2 D3 G3 B3 E4\n", slots="- - - 3:4 - - -")
TAPPED = LICK.format(name="c", fields="key: D major\n", slots="- - - 3:t14 - - -")


def _course(
    first: str, second: str, draft: str = "", level: str = "intermediate", promises: str = ""
) -> Example:
    return Example(
        f"# One\n\n{first}",
        course=MANIFEST.format(level=level, promises=promises),
        files=(("lessons/second.md", f"# Two\n\n{second}"), ("lessons/draft.md", f"# Draft\n\n{draft}")),
    )


def _found(room: Proofroom, example: Example, rule: str) -> list[str]:
    return [text for name, text in told(room.prove(example)) if name == rule]


@pytest.mark.parametrize(
    ("first", "second", "level", "found"),
    [
        (HAMMERED, "Hammer it on.", "intermediate", ["3:4"]),
        (HAMMERED, "Hammer it on.", "beginner", ["3:4"]),
        (f"Hammer it on.\n\n{HAMMERED}", "Hammer it on.", "beginner", []),
        (f"{HAMMERED}\n\n`h` is hammered.", "", "beginner", []),
        (HAMMERED, "Nothing.", "intermediate", []),
        (HAMMERED, "Nothing.", "beginner", ["3:4"]),
        (HAMMERED.replace("\n\n", "\ntags: hammer-ons\n\n"), "Hammer it on.", "intermediate", []),
        ("Hammer it on.", HAMMERED, "beginner", []),
        (TAPPED, "Tap the string with a finger: tapping.", "intermediate", ["3:t14"]),
        (TAPPED, "Tap your foot.", "intermediate", []),
        (TAPPED, "Tap your foot.", "beginner", []),
    ],
)
def test_first_use(room: Proofroom, first: str, second: str, level: str, found: list[str]) -> None:
    """Spoken of later is a query; never spoken of is one in a course for beginners only."""
    assert _found(room, _course(first, second, level=level), "course/first-use") == found


def test_a_draft_neither_uses_nor_explains(room: Proofroom) -> None:
    """What is not published counts on neither side."""
    assert _found(room, _course("Words.", "We tap.", TAPPED), "course/first-use") == []
    assert _found(room, _course(TAPPED, "Words.", "We tap."), "course/first-use") == []


@pytest.mark.parametrize(
    ("name", "held"),
    [("licks", 2), ("bars", 2), ("tunings", 2), ("techniques", 1), ("lessons", 2), ("keys", 1)],
)
def test_promises(room: Proofroom, name: str, held: int) -> None:
    """Each is counted over the published lessons; one more or one less is an error."""
    for promised in (held - 1, held, held + 1):
        example = _course(HAMMERED, PLAIN, TAPPED, promises=f"{name} = {promised}")
        assert _found(room, example, "course/promise") == ([] if promised == held else [str(promised)])


def test_a_chorus_in_a_draft_is_no_chorus_of_the_course(room: Proofroom) -> None:
    """One that is published counts, the same in a draft does not."""
    grid = "```progression porch\nkey: A major\n\nA | A\n```\n"
    lick = "```lick {0}\nover: porch bar 1\n\n| 5:0 - 5:4 - 4:2 - 3:2 -\n```\n"
    chorus = "```chorus round-{0}\nover: porch\nlicks: {0}\n```\n"
    one, two = (lick.format(name) + chorus.format(name) for name in ("one", "two"))
    for promised, found in ((1, []), (2, ["2"])):
        example = _course(grid + one, "Words.", two, promises=f"choruses = {promised}")
        assert _found(room, example, "course/promise") == found


def test_a_jump_needs_something_to_jump_from(room: Proofroom) -> None:
    """The first lessons are left alone, however hard."""
    hard = LICK.format(name="z", fields="tempo: 300\n", slots="1:12 5:0 2:8 1:14 3:2 2:12 1:0")
    rule = "course/difficulty-jump"
    assert _found(room, _course(HAMMERED, hard), rule) == []
    easy = "\n".join(HAMMERED.replace("lick a", f"lick {name}") for name in ("k", "l", "m"))
    assert _found(room, _course(easy, hard), rule) == ["```lick z"]


@pytest.mark.parametrize("names", [("Walk_Up", "walk-up"), ("walk-up", "Walk_Up")])
def test_a_name_that_is_none_is_told_once(room: Proofroom, names: tuple[str, str]) -> None:
    """What it would be when mended is not held against the names that are written."""
    first, second = (
        f"```lick {name}\nA | 5:{fret} - - - - - - -\n```\n" for name, fret in zip(names, "07", strict=True)
    )
    assert told(room.prove(first + second)) == [("syntax/block-name", "Walk_Up")]


@pytest.mark.parametrize("at", ["1.1-1.12", "1.2-9.1", "9.9", "1.9", "3"])
def test_nothing_is_judged_of_an_address_that_is_not_there(room: Proofroom, at: str) -> None:
    """Not even by those of its notes that are: one cause, one finding."""
    lick = "```lick walk\nA | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\nA | 3:2 - - - - - - -\n```\n"
    words = f"[These four notes](lick:walk@{at}) climb from D to G, the seventh, with the ring finger.\n\n"
    assert told(room.prove(words + lick)) == [("course/link-address", f"lick:walk@{at}")]
