"""Pieces to analyse: from the text of a lick, and from the tunes of the corpus with simple chords.

The chords of a tune are our own: for each half bar the best fitting of I, IV, V, V7, vi, ii, iii and
II7, which flatters the classifier somewhat, since the chord is fitted to the melody.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from statistics import mode

from corpus_setting import read_tune, set_tune

from lickwright.findings import Severity
from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.music import ChordAt, Line, MusicBar, Piece, Sound
from lickwright.model.timeline import resolve
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.chord import Chord
from lickwright.theory.interval import Interval
from lickwright.theory.key import Key, parse_key

TUNES = (
    "FishersHornpipe", "DurangsHornpipe", "GlobeHornpipe", "NiagaraHornpipe", "MississippiHornpipe",
    "StElmoHornpipe", "AldridgesHornpipe", "SmithsHornpipe", "ShawsReel", "KeltonsReel",
    "PoppyLeafHornpipe", "MonogramHornpipe",
)  # fmt: skip

# degrees of the key above the tonic: quality, and how much less welcome than the plain chords
_CANDIDATES: tuple[tuple[Interval, str, float], ...] = (
    (Interval(0, 0), "major", 0.0),
    (Interval(3, 5), "major", 0.0),
    (Interval(4, 7), "7", 0.0),
    (Interval(4, 7), "major", 0.0),
    (Interval(5, 9), "m", 0.1),
    (Interval(1, 2), "m", 0.15),
    (Interval(2, 4), "m", 0.25),
    (Interval(1, 2), "7", 0.25),
)


def read_piece(text: str, style: str = "country") -> Piece:
    """Return the first piece of a lesson; a text without a fence is one lick. Reading finds no error."""
    if "```" not in text:
        text = f"```lick example\n{text}\n```\n"
    key = parse_key("A major")
    assert key is not None
    settings = Settings(key, "straight", Tempo(120), Guitar(), Provenance("own"), style=style)  # type: ignore[arg-type]
    lesson, found = read_lesson(Source("lessons/one.md", text), "one")
    book, more = resolve(Course("Test", "us", settings, (Unit("Unit", (lesson,)),)))
    assert [f for f in (*found, *more) if f.severity is Severity.ERROR] == []
    return book.pieces[0]


def read_corpus_tune(name: str, style: str = "country") -> Piece:
    """Return a tune of the Ryan collection over chords of our own, two a bar."""
    tune = read_tune(f"{name}.abc" if not name.endswith(".abc") else name)
    return harmonize(read_piece(set_tune(tune, Guitar()), style))


def harmonize(piece: Piece) -> Piece:
    """Put the best fitting simple chord over each half bar."""
    music = piece.music
    bars: list[MusicBar] = []
    last: Chord | None = None
    for bar in music.bars:
        half = bar.length / 2 if bar.length >= 2 else bar.length
        chords: list[ChordAt] = []
        onset = Fraction(0)
        while onset < bar.length:
            last = _best(bar, onset, onset + half, music.key, last)
            chords.append(ChordAt(onset, last))
            onset += half
        bars.append(replace(bar, chords=tuple(chords)))
    return replace(piece, music=replace(music, bars=tuple(bars)))


def _best(bar: MusicBar, start: Fraction, end: Fraction, key: Key, last: Chord | None) -> Chord:
    inside = [s for s in bar.upper.sounds if start <= s.onset < end and s.tones[0].path]

    def fit(candidate: tuple[Interval, str, float]) -> float:
        degree, quality, unwelcome = candidate
        chord = Chord.of(str(degree.above(key.tonic)), quality)
        total = inner = 1e-9
        for sound in inside:
            weight = float(sound.duration) * (1 + 0.25 * bar.meter.weight(sound.onset + bar.offset))
            total += weight
            if int(sound.tones[0].path[0]) % 12 in chord.semitones:
                inner += weight
        return inner / total - unwelcome + (0.05 if chord == last else 0.0)

    degree, quality, _ = max(_CANDIDATES, key=fit)
    return Chord.of(str(degree.above(key.tonic)), quality)


def slip(piece: Piece, bar_index: int, sound_index: int, frets: int) -> Piece:
    """Return the piece with one sound of a bar played some frets off, everything else left alone."""
    music = piece.music
    bar = music.bars[bar_index]
    sound = bar.upper.sounds[sound_index]
    moved = _moved(sound, frets)
    sounds = (*bar.upper.sounds[:sound_index], moved, *bar.upper.sounds[sound_index + 1 :])
    upper: Line = replace(bar.upper, sounds=sounds)
    bars = (*music.bars[:bar_index], replace(bar, upper=upper), *music.bars[bar_index + 1 :])
    return replace(piece, music=replace(music, bars=bars))


def _moved(sound: Sound, frets: int) -> Sound:
    tone = sound.tones[0]
    fret = None if tone.fret is None else tone.fret + frets
    return replace(sound, tones=(replace(tone, fret=fret, path=tuple(p + frets for p in tone.path)),))


def is_major_duple(piece: Piece) -> bool:
    """Whether a tune can be judged: major, in two or four, ending on a note of the tonic triad.

    Tunes that end elsewhere are minor or modal ones under a major signature.
    """
    music = piece.music
    last = next(bar.upper.sounds[-1] for bar in reversed(music.bars) if bar.upper.sounds)
    above = (int(last.tones[0].path[0]) - music.key.tonic.semitone) % 12
    duple = mode(str(bar.meter) for bar in music.bars) in ("4/4", "2/2", "2/4")
    return music.key.mode == "major" and duple and above in (0, 4, 7)
