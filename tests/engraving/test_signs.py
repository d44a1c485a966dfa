"""Signs in the data = signs drawn."""

import re
from collections import Counter
from dataclasses import replace
from itertools import groupby

import pytest
from drawn import SVG, kinds, parsed
from engraved_licks import EDGES, MUSIC, read
from witness import sounds, tones

from lickwright.engraving.document import document
from lickwright.engraving.engrave import dress, engrave
from lickwright.engraving.overlay.bends import amount
from lickwright.engraving.overlay.families import DRAWN
from lickwright.engraving.renderer import render
from lickwright.model.music import Music
from lickwright.model.orders import Engraved, ScoreOrder, View
from lickwright.model.slots import JoinKind
from lickwright.model.strike import BendKind, Dead, Hammered, Harmonic, Late, Tapped
from lickwright.terms.numbers import roman
from lickwright.terms.signs import TABLE

_LETTERS = {JoinKind.HAMMER: "slot hammer", JoinKind.PULL: "slot pull"}
_WORDS = {
    "tremolo": "tremolo", "swell": "swell", "pinch": "slot pinch", "scrape": "slot scrape",
    "fermata": "fermata", "wide": "wide-vibrato", "rit": "rit",
}  # fmt: skip


def expected(music: Music) -> Counter[str]:
    """How many of each sign the music asks for in the view of both staves, counted from the music alone."""
    wanted: Counter[str] = Counter()
    for sound in sounds(music):
        letters = {_LETTERS[t.link] for t in sound.tones if t.link in _LETTERS and not sound.grace}
        wanted.update(letters)
        for tone in sound.tones:
            if tone.link in (JoinKind.SLIDE, JoinKind.SHIFT):
                wanted["slide"] += 1
            wanted["slot tap"] += isinstance(tone.head, Tapped)
            wanted["slot hammer-on"] += isinstance(tone.head, Hammered)
            for bend in tone.bends:
                kind = {BendKind.RELEASE: "release", BendKind.PRE: "prebend"}.get(bend.kind, "bend")
                wanted[kind] += 1
            for sign, slide in (("slide-in", sound.slide_in), ("slide-out", sound.slide_out)):
                wanted[sign] += 2 if slide else 0
        wanted["slide"] += any(grace.leads is JoinKind.SLIDE for grace in sound.grace)
        wanted["spread"] += sound.spread
        if any(tone.vibrato for tone in sound.tones) and "wide" not in sound.signs:
            wanted["vibrato"] += 1
        for sign in sound.signs:
            if sign.startswith("trill"):
                wanted.update(("trill", "slot trill-frets"))
            elif sign in _WORDS:
                wanted[_WORDS[sign]] += 1
        wanted["artic"] += (sound.stroke in ("d", "u")) + sound.accent + sound.short
    moments = {
        (s.address.bar, s.onset): s for s in sounds(music) if any(t.hand for t in s.tones) or s.stroke == "P"
    }
    wanted["slot hand"] = len(moments)
    wanted["slot finger"] = len(
        {(s.address.bar, s.onset) for s in sounds(music) if any(t.finger for t in s.tones)}
    )
    wanted["let-ring"] = len({sound.ring for sound in sounds(music)} - {0})
    wanted["palm-mute"] = len({sound.mute for sound in sounds(music)} - {0})
    wanted["position"] = sum(fret is not None for fret, _ in groupby(sounds(music), lambda s: s.position))
    chords = [chord for bar in music.bars for chord in bar.chords if not chord.carried]
    wanted["harm"] = len(chords)
    wanted["stop"] = sum(chord.stop for chord in chords)
    wanted["voltaBracket"] = sum(bool(bar.endings) for bar in music.bars)
    wanted["slot times"] = sum(bar.closes and bar.times > 2 for bar in music.bars)
    return +wanted


UNCOUNTED = {
    *("hammer", "pull", "tap", "hammer-on", "pinch", "scrape", "trill-frets", "hand", "finger"),
    *("times", "swing", "reh", "ending", "slur", "hold", "bent-line", "mark"),
}  # fmt: skip
"""Drawn as words, counted as such; by Verovio; or as often as the engraver finds it needed."""


