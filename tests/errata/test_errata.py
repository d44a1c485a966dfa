"""Errata: what changed in the music, the hands and the words, told by what it is."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from lickwright.errata import Errata, Kind, compare
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course
from lickwright.report.errata import render_errata, render_errata_json

MANIFEST = '[course]\ntitle = "Landing"\nauthor = "A"\n\n[[unit]]\ntitle = "U"\nlessons = ["one.md"]\n'
LESSON = """# One

It walks from [A to C sharp](lick:walk@1.1-1.2), then rests.

```lick walk
key: A major
tempo: 100

A | 5:0 - 5:4 - 4:2 - 3:2 -
  rh | d d d d
  lh | 0 3 1 1
D | 4:0 - 4:4 - 3:2 h 3:4 2:3 -
A | 3:2 - - - - - - -
```

```chorus round
over: changes
licks: walk
```

```progression changes
key: A major

A | D | A
```
"""
Compare = Callable[..., Errata]


@pytest.fixture
def errata(tmp_path: Path) -> Compare:
    """Compares the lesson with one in which some texts are exchanged."""

    def read(name: str, text: str) -> tuple[object, object]:
        folder = tmp_path / name
        (folder / "lessons").mkdir(parents=True)
        (folder / "course.toml").write_text(MANIFEST, encoding="utf-8")
        (folder / "lessons" / "one.md").write_text(text, encoding="utf-8")
        course, _ = read_course(folder)
        assert course is not None
        return course, resolve(course)[0]

    def make(*changes: tuple[str, str]) -> Errata:
        later = LESSON
        for old, new in changes:
            assert old in later
            later = later.replace(old, new, 1)
        return compare(*read("old", LESSON), *read("new", later))  # type: ignore[arg-type]

    return make


@pytest.mark.parametrize(
    ("old", "new", "kind", "said"),
    [
        (
            "4:2 - 3:2 -\n",
            "4:2 - 3:3 -\n",
            Kind.MUSIC,
            "string 3, fret 2 (A) is now string 3, fret 3 (B flat)",
        ),
        ("4:2 - 3:2 -\n", "4:2 - 4:7 -\n", Kind.HANDS, "string 3, fret 2 (A) is now string 4, fret 7 (A)"),
        ("lh | 0 3 1 1", "lh | 0 3 1 2", Kind.HANDS, "finger 1 is now 2"),
        ("rh | d d d d", "rh | d d d u", Kind.HANDS, "stroke d is now u"),
        ("5:4 - 4:2", "5:4! - 4:2", Kind.MUSIC, "the accent is put in"),
        ("4:2 - 3:2 -\n", "4:2 - 3:2~ -\n", Kind.MUSIC, "vibrato"),
        ("3:2 h 3:4", "3:2 3:4", Kind.MUSIC, "reached by a hammer-on, now by a new stroke"),
        ("4:2 - 3:2 -\n", "4:2 - 3:2 .\n", Kind.MUSIC, "held for a quarter, now 1/2 of a quarter"),
        ("4:2 - 3:2 -\n", "4:2 - . .\n", Kind.MUSIC, "string 3, fret 2 (A) is taken out"),
        ("D | 4:0", "D7 | 4:0", Kind.MUSIC, "the chord D is now D7"),
        ("lh | 0 3 1 1", "lh | 0 3 1 1\n  signs | * * * fermata", Kind.DRAWING, "printed otherwise"),
    ],
)
def test_each_change_is_told_by_what_it_is(
    errata: Compare, old: str, new: str, kind: Kind, said: str
) -> None:
    """One change, one lick, one bar, one line; the chorus is silent about what its lick says."""
    (change,) = errata((old, new)).licks
    assert (change.name, change.state, change.kind) == ("walk", "changed", kind)
    (bar,) = change.bars
    assert [said in detail.said for detail in bar.details] == [True]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("# One\n", "# One\n\n"),
        ("5:0 - 5:4 -", "5:0  -  5:4 -"),
        ("then rests.", "then rests. A new sentence without notes."),
        ("lh | 0 3 1 1", "lh | 0 3 1 1\n  ; a comment"),
    ],
)
def test_what_is_no_change(errata: Compare, old: str, new: str) -> None:
    """Blanks, comments and words that speak of no notes."""
    assert errata((old, new)).empty


def test_a_row_of_the_second_witness_is_a_claim(errata: Compare) -> None:
    """It sounds and is played as before: told apart from what is only drawn otherwise."""
    (change,) = errata(("lh | 0 3 1 1", "lh | 0 3 1 1\n  names | A C# E A")).licks
    assert change.kind is Kind.CLAIMS
    assert [detail.said for detail in change.bars[0].details][:2] == [
        "beat 1: the names row says A, before *",
        "beat 2: the names row says C#, before *",
    ]


def test_a_bar_put_in_leaves_the_others_alone(errata: Compare) -> None:
    """The bars after it have moved along; only the new one is told, and what is played."""
    found = errata(("A | 3:2 - -", "E7 | 6:0 - - - - - - -\nA | 3:2 - -"))
    change = found.licks[0]
    assert [(bar.old, bar.new) for bar in change.bars] == [(None, 3)]
    assert [field.field for field in change.fields] == ["bars as played"]


def test_fields(errata: Compare) -> None:
    """The tempo is music, the title only drawn."""
    found = errata(("tempo: 100", "tempo: 104\ntitle: The walk"))
    assert [(f.kind, f.field, f.old, f.new) for f in found.licks[0].fields] == [
        (Kind.DRAWING, "title", "Walk", "The walk"),
        (Kind.MUSIC, "tempo", "quarter = 100", "quarter = 104"),
        (Kind.MUSIC, "slow", "quarter = 56", "quarter = 58"),
    ]


def test_a_name_of_its_own(errata: Compare) -> None:
    """A lick under another name is renamed, not new; its links and its chorus follow it."""
    found = errata(
        ("```lick walk", "```lick stroll"), ("lick:walk@", "lick:stroll@"), ("licks: walk", "licks: stroll")
    )
    assert [(change.name, change.state) for change in found.licks] == [
        ("stroll", "renamed"),
        ("round", "changed"),
    ]
    assert found.sentences == ()


def test_the_words(errata: Compare) -> None:
    """A sentence that speaks of notes is told as it was and as it is."""
    (sentence,) = errata(("A to C sharp", "A to C natural")).sentences
    assert (sentence.lick, sentence.old, sentence.new) == (
        "walk",
        "It walks from A to C sharp, then rests.",
        "It walks from A to C natural, then rests.",
    )


def test_text_and_json_say_the_same(errata: Compare) -> None:
    """Both forms carry the change; the JSON has the stated keys."""
    found = errata(("4:2 - 3:2 -\n", "4:2 - 3:3 -\n"), ("then rests", "and rests"))
    told = render_errata(found)
    assert "The music\n  walk: changed\n    bar 1, beat 4: string 3, fret 2 (A) is now" in told
    assert "    was: It walks from A to C sharp, then rests." in told
    shape = json.loads(render_errata_json(found))
    assert set(shape) == {"old", "new", "licks", "sentences", "lessons"}
    (lick,) = shape["licks"]
    assert (lick["kind"], lick["bars"][0]["details"][0]["new"]) == ("music", "1.4")


def test_nothing_changed(errata: Compare) -> None:
    """The same course twice."""
    assert render_errata(errata()).endswith("Nothing has changed.\n")
