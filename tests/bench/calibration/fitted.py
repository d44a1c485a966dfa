"""Keys and chords for tunes that are printed without chords.

A tune's key is believed where its last note bears it out and few of its notes lie outside it. The chords
are our own: the best fitting of a few usual ones for each half bar (bar, in three and in nine), which
flatters the classifier somewhat, since the chord is fitted to the melody.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from corpus_setting import Tune

from calibration.work import Changes, LeftOut
from lickwright.model.music import MusicBar, Piece
from lickwright.theory.chord import Chord
from lickwright.theory.interval import Interval
from lickwright.theory.key import Key, parse_key

Candidate = tuple[Interval, str, float]

# degree of the key above the tonic, quality, how much less welcome than the plain chords
_MAJOR: tuple[Candidate, ...] = (
    (Interval(0, 0), "major", 0.0),
    (Interval(3, 5), "major", 0.0),
    (Interval(4, 7), "7", 0.0),
    (Interval(4, 7), "major", 0.0),
    (Interval(5, 9), "m", 0.1),
    (Interval(1, 2), "m", 0.15),
    (Interval(2, 4), "m", 0.25),
    (Interval(1, 2), "7", 0.25),
    (Interval(6, 10), "major", 0.2),
    (Interval(5, 9), "7", 0.3),
    (Interval(2, 4), "7", 0.35),
)
_MINOR: tuple[Candidate, ...] = (
    (Interval(0, 0), "m", 0.0),
    (Interval(3, 5), "m", 0.0),
    (Interval(4, 7), "7", 0.0),
    (Interval(4, 7), "major", 0.0),
    (Interval(6, 10), "major", 0.05),
    (Interval(4, 7), "m", 0.1),
    (Interval(2, 3), "major", 0.1),
    (Interval(5, 8), "major", 0.15),
)
_DORIAN: tuple[Candidate, ...] = (
    (Interval(0, 0), "m", 0.0),
    (Interval(6, 10), "major", 0.0),
    (Interval(3, 5), "major", 0.05),
    (Interval(4, 7), "m", 0.1),
    (Interval(2, 3), "major", 0.1),
)
_MIXOLYDIAN: tuple[Candidate, ...] = (
    (Interval(0, 0), "major", 0.0),
    (Interval(6, 10), "major", 0.0),
    (Interval(3, 5), "major", 0.05),
    (Interval(4, 7), "m", 0.1),
    (Interval(1, 2), "m", 0.15),
    (Interval(5, 9), "m", 0.15),
    (Interval(4, 7), "major", 0.15),
)
PALETTES: Mapping[str, tuple[Candidate, ...]] = {
    "major": _MAJOR,
    "minor": _MINOR,
    "dorian": _DORIAN,
    "mixolydian": _MIXOLYDIAN,
}


FOREIGN = 0.1
"""Share of the time on notes outside the key, above which a tune changes its mode: it has no one key."""


def find_key(tune: Tune) -> str:
    """Return the key of a tune, or leave it out.

    A mode that is printed counts when the tune ends on its tonic triad. Under a major signature a tune
    that ends on the tonic triad is in major; one that ends on the sixth degree is in minor, on the second
    in dorian, if it dwells on the triad there longer than on the signature's.
    """
    printed = parse_key(tune.key)
    notes = [(e.midi, e.length) for bar in tune.measures for e in bar.events if e.midi is not None]
    if printed is None or printed.mode not in PALETTES or not notes:
        raise LeftOut("a key that is not known")
    candidates = [printed]
    if printed.mode == "major" and (notes[-1][0] - printed.tonic.semitone) % 12 not in _triad(printed):
        others = [
            Key(Interval(5, 9).above(printed.tonic), "minor"),
            Key(Interval(1, 2).above(printed.tonic), "dorian"),
        ]
        candidates = [key for key in others if _dwells(notes, key) > _dwells(notes, printed)]
    for key in candidates:
        ends = (notes[-1][0] - key.tonic.semitone) % 12
        if ends == 0 or (key is printed and ends in _triad(key)):
            if _foreign(notes, key) > FOREIGN:
                raise LeftOut("two modes, no one key")
            return key.name
    raise LeftOut("an end that leaves the key in doubt")


def _foreign(notes: list[tuple[int, Fraction]], key: Key) -> Fraction:
    inside = key.semitones | {(key.tonic.semitone + 11) % 12}  # the leading note is every mode's
    outside = sum((long for midi, long in notes if midi % 12 not in inside), Fraction(0))
    return outside / sum((long for _, long in notes), Fraction(0))


def _triad(key: Key) -> tuple[int, int, int]:
    return (0, 3 if key.is_minor_like else 4, 7)


def _dwells(notes: list[tuple[int, Fraction]], key: Key) -> Fraction:
    triad = _triad(key)
    return sum((long for midi, long in notes if (midi - key.tonic.semitone) % 12 in triad), Fraction(0))


def fit_chords(piece: Piece) -> Changes:
    """Fit a chord to each half bar; to each bar in three, to each beat in compound meters of three."""
    music = piece.music
    changes: list[list[tuple[Fraction, Chord]]] = []
    last: Chord | None = None
    for bar in music.bars:
        stretch = _stretch(bar)
        chords: list[tuple[Fraction, Chord]] = []
        onset = Fraction(0)
        while onset < bar.length:
            last = _best(bar, onset, onset + stretch, music.key, last)
            chords.append((onset, last))
            onset += stretch
        changes.append(chords)
    return changes


def _stretch(bar: MusicBar) -> Fraction:
    if bar.length < 2:
        return bar.length
    if bar.meter.is_compound:
        return bar.meter.beat * (2 if bar.meter.beats == 4 else 1)
    return bar.length if bar.meter.beats == 3 else bar.length / 2


def _best(bar: MusicBar, start: Fraction, end: Fraction, key: Key, last: Chord | None) -> Chord:
    inside = [s for s in bar.upper.sounds if start <= s.onset < end and s.tones[0].path]

    def fit(candidate: Candidate) -> float:
        degree, quality, unwelcome = candidate
        chord = Chord.of(str(degree.above(key.tonic)), quality)
        total = inner = 1e-9
        for sound in inside:
            weight = float(sound.duration) * (1 + 0.25 * bar.meter.weight(sound.onset + bar.offset))
            total += weight
            if int(sound.tones[0].path[0]) % 12 in chord.semitones:
                inner += weight
        return inner / total - unwelcome + (0.05 if chord == last else 0.0)

    degree, quality, _ = max(PALETTES[key.mode], key=fit)
    return Chord.of(str(degree.above(key.tonic)), quality)
