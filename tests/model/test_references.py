"""Variations, excerpts, choruses, progressions: what is made of other blocks."""

from __future__ import annotations

import pytest

from lickwright.model.timeline import play

BASE = """```lick one
A7 | 5:0 5:4 4:2 s 4:4 3:2 - 2:0 2:2
  lh | 0 3 1 1 1 0 1
  names | A C# E F# A B C#
  degrees | 1 3 5 6 1 2 3
D7 | 3:2 h 3:4 4:4 4:2 5:5 - - -
```
"""
GRID = """```progression porch
A7 | D7
```
"""


def heard(piece) -> list[tuple[str, list[int]]]:
    return [
        (str(p.sound.address), [int(t.path[-1]) for t in p.sound.tones if t.path]) for p in play(piece.music)
    ]


def test_a_variation_changes_only_what_it_says(resolved):
    """Place, time and joins stay; the rows of a changed sound fall silent; a new chord drops its degrees."""
    book, found = resolved(BASE + "```lick two\nvary: one\nover: D7\n1.2: 5:3\n1.7: 2:1\n```\n")
    assert not found
    base, varied = book.piece("one"), book.piece("two")
    assert [str(a) for a in varied.changed] == ["1.2", "1.7"]
    differing = [a for a, b in zip(heard(base), heard(varied), strict=True) if a != b]
    assert [address for address, _ in differing] == ["1.2", "1.7"]
    first = varied.music.bars[0].upper.sounds
    assert [s.tones[0].name for s in first] == ["A", None, "E", "F#", "A", "B", None]
    assert [s.tones[0].degree for s in first] == [None] * 7
    assert [bar.chords[0].symbol.symbol for bar in varied.music.bars] == ["D7", "D7"]


def test_a_variation_may_stand_before_its_base(resolved):
    """Order of writing does not count: degrees over another chord fall silent, for its own variations too."""
    varied = "```lick two\nvary: one\nover: D7\n```\n"
    again = "```lick three\nvary: two\n```\n"
    book, found = resolved(again + varied + BASE)
    assert not found
    for name in ("two", "three"):
        first = book.piece(name).music.bars[0].upper.sounds
        assert [s.tones[0].degree for s in first] == [None] * 7
        assert [s.tones[0].name for s in first] == ["A", "C#", "E", "F#", "A", "B", "C#"]


def test_another_capo_makes_other_notes(resolved):
    """The base's names and degrees are not those of a variation on a guitar tuned otherwise."""
    book, found = resolved(BASE + "```lick two\nvary: one\ncapo: 2\n```\n")
    assert not found
    sounds = book.piece("two").music.bars[0].upper.sounds
    assert {(s.tones[0].name, s.tones[0].degree) for s in sounds} == {(None, None)}
    assert [s.tones[0].finger for s in sounds] == ["0", "3", "1", "1", "1", "0", "1"]


@pytest.mark.parametrize("count", [1200, pytest.param(3000, marks=pytest.mark.slow)])
def test_a_long_chain_of_variations(resolved, count):
    """Variations, each of the one before and more than calls may nest, are resolved once each."""
    chain = "".join(f"```lick v{n}\nvary: {f'v{n - 1}' if n else 'one'}\n```\n" for n in range(count))
    book, found = resolved(BASE + chain)
    assert not found
    assert len(book.pieces) == count + 1


def test_an_excerpt_is_named_for_what_it_shows(resolved):
    """One more excerpt before it does not rename it."""
    shown = "```excerpt\nof: one\nshow: bars 2\n```\n"
    more = "```excerpt\nof: one\nshow: bars 1\n```\n"
    before, _ = resolved(BASE + shown)
    after, _ = resolved(BASE + more + shown + shown)
    assert before.pieces[-1].name == "one@2"
    assert [piece.name for piece in after.pieces[1:]] == ["one@1", "one@2", "one@2@2"]


def test_a_sound_can_be_silenced(resolved):
    """A dot takes the sound out, and its entries with it."""
    book, found = resolved(BASE + "```lick two\nvary: one\n1.5: .\n```\n")
    assert not found
    sounds = book.piece("two").music.bars[0].upper.sounds
    assert [s.tones[0].name for s in sounds] == ["A", "C#", "E", "F#", "B", "C#"]


def test_a_variation_may_have_a_variation(resolved):
    """Changes add up."""
    text = BASE + "```lick two\nvary: one\n1.2: 5:3\n```\n```lick three\nvary: two\n1.1: 6:5\n```\n"
    book, found = resolved(text)
    assert not found
    assert heard(book.piece("three"))[:2] == [("1.1", [45]), ("1.2", [48])]


