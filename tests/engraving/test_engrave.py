"""What an engraved score consists of."""

import hashlib
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from drawn import ids, parsed, places
from engraved_licks import MUSIC, TORTURE, read
from witness import sounds, tones

import lickwright
from lickwright.engraving.document import document
from lickwright.engraving.engrave import dress, engrave
from lickwright.engraving.glyphs import merge_glyphs
from lickwright.engraving.ids import tone_ids
from lickwright.engraving.renderer import render
from lickwright.model.address import Address
from lickwright.model.orders import Engraved, ScoreOrder, View, Width
from lickwright.model.strike import BendKind

SCORES = {
    (name, width, view): engrave(ScoreOrder(MUSIC[name], name.replace(" ", "-"), width, view))
    for name in MUSIC
    for width, view in (("wide", "both"), ("narrow", "both"))
} | {
    (name, "wide", view): engrave(ScoreOrder(MUSIC[name], name.replace(" ", "-"), "wide", view))
    for name in ("torture", "two voices")
    for view in ("tab", "staff")
}
EACH = pytest.mark.parametrize("score", SCORES, ids="-".join)


def missing(name: str, width: Width, view: View, engraved: Engraved) -> set[str]:
    """Ids of tones that are not drawn where they should be."""
    there = set(ids(engraved))
    wanted = set()
    for _, sound, tone, _ in tones(MUSIC[name]):
        k = sound.tones.index(tone) + 1
        staff, tab = tone_ids(name.replace(" ", "-"), sound.address, k, width)
        wanted |= {staff} if view != "tab" else set()
        wanted |= {tab} if view != "staff" and not (tone.tied and view == "both") else set()
    return wanted - there


@EACH
def test_every_tone_is_drawn_in_every_staff(score: tuple[str, Width, View]) -> None:
    """The ids that a page computes from the addresses are all in the SVG."""
    assert not missing(*score, SCORES[score])


def test_a_note_that_is_not_drawn_is_caught() -> None:
    """A planted missing note stops the engraver, and the test's own search finds it too."""
    music = MUSIC["porch"]
    made = document(music, "both")
    order = ScoreOrder(music, "porch")
    pages, said = render(re.sub(r'<note xml:id="t1-2u1"[^>]*/>', "", made.mei), "wide")
    with pytest.raises(ValueError, match="t1-2u1"):
        dress(order, made, pages, said)
    score = SCORES["porch", "wide", "both"]
    spoiled = replace(
        score, systems=tuple(replace(s, svg=s.svg.replace("s1-2u1", "x")) for s in score.systems)
    )
    assert missing("porch", "wide", "both", spoiled) == {"w-porch-s1-2u1"}


@EACH
def test_ids_are_unique_and_prefixed(score: tuple[str, Width, View]) -> None:
    """No id twice, none that is not the order's or a glyph's, none that CSS must escape."""
    found = ids(SCORES[score])
    assert len(found) == len(set(found))
    prefix = f"{score[1][0]}-{score[0].replace(' ', '-')}-"
    assert all(re.fullmatch(rf"g-[0-9A-F]+(-\d+)?|{prefix}[a-z0-9-]+", name) for name in found)


@EACH
def test_the_picture_takes_its_colours_from_the_page(score: tuple[str, Width, View]) -> None:
    """No style, no script, no colour but currentColor, hidden from assistive technology."""
    for system in SCORES[score].systems:
        assert not blemishes(system.svg)
        assert 'aria-hidden="true" focusable="false"' in system.svg
    assert not blemishes(SCORES[score].glyphs)


def blemishes(svg: str) -> list[str]:
    """What must not be in an SVG."""
    colours = re.findall(r' (?:fill|stroke|color)="([^"]*)"', svg)
    found = [colour for colour in colours if colour not in ("none", "currentColor")]
    return found + re.findall(
        r"<style|<script| style=|font-family=\"Leipzig|url\(|xlink|[\ue000-\uf8ff]", svg
    )


@pytest.mark.parametrize("fault", ["<style>", ' style="x"', ' fill="black"', "\uea64", "xlink:href"])
def test_a_blemish_is_caught(fault: str) -> None:
    """The check above sees each of its faults."""
    assert blemishes(SCORES["porch", "wide", "both"].systems[0].svg + fault)


