"""How hard a piece is to play, in numbers that may be compared along a course.

Conventions: music as written, repeats not unfolded, at the full tempo; times in seconds, reaches in mm.
The weights of the score are our own: they order the licks of one course, and measure nothing else.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from lickwright.analysis.techniques import Use, list_techniques
from lickwright.instrument.fretboard import span
from lickwright.instrument.hand import WIDEST
from lickwright.model.music import Music, Piece, Sound
from lickwright.model.strike import Late, Tapped
from lickwright.model.timeline.tempi import quarters

RUN = 4
"""Onsets over which the speed is taken."""


@dataclass(frozen=True, slots=True)
class Measure:
    """One of the things that make a piece hard.

    Attributes:
        name: Of the attribute of :class:`Difficulty`.
        whole: How much of it adds one to the score (our own).
        words: In a sentence, with its value: ``9.3 notes a second``.
    """

    name: str
    whole: float
    words: str


MEASURES = (
    Measure("speed", 4, "{:.1f} notes a second"),
    Measure("shifts_a_bar", 1, "{:.1f} shifts of the hand a bar"),
    Measure("span", 112, "{:.0f} mm between two fingers"),
    Measure("crossings", 1, "a change of string at {:.0%} of the notes"),
    Measure("techniques", 6, "{} techniques"),
)
"""What the score is made of."""


@dataclass(frozen=True, slots=True)
class Difficulty:
    """What a piece asks of its player.

    Attributes:
        speed: Notes a second, slurred ones counted, over the fastest four onsets.
        shifts: How often the fretting hand has to leave its place.
        span: Widest reach between fretted notes that begin together, in mm.
        crossings: Share, 0 to 1, of the notes that lie on another string than the one before.
        techniques: How many different ones.
        chords: How many different ones the margin names.
        accidentals: Sharps or flats of the key.
        bars: Written bars without the pickup, at least 1.
    """

    speed: float
    shifts: int
    span: float
    crossings: float
    techniques: int
    chords: int
    accidentals: int
    bars: int

    @property
    def shifts_a_bar(self) -> float:
        """Shifts for each bar."""
        return self.shifts / self.bars

    @property
    def parts(self) -> Mapping[str, float]:
        """What each measure adds to the score."""
        return {measure.name: getattr(self, measure.name) / measure.whole for measure in MEASURES}

    @property
    def score(self) -> float:
        """All measures together; 2 to 4 is usual for licks at a moderate tempo."""
        return sum(self.parts.values())


def measure(piece: Piece, techniques: Mapping[str, Use] | None = None) -> Difficulty:
    """Measure a piece.

    Args:
        piece: Resolved.
        techniques: Those of the piece, where they are known already.
    """
    music = piece.music
    used = list_techniques(piece) if techniques is None else techniques
    sounds = tuple(_sounds(music))
    frets = [_frets(sound) for sound, _ in sounds]
    strings = [min(tone.string for tone in sound.tones) for sound, _ in sounds]
    changes = sum(a != b for a, b in pairwise(strings))
    return Difficulty(
        speed=_speed([at for _, at in sounds], piece) if music.bars else 0.0,
        shifts=_shifts(frets, music),
        span=max((_reach(each, music) for each in frets if len(each) > 1), default=0.0),
        crossings=changes / (len(strings) - 1) if len(strings) > 1 else 0.0,
        techniques=len(used),
        chords=len({str(chord.symbol) for bar in music.bars for chord in bar.chords}),
        accidentals=abs(music.key.signature),
        bars=max(music.counted_bars, 1),
    )


def _sounds(music: Music) -> Iterator[tuple[Sound, float]]:
    """The sounds with tones of both voices by onset, in quarters from the start."""
    start = Fraction(0)
    for bar in music.bars:
        inside = [s for line in bar.lines for s in line.sounds if s.tones]
        if bar.lower is not None:
            inside.sort(key=lambda sound: (sound.onset, sound.address.lower))
        begins = float(start)
        for sound in inside:
            yield sound, begins + float(sound.onset)
        start += bar.length


def _speed(onsets: list[float], piece: Piece) -> float:
    second = float(quarters(piece.tempo, piece.music.bars[0].meter)) / 60
    moments = sorted(set(onsets))
    run = RUN - 1
    gaps = [later - first for first, later in zip(moments, moments[run:], strict=False)]
    return run / min(gaps) * second if gaps else 0.0


def _frets(sound: Sound) -> list[int]:
    """The frets that the fretting hand holds for a sound, open strings left out."""
    return [t.fret for t in sound.tones if t.fret and not isinstance(t.head, Late | Tapped)]


def _reach(frets: list[int], music: Music) -> float:
    guitar = music.guitar
    return span(min(frets), max(frets), guitar.scale_length, guitar.capo)


def _shifts(frets: list[list[int]], music: Music) -> int:
    """How often the frets since the last shift would lie further apart than a hand reaches."""
    shifts = 0
    held: list[int] = []
    for each in frets:
        if not each:
            continue
        around = [min((*held, *each)), max((*held, *each))]
        if held and _reach(around, music) > WIDEST.comfortable:
            shifts += 1
            held = [min(each), max(each)]
        else:
            held = around
    return shifts
