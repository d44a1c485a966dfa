"""Chords as they are held: read back from their words and their strokes; the shapes every handbook prints."""

from __future__ import annotations

from dataclasses import replace

import pytest
from music21 import pitch
from read_back import dots_of, root_of

from lickwright.drawing.box import bars_of, draw_box, first_fret
from lickwright.drawing.grip import Grip, list_grips
from lickwright.drawing.picture import Picture
from lickwright.instrument.guitar import Guitar
from lickwright.instrument.tuning import parse_tuning

GUITAR = Guitar()

# common practice: open chords and two barres. Frets from the sixth string, as typed, fingers, notes.
HANDBOOK = [
    ("G", "320003", "6:3+5:2+4:0+3:0+2:0+1:3", "210003", "G B D G B G"),
    ("C", "x32010", "5:3+4:2+3:0+2:1+1:0", "32010", "C E G C E"),
    ("D", "xx0232", "4:0+3:2+2:3+1:2", "0132", "D A D F#"),
    ("Am", "x02210", "5:0+4:2+3:2+2:1+1:0", "02310", "A E A C E"),
    ("E7", "020100", "6:0+5:2+4:0+3:1+2:0+1:0", "020100", "E B D G# B E"),
    ("F", "133211", "6:1+5:3+4:3+3:2+2:1+1:1", "134211", "F C F A C F"),
    ("Bbm7", "686666", "6:6+5:8+4:6+3:6+2:6+1:6", "131111", "Bb F Ab Db F Bb"),
]
ROW = {chord: (chord, written, fingers) for chord, _, written, fingers, _ in HANDBOOK}


def grip_of(piece_of, chord: str, written: str, fingers: str, guitar: Guitar = GUITAR) -> Grip:
    piece, _ = piece_of(f"key: C major\n\n{chord} | {written} - - - . . . .\n   lh | {fingers}", guitar)
    found = list_grips(piece.music)
    assert len(found) == 1
    return found[0]


def frets_told(picture: Picture) -> str:
    """The frets from the lowest string as the words tell them."""
    said = ""
    for sentence in picture.said:
        if sentence.startswith("String"):
            rest = sentence.split(": ")[-1]
            said += (
                "x"
                if "not played" in rest
                else "0"
                if rest.startswith("open")
                else rest.split()[1].rstrip(",")
            )
    return said


@pytest.mark.parametrize(("chord", "frets", "written", "fingers", "notes"), HANDBOOK)
def test_the_handbooks_chords(piece_of, chord, frets, written, fingers, notes) -> None:
    """Words and strokes tell the same frets; notes are music21's; the root is ringed."""
    grip = grip_of(piece_of, chord, written, fingers)
    picture = draw_box(grip, GUITAR)
    assert frets_told(picture) == frets
    assert [str(each.name) for each in reversed(grip.held)] == notes.split()
    for each in grip.held:
        low = pitch.Pitch(str(GUITAR.tuning.open(each.string))).midi
        assert pitch.Pitch(str(each.name).replace("b", "-")).pitchClass == (low + each.fret) % 12
    drawn = dots_of(picture)
    xs = sorted({32 + 20 * k for k in range(6)})
    columns = {xs.index(round(x)): round((y - 24) / 26 - 0.5) + first_fret(grip) for x, y, *_ in drawn}
    assert columns == {k: int(f) for k, f in enumerate(frets) if f not in "x0"}
    roots = {xs.index(round(x)) for x, _, kind, _ in drawn if kind == "root"}
    root = chord.removesuffix("m7").removesuffix("m").removesuffix("7")
    sounding = iter(notes.split())
    named = {k: next(sounding) for k, fret in enumerate(frets) if fret != "x"}
    assert roots == {k for k, name in named.items() if name == root and frets[k] != "0"}
    marks = [e.get("class") for e in root_of(picture).iter("path")]
    assert marks.count("mute") == frets.count("x")
    opens = [c for c in root_of(picture).findall("circle") if c.get("fill") == "none"]
    assert len(opens) == frets.count("0")
    slipped = replace(grip, held=(replace(grip.held[0], fret=grip.held[0].fret + 1), *grip.held[1:]))
    assert frets_told(draw_box(slipped, GUITAR)) != frets  # a planted fret is seen