@EACH
def test_every_glyph_used_is_defined(score: tuple[str, Width, View]) -> None:
    """What ``<use>`` points at stands among the definitions, with nothing left over by name."""
    used = {name for system in SCORES[score].systems for name in re.findall(r'href="#([^"]+)"', system.svg)}
    defined = set(re.findall(r'<g id="([^"]+)"', SCORES[score].glyphs))
    assert used == defined


def test_glyphs_are_shared_by_the_scores_of_a_page() -> None:
    """Equal ids have equal content, so that a page needs each once."""
    fragments = [engraved.glyphs for engraved in SCORES.values()]
    content: dict[str, set[str]] = {}
    for fragment in fragments:
        for name, drawn in re.findall(r'<g id="([^"]+)"(.*?)</g>', fragment):
            content.setdefault(name, set()).add(drawn)
    assert all(len(drawn) == 1 for drawn in content.values())
    merged = merge_glyphs(fragments)
    assert re.findall(r'<g id="([^"]+)"', merged) == sorted(content)


@EACH
def test_verovio_has_nothing_to_say(score: tuple[str, Width, View]) -> None:
    """No warning on any of the test licks."""
    assert SCORES[score].warnings == ()


def test_verovios_messages_are_caught() -> None:
    """A planted unknown element comes back as a warning."""
    mei = document(MUSIC["porch"], "both").mei
    _, said = render(mei.replace("<slur ", "<swirl ").replace("</slur>", "</swirl>"), "wide")
    assert any("swirl" in line for line in said)


def askew(engraved: Engraved, name: str) -> list[str]:
    """Tones whose digit is not under their notehead, by more than a sixth of a head.

    Chords are left out, where a second pushes a head aside; so is what sounds while a string rings on.
    """
    at = places(engraved)
    wrong = []
    ringing = False
    for sound in sounds(MUSIC[name]):
        before, ringing = ringing, any(tone.rings_through for tone in sound.tones)
        staff, tab = tone_ids(name.replace(" ", "-"), sound.address, 1)
        if len(sound.tones) == 1 and not before and abs(at[staff] - at[tab]) > 36:
            wrong.append(tab)
    return wrong


@pytest.mark.parametrize("name", MUSIC)
def test_digits_stand_under_their_notes(name: str) -> None:
    """Staff and tab are aligned."""
    assert not askew(SCORES[name, "wide", "both"], name)


def test_a_shifted_digit_is_caught() -> None:
    """A planted shift of one digit is noticed."""
    score = SCORES["porch", "wide", "both"]
    svg = re.sub(
        r'(id="w-porch-t2-3u1".*?<text x=")(\d+)', lambda m: m[1] + str(int(m[2]) + 60), score.systems[0].svg
    )
    spoiled = replace(score, systems=(replace(score.systems[0], svg=svg), *score.systems[1:]))
    assert askew(spoiled, "porch") == ["w-porch-t2-3u1"]


@EACH
def test_bars_are_boxed_from_left_to_right(score: tuple[str, Width, View]) -> None:
    """Every bar once, in order, inside its system, each beginning where the one before ends."""
    name = score[0]
    boxes = [box for system in SCORES[score].systems for box in system.bars]
    assert [box.number for box in boxes] == [bar.number for bar in MUSIC[name].bars]
    for system in SCORES[score].systems:
        edges = [edge for box in system.bars for edge in (box.left, box.right)]
        assert edges == sorted(edges)
        assert 0 < edges[0] < edges[-1] <= 1
        assert all(a.right == b.left for a, b in zip(system.bars, system.bars[1:], strict=False))


@EACH
def test_no_ink_strays_from_its_system(score: tuple[str, Width, View]) -> None:
    """Two staves with all their signs are never higher than 26 staff spaces and a few rows."""
    assert all(1000 < system.height < 6800 for system in SCORES[score].systems)


@EACH
def test_the_view_box_holds_all_ink(score: tuple[str, Width, View]) -> None:
    """No text, no glyph and no bracket lies outside its system, upwards or sideways."""
    for root in parsed(SCORES[score]):
        left, top, width, height = (float(number) for number in root.get("viewBox", "").split())
        for element in root.iter():
            x, y = element.get("x"), element.get("y")
            if y is not None:
                assert top < float(y) < top + height
            if x is not None:
                assert left < float(x) < left + width


