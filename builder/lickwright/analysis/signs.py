"""Which signs of the page a piece of music uses, each by its name in the legend.

A sign is what a reader has to know to play from the page: of the hands, of the beat, of the form. Clefs, note
values and plain tab figures are taken as known.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.model.music import Line, Music, MusicBar, Sound, Tone, Tuplet
from lickwright.model.slots import JoinKind
from lickwright.model.strike import BendKind, Dead, Hammered, Harmonic, Late, Tapped

_JOINS = {
    JoinKind.HAMMER: "hammer-on",
    JoinKind.PULL: "pull-off",
    JoinKind.SLIDE: "slide",
    JoinKind.SHIFT: "shift-slide",
}
_BENDS = {
    BendKind.UP: "bend",
    BendKind.PRE: "pre-bend",
    BendKind.NUT: "nut-bend",
    BendKind.RELEASE: "release",
}
_STROKES = {"d": "downstroke", "u": "upstroke", "P": "plucking-letters"}


def list_signs(music: Music) -> frozenset[str]:
    """Return the names of all signs of a piece."""
    return frozenset(name for bar in music.bars for name in _of_bar(bar)) | (
        {"position-numeral"} if music.positions else frozenset()
    )


def _of_bar(bar: MusicBar) -> Iterator[str]:
    printed = [chord for chord in bar.chords if not chord.carried]
    if any(chord.symbol.spoken == "no chord" for chord in printed):
        yield "no-chord"
    if any(chord.symbol.spoken != "no chord" for chord in printed):
        yield "chord-symbol"
    if any(chord.stop for chord in printed):
        yield "stop"
    if bar.opens or bar.closes:
        yield "repeat"
    if bar.closes and bar.times > 2:  # twice is what the sign itself says
        yield "repeat-count"
    if bar.endings:
        yield "ending"
    if bar.lower is not None:
        yield "two-voices"
    for line in bar.lines:
        if any(value.sound is not None and value.tied for value in line.values):
            yield "tie"
        if any(isinstance(element, Tuplet) for element in line.elements):
            yield "tuplet"
        yield from _of_line(line)


def _of_line(line: Line) -> Iterator[str]:
    for sound in line.sounds:
        yield from _of_sound(sound)
        for tone in (*sound.tones, *(tone for grace in sound.grace for tone in grace.tones)):
            yield from _of_tone(tone)


def _of_sound(sound: Sound) -> Iterator[str]:
    if sound.joined is not None:
        yield _JOINS[sound.joined]
    if sound.grace:
        dead = all(isinstance(tone.head, Dead) for note in sound.grace for tone in note.tones)
        yield "rake" if dead else "grace-note"
        yield from (_JOINS[note.leads] for note in sound.grace if note.leads is not None)
    marked = {
        "slide-in": sound.slide_in is not None,
        "slide-out": sound.slide_out is not None,
        "accent": sound.accent,
        "short": sound.short,
        "spread": sound.spread,
        "let-ring": bool(sound.ring),
        "palm-mute": bool(sound.mute),
        "position": sound.position is not None,
    }
    yield from (name for name, found in marked.items() if found)
    yield from (sign.rstrip("0123456789") for sign in sound.signs)
    if sound.stroke:
        yield _STROKES[sound.stroke]


def _of_tone(tone: Tone) -> Iterator[str]:
    match tone.head:
        case Dead():
            yield "dead-note"
        case Tapped():
            yield "tap"
        case Hammered():
            yield "hammer-alone"
        case Harmonic(fret, _):
            yield "stopped-harmonic" if fret else "harmonic"
        case Late(bend):
            yield _BENDS[bend.kind]
        case _:
            pass
    yield from (_BENDS[bend.kind] for bend in tone.bends)
    if tone.vibrato:
        yield "vibrato"
    if tone.finger:
        yield "fretting-fingers"
    if tone.hand:
        yield "plucking-letters"
