"""The neck: frets by the luthier's rule, mirrored for the left hand, dots clear of each other."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from read_back import dots_of, root_of, told

from lickwright.drawing.block import block_picture
from lickwright.drawing.neck import fret_places
from lickwright.drawing.picture import Picture
from lickwright.drawing.window import Window, window_around, window_of
from lickwright.instrument.guitar import Guitar
from lickwright.instrument.tuning import parse_tuning
from lickwright.model.address import AddressRange
from lickwright.model.blocks import NeckBlock
from lickwright.theory.key import parse_key
from lickwright.theory.pitch import PitchClass

GUITAR = Guitar()
LEFT = replace(GUITAR, hand="left")
KEY = parse_key("A major")
LUTHIER = 17.817
"""The rule of the luthiers: a fret takes the 17.817th part of what is left of the string."""
RING = 13.75
"""Half the widest dot, its stroke included."""


def neck(what: str, name: str, guitar: Guitar = GUITAR, **said: object) -> Picture:
    picture = block_picture(NeckBlock(show=(what, name), **said), guitar, KEY)
    assert picture is not None
    return picture


def shrinking(widths: list[float]) -> list[float]:
    """By how much each fret space is narrower than the one before, as its part of the string."""
    return [1 / (1 - after / before) for before, after in pairwise(widths)]


@pytest.mark.parametrize("capo", [0, 4])
@pytest.mark.parametrize(("low", "high"), [(0, 12), (0, 22), (5, 9), (12, 17)])
def test_frets_lie_by_the_luthiers_rule(low: int, high: int, capo: int) -> None:
    """Each space is narrower than the last by a 17.817th, wherever the window begins."""
    guitar = replace(GUITAR, capo=capo, frets=26)
    places = list(fret_places(guitar, Window(low, high, 1, 6)).values())
    widths = [after - before for before, after in pairwise(places)]
    assert shrinking(widths) == pytest.approx([LUTHIER] * (len(widths) - 1), rel=1e-3)
    assert places[0] == 0
    even = [widths[0], widths[0] * 0.999]
    assert shrinking(even) != pytest.approx([LUTHIER], rel=1e-3)  # even spacing is seen


WINDOWS = st.tuples(st.integers(0, 24), st.integers(0, 24)).map(lambda pair: (min(pair), max(pair)))


@given(
    frets=WINDOWS,
    chord=st.sampled_from(["A7", "C#m7", "Bbmaj7", "F#dim7", "E9"]),
    hand=st.sampled_from(["right", "left"]),
    capo=st.integers(0, 7),
)
def test_dots_are_clear_of_each_other(frets: tuple[int, int], chord: str, hand: str, capo: int) -> None:
    """No ring touches another, and all lie inside the picture, in every window."""
    picture = neck("chord", chord, replace(GUITAR, hand=hand, capo=capo), frets=frets)
    dots = dots_of(picture)
    _, _, width, height = map(float, root_of(picture).get("viewBox").split())
    assert all(RING <= x <= width - RING + 0.1 and RING <= y <= height for x, y, *_ in dots)
    assert all(abs(a[0] - b[0]) >= 2 * RING or abs(a[1] - b[1]) >= 2 * RING for a, b in combinations(dots, 2))
    assert len(dots) == len(told(picture))


def test_left_is_the_mirror_of_right() -> None:
    """Each stroke of the one lies in the other as far from the other side; words are the same."""
    right, left = neck("chord", "A7", frets=(0, 5)), neck("chord", "A7", LEFT, frets=(0, 5))
    turned = sorted((round(right.width - x, 1), y, *rest) for x, y, *rest in dots_of(right))
    assert sorted((round(x, 1), y, *rest) for x, y, *rest in dots_of(left)) == turned
    assert sorted(dots_of(right)) != turned
    assert left.said == right.said
    assert left.title == right.title + ", left-handed"
    written = [
        sorted((float(t.get("x")) if p is right else round(p.width - float(t.get("x")), 1), t.text)
               for t in root_of(p).iter("text") if t.get("class") == "at")
        for p in (right, left)
    ]  # fmt: skip
    assert written[0] == written[1]


def test_words_tell_what_is_drawn() -> None:
    """String and fret of each dot, read from the words, are where it is drawn."""
    picture = neck("scale", "A blues", frets=(2, 9), labels="names")
    frets = fret_places(GUITAR, Window(2, 9, 1, 6))
    ys = sorted({y for _, y, *_ in dots_of(picture)})
    origin = picture.width - 10 - max(frets.values())
    drawn = set()
    for x, y, _, label in dots_of(picture):
        fret = next(f for f in frets if f - 1 in frets and frets[f - 1] < x - origin < frets[f])
        drawn.add((ys.index(y) + 1, fret, label))
    words = {(s, f, n.replace(" flat", "♭").replace(" sharp", "♯")) for s, f, n in told(picture)}
    assert drawn == words
    assert all(GUITAR.midi(s, f) % 12 == PitchClass.parse(n).semitone for s, f, n in words)


def test_what_is_empty_is_said() -> None:
    """A string without a note is told, too."""
    picture = neck("notes", "F", frets=(1, 1))
    assert picture.said[1] == "String 2: nothing."
    assert picture.said[0] == "String 1: fret 1, F."
    assert picture.legend == ""


def test_shapes_are_told_apart_without_colour() -> None:
    """A root has two outlines, a tone one disc, a blue note a diamond; the legend names them."""
    picture = neck("scale", "A blues", frets=(5, 8))
    drawn = {
        group.get("class"): [(e.tag, e.get("fill") or "ink") for e in group if e.tag != "text"]
        for group in root_of(picture).iter("g")
    }
    assert drawn == {
        "dot root": [("circle", "#fff"), ("circle", "ink")],
        "dot tone": [("circle", "ink")],
        "dot blue": [("path", "#fff")],
    }
    assert picture.legend.split(". ") == [
        "Ringed: the root",
        "Filled: the other notes of the scale",
        "Diamond: the blue note.",
    ]


def test_inlays_nut_and_capo() -> None:
    """Inlays count from the nut, not the capo; the capo stands for the nut and is named."""

    def inlays(picture: Picture) -> int:
        return sum(e.get("class") == "inlay" for e in root_of(picture).iter("circle"))

    assert inlays(neck("chord", "A", frets=(0, 12))) == 4 + 2
    assert inlays(neck("chord", "A", frets=(0, 3))) == 1
    capo = neck("chord", "A", replace(GUITAR, capo=2), frets=(0, 3))
    assert inlays(capo) == 2  # frets 1 and 3 from the capo are the third and the fifth
    assert "capo 2" in [t.text for t in root_of(capo).iter("text")]
    assert "nut" not in {e.get("class") for e in root_of(neck("chord", "A", frets=(5, 8))).iter("path")}
    assert "nut" in {e.get("class") for e in root_of(capo).iter("path")}


def test_any_tuning_has_its_names() -> None:
    """The strings are named from the first, in the window alone."""
    guitar = replace(GUITAR, tuning=parse_tuning("D2 A2 D3 F#3 A3 D4"))
    picture = neck("chord", "D", guitar, frets=(5, 7), strings=(2, 4))
    names = [t.text for t in root_of(picture).iter("text") if t.get("class") == "at"]
    assert names == ["A", "F♯", "D", "5", "6", "7"]
    assert picture.title == "D chord tones on the neck, frets 5 to 7, strings 2 to 4"


def test_plain_svg(piece_of) -> None:
    """No style, script, id or address; an author's words are escaped; paper is the only fixed colour."""
    piece, _ = piece_of('title: <b> & "so"\n\nA | 5:0 - 4:2 - 3:2 - 2:2 -')
    picture = block_picture(NeckBlock(of="one"), GUITAR, KEY, piece)
    names = {name for element in root_of(picture).iter() for name in element.attrib}
    assert not names & {"style", "id", "href", "onload"}
    assert {e.tag for e in root_of(picture).iter()} <= {"svg", "g", "path", "circle", "text"}
    colours = set(re.findall(r'(?:fill|stroke)="([^"]+)"', picture.svg))
    assert colours == {"currentColor", "none", "#fff"}
    assert root_of(picture).get("aria-label") == '<b> & "so" on the neck, frets 0 to 4'


