"""Errata: what changed in the music, the hands and the words, told by what it is."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from lickwright.errata import Errata, Kind, compare
from lickwright.errata.bars import say_beat
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
        folder = tmp_path / f"{name}-{len(list(tmp_path.iterdir()))}"
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
        ("4:2 - 3:2 -\n", "4:2 - 3:2 .\n", Kind.MUSIC, "held for a quarter, now for an eighth"),
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
    ]


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("It lies in seventh position.", "It lies in ninth position.", True),
        ("Begin at *fret 5*.", "Begin at *fret 7*.", True),
        ("Two bars lead home.", "Three bars lead home.", True),
        ("Two bars lead home.", "2 bars lead home.", False),
        ("Once more, slowly.", "Twice more, slowly.", False),
    ],
)
def test_words_beside_the_links(
    monkeypatch: pytest.MonkeyPatch, errata: Compare, old: str, new: str, told: bool
) -> None:
    """What numbers a position, a fret, bars is told without a link; other words are not."""
    monkeypatch.setitem(globals(), "LESSON", LESSON.replace("then rests.", f"then rests. {old}"))
    found = errata((old, new))
    bare = [(s.old, s.new, s.lick) for s in found.sentences]
    assert bare == ([(old.replace("*", ""), new.replace("*", ""), "")] if told else [])
    assert ("  One:\n    was: " in render_errata(found)) is told


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


def test_a_number_in_digits_is_no_change_of_words(monkeypatch: pytest.MonkeyPatch, errata: Compare) -> None:
    """``two`` and ``2`` say the same; ``twofold`` is no number, and another number is another word."""
    spelled = LESSON.replace("then rests", "two notes twofold, then rests")
    monkeypatch.setitem(globals(), "LESSON", spelled)
    assert errata(("two notes", "2 notes")).empty
    (sentence,) = errata(("two notes", "3 notes")).sentences
    assert sentence.new == "It walks from A to C sharp, 3 notes twofold, then rests."
    assert not errata(("twofold", "2fold")).empty


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
    assert set(shape) == {"old", "new", "course", "progressions", "licks", "sentences", "lessons", "unread"}
    (lick,) = shape["licks"]
    assert (lick["kind"], lick["bars"][0]["details"][0]["new"]) == ("music", "1.4")


TARGETS = LESSON.replace("then rests.", "then [rests](lick:walk@3) on [the last](lick:walk@1.4).")


@pytest.mark.parametrize(
    ("old", "new", "links"),
    [
        ("lick:walk@1.4", "lick:walk@1.3", [("the last", "walk@1.4", "walk@1.3")]),
        ("lick:walk@1.1-1.2", "lick:walk@2", [("A to C sharp", "walk@1.1-1.2", "walk@2")]),
        ("lick:walk@1.1-1.2", "lick:walk@1.1-1.3", [("A to C sharp", "walk@1.1-1.2", "walk@1.1-1.3")]),
    ],
)
def test_a_link_that_leads_elsewhere_is_told(
    monkeypatch: pytest.MonkeyPatch, errata: Compare, old: str, new: str, links: list[tuple[str, str, str]]
) -> None:
    """The words are as they were, and are claimed of other notes."""
    monkeypatch.setitem(globals(), "LESSON", TARGETS)
    found = errata((old, new))
    (sentence,) = found.sentences
    assert [(link.words, link.old, link.new) for link in sentence.links] == links
    words, was, now = links[0]
    assert f"    “{words}” links to {now}, before to {was}\n" in render_errata(found)
    assert json.loads(render_errata_json(found))["sentences"][0]["links"][0]["new"] == now
    assert found.licks == ()


def test_a_link_that_follows_its_bar_is_no_change(monkeypatch: pytest.MonkeyPatch, errata: Compare) -> None:
    """A bar is put in before it: its number is another, its notes are not."""
    monkeypatch.setitem(globals(), "LESSON", TARGETS)
    put_in = ("A | 5:0 - 5:4", "E7 | 6:0 - - - - - - -\nA | 5:0 - 5:4")
    moved = ("@1.1-1.2", "@2.1-2.2"), ("walk@3", "walk@4"), ("walk@1.4", "walk@2.4")
    assert errata(put_in, *moved).sentences == ()


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (
            "g(3:2) 3:4",
            "g(3:3) 3:4",
            "the grace note string 3, fret 2 (A) is now string 3, fret 3 (A sharp)",
        ),
        (
            "g(3:2) 3:4",
            "g(3:2) s 3:4",
            "the grace note string 3, fret 2 (A), hammered on is now string 3, fret 2 (A), slid on",
        ),
        ("g(3:2) 3:4", "3:4", "the grace note string 3, fret 2 (A) is taken out"),
        ("/2:3", "\\2:3", "the slide into it from below is now from above"),
        ("/2:3", "2:3", "the slide into it from below is taken out"),
        (
            "5:<7>",
            "5:<8>",
            "string 5, harmonic over fret 7 (E) is now string 5, harmonic over fret 8 (no node)",
        ),
    ],
)
def test_what_stands_around_a_note_is_told_from_what_to_what(
    monkeypatch: pytest.MonkeyPatch, errata: Compare, old: str, new: str, said: str
) -> None:
    """Grace notes with their pitches, slides with their way; where no node lies, there is no pitch."""
    bar = "A | 3:2 - - - - - - -\n"
    monkeypatch.setitem(globals(), "LESSON", LESSON.replace(bar, "A | g(3:2) 3:4 - /2:3 - 5:<7> - - -\n"))
    (change,) = errata((old, new)).licks
    assert [detail.said.partition(": ")[2] for detail in change.bars[0].details] == [said]


@pytest.mark.parametrize(
    ("onset", "beat", "said"),
    [
        ("0", "1", "beat 1"),
        ("3/2", "1", "the and of beat 2"),
        ("5/4", "1", "a sixteenth after beat 2"),
        ("4/3", "1", "a triplet eighth after beat 2"),
        ("2", "3/2", "an eighth after beat 2"),
        ("3/2", "3/2", "beat 2"),
        ("1", "2", "the and of beat 1"),
    ],
)
def test_beats_as_they_are_counted(onset: str, beat: str, said: str) -> None:
    """By the beat of the meter, its half as *and*."""
    assert say_beat(Fraction(onset), Fraction(beat)) == said


def test_hands_under_the_head_of_the_music_say_so(errata: Compare) -> None:
    """One bar with another note, one with another finger: the lick stands under the music."""
    found = errata(("lh | 0 3 1 1", "lh | 0 3 1 2"), ("D | 4:0 - 4:4", "D | 4:0 - 4:2"))
    told = render_errata(found)
    assert "The hands" not in told.splitlines()
    assert "    bar 1, beat 4: finger 1 is now 2 (the hands)\n" in told
    assert "fret 2 (E)\n" in told


def test_one_bar_and_several(errata: Compare) -> None:
    """A position of one bar is not one of bars."""
    one = errata(("tempo: 100", "tempo: 100\nposition: 2 (bar 1), 5 (bars 2-3)")).licks[0].fields
    assert [field.new for field in one] == ["2 (bar 1), 5 (bars 2-3)"]


SHARED = """# One

