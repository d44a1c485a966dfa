"""A piece in words: a heading and lines for each bar."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING

from lickwright.analysis.naming import spelled, spelled_graces
from lickwright.model.music import Tuplet
from lickwright.terms.numbers import ORDINALS
from lickwright.words.counting import length, lengths, place
from lickwright.words.sounds import sound

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lickwright.model.address import Address
    from lickwright.model.music import ChordAt, Element, Line, Music, MusicBar, Sound


_TRIPLET = 3


@dataclass(frozen=True, slots=True)
class BarInWords:
    """A bar in words.

    Attributes:
        number: As counted in addresses.
        heading: Number, meter, repeats, chords, the commonest length.
        voices: A line each: ``upper voice`` and ``lower voice``, or one without a name.
    """

    number: int
    heading: str
    voices: tuple[tuple[str, str], ...]


def in_words(music: Music) -> tuple[BarInWords, ...]:
    """Return a piece of music in words, bar by bar in written order."""
    teller = _Teller(music)
    return tuple(teller.bar(bar) for bar in music.bars)


class _Teller:
    """What is known of the whole piece while its bars are told."""

    def __init__(self, music: Music) -> None:
        self.names = spelled(music)
        self.grace_names = spelled_graces(music)
        self.positions = dict(music.positions)
        self.marks: dict[Address, list[str]] = {}
        for lower in (False, True):
            lines = [bar.lower if lower else bar.upper for bar in music.bars]
            self._brackets([heard for line in lines if line for heard in line.sounds])

    def _brackets(self, voice: list[Sound]) -> None:
        """Note at which sounds of a voice a bracket begins and ends."""
        for kind in _BRACKETS:
            for value, run in groupby(voice, kind):
                if value is not None:
                    sounds = list(run)
                    self._mark(sounds[0], f"{value[0]} from here")
                    self._mark(sounds[-1], f"{value[0]} to here")

    def _mark(self, heard: Sound, said: str) -> None:
        self.marks.setdefault(heard.address, []).append(said)

    def bar(self, bar: MusicBar) -> BarInWords:
        usual = _usual(bar)
        voices = [("", bar.upper)]
        if bar.lower is not None:
            voices = [("Upper voice", bar.upper), ("Lower voice", bar.lower)]
        return BarInWords(
            bar.number,
            ", ".join(self._heading(bar, usual)),
            tuple((name, self._line(bar, line, usual)) for name, line in voices),
        )

    def _heading(self, bar: MusicBar, usual: Fraction | None) -> Iterator[str]:
        yield f"Bar {bar.number}" if bar.number else "Pickup"
        if bar.mark:
            yield f"here begins “{bar.mark}”"
        if bar.meter_shown:
            yield f"in {bar.meter}"
        if bar.length != bar.meter.length:
            yield f"{_quarters(bar.length)} long"
        if bar.offset:
            yield f"beginning at {place(bar.meter, bar.offset).lower()}"
        if bar.endings:
            yield f"{' and '.join(ORDINALS[number] for number in bar.endings)} ending"
        if bar.opens:
            yield "repeat from here"
        yield _chords(bar)
        if bar.number in self.positions:
            yield _position(self.positions[bar.number])
        if usual is not None:
            yield f"{lengths(usual)} unless said"
        if bar.closes:
            yield (
                "go back at the end"
                if bar.endings
                else f"go back at the end, played {bar.times} times in all"
            )
        elif bar.ending_closed:
            yield "the ending closes"

    def _line(self, bar: MusicBar, line: Line, usual: Fraction | None) -> str:
        heard = {each.address: each for each in line.sounds}
        told: list[str] = []
        seen: set[Address] = set()
        groups = {group.onset: group for group in _groups(line.elements)}
        for value in line.values:
            at = place(bar.meter, value.onset + bar.offset)
            group = groups.get(value.onset)
            begins = (f"{group.number} in the time of {group.normal} from here",) if group else ()
            if value.sound is None:
                parts = ["rest", length(value.duration), *begins]
            elif value.sound in heard and value.sound not in seen:
                each = heard[value.sound]
                parts = list(sound(each, self.names, self.grace_names))
                if each.duration != usual:
                    parts.append(length(each.duration))
                parts += (*begins, *self.marks.get(each.address, ()))
            elif value.sound not in seen:
                parts = ["the sound before is held", length(_held(line, value.sound)), *begins]
            elif begins:
                parts = ["still held", *begins]
            else:
                continue
            if value.sound is not None:
                seen.add(value.sound)
            told.append(f"{at}: {'; '.join(parts)}")
        return ". ".join(told) + "." if told else ""


def _groups(elements: tuple[Element, ...]) -> Iterator[Tuplet]:
    """The groups of a line that are no triplets: of those that begin together the outermost comes last."""
    for element in elements:
        if isinstance(element, Tuplet):
            yield from _groups(element.elements)
            if element.number != _TRIPLET:
                yield element


def _quarters(length: Fraction) -> str:
    return "1 quarter" if length == 1 else f"{length} {'quarters' if length > 1 else 'of a quarter'}"


def _held(line: Line, address: Address) -> Fraction:
    return sum((value.duration for value in line.values if value.sound == address), Fraction(0))


def _ring(heard: Sound) -> tuple[str, int] | None:
    return ("let ring", heard.ring) if heard.ring else None


def _mute(heard: Sound) -> tuple[str, int] | None:
    return ("palm mute", heard.mute) if heard.mute else None


def _hand(heard: Sound) -> tuple[str, int] | None:
    return None if heard.position is None else (_position(heard.position), 0)


_BRACKETS = (_ring, _mute, _hand)
"""From a sound to the bracket it stands in: its name, and which of that name."""


def _usual(bar: MusicBar) -> Fraction | None:
    """The commonest length of a bar's sounds, when more than one has it."""
    counted = Counter(heard.duration for line in bar.lines for heard in line.sounds)
    for value, count in sorted(counted.items(), key=lambda item: (-item[1], item[0])):
        return value if count > 1 else None
    return None


def _position(fret: int) -> str:
    return f"{ORDINALS[fret]} position" if fret else "open position"


def _chords(bar: MusicBar) -> str:
    said = [_chord(bar, chord) for chord in bar.chords]
    return "over " + ", then ".join(said)


def _chord(bar: MusicBar, chord: ChordAt) -> str:
    words = chord.symbol.spoken
    if chord.onset:
        words += f" at {place(bar.meter, chord.onset + bar.offset).lower()}"
    if chord.pushed:
        words += " (pushed)"
    if chord.stop:
        words += " (one stroke, then silence)"
    return f"{words} still" if chord.carried else words