def differences(engraved: Engraved, music: Music) -> dict[str, tuple[int, int]]:
    """Signs that are not drawn as often as the music asks: ``(drawn, wanted)``."""
    drawn, wanted = kinds(engraved), expected(music)
    watched = set(wanted) | set(DRAWN) - UNCOUNTED
    return {
        kind: (drawn[kind], wanted[kind])
        for kind in sorted(watched)
        if drawn[kind] != wanted[kind] and not (kind in ("tremolo", "nested-tuplet") and not wanted[kind])
    }


@pytest.mark.parametrize("width", ["wide", "narrow"])
@pytest.mark.parametrize("name", MUSIC)
def test_every_sign_of_the_music_is_drawn(name: str, width: str) -> None:
    """Nothing is dropped, nothing drawn twice, whatever the line breaks."""
    assert not differences(engrave(ScoreOrder(MUSIC[name], "x", width)), MUSIC[name])


def test_the_torture_lick_has_every_sign() -> None:
    """The counts above are tried on something of every kind."""
    silent = {"down-stroke", "up-stroke", "accent", "short"}  # of a tab alone
    wanted = expected(MUSIC["torture"])
    watched = set(DRAWN) - UNCOUNTED - {"nested-tuplet"}
    assert watched - silent <= set(wanted) | {"fermata"}


def inked(word: str, view: View) -> bool:
    """Whether a word of the signs row changes what is drawn of a note (``scrape``: of a dead one)."""
    head = "x" if word == "scrape" else "2"
    plain, signed = (read(f"\nA | 3:{head} - - - 3:5 - - -\n   signs | {entry} *\n") for entry in ("*", word))
    return differs(*(ink(engrave(ScoreOrder(music, "x", "wide", view))) for music in (plain, signed)))


def ink(engraved: Engraved) -> Counter[str]:
    """Every path, line, glyph and text of a picture, whatever its place."""
    svg = "".join(system.svg for system in engraved.systems)
    found = Counter(re.findall(r"<(path|polygon|rect|ellipse|use|polyline)\b", svg))
    found.update(text for text in re.findall(r">([^<>]+)</t(?:span|ext)>", svg) if text.strip("\u00a0 "))
    return found


def differs(before: Counter[str], after: Counter[str]) -> bool:
    """Whether there is ink after that was not there before."""
    return bool(after - before)


@pytest.mark.parametrize("view", ["both", "tab", "staff"])
@pytest.mark.parametrize("word", [sign.example for sign in TABLE])
def test_every_word_of_the_signs_row_has_ink(word: str, view: View) -> None:
    """A word of the table that is not drawn in some view fails here."""
    assert inked(word, view)


def test_a_note_without_a_sign_has_no_ink_of_one() -> None:
    """The comparison above does not hold by itself: nothing said draws nothing more."""
    assert not inked("*", "both")


def test_a_sign_that_is_not_drawn_is_caught() -> None:
    """Each planted loss of one planned sign is noticed in the picture."""
    music = MUSIC["torture"]
    made = document(music, "both")
    pages, said = render(made.mei, "wide")
    order = ScoreOrder(music, "x")
    for kind in ("bend", "release", "slide", "let-ring", "swell", "stop", "wide-vibrato"):
        lost = next(sign for sign in made.signs if sign.kind == kind)
        less = replace(made, signs=tuple(sign for sign in made.signs if sign is not lost))
        assert kind in differences(dress(order, less, pages, said), music)


def test_digits_say_what_the_hands_do() -> None:
    """Dead notes are crosses, harmonics in angles, what is not struck or hardly heard in brackets."""
    drawn = {
        note.get("id"): "".join(note.itertext())
        for root in parsed(engrave(ScoreOrder(MUSIC["torture"], "x")))
        for note in root.iter(SVG + "g")
        if note.get("id")
    }
    for local, sound, tone, _ in tones(MUSIC["torture"]):
        if tone.tied:
            continue
        digit = drawn[f"w-x-t{local}"].strip()
        match tone.head:
            case Dead():
                wanted = "×"
            case Harmonic(0, touch):
                wanted = f"⟨{touch}⟩"
            case Harmonic(fret, touch):
                wanted = f"{fret}⟨{touch}⟩"
            case Late():
                wanted = f"({tone.fret})"
            case _:
                wanted = f"({tone.fret})" if "ghost" in sound.signs else str(tone.fret)
        assert digit == wanted