def test_higher_up_the_first_fret_is_numbered(piece_of) -> None:
    """And the nut is left out; low chords have the nut and no number."""
    high = draw_box(grip_of(piece_of, *ROW["Bbm7"]), GUITAR)
    low = draw_box(grip_of(piece_of, *ROW["G"]), GUITAR)

    def number(picture: Picture) -> list[str]:
        return [t.text for t in root_of(picture).iter("text") if t.get("class") == "base"]

    assert (number(high), number(low)) == (["6"], [])
    nuts = ["nut" in {e.get("class") for e in root_of(p).iter("path")} for p in (high, low)]
    assert nuts == [False, True]


def test_a_barre_is_one_finger(piece_of) -> None:
    """Over the strings from its first to its last, and told so."""
    grip = grip_of(piece_of, *ROW["F"])
    assert bars_of(grip) == ((1, 1, 6),)
    assert draw_box(grip, GUITAR).said[-1] == "One finger lies over strings 1 to 6 at the first fret."
    unsaid = replace(grip, held=tuple(replace(each, finger=None) for each in grip.held))
    assert bars_of(unsaid) == ()


def test_left_is_the_mirror_of_right(piece_of) -> None:
    """The sixth string stands on the right; the words are the same."""
    left = replace(GUITAR, hand="left")
    for chord in ("D", "Bbm7"):
        grip = grip_of(piece_of, *ROW[chord])
        one, other = draw_box(grip, GUITAR), draw_box(grip, left)
        turned = sorted((round(one.width - x, 1), y, *rest) for x, y, *rest in dots_of(one))
        assert sorted(dots_of(other)) == turned != sorted(dots_of(one))
        assert one.said == other.said


def test_each_chord_once_and_shapes_with_them(piece_of) -> None:
    """A chord played twice is shown once; a shape that is not played is shown last, by its name."""
    lines = (
        "key: G major\nshape G: 6:3+5:2+4:0+3:0+2:0+1:3\nshape Thumbed: 6:3+4:0+3:0+2:3\n\n"
        "G | G - G - 4:0+3:2 - 4:2+3:2+2:3 -\nD7 | 4:0+3:2+2:1+1:2 - 4:0+3:0+2:0 - 4:4+3:2+2:3 - - -"
    )
    piece, shapes = piece_of(lines)
    titles = [grip.title for grip in list_grips(piece.music, shapes)]
    assert titles == ["G", "Bar 1, sound 4", "D7", "D7", "Thumbed"]


def test_a_chord_without_its_root_says_so(piece_of) -> None:
    """``rootless``: the notes are the chord's, the root is not among them."""
    piece, _ = piece_of("A7 | 4:2+3:0+2:2 - - - . . . .")
    assert [grip.title for grip in list_grips(piece.music)] == ["A7, rootless"]


def test_what_is_no_chord_under_the_hand_is_left_out(piece_of) -> None:
    """Open strings alone, two notes, dead notes and harmonics have no box."""
    piece, _ = piece_of("A7 | 4:0+3:0+2:0 - 4:2+3:2 - 5:x+4:x+3:x - 4:<12>+3:<12>+2:<12> -")
    assert list_grips(piece.music) == ()


def test_other_guitars(piece_of) -> None:
    """Four strings have four columns; the capo is counted in the notes."""
    four = replace(GUITAR, tuning=parse_tuning("E1 A1 D2 G2"), capo=2)
    piece, _ = piece_of("A | 3:2+2:2+1:1 - - - . . . .", four)
    (grip,) = list_grips(piece.music)
    picture = draw_box(grip, four)
    assert frets_told(picture) == "x221"
    assert [str(each.name) for each in grip.held] == ["Bb", "F#", "C#"]
