"""Music without what a renderer does not read, so that such an edit leaves its result as it was made.

A page orders by these: a cache key is made of the music in the order, and only what is in it can make a
score or a sound anew. The tests hold each reduction against the renderer: the same bytes with and without it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from lickwright.instrument.guitar import Guitar
from lickwright.model.fields import Picking
from lickwright.model.music import GraceNote, Line, Music, Sound, Tone
from lickwright.model.orders import Format
from lickwright.model.strike import Slide
from lickwright.theory.key import Key
from lickwright.theory.pitch import PitchClass

_ANY_KEY = Key(PitchClass("C", 0), "major")
_NECK = Guitar()


def for_score(music: Music) -> Music:
    """Return what is drawn.

    The second witnesses (names and degrees) are read by the checks alone; of the guitar only tuning and capo
    are drawn, and a claimed position stands in the sounds it covers.
    """
    guitar = replace(_NECK, tuning=music.guitar.tuning, capo=music.guitar.capo)
    return _each_sound(replace(music, guitar=guitar, positions=(), picking=Picking()), _drawn)


def for_sound(music: Music) -> Music:
    """Return what is heard.

    Pitches are in the tones, so chords, key and names change nothing; nor do fretting fingers and positions.
    How strokes fall is a field of the order. Where the neck ends is heard in a slide up and away alone.
    """
    sounds = [sound for bar in music.bars for line in bar.lines for sound in line.sounds]
    guitar = replace(music.guitar, scale_length=_NECK.scale_length, hand=_NECK.hand)
    if not any(sound.slide_out is Slide.RISING for sound in sounds):
        guitar = replace(guitar, frets=_NECK.frets)
    bars = tuple(replace(bar, chords=(), mark="", meter_shown=False) for bar in music.bars)
    bare = replace(music, key=_ANY_KEY, guitar=guitar, bars=bars, positions=(), picking=Picking())
    return _each_sound(bare, _heard)


def for_exchange(music: Music, format_: Format) -> Music:
    """Return what a file of an exchange format holds.

    Documents hold what is drawn, and which guitar it is for; a MIDI file what is heard, and the key.
    """
    if format_ == "midi":
        return replace(for_sound(music), key=music.key, picking=music.picking)
    drawn = for_score(music)
    return replace(drawn, guitar=replace(drawn.guitar, sound=music.guitar.sound))


def _drawn(tone: Tone) -> Tone:
    return tone if tone.name is tone.degree is None else replace(tone, name=None, degree=None)


def _heard(tone: Tone) -> Tone:
    if tone.name is tone.degree is tone.finger is None:
        return tone
    return replace(tone, name=None, degree=None, finger=None)


def _each_sound(music: Music, tone: Callable[[Tone], Tone]) -> Music:
    heard = tone is _heard

    def grace(note: GraceNote) -> GraceNote:
        return replace(note, tones=tuple(map(tone, note.tones)))

    def sound(full: Sound) -> Sound:
        return replace(
            full,
            tones=tuple(map(tone, full.tones)),
            grace=tuple(map(grace, full.grace)),
            position=None if heard else full.position,
        )

    def line(full: Line) -> Line:
        return replace(full, sounds=tuple(map(sound, full.sounds)))

    bars = tuple(
        replace(bar, upper=line(bar.upper), lower=bar.lower and line(bar.lower)) for bar in music.bars
    )
    return replace(music, bars=bars)