def test_a_tab_alone_has_stems_strokes_and_accents() -> None:
    """Without a staff the tab carries the rhythm and the signs of the right hand itself."""
    drawn = kinds(engrave(ScoreOrder(MUSIC["torture"], "x", "wide", "tab")))
    assert drawn["stem"] > 50
    assert drawn["notehead"] == 0
    strokes = [sound.stroke for sound in sounds(MUSIC["torture"])]
    assert (drawn["down-stroke"], drawn["up-stroke"]) == (strokes.count("d"), strokes.count("u"))
    assert drawn["accent"] == drawn["short"] == 1
    assert drawn["fermata"] == 1


def test_a_staff_alone_has_the_signs_of_both_hands() -> None:
    """Without a tab brackets, letters and slides stand at the staff."""
    drawn = kinds(engrave(ScoreOrder(MUSIC["torture"], "x", "wide", "staff")))
    assert drawn["let-ring"] == 2
    assert drawn["palm-mute"] == drawn["wide-vibrato"] == 1
    assert drawn["gliss"] == 3
    assert drawn["tabGrp"] == 0


def test_a_bracket_over_a_line_break_is_drawn_in_two_pieces() -> None:
    """At one bar a line, let ring goes on in the next system."""
    engraved = engrave(ScoreOrder(MUSIC["torture"], "x", "narrow"))
    assert sum(system.svg.count('class="sign let-ring continued"') for system in engraved.systems) == 1


def test_signs_over_a_line_break_are_drawn_in_two_pieces() -> None:
    """Brackets, slides, holds and bent lines are parted, not dropped, where a line ends.

    Without its first bar the lines end at the other bar lines.
    """
    text = EDGES["over the line"]
    continued: Counter[str] = Counter()
    for music in (read(text), read(text.replace("G | 3:0 - - - - - - 3:2 h\n", ""))):
        engraved = engrave(ScoreOrder(music, "x", "narrow"))
        assert not differences(engraved, music)
        for system in engraved.systems:
            continued.update(re.findall(r'class="sign ([a-z-]+) continued"', system.svg))
    assert continued.keys() == {
        "slide", "hold", "bent-line", "let-ring", "palm-mute", "position", "vibrato",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("half_steps", "words"),
    [
        ("1/2", "¼"),
        ("1", "½"),
        ("3/2", "¾"),
        ("2", "full"),
        ("3", "1½"),
        ("4", "2"),
        ("5", "2½"),
        ("-2", "full"),
    ],
)
def test_bends_are_counted_in_whole_steps(half_steps: str, words: str) -> None:
    """Amounts as printed (common practice)."""
    from fractions import Fraction

    assert amount(Fraction(half_steps)) == words


@pytest.mark.parametrize(
    ("fret", "numeral"), [(0, ""), (1, "I"), (4, "IV"), (9, "IX"), (12, "XII"), (14, "XIV"), (19, "XIX")]
)
def test_positions_are_roman(fret: int, numeral: str) -> None:
    """Positions in Roman numerals (common practice)."""
    assert roman(fret) == numeral


def test_a_chord_keeps_its_accent_beside_its_stroke() -> None:
    """Stroke and accent of a chord are both drawn; the form that loses one is caught."""
    music = read("key: A minor\n\nAm | 4:2+3:2! - - - - - - -\n   rh | d\n")
    made, order = document(music, "both"), ScoreOrder(music, "x")
    lossy = re.sub(
        r'<chord ([^>]*)>(.*?)<artic (artic="[^"]*")/></chord>', r"<chord \1 \3>\2</chord>", made.mei
    )
    assert lossy != made.mei
    assert not differences(engrave(order), music)
    assert "artic" in differences(dress(order, made, *render(lossy, "wide")), music)