@pytest.mark.parametrize(
    ("text", "rules"),
    [
        ("```lick a\nvary: b\n```\n```lick b\nvary: a\n```\n", ["course/vary-circle"]),
        ("```lick a\nvary: a\n```\n", ["course/vary-circle"]),
        ("```lick a\nvary: nobody\n```\n", ["course/unknown-lick"]),
        (BASE + "```lick a\nvary: one\n9.1: 5:3\n```\n", ["course/change-address"]),
        (BASE + "```lick a\nvary: one\n1.3: .\n```\n", ["syntax/join"]),
        (BASE + "```lick a\nvary: one\ntuning: G3 B3 D4 E4\n```\n", ["course/vary-strings"]),
        ("```excerpt\nof: nobody\n```\n", ["course/unknown-lick"]),
        ("```neck\nof: nobody\n```\n", ["course/unknown-lick"]),
        (BASE + "```neck\nof: one, bars 8-9\n```\n", ["course/field-bars"]),
        ("```neck\nshow: A7 chord tones, frets 0-30\n```\n", ["syntax/field-value"]),
        ("```neck\nshow: N.C. chord tones\n```\n", ["syntax/field-value"]),
        ("```neck\nshow: A blues, fingers\n```\n", ["syntax/field-value"]),
        ("```neck\nshow: A blues, frets 5-10, fingers\n```\n", ["syntax/field-value"]),
        ("```neck\nshow: A blues, frets 5-9, fingers\n```\n", []),
        ("```neck\nshow: notes C, frets 0-0\n```\n", ["syntax/field-value"]),
        (BASE.replace("\nA7", "\nposition: 2 (bars 5-6)\n\nA7", 1), ["course/field-bars"]),
        (BASE.replace("\nA7", "\nclaims: cascade (bars 2-3)\n\nA7", 1), ["course/field-bars"]),
        (
            BASE
            + GRID
            + "```chorus c\nover: porch\nlicks: one\n```\n```chorus d\nover: porch\nlicks: c\n```\n",
            ["course/unknown-lick"],
        ),
        (BASE + "```excerpt\nof: one\nshow: bars 2-3\n```\n", ["course/excerpt-address"]),
        ("[E](lick:nobody@1.2)\n", ["course/link-target"]),
        (BASE + "\n[E](lick:one@1.9)\n", ["course/link-address"]),
        (BASE.replace("\nA7", "\nover: porch\n\nA7", 1), ["course/unknown-progression"]),
        (
            GRID + "```lick a\nover: porch bars 2-3\n\n | 5:0 - - - - - - -\n```\n",
            ["course/progression-bars"],
        ),
        (GRID + "```lick a\nover: porch bars 1-2\n\n | 5:0 - - - - - - -\n```\n", ["rhythm/over-length"]),
        ("```lick a\nover: D7 D7\n\n | 5:0 - - - - - - -\n```\n", ["rhythm/over-count"]),
        (GRID + "```lick a\nover: porch\nmeter: 3/4\n\n | 5:0 - - - - -\n```\n", ["rhythm/over-meter"]),
        (GRID + "```lick a\nover: porch\n\nA9 | 5:0 - - - - - - -\n```\n", ["harmony/chord-colour"]),
        (GRID + "```lick a\nover: porch\n\nD7 | 5:0 - - - - - - -\n```\n", ["harmony/chord-disagrees"]),
        (GRID + "```lick a\nover: porch\n\n |: 5:0 - - - - - - - :|\n```\n", ["harmony/over-repeat"]),
        (GRID + BASE + "```chorus c\nover: porch\nlicks: one rest 1\n```\n", ["rhythm/chorus-length"]),
        (GRID + BASE + "```chorus c\nover: porch\nslow: 200\nlicks: one\n```\n", ["rhythm/slow-tempo"]),
        (BASE.replace("\nA7", "\nslow: 150\n\nA7", 1), ["rhythm/slow-tempo"]),
        ("```lick a\nvary: nobody\n```\n\n[E](lick:a@1.1)\n", ["course/unknown-lick"]),
        ("```lick a\n | 5:0 - - - - - - -\n```\n", ["harmony/no-chord-stated"]),
    ],
)
def test_references_that_lead_nowhere_are_found(resolved, text, rules):
    """Each with its own finding, none of them stopping the rest."""
    _, found = resolved(text)
    assert [finding.rule for finding in found] == rules


def test_an_excerpt_begins_on_a_struck_sound(resolved):
    """A join's target is struck at the cut; bars keep their numbers, the chord in force is printed."""
    book, found = resolved(BASE + "```excerpt\nof: one\nshow: 1.4-2.2\n```\n")
    assert not found
    music = book.pieces[-1].music
    assert [(bar.number, bar.length) for bar in music.bars] == [(1, 2.5), (2, 1)]
    assert [address for address, _ in heard(book.pieces[-1])] == ["1.4", "1.5", "1.6", "1.7", "2.1", "2.2"]
    first = music.bars[0].upper.sounds[0]
    assert (first.onset, first.joined, first.tones[0].struck) == (0, None, True)
    assert music.bars[0].chords[0].symbol.symbol == "A7"
    assert not music.bars[0].chords[0].carried