def test_marks_ring_the_sounds_of_a_finding() -> None:
    """A marked chord is ringed note by note in both staves, or one of its notes; a marked bar by sounds."""
    one = engrave(ScoreOrder(MUSIC["torture"], "x", marks=(Address(2, 7),)))
    assert sum(system.svg.count('class="sign mark"') for system in one.systems) == 4
    lower = engrave(ScoreOrder(MUSIC["torture"], "x", marks=(Address(2, 7),), tone=1))
    assert sum(system.svg.count('class="sign mark"') for system in lower.systems) == 2
    bar = engrave(ScoreOrder(MUSIC["porch"], "x", marks=(Address(1),)))
    assert sum(system.svg.count('class="sign mark"') for system in bar.systems) == 14


def test_author_text_stays_text() -> None:
    """A title with markup in it is drawn as it is written."""
    music = MUSIC["porch"]
    marked = replace(music, bars=(replace(music.bars[0], mark="<b>&{{x}}\x07</b>"), *music.bars[1:]))
    svg = engrave(ScoreOrder(marked, "x")).systems[0].svg
    assert "&lt;b&gt;&amp;{{x}}&lt;/b&gt;" in svg


def test_another_process_makes_the_same_bytes() -> None:
    """The digest of a whole score is the same in a fresh process with another hash seed."""
    here = Path(__file__).parent
    source = Path(lickwright.__file__).parents[1]
    code = (
        f"import sys; sys.path[:0] = [{str(here)!r}, {str(source)!r}]\n"
        "import hashlib, engraved_licks\n"
        "from lickwright.engraving.engrave import engrave\n"
        "from lickwright.model.orders import ScoreOrder\n"
        "music = engraved_licks.read(engraved_licks.TORTURE)\n"
        "print(hashlib.sha256(repr(engrave(ScoreOrder(music, 'torture'))).encode()).hexdigest())"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env={"PYTHONHASHSEED": "7"}
    )
    ours = engrave(ScoreOrder(read(TORTURE), "torture"))
    assert done.stdout.strip() == hashlib.sha256(repr(ours).encode()).hexdigest()


@pytest.mark.slow
def test_five_hundred_bars_are_engraved() -> None:
    """A very long lick comes out whole."""
    music = read("key: A major\n\n" + "A | 5:0 5:4 4:2 4:4 3:2 - 2:0 2:2\n" * 500)
    engraved = engrave(ScoreOrder(music, "long"))
    assert sum(len(system.bars) for system in engraved.systems) == 500


@pytest.mark.parametrize("slots", ["4:0 4:2 4:4", "4:0 4:2 4:4 3:0 3:2 3:4 2:0 2:2 2:3 2:5 1:0"])
def test_a_bar_of_the_wrong_length_is_engraved_as_written(slots: str) -> None:
    """Short and overfull bars, as a proof sheet shows them, keep all their notes."""
    music = _unchecked(f"key: A major\n\nA | {slots}\n")
    engraved = engrave(ScoreOrder(music, "x"))
    assert sum(name.startswith("w-x-t") for name in ids(engraved)) == len(slots.split())


@pytest.mark.parametrize(
    "slots",
    [
        "7:3 4:500 4:99999999999 4:0",
        "4:99b101r99 9:x 9:3pb5 9:<12> g(9:3) 9:4",
        "2:b17 2:r15 . .",
        "3:0 h 3:9999",
    ],
)
@pytest.mark.parametrize("view", ["both", "tab", "staff"])
def test_slips_of_the_author_do_not_stop_verovio(slots: str, view: View) -> None:
    """Strings and frets that do not exist are drawn somehow: the proof sheet shows the bar as written."""
    music = _unchecked(f"key: A major\n\nA | {slots}\n")
    assert engrave(ScoreOrder(music, "x", "wide", view)).systems


def _unchecked(text: str):
    from engraved_licks import resolve

    return resolve(text)[0]


def test_a_bent_note_has_its_finger_before_it() -> None:
    """On the staff the stopped pitch stands small before the bent one, in brackets when pre-bent."""
    svg = "".join(system.svg for system in SCORES["torture", "wide", "both"].systems)
    bent = [
        local
        for local, _, tone, _ in tones(MUSIC["torture"])
        if tone.bends and tone.struck and tone.bends[0].to.denominator == 1
        and tone.bends[0].kind is not BendKind.RELEASE
    ]  # fmt: skip
    assert len(bent) == 8
    assert all(f'id="w-torture-s{local}b"' in svg for local in bent)
