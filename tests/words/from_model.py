"""The same values a listener holds, from the model: what the words should tell."""

from __future__ import annotations

from fractions import Fraction

from heard import (
    HeardBar,
    HeardBend,
    HeardChord,
    HeardGrace,
    HeardPiece,
    HeardSound,
    HeardTone,
    HeardVoice,
)

from lickwright.analysis.naming import spelled, spelled_graces
from lickwright.model.music import ChordAt, GraceNote, Line, Music, MusicBar, Sound, Tone, Tuplet
from lickwright.model.slots import JoinKind
from lickwright.model.strike import BendKind, Late
from lickwright.theory.chord import Chord
from lickwright.theory.pitch import Pitch, PitchClass

_ACCIDENTALS = {-2: " double flat", -1: " flat", 0: "", 1: " sharp", 2: " double sharp"}
_BENDS = {BendKind.UP: "up", BendKind.PRE: "pre", BendKind.NUT: "nut", BendKind.RELEASE: "release"}


def heard_from(music: Music) -> HeardPiece:
    """What a listener should hold of this music."""
    return HeardPiece(_Reader(music).bars(), tuple(music.bars[index].number for index in music.order))


def _name(note: Pitch | PitchClass) -> str:
    return note.letter + _ACCIDENTALS[note.alter]


class _Reader:
    def __init__(self, music: Music) -> None:
        self.music = music
        self.names = spelled(music)
        self.grace_names = spelled_graces(music)
        self.brackets: dict[tuple[bool, str], list[int]] = {}

    def bars(self) -> tuple[HeardBar, ...]:
        return tuple(self.bar(bar) for bar in self.music.bars)

    def bar(self, bar: MusicBar) -> HeardBar:
        return HeardBar(
            bar.number,
            (bar.meter.count, bar.meter.unit),
            bar.meter_shown,
            bar.length,
            bar.offset,
            tuple(map(_chord, bar.chords)),
            bar.opens,
            bar.closes,
            bar.times,
            bar.endings,
            bar.ending_closed,
            bar.mark,
            next((fret for number, fret in self.music.positions if number == bar.number), None),
            self.voice(bar.upper, lower=False),
            self.voice(bar.lower, lower=True) if bar.lower else None,
        )

    def voice(self, line: Line, *, lower: bool) -> HeardVoice:
        begun = {sound.address for sound in line.sounds}
        held = sum((v.duration for v in line.values if v.sound and v.sound not in begun), Fraction(0))
        rests = tuple((value.onset, value.duration) for value in line.values if value.sound is None)
        tuplets: list[tuple[Fraction, int, int]] = []
        _tuplets(line.elements, tuplets)
        return HeardVoice(held, tuple(self.sound(s, lower) for s in line.sounds), rests, tuple(tuplets))

    def sound(self, sound: Sound, lower: bool) -> HeardSound:
        return HeardSound(
            sound.onset,
            sound.duration,
            sound.joined.value if sound.joined else None,
            tuple(_tone(tone, self.names[sound.address, k]) for k, tone in enumerate(sound.tones, 1)),
            tuple(self.grace(sound, k, grace) for k, grace in enumerate(sound.grace, 1)),
            sound.slide_in.value if sound.slide_in else None,
            sound.slide_out.value if sound.slide_out else None,
            sound.accent,
            sound.short,
            sound.spread,
            sound.stroke,
            tuple(sorted(sound.signs)),
            self.bracket(lower, "ring", sound.ring),
            self.bracket(lower, "mute", sound.mute),
            sound.position,
        )

    def bracket(self, lower: bool, kind: str, number: int) -> int:
        """The number of a bracket counted in its voice alone."""
        met = self.brackets.setdefault((lower, kind), [0])
        if number not in met:
            met.append(number)
        return met.index(number)

    def grace(self, sound: Sound, number: int, grace: GraceNote) -> HeardGrace:
        tones = (
            _tone(tone, self.grace_names[sound.address, number, k]) for k, tone in enumerate(grace.tones, 1)
        )
        return HeardGrace(tuple(tones), grace.leads.value if grace.leads else None)


def _tuplets(elements: tuple[object, ...], into: list[tuple[Fraction, int, int]]) -> None:
    for element in elements:
        if isinstance(element, Tuplet):
            if (element.number, element.normal) != (3, 2):
                into.append((element.onset, element.number, element.normal))
            _tuplets(element.elements, into)


def _chord(at: ChordAt) -> HeardChord:
    chord = at.symbol
    if not isinstance(chord, Chord):
        return HeardChord(at.onset, "", frozenset(), "", at.carried, at.stop, at.pushed)
    bass = _name(chord.bass) if chord.bass else ""
    return HeardChord(at.onset, _name(chord.root), chord.quality.tones, bass, at.carried, at.stop, at.pushed)


def _tone(tone: Tone, names: tuple[Pitch, ...]) -> HeardTone:
    """A name stands where the pitch is no quarter tone; a pre-bend's path begins at its target."""
    late = isinstance(tone.head, Late)
    said = [
        _name(name) if pitch.denominator == 1 else None for name, pitch in zip(names, tone.path, strict=True)
    ]
    pre = bool(tone.bends) and tone.bends[0].kind is BendKind.PRE
    start = None if late or pre or not said else said[0]
    targets = said if pre else said[1:]
    pitches = list(tone.path)
    if pre and tone.fret is not None:
        pitches.insert(0, pitches[0] - tone.bends[0].to + tone.fret)
    bends = tuple(
        HeardBend(
            _BENDS[bend.kind],
            pitches[k + 1] - pitches[k] if len(pitches) > k + 1 else None,
            targets[k] if len(targets) > k else None,
            bend.to,
        )
        for k, bend in enumerate(tone.bends)
    )
    return HeardTone(
        tone.string,
        type(tone.head).__name__.lower(),
        None if late else tone.fret,
        getattr(tone.head, "touch", None),
        start,
        bends,
        tone.vibrato,
        tone.finger,
        tone.hand,
        _begun(tone, late=late),
        tone.rings_through,
    )


def _begun(tone: Tone, *, late: bool) -> str:
    if late:
        return "late"
    if tone.tied:
        return "tied"
    if tone.link is None:
        return "struck"
    return "shifted" if tone.link is JoinKind.SHIFT else "joined"