def test_a_note_tied_into_an_excerpt_is_struck(resolved):
    """The sound keeps its address, so a link to it goes on working."""
    lick = "```lick one\nA | 5:0 - 4:2 - 3:2 - - -\n  | - - 2:2 - - - - -\n```\n"
    book, _ = resolved(lick + "```excerpt\nof: one\nshow: bars 2\n```\n")
    played = play(book.pieces[-1].music)
    assert [(str(p.sound.address), p.start, p.end) for p in played] == [("1.3", 0, 1), ("2.1", 1, 4)]
    assert book.pieces[-1].music.bars[0].upper.values[0].tied is False


def test_repeats_are_dropped_unless_both_ends_lie_inside(resolved):
    """An excerpt of one bar of a repeat plays once."""
    text = "```lick one\nA |: 5:0 - - - - - - -\n | 4:2 - - - - - - - :|\n```\n"
    half, _ = resolved(text + "```excerpt\nof: one\nshow: bars 2\n```\n")
    whole, _ = resolved(text + "```excerpt\nof: one\nshow: bars 1-2\n```\n")
    assert half.pieces[-1].music.order == (0,)
    assert whole.pieces[-1].music.order == (0, 1, 0, 1)


def test_a_chorus_counts_its_bars_through_all_its_licks(resolved):
    """Licks end to end; the progression's chords; holds point at the sound played before."""
    text = GRID + BASE + "```chorus first\nover: porch\nlicks: one rest 2 one\n```\n"
    book, found = resolved(text)
    assert not found
    chorus = book.piece("first")
    assert [bar.number for bar in chorus.music.bars] == [1, 2, 3, 4, 5, 6]
    assert [bar.chords[0].symbol.symbol for bar in chorus.music.bars] == ["A7", "D7"] * 3
    assert [(s.lick, s.first, s.last) for s in chorus.sections] == [("one", 1, 2), ("one", 5, 6)]
    assert heard(chorus)[12:14] == [("5.1", [45]), ("5.2", [49])]


def test_a_pickup_sounds_in_the_bar_before(resolved):
    """The lick before must leave it room; else the seam is found."""
    pickup = "```lick up\npickup: 1/8\n\n | 5:4\nA7 | 4:2 - - - - - - -\nD7 | 5:5 - - - - - -\n```\n"
    free = "```lick free\nA7 | 5:0 - - - - - - -\nD7 | 4:0 - - - . . . .\n```\n"
    busy = free.replace(". . . .", "4:4 4:2 4:4 4:2").replace("free", "busy")
    book, found = resolved(GRID + pickup + free + "```chorus c\nover: porch\nlicks: free up\n```\n")
    assert not found
    played = [(str(p.sound.address), p.start) for p in play(book.piece("c").music)]
    assert played == [("1.1", 0), ("2.1", 4), ("2.2", 7.5), ("3.1", 8), ("4.1", 12)]
    _, found = resolved(GRID + pickup + busy + "```chorus c\nover: porch\nlicks: busy up\n```\n")
    assert [finding.rule for finding in found] == ["rhythm/seam"]


def test_over_runs_along_the_bars_as_played(resolved):
    """A progression starts again when it is used up; a lick takes its tempo and feel."""
    grid = "```progression p\nfeel: train\ntempo: 90\nkey: D major\n\n|: D | A7 :| x2\n```\n"
    lick = "```lick a\nover: p\n\n | 4:0 - - - - - - -\n | 5:0 - - - - - - -\n | 4:0 - - - - - - -\n```\n"
    book, found = resolved(grid + lick)
    assert not found
    piece = book.piece("a")
    assert [bar.chords[0].symbol.symbol for bar in piece.music.bars] == ["D", "A7", "D"]
    assert (piece.feel, piece.tempo.bpm, piece.slow.bpm, piece.music.key.name) == ("train", 90, 50, "D major")


@pytest.mark.parametrize("block", ["lick two\nvary: oen", "excerpt\nof: oen", "neck\nof: oen"])
def test_a_slip_in_the_name_of_a_lick_gets_the_nearest(resolved, block):
    """As links and choruses say it; where nothing is near, nothing is offered."""
    (finding,) = resolved(BASE + f"```{block}\n```\n")[1]
    assert (finding.rule, finding.help) == ("course/unknown-lick", "Did you mean “one”?")
    (finding,) = resolved(BASE + f"```{block.replace('oen', 'nobody')}\n```\n")[1]
    assert finding.help == ""