```lick walk
capo: 0

A | 5:0 - 5:4 - 4:2 - 3:2 -
D | 4:0 - (5:2) 4:4 - 3:2 - -
```

```lick walk-again
vary: walk
1.2: 5:2
```

```lick over-changes
over: changes

| 5:0 - 5:4 - 4:2 - 3:2 .
| 4:0 - 4:4 - 3:2 - - -
```

```lick on-its-own
key: D major
tuning: D2 A2 D3 G3 B3 E4
tempo: half = 60

D | 4:0 - 4:4 - 3:2 - - -
```

```chorus round
over: changes
licks: over-changes
```

```progression changes
A | D
```
"""
COURSE = MANIFEST.replace('author = "A"\n', 'author = "A"\nkey = "A major"\nfeel = "straight"\ntempo = 100\n')
GUITAR = '\n[guitar]\ntuning = "E2 A2 D3 G3 B3 E4"\ncapo = 0\n'
Editions = Callable[..., Errata]


@pytest.fixture
def editions(tmp_path: Path) -> Editions:
    """Compares a course with one in which some texts of its manifest or its lesson are exchanged."""

    def make(*changes: tuple[str, str]) -> Errata:
        before = {"course.toml": COURSE + GUITAR, "lessons/one.md": SHARED}
        after = dict(before)
        for old, new in changes:
            (name,) = (name for name, text in after.items() if old in text)
            after[name] = after[name].replace(old, new)
        read = []
        for folder, files in ((tmp_path / "old", before), (tmp_path / "new", after)):
            (folder / "lessons").mkdir(parents=True)
            for name, text in files.items():
                (folder / name).write_text(text, encoding="utf-8")
            course, _ = read_course(folder)
            assert course is not None
            read += [course, resolve(course)[0]]
        return compare(*read)  # type: ignore[arg-type]

    return make


@pytest.mark.parametrize(
    ("old", "new", "told", "licks"),
    [
        (
            '"E2 A2',
            '"D2 A2',
            "tuning: E2 A2 D3 G3 B3 E4 is now D2 A2 D3 G3 B3 E4",
            ("walk", "walk-again", "over-changes", "round"),
        ),
        ("capo = 0", "capo = 2", "capo: 0 is now 2", ("over-changes", "on-its-own", "round")),
        (
            'key = "A major"',
            'key = "A mixolydian"',
            "key: A major is now A mixolydian",
            ("walk", "walk-again", "over-changes", "round"),
        ),
        (
            "tempo = 100",
            "tempo = 96",
            "tempo: 100 is now 96",
            ("walk", "walk-again", "over-changes", "round"),
        ),
        (
            'feel = "straight"',
            'feel = "shuffle"',
            "feel: straight is now shuffle",
            ("walk", "walk-again", "over-changes", "on-its-own", "round"),
        ),
        ('author = "A"', 'author = "B"', "author: A is now B", ()),
    ],
)
def test_a_line_of_the_manifest_is_told_once(
    editions: Editions, old: str, new: str, told: str, licks: tuple[str, ...]
) -> None:
    """The licks that take it from there are named under it, those with a line of their own are not."""
    found = editions((old, new))
    (change,) = found.course
    assert change.licks == licks
    assert found == Errata(found.old, found.new, course=(change,))
    assert f"The course\n  {told}\n" in render_errata(found)


def test_what_else_a_lick_changes_is_still_told(editions: Editions) -> None:
    """A capo for the course, and a fret in one lick: two causes, and neither hides the other."""
    found = editions(("capo = 0", "capo = 2"), ("4:2 - 3:2 .", "4:2 - 3:4 ."))
    assert [change.field.field for change in found.course] == ["capo"]
    (change,) = found.licks
    assert (change.name, change.fields) == ("over-changes", ())
    (bar,) = change.bars
    assert [detail.said for detail in bar.details] == [
        "beat 4: string 3, fret 2 (A) is now string 3, fret 4 (C sharp)"
    ]


def test_a_capo_of_one_lick_is_told_there(editions: Editions) -> None:
    """It stands in the lick, and its variation, which takes it from there, is named."""
    (change,) = editions(("capo: 0", "capo: 2")).licks
    assert (change.name, [f.field for f in change.fields], change.bars) == ("walk", ["capo"], ())
    assert change.licks == ("walk-again",)


def test_a_progression_is_told_once(editions: Editions) -> None:
    """Its bar and chord under its own name; the licks and choruses over it are named, not told again."""
    found = editions(("A | D\n", "A | D7\n"))
    (grid,) = found.progressions
    assert [(bar.new, [d.said for d in bar.details]) for bar in grid.bars] == [(2, ["the chord D is now D7"])]
    assert (grid.name, grid.state, grid.licks) == ("changes", "changed", ("over-changes", "round"))
    assert (found.licks, found.course) == ((), ())
    told = render_errata(found)
    assert (
        "Progressions\n  changes: changed\n    bar 2, the chord D is now D7\n    in over-changes, round\n"
        in told
    )


def test_the_key_of_a_progression_is_its_own(editions: Editions) -> None:
    """A field it gives to what is played over it, as the course does."""
    found = editions(("```progression changes\n", "```progression changes\nkey: A mixolydian\n"))
    (grid,) = found.progressions
    assert [(f.field, f.new) for f in grid.fields] == [("key", "A mixolydian")]
    assert grid.licks == ("over-changes", "round")
    assert found.licks == ()


def test_a_progression_under_another_name(editions: Editions) -> None:
    """It is renamed; what is played over it is not told of that."""
    found = editions(("```progression changes", "```progression turns"), ("over: changes", "over: turns"))
    assert [(grid.name, grid.state) for grid in found.progressions] == [("turns", "renamed")]
    assert found.licks == ()


def test_a_variation_is_silent_about_its_base(editions: Editions) -> None:
    """The bar of the base is told there; what the variation changes itself stays its own."""
    found = editions(("4:4 - 3:2 - -\n```\n\n```lick walk-again", "4:4 - 3:4 - -\n```\n\n```lick walk-again"))
    assert [(change.name, change.licks) for change in found.licks] == [("walk", ("walk-again",))]


def test_a_variation_has_changes_of_its_own(editions: Editions) -> None:
    """Its base is as it was."""
    assert [change.name for change in editions(("1.2: 5:2", "1.2: 4:4")).licks] == ["walk-again"]


def test_the_json_names_where_a_change_shows(editions: Editions) -> None:
    """The manifest and the progressions have lists of their own."""
    shape = json.loads(render_errata_json(editions(("capo = 0", "capo = 2"), ("A | D\n", "A | D7\n"))))
    assert shape["course"] == [
        {
            "kind": "music",
            "field": "capo",
            "old": "0",
            "new": "2",
            "licks": ["over-changes", "on-its-own", "round"],
        }
    ]
    (grid,) = shape["progressions"]
    assert (grid["name"], grid["licks"]) == ("changes", ["over-changes", "round"])


def test_nothing_changed(errata: Compare) -> None:
    """The same course twice."""
    assert render_errata(errata()).endswith("Nothing has changed.\n")
