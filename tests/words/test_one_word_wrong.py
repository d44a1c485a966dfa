"""One word changed in what is said, and the music heard is another: no word is idle, no fault unheard."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from from_model import heard_from
from spoken import Said, pieces, said, unheard, with_text

if TYPE_CHECKING:
    from lickwright.model.music import Music

PLANTED = (  # what is changed, piece, from, to, the field in which it shows (or: misheard)
    ("string", "bends-by-amount", "string 2 fret 15", "string 3 fret 15", "string"),
    ("fret", "slides", "string 3 fret 2, A", "string 3 fret 3, A", "fret"),
    ("open string", "slurs", "string 4 open", "string 4 fret 1", "fret"),
    ("note", "slides", "fret 4, B", "fret 4, C", "note"),
    ("accidental", "tuplets", "C sharp", "C", "note"),
    ("dead", "dead-and-ghost", "string 5 dead", "string 5 open", "head"),
    ("tap", "taps", "tapped at fret 12", "hammered at fret 12 without a stroke", "head"),
    ("hammer", "slurs", "string 4 hammered at fret 5 without a stroke", "string 4 tapped at fret 5", "head"),
    ("touch", "harmonics", "over fret 3.2", "over fret 2.7", "touch"),
    ("stopped harmonic", "harmonics", "string 4 fret 2, harmonic", "string 4 fret 3, harmonic", "fret"),
    ("bend", "bends-by-amount", "bend a half step to E flat", "let down a half step to E flat", "kind"),
    ("pre-bend", "bends-before-the-stroke", "bent beforehand", "bend", "kind"),
    ("behind the nut", "bends-before-the-stroke", "bend behind the nut", "bend", "kind"),
    ("how far", "bends-by-amount", "bend a quarter step", "bend a half step", "steps"),
    ("bent to", "bends-by-amount", "half step to E flat", "half step to D sharp", "note"),
    ("sounds as", "bends-by-amount", "as at fret 17 and a half", "as at fret 17", ".to"),
    ("let down", "bends-down-again", ", let down a whole step to D, as at fret 15; half", "; half", "bends"),
    ("late", "bends-down-again", "string 2 still sounding", "string 2 fret 15, D", "head"),
    ("vibrato", "vibrato", "A, vibrato; half", "A; half", "vibrato"),
    ("ringing on", "slurs-in-chords", ", ringing on", "", "begun"),
    ("ringing on, too much", "slurs-in-chords", "fret 2, A with", "fret 2, A, ringing on with", "begun"),
    ("finger", "strokes", "third finger", "fourth finger", "finger"),
    ("no finger", "strokes", "A, no finger", "A, first finger", "finger"),
    ("plucking finger", "strokes", "by the ring finger", "by the middle finger", "hand"),
    ("pick", "strokes", "by the pick", "by the thumb", "hand"),
    ("stroke", "strokes", "down-stroke", "up-stroke", "stroke"),
    ("no stroke", "strokes", "; down-stroke", "", "stroke"),
    ("hammer-on", "slurs", "hammer on to", "slide to", "join"),
    ("pull-off", "slurs", "pull off to", "hammer on to", "join"),
    ("slide", "slides", "slide to", "slide and strike", "join"),
    ("struck", "slides", "slide to ", "", "join"),
    ("grace note", "grace-notes", "grace note string 2 fret 3", "grace note string 2 fret 2", "grace"),
    ("grace's lead", "grace-notes", "hammered into the next", "slid into the next", "leads"),
    ("grace struck", "grace-notes", ", slid into the next", "", "leads"),
    ("slid into", "slides", "slid into from below", "slid into from above", "slide_in"),
    ("slid out of", "slides", "slid out of upwards", "slid out of downwards", "slide_out"),
    ("accent", "attacks", "; accent", "", "accent"),
    ("short", "attacks", "; short", "; accent", "short"),
    ("spread", "attacks", "; spread from low to high", "", "spread"),
    ("tremolo", "words-over-notes", "; tremolo", "", "signs"),
    ("trill", "words-over-notes", "trill with fret 8", "trill with fret 10", "signs"),
    ("swell", "words-over-notes", "; swell", "; tremolo", "signs"),
    ("fermata", "words-over-notes", "; fermata", "", "signs"),
    ("slower", "words-over-notes", "; slower from here to the end", "", "signs"),
    ("pinch", "harmonics", "; pinch harmonic", "", "signs"),
    ("wide vibrato", "vibrato", "; wide vibrato", "", "signs"),
    ("scraped", "dead-and-ghost", "; scraped", "", "signs"),
    ("ghost", "dead-and-ghost", "; ghost note", "", "signs"),
    ("let ring from", "mute-and-ring", "; let ring from here", "", "misheard"),
    ("let ring to", "mute-and-ring", "; let ring to here", "", "misheard"),
    ("palm mute", "mute-and-ring", "palm mute from here", "let ring from here", "misheard"),
    ("bracket moved", "mute-and-ring", "; palm mute from here. 1 and: string 6 fret 5, A",
     ". 1 and: string 6 fret 5, A; palm mute from here", "mute"),
    ("position", "positions", "fifth position", "sixth position", "misheard"),
    ("claimed position", "landing-lights", "second position", "third position", "position"),
    ("beat", "values", "Beat 3", "Beat 4", "onset"),
    ("part of the beat", "values", "1 e:", "1 a:", "onset"),
    ("share of the beat", "tuplets", "1 plus 1/3", "1 plus 1/6", "onset"),
    ("length", "values", "dotted eighth", "eighth", "duration"),
    ("uncommon length", "values", "7/4 quarters", "7/2 quarters", "duration"),
    ("usual length", "tuplets", "triplet eighths unless", "eighths unless", "duration"),
    ("length of a rest", "values", "rest; sixteenth", "rest; eighth", "rests"),
    ("a rest", "values", "rest; sixteenth", "string 4 fret 2, E; sixteenth", "sounds"),
    ("held", "ties", "held; eighth", "held; quarter", "held"),
    ("not held", "ties", "the sound before is held", "rest", "held"),
    ("tuplet", "tuplets", "6 in the time of 4", "7 in the time of 4", "tuplets"),
    ("meter", "meters-that-change", "in 3/4", "in 6/8", "meter"),
    ("meter told", "meters-that-change", ", in 2/4", "", "meter"),
    ("bar number", "ties", "Bar 2", "Bar 3", "misheard"),
    ("pickup", "with-a-pickup", "Pickup", "Bar 1", "misheard"),
    ("where it begins", "with-a-pickup", "beginning at beat 4", "beginning at beat 3", "offset"),
    ("length of a bar", "with-a-pickup", "3 quarters long", "4 quarters long", "bars[2].length"),
    ("chord", "chord-symbols", "D major", "E major", "root"),
    ("quality", "chord-symbols", "minor seven flat five", "minor seven", "tones"),
    ("bass", "chord-symbols", "over D,", "over F,", "bass"),
    ("chord's place", "chord-symbols", "at beat 4", "at beat 3", "chords"),
    ("one stroke", "chord-symbols", " (one stroke, then silence)", "", "stop"),
    ("pushed", "chord-symbols", " (pushed)", "", "pushed"),
    ("still", "rolling", " still", "", "carried"),
    ("no chord", "chord-symbols", "over no chord", "over A major", "root"),
    ("repeat", "repeats", ", repeat from here", "", "opens"),
    ("back", "repeats", ", go back at the end", "", "closes"),
    ("times", "repeats", "played 3 times", "played 2 times", "times"),
    ("ending", "repeats", "first ending", "second ending", "endings"),
    ("two endings", "endings-for-two", "first and second ending", "first ending", "endings"),
    ("ending closes", "repeats", ", the ending closes", "", "ending_closed"),
    ("title over the bar", "once-round", "“Rounded”", "“Round”", "mark"),
)  # fmt: skip


def music_named(name: str) -> Music:
    return next(p.music for course in ("every sign", "demo") for p in pieces(course) if p.name == name)


def texts(bars: tuple[Said, ...]) -> Iterator[tuple[int, int | None, str]]:
    """Bar, voice (None: the heading) and text of everything said."""
    for index, bar in enumerate(bars):
        yield index, None, bar.heading
        for voice, (_, line) in enumerate(bar.voices):
            yield index, voice, line


@pytest.mark.parametrize(
    ("name", "old", "new", "shows"),
    [row[1:] for row in PLANTED],
    ids=[row[0] for row in PLANTED],
)
def test_a_planted_fault_is_heard(name: str, old: str, new: str, shows: str) -> None:
    """The first place that says so says something else: the comparison fails, and in that field."""
    music = music_named(name)
    bars = said(music)
    index, voice, text = next(at for at in texts(bars) if old in at[2])
    found = unheard(with_text(bars, index, voice, text.replace(old, new, 1)), heard_from(music))
    assert any(shows in line.partition(": ")[0] for line in found), found


def test_the_voices_are_told_apart() -> None:
    """Upper and lower exchanged, or one of them nameless: heard."""
    music = music_named("bass-under-melody")
    bars = said(music)
    (high, one), (low, two) = bars[0].voices
    for voices in (((high, two), (low, one)), (("", one), (low, two)), ((high, one),)):
        changed = (Said(bars[0].number, bars[0].heading, voices), *bars[1:])
        assert unheard(changed, heard_from(music))


SWAPS = {
    "whole": "half", "half": "quarter", "quarter": "eighth", "eighth": "sixteenth", "sixteenth": "eighth",
    "quarters": "halves", "eighths": "sixteenths", "halves": "quarters", "dotted": "triplet",
    "triplet": "dotted", "e": "and", "and": "a", "a": "and", "sharp": "flat", "flat": "sharp",
    "major": "minor", "minor": "major", "seven": "nine", "first": "second", "second": "third",
    "third": "fourth", "fourth": "third", "fifth": "fourth", "from": "to", "to": "from", "ring": "middle",
    "middle": "index", "thumb": "pick", "below": "above", "above": "below", "upwards": "downwards",
    "downwards": "upwards", "hammer": "pull", "pull": "hammer", "rest": "string 1 open, E", "open": "dead",
}  # fmt: skip
TOKEN = re.compile(r"[0-9]+|[a-z]+|\b[A-G]\b")


def slips(text: str) -> Iterator[str]:
    """A text with one number one higher, one note a letter on, one word for its neighbour; a part out."""
    for found in TOKEN.finditer(text):
        token = found[0]
        if token.isdigit():
            other = str(int(token) + 1)
        elif token.isupper():
            other = "ABCDEFGA"["ABCDEFG".index(token) + 1]
        else:
            other = SWAPS.get(token, "")
        if other:
            yield text[: found.start()] + other + text[found.end() :]
    for mark in ("; ", ". ", ", "):
        parts = text.split(mark)
        for index in range(len(parts)):
            if len(parts) > 1:
                yield mark.join(parts[:index] + parts[index + 1 :])


EVERY = 11
"""A plain run tries one slip in so many; a full run all."""


def slipped(course: str, every: int) -> tuple[int, list[str]]:
    """How many slips were tried, and those that go unheard."""
    tried, missed = 0, []
    for piece in pieces(course):
        bars, meant = said(piece.music), heard_from(piece.music)
        for index, voice, text in texts(bars):
            for slip in slips(text):
                if slip == text.replace(TWICE, ""):
                    continue
                tried += 1
                if tried % every == 0 and not unheard(with_text(bars, index, voice, slip), meant):
                    missed.append(f"{piece.name} {bars[index].number}: {slip}")
    return tried, missed


TWICE = ", played 2 times in all"
"""What anyone takes a repeat for when nothing is said: to leave it out is no slip."""


@pytest.mark.parametrize("course", ["every sign", "guide"])
def test_no_slip_goes_unheard(course: str) -> None:
    """Whatever number or word is slipped, wherever: who listens does not hold the music as it is meant."""
    tried, missed = slipped(course, EVERY)
    assert tried > 5000
    assert missed == []


@pytest.mark.slow
@pytest.mark.parametrize("course", ["every sign", "guide"])
def test_no_slip_at_all_goes_unheard(course: str) -> None:
    """The same, each of them."""
    assert slipped(course, 1)[1] == []
