"""The lines of a piece: the notes of each voice one after the other, as played.

Where a voice has double stops its top notes make one line and its bottom notes another; a note
between them has no melodic neighbours. Repeats are unfolded, so the last note of a repeated bar
has its first as neighbour.

Conventions: times are whole ticks; ``Grid`` turns quarters into ticks exactly. Swing is left out:
it does not change what a note does. The beat of an irregular meter is its shortest group.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import lcm

from lickwright.analysis.changes import Change, change
from lickwright.model.music import Music, MusicBar, Sound, Tone
from lickwright.model.slots import JoinKind
from lickwright.model.strike import BendKind, Dead

AHEAD = 4
"""Notes of the beginning that the end of a loop looks at."""
LOOKED_AHEAD = 2
"""Bars in which they are looked for."""


@dataclass(frozen=True, slots=True)
class Grid:
    """A common measure of all times of a piece: ``ticks`` to the quarter."""

    ticks: int

    def of(self, quarters: Fraction) -> int:
        """Return a time of the piece in ticks."""
        return quarters.numerator * (self.ticks // quarters.denominator)

    def quarters(self, ticks: int) -> Fraction:
        """Return ticks in quarters."""
        return _quarters(ticks, self.ticks)


@lru_cache(maxsize=1024)
def _quarters(ticks: int, quarter: int) -> Fraction:
    """A piece has few lengths, and a fraction is slow to make."""
    return Fraction(ticks, quarter)


@dataclass(slots=True)
class LineNote:
    """A note as harmony sees it, in one line, at one time it is played.

    Attributes:
        sound: The sound it belongs to; ``tone`` which of its tones; ``turn`` which pitch of a bend.
        pitch: MIDI number that is judged. ``curl``: bent, by less than a half step.
        bent: True when a bend of a half step or more brought it here.
        start, end: Ticks from the first note. ``bar``: index into the bars as played.
        weight: Metric weight.
        chord: Index into the changes.
        open: An open string. ``linked``: slurred or slid from the note before.
        lowest: In the lowest line of music that has more than one.
    """

    sound: Sound
    tone: int
    turn: int
    pitch: int
    curl: bool
    bent: bool
    start: int
    end: int
    bar: int
    weight: int
    chord: int
    open: bool
    linked: bool
    lowest: bool = False

    @property
    def key(self) -> tuple[object, int, int]:
        """What it is written as, whichever time it is played."""
        return (self.sound.address, self.tone, self.turn)


@dataclass(frozen=True, slots=True)
class Lines:
    """All lines of a piece, with the changes under them.

    Attributes:
        melodic: Notes with neighbours, a line each.
        inner: Notes between the outer ones of a chord, judged by themselves.
        changes: Chords in order, the first at or before the first note.
        ahead: What each line goes on to when the piece ends with a repeat sign and is played round and
            round; no part of the piece.
    """

    grid: Grid
    beat: int
    melodic: tuple[tuple[LineNote, ...], ...]
    inner: tuple[LineNote, ...]
    changes: tuple[Change, ...]
    ahead: tuple[tuple[LineNote, ...], ...] = ()

    def onward(self, number: int) -> tuple[LineNote, ...]:
        """A line with what it goes on to in a loop."""
        line = self.melodic[number]
        return line + self.ahead[number] if number < len(self.ahead) else line


def line_pitches(tone: Tone) -> tuple[tuple[int, bool, bool], ...]:
    """What harmony judges of a tone: (MIDI pitch, curl, bent), one for each pitch it comes to rest on.

    A bend of a half step or more counts by its target, a release by where it lands; less than that
    is a curl, which counts as the note it is bent from. Dead notes give nothing.
    """
    path = tone.path
    if not path:
        return ()
    if len(path) == 1 and not tone.bends and path[0].denominator == 1:
        return ((path[0].numerator, False, False),)
    unbent = _unbent(tone)
    bent_before = bool(tone.bends) and tone.bends[0].kind is BendKind.PRE
    found: list[tuple[int, bool, bool]] = []
    for pitch in path if bent_before or len(path) == 1 else path[1:]:
        curl = pitch.denominator != 1
        whole = int(min(unbent, pitch)) if curl and abs(pitch - unbent) < 1 else int(pitch)
        if not found or found[-1][0] != whole:
            found.append((whole, curl, pitch != unbent))
    return tuple(found)


def _unbent(tone: Tone) -> Fraction:
    """The pitch of the fret that is held, whatever the string is bent to."""
    if not tone.bends or tone.fret is None:
        return tone.path[0]
    return tone.path[-1] - (tone.bends[-1].to - tone.fret)


def draw_lines(music: Music) -> Lines:
    """Unfold a piece into its lines.

    Args:
        music: Resolved music.

    Returns:
        The lines of every voice and the changes; empty where there are no pitched notes.
    """
    grid = Grid(_common(music.bars))
    draft = _Draft(grid, music.has_lower)
    for index in music.order:
        draft.add(music.bars[index])
    melodic = draft.lines()
    inner = tuple(draft.inner)
    ahead: tuple[tuple[LineNote, ...], ...] = ()
    again = _loop_start(music)
    if again is not None and melodic:
        lengths = [len(line) for line in melodic]
        for index in music.order[again : again + LOOKED_AHEAD]:
            draft.add(music.bars[index])
        ahead = tuple(line[n : n + AHEAD] for line, n in zip(draft.lines(), lengths, strict=False))
    beat = grid.of(min(music.bars[0].meter.beat_groups)) if music.bars else grid.ticks
    return Lines(grid, beat, melodic, inner, tuple(draft.changes), ahead)


def _loop_start(music: Music) -> int | None:
    """Where in the order of playing the lick goes on when it ends with a repeat sign, if it does."""
    order = music.order
    if not order or not music.bars[order[-1]].closes or order[-1] not in order[:-1]:
        return None
    return order.index(order[-1]) + 1


class _Draft:
    """Lines that are being drawn, bar by bar as played."""

    def __init__(self, grid: Grid, two_voices: bool) -> None:
        self.grid = grid
        self.two_voices = two_voices
        self.now = self.played = 0
        self.changes: list[Change] = []
        self.top: dict[bool, list[LineNote]] = {False: [], True: []}
        self.bottom: dict[bool, list[LineNote]] = {False: [], True: []}
        self.parted = {False: False, True: False}
        self.inner: list[LineNote] = []
        self.weights: dict[tuple[int, int], int] = {}

    def add(self, bar: MusicBar) -> None:
        """Play another bar."""
        grid = self.grid
        for chord in bar.chords:
            if not self.changes or not chord.symbol.same_as(self.changes[-1].symbol):
                self.changes.append(change(self.now + grid.of(chord.onset), chord.symbol))
        offset, meter = grid.of(bar.offset), id(bar.meter)
        for line in bar.lines:
            for sound in line.sounds:
                onset = grid.of(sound.onset)
                place = (meter, offset + onset)
                if place not in self.weights:  # looked up by ticks: fractions hash slowly
                    self.weights[place] = bar.meter.weight(sound.onset + bar.offset)
                timing = (self.now + onset, grid.of(sound.duration))
                notes = _notes(sound, timing, self.played, self.weights[place], self.changes)
                if notes:
                    self._place(notes, line is bar.lower)
        self.now += grid.of(bar.length)
        self.played += 1

    def _place(self, notes: list[list[LineNote]], lower: bool) -> None:
        high = low = notes[0]
        if len(notes) > 1:
            high = max(notes, key=lambda turns: turns[0].pitch)
            low = min(notes, key=lambda turns: turns[0].pitch)
            self.parted[lower] = True
            self.inner += [n for turns in notes if turns is not high and turns is not low for n in turns]
        self.top[lower] += high
        self.bottom[lower] += low
        if len(notes) > 1 or (self.two_voices and lower):
            for note in low:
                note.lowest = True

    def lines(self) -> tuple[tuple[LineNote, ...], ...]:
        """The melodic lines: of each voice its top notes, and its bottom notes where it has double stops."""
        found = []
        for lower in (False, True):
            if self.top[lower]:
                found.append(tuple(self.top[lower]))
                if self.parted[lower]:
                    found.append(tuple(self.bottom[lower]))
        return tuple(found)


def _notes(
    sound: Sound, timing: tuple[int, int], played: int, weight: int, changes: list[Change]
) -> list[list[LineNote]]:
    """The notes of a sound, a list a tone; ``timing``: its start and length in ticks."""
    start, length = timing
    notes: list[list[LineNote]] = []
    for number, tone in enumerate(sound.tones):
        pitches = line_pitches(tone)
        if not pitches or isinstance(tone.head, Dead):
            continue
        turns = []
        for turn, (pitch, curl, bent) in enumerate(pitches):
            begin = start + length * turn // len(pitches)
            end = start + length * (turn + 1) // len(pitches)
            chord = _in_force(changes, begin)
            linked = tone.link is not None and tone.link is not JoinKind.SHIFT
            turns.append(
                LineNote(
                    sound,
                    number,
                    turn,
                    pitch,
                    curl,
                    bent and not curl,
                    begin,
                    end,
                    played,
                    weight if turn == 0 else min(weight, 1),
                    chord,
                    tone.fret == 0,
                    linked,
                )
            )
        notes.append(turns)
    return notes


def _in_force(changes: list[Change], at: int) -> int:
    index = len(changes) - 1
    while index > 0 and changes[index].start > at:
        index -= 1
    return index


def _common(bars: Iterable[MusicBar]) -> int:
    denominators = {6}  # a bend and its releases part a note among them
    for bar in bars:
        denominators.update((bar.length.denominator, bar.offset.denominator, bar.meter.beat.denominator * 2))
        denominators.update(chord.onset.denominator for chord in bar.chords)
        for line in bar.lines:
            for sound in line.sounds:
                denominators.update((sound.onset.denominator, sound.duration.denominator))
    return lcm(*denominators)
