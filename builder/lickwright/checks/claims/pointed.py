"""The notes that a link points at."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import ceil, floor

from lickwright.checks.subject import Subject
from lickwright.model.address import Address, AddressRange
from lickwright.model.course import LickLink
from lickwright.model.music import ChordAt, Line, MusicBar, Sound, Tone
from lickwright.theory.chord import Chord


def pitch_classes(tone: Tone) -> frozenset[int]:
    """The pitch classes a tone passes through; a quarter tone counts as the half steps beside it."""
    return frozenset(n % 12 for pitch in tone.path for n in (floor(pitch), ceil(pitch)))


@dataclass(frozen=True, slots=True)
class Heard:
    """A sound of the link, in its bar; ``index`` counts the bars as written."""

    bar: MusicBar
    index: int
    sound: Sound

    @property
    def tones(self) -> tuple[Tone, ...]:
        """Its pitched tones."""
        return tuple(tone for tone in self.sound.tones if tone.path)

    @property
    def pitch_classes(self) -> frozenset[int]:
        """Of all its tones, grace notes left out."""
        return frozenset().union(*map(pitch_classes, self.sound.tones))


@dataclass(frozen=True)
class Pointed:
    """What a link points at.

    Attributes:
        subject: The piece under proof.
        at: The range; None for the whole piece.
        others: The notes of further links that a claim speaks of.
    """

    subject: Subject
    at: AddressRange | None
    others: tuple[Pointed, ...] = ()

    @classmethod
    def of(cls, link: LickLink, subject: Subject) -> Pointed:
        """The notes of a link, whose target is the subject's piece."""
        return cls(subject, link.at)

    def beside(self, *others: Pointed) -> Pointed:
        """The same notes, with those of other links to compare them with."""
        return replace(self, others=others)

    @cached_property
    def voices(self) -> tuple[tuple[Heard, ...], ...]:
        """The sounds, voice by voice, each in the order written; no empty voice."""
        music = self.subject.piece.music
        voices: tuple[list[Heard], list[Heard]] = ([], [])
        for index, bar in enumerate(music.bars):
            if self.at is not None and not self.at.first.bar <= bar.number <= self.at.last.bar:
                continue
            for lower, line in enumerate(bar.lines):
                voices[lower].extend(Heard(bar, index, sound) for sound in self._inside(line))
        return tuple(tuple(voice) for voice in voices if voice)

    def _inside(self, line: Line) -> tuple[Sound, ...]:
        at = self.at
        if at is None:
            return line.sounds
        if at.first.lower and line.sounds and not line.sounds[0].address.lower:
            return ()
        if not at.whole_bars and not at.first.lower and line.sounds and line.sounds[0].address.lower:
            return ()
        return tuple(sound for sound in line.sounds if _within(sound.address, at))

    @cached_property
    def heard(self) -> tuple[Heard, ...]:
        """All sounds, the upper voice first."""
        return tuple(heard for voice in self.voices for heard in voice)

    @property
    def tones(self) -> tuple[tuple[Heard, Tone], ...]:
        """Every pitched tone with its sound."""
        return tuple((heard, tone) for heard in self.heard for tone in heard.tones)

    @cached_property
    def bars(self) -> tuple[MusicBar, ...]:
        """The bars the link reaches into."""
        at = self.at
        bars = self.subject.piece.music.bars
        if at is None:
            return tuple(bar for bar in bars if bar.number > 0) or bars
        return tuple(bar for bar in bars if at.first.bar <= bar.number <= at.last.bar)

    @property
    def address(self) -> Address:
        """Where it begins."""
        if self.at is not None:
            return self.at.first
        return self.heard[0].sound.address if self.heard else Address(1)

    @property
    def single(self) -> bool:
        """Whether it is one sound."""
        return len(self.heard) == 1

    def chords(self, heard: Heard) -> tuple[Chord, ...]:
        """The chords a sound may belong to: in force at its onset, while it lasts, or next within a beat."""
        bars = self.subject.piece.music.bars
        onset = heard.sound.onset
        reach = onset + max(heard.sound.duration, heard.bar.meter.beat)
        found = [heard.bar.chord_at(onset)]
        start = Fraction(0)
        for bar in bars[heard.index :]:
            found.extend(c.symbol for c in bar.chords if onset < start + c.onset <= reach)
            start += bar.length
            if start > reach:
                break
        if start <= reach and self.subject.piece.music.bars:  # the last note leans on the next time round
            found.append(bars[0].chord_at(Fraction(0)))
        return tuple(chord for chord in found if isinstance(chord, Chord))

    @cached_property
    def harmony(self) -> tuple[Chord, ...]:
        """Every chord in force under the link, in order."""
        symbols = (entry.symbol for bar in self.bars for entry in bar.chords if self._under(bar, entry))
        return tuple(symbol for symbol in symbols if isinstance(symbol, Chord))

    def _under(self, bar: MusicBar, entry: ChordAt) -> bool:
        """Whether a chord of a bar sounds under the link."""
        inside = [heard.sound for heard in self.heard if heard.bar is bar]
        if self.at is None or self.at.whole_bars or not inside:
            return True
        begin = min(sound.onset for sound in inside)
        end = max(sound.onset + sound.duration for sound in inside)
        return begin <= entry.onset < end or bar.chord_at(begin) is entry.symbol

    @cached_property
    def around(self) -> tuple[Chord, ...]:
        """The chords of its bars and of the bars beside them."""
        bars = self.subject.piece.music.bars
        places = [heard.index for heard in self.heard] or [0]
        beside = bars[max(min(places) - 1, 0) : max(places) + 2]
        symbols = (entry.symbol for bar in beside for entry in bar.chords)
        return tuple(symbol for symbol in symbols if isinstance(symbol, Chord))


def _within(address: Address, at: AddressRange) -> bool:
    first, last = at.first, at.last
    if not first.bar <= address.bar <= last.bar:
        return False
    number = address.sound or 0
    after = address.bar > first.bar or first.sound is None or number >= first.sound
    before = address.bar < last.bar or last.sound is None or number <= last.sound
    return after and before