def test_a_lick_on_the_neck(piece_of) -> None:
    """Each place once; a root over one chord and a tone of another is a tone; bars choose."""
    lines = "A7 | 5:0 5:4 4:2 4:5  3:2 - 2:x -\n   lh | 0 3 1 4 1 *\nD7 | 5:0 - 4:0 - 3:2 - - -"
    piece, _ = piece_of(lines)
    picture = block_picture(NeckBlock(of="one"), GUITAR, KEY, piece)
    assert [(s, f, n) for s, f, n in told(picture)] == [
        (3, 2, "A"),
        (4, 0, "D"),
        (4, 2, "E"),
        (4, 5, "G"),
        (5, 0, "A"),
        (5, 4, "C sharp"),
    ]
    kinds = {label: kind for _, _, kind, label in dots_of(picture)}
    assert kinds == {"A": "tone", "D": "root", "E": "tone", "G": "tone", "C♯": "tone"}
    assert "A, the root over A seven, the fifth over D seven, finger 1" in picture.said[2]
    one = block_picture(NeckBlock(of="one", bars=AddressRange.parse("2")), GUITAR, KEY, piece)
    assert one.title == "One, bar 2 on the neck, frets 0 to 4"
    assert len(told(one)) == 3


def test_a_clash_is_open(piece_of) -> None:
    """B flat over A has no part in the chord; nor has anything over no chord."""
    piece, _ = piece_of("A7 | 3:3 - 3:2 - 5:0 - - -")
    picture = block_picture(NeckBlock(of="one"), GUITAR, KEY, piece)
    assert {label: kind for _, _, kind, label in dots_of(picture)}["A"] == "root"
    assert "other" in {kind for _, _, kind, _ in dots_of(picture)}
    assert picture.legend.endswith("Open: outside its chord, once at least.")


