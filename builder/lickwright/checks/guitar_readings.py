"""A capo or a tuning that the second witness contradicts: on which guitar would its entries come true.

No hand slips alike on every note of a string. Where what the rows say and what sounds lie the same
interval apart on each string, the guitar is another than the author had in hand.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from lickwright.checks.witnesses import top_pitch
from lickwright.instrument.guitar import Guitar
from lickwright.instrument.tuning import STANDARD, Tuning
from lickwright.model.blocks import Lick
from lickwright.model.music import Music, Tone
from lickwright.theory.chord import Chord, ChordSymbol
from lickwright.theory.interval import parse_degree
from lickwright.theory.key import Key
from lickwright.theory.pitch import Pitch, PitchClass

if TYPE_CHECKING:
    from lickwright.checks.survey import Survey

FEWEST = 3
"""Notes of one string that have to be off, at two different frets (own threshold)."""
TRUE = 0.9
"""Share of the entries that have to come true on the other guitar (own threshold)."""
HIGHEST_CAPO = 9


@dataclass(frozen=True, slots=True)
class Witnessed:
    """A note and what a row says of it.

    Attributes:
        bar: Which. ``string``, ``fret``: where it is played.
        off: By how many half steps it may sound above what is said, 0 to 11; a quarter tone gives two.
    """

    bar: Hashable
    string: int
    fret: int
    off: frozenset[int]


@dataclass(frozen=True, slots=True)
class Reading:
    """Another guitar, on which the entries come true.

    Attributes:
        guitar: With another capo or another tuning.
        true: Entries that are then right. ``all``: entries there are.
    """

    guitar: Guitar
    true: int
    all: int

    @property
    def agreed(self) -> str:
        """How many entries come true, in words."""
        return "every name agrees" if self.true == self.all else f"{self.true} of {self.all} names agree"


@dataclass(frozen=True, slots=True)
class Misread:
    """A piece that was written with another guitar in hand.

    Attributes:
        name: Of the lick. ``written``: its guitar. ``reading``: the one that was meant.
        course: Whether the course's guitar is at fault, and not the lick's own fields.
    """

    name: str
    written: Guitar
    reading: Reading
    course: bool

    @property
    def field(self) -> Literal["capo", "tuning"]:
        """What has to be written otherwise."""
        return "tuning" if self.reading.guitar.tuning != self.written.tuning else "capo"


def list_misread(survey: Survey) -> tuple[Misread, ...]:
    """Return the licks whose rows tell of another guitar, in the order of study.

    Where the licks that take their guitar from the course all tell of one other, it is the course's. A
    variation is not asked where its base is misread.
    """
    course, written = survey.course.settings.guitar, survey.course.licks
    music = {name: subject.piece.music for name, subject in survey.subjects.items() if name in written}
    notes = {name: list_witnessed(each) for name, each in music.items()}
    stated = {name: _stated(name, written) for name in music}
    taken = [name for name in music if notes[name] and not stated[name]]
    pooled = [replace(note, bar=(name, note.bar)) for name in taken for note in notes[name]]
    whole = find_reading(pooled, course) if len(taken) > 1 else None
    found: dict[str, Misread] = {}
    for name, each in music.items():
        guitar = each.guitar
        if whole is not None:
            misread = Misread(name, course, whole, course=True)
            read = replace(guitar, **{misread.field: getattr(whole.guitar, misread.field)})
            if misread.field not in stated[name] and is_true(notes[name], guitar, read):
                found[name] = misread
                continue
        reading = None if written[name].vary in found else find_reading(notes[name], guitar, (course.tuning,))
        if reading is not None:
            found[name] = Misread(name, guitar, reading, course=False)
    return tuple(found.values())


def _stated(name: str, written: Mapping[str, Lick]) -> frozenset[str]:
    """Which of capo and tuning a lick, or what it is made from, states itself."""
    stated: set[str] = set()
    seen: set[str] = set()
    while name in written and name not in seen:
        seen.add(name)
        lick = written[name]
        stated.update(field for field in ("capo", "tuning") if getattr(lick, field) is not None)
        name = lick.vary or ""
    return frozenset(stated)


def list_witnessed(music: Music) -> tuple[Witnessed, ...]:
    """Return every note that the names row speaks of or, where it does not, the degrees row."""
    found: list[Witnessed] = []
    for bar in music.bars:
        for line in bar.lines:
            for sound in line.sounds:
                for tone in sound.tones:
                    said = _said(tone, bar.chord_at(sound.onset), music.key)
                    heard = top_pitch(tone)
                    if said is not None and heard and tone.fret is not None:
                        off = frozenset((pitch - said) % 12 for pitch in heard)
                        found.append(Witnessed(bar.number, tone.string, tone.fret, off))
    return tuple(found)


def _said(tone: Tone, chord: ChordSymbol, key: Key) -> int | None:
    """The pitch class a row gives a tone, or None."""
    if tone.name is not None:
        name = PitchClass.parse(tone.name)
        return None if name is None else name.semitone
    degree = None if tone.degree is None else parse_degree(tone.degree)
    root = chord.root if isinstance(chord, Chord) else key.tonic
    return None if degree is None else (root.semitone + degree.semitones) % 12


def find_reading(notes: Sequence[Witnessed], guitar: Guitar, known: Iterable[Tuning] = ()) -> Reading | None:
    """Return the guitar on which what the rows say comes true, or None where that is not the cause.

    Args:
        notes: Of a lick, or of all the licks that take their guitar from the course.
        guitar: As it is written.
        known: Tunings that are likely meant, the likeliest first; the standard one is tried after them.
    """
    wrong = [note for note in notes if 0 not in note.off]
    if len(wrong) < FEWEST or any(
        len(set(each)) < 2 for each in ([n.bar for n in wrong], [n.fret for n in wrong])
    ):
        return None
    shifts = _shifts(notes)
    moved = {string: shift for string, shift in shifts.items() if shift}
    true = _count_true(notes, shifts)
    if not moved or true < TRUE * len(notes):
        return None
    even = len(set(shifts.values())) == 1
    if not even and not all(_is_sure(wrong, string) for string in moved):
        return None
    for tuning in (*known, STANDARD):
        tuned = _between(guitar.tuning, tuning)
        if tuned and (agreed := _count_true(notes, tuned)) >= max(true, TRUE * len(notes)):
            return Reading(replace(guitar, tuning=tuning), agreed, len(notes))
    capo = (guitar.capo - next(iter(moved.values()))) % 12
    if even and capo <= HIGHEST_CAPO:
        return Reading(replace(guitar, capo=capo), true, len(notes))
    return Reading(replace(guitar, tuning=_tuned(guitar.tuning, moved)), true, len(notes))


def is_true(notes: Sequence[Witnessed], written: Guitar, read: Guitar) -> bool:
    """Whether entries that are not true on one guitar are on another; True where there are none."""
    shifts = _between(written.tuning, read.tuning)
    up = read.capo - written.capo
    shifts = {s: (shifts.get(s, 0) - up) % 12 for s in range(1, written.strings + 1)}
    return _count_true(notes, shifts) >= TRUE * len(notes)


def _shifts(notes: Iterable[Witnessed]) -> dict[int, int]:
    """By how many half steps most notes of each string sound too high."""
    strings: dict[int, Counter[int]] = defaultdict(Counter)
    for note in notes:
        strings[note.string].update(note.off)
    return {string: off.most_common(1)[0][0] for string, off in strings.items()}


def _count_true(notes: Iterable[Witnessed], shifts: Mapping[int, int]) -> int:
    return sum(shifts.get(note.string, 0) in note.off for note in notes)


def _is_sure(wrong: Iterable[Witnessed], string: int) -> bool:
    """Whether enough of a string is off that it is no fret that was misread again and again."""
    frets = [note.fret for note in wrong if note.string == string]
    return len(frets) >= FEWEST and len(set(frets)) > 1


def _between(written: Tuning, read: Tuning) -> dict[int, int]:
    """By how many half steps, 0 to 11, each string is above another tuning's; empty for other strings."""
    if written.count != read.count:
        return {}
    pairs = zip(written.strings, read.strings, strict=True)
    return {string: (a.midi - b.midi) % 12 for string, (a, b) in enumerate(pairs, 1)}


def _tuned(tuning: Tuning, moved: Mapping[int, int]) -> Tuning:
    """The strings let down, or drawn up, by what they are off; by the shorter way."""
    strings: list[Pitch] = []
    for string, pitch in enumerate(tuning.strings, 1):
        away = (5 - moved.get(string, 0)) % 12 - 5
        strings.append(_named(pitch.midi + away) if away else pitch)
    return Tuning(tuple(strings))


_NAMES = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "G#", "A", "Bb", "B")


def _named(midi: int) -> Pitch:
    """An open string as tunings are written."""
    pitch = Pitch.parse(f"{_NAMES[midi % 12]}{midi // 12 - 1}")
    assert pitch is not None
    return pitch