def test_a_harmonic_lies_where_it_is_touched(piece_of) -> None:
    """Over its node, not on the open string; a stopped one at its fret."""
    piece, _ = piece_of("A | 5:<12> - 4:<5> - 3:2<14> - 2:2 -")
    picture = block_picture(NeckBlock(of="one"), GUITAR, KEY, piece)
    assert [(s, f) for s, f, _ in told(picture)] == [(2, 2), (3, 2), (4, 5), (5, 12)]
    assert "fret 12, A, the root over A major, as a harmonic" in picture.said[4]
    assert "harmonic" not in picture.said[1]


def test_windows() -> None:
    """The first octave, or the frets around what is played, as far as the neck goes."""
    assert window_of(GUITAR) == Window(0, 12, 1, 6)
    assert window_of(replace(GUITAR, frets=10)) == Window(0, 10, 1, 6)
    assert window_around(GUITAR, [5, 7, 9]) == Window(5, 9, 1, 6)
    assert window_around(GUITAR, [0, 7]) == Window(0, 7, 1, 6)
    assert window_around(GUITAR, [2, 3]) == Window(0, 4, 1, 6)
    assert window_around(GUITAR, [0]) == Window(0, 4, 1, 6)
    assert window_around(GUITAR, [21]) == Window(21, 22, 1, 6)


def test_nothing_is_drawn_of_what_was_not_read() -> None:
    """No chord, no lick: no picture."""
    assert block_picture(NeckBlock(), GUITAR, KEY) is None
    assert block_picture(NeckBlock(show=("chord", "N.C.")), GUITAR, KEY) is None
    assert block_picture(NeckBlock(of="nobody"), GUITAR, KEY) is None
