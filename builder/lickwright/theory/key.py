"""Keys: a tonic and one of the seven modes.

Conventions: ``major`` and ``ionian`` have the same scale, as have ``minor`` and ``aeolian``; a key
keeps the word it was named by. Signatures count sharps positive, -7 to 7; a key beyond that does
not read. Degree labels count from the major scale on the tonic: the third of A minor is ``b3``.

References: the order of signatures and the rotation of the modes (common practice).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import lru_cache

from lickwright.theory.interval import Interval, parse_degree
from lickwright.theory.pitch import NATURALS, PitchClass

MODES: dict[str, str] = {
    "major": "1 2 3 4 5 6 7",
    "minor": "1 2 b3 4 5 b6 b7",
    "ionian": "1 2 3 4 5 6 7",
    "dorian": "1 2 b3 4 5 6 b7",
    "phrygian": "1 b2 b3 4 5 b6 b7",
    "lydian": "1 2 3 #4 5 6 7",
    "mixolydian": "1 2 3 4 5 6 b7",
    "aeolian": "1 2 b3 4 5 b6 b7",
    "locrian": "1 b2 b3 4 b5 b6 b7",
}
"""The modes by name, as degrees of the major scale."""

_FIFTHS_ABOVE_SIGNATURE = {
    "lydian": -1,
    "major": 0,
    "ionian": 0,
    "mixolydian": 1,
    "dorian": 2,
    "minor": 3,
    "aeolian": 3,
    "phrygian": 4,
    "locrian": 5,
}
_CHROMATIC = ("1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7")


def degrees(text: str) -> tuple[Interval, ...]:
    """The intervals of a row of degrees of our own tables.

    Raises:
        KeyError: When a word is no degree: a mistake in the table.
    """
    found = []
    for word in text.split():
        interval = parse_degree(word)
        if interval is None:
            raise KeyError(word)
        found.append(interval)
    return tuple(found)


_INTERVALS = {mode: degrees(row) for mode, row in MODES.items()}


@dataclass(frozen=True, slots=True)
class Key:
    """A key.

    Attributes:
        tonic: Spelled.
        mode: A name of :data:`MODES`.
        names: Further notes that it spells, not of its scale: those of a scale that is written in it.
        scale: The seven spelled notes from the tonic up.
        semitones: Their pitch classes, 0 to 11.
        working_semitones: The same, in minor (aeolian) with the raised sixth and seventh.
    """

    tonic: PitchClass
    mode: str
    names: tuple[PitchClass, ...] = ()
    scale: tuple[PitchClass, ...] = field(init=False, compare=False, repr=False)
    semitones: frozenset[int] = field(init=False, compare=False, repr=False)
    working_semitones: frozenset[int] = field(init=False, compare=False, repr=False)
    _spellings: tuple[PitchClass | None, ...] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        scale = tuple(interval.above(self.tonic) for interval in _INTERVALS[self.mode])
        spelled = {note.semitone: note for note in scale}
        put = object.__setattr__  # the class is frozen; these follow from the fields
        put(self, "scale", scale)
        put(self, "semitones", frozenset(spelled))
        if self.mode in ("minor", "aeolian"):
            for raised in (Interval(5, 9), Interval(6, 11)):
                note = raised.above(self.tonic)
                spelled[note.semitone] = note
        put(self, "working_semitones", frozenset(spelled))
        spelled = {note.semitone: note for note in self.names} | spelled
        put(self, "_spellings", tuple(spelled.get(semitone) for semitone in range(12)))

    @property
    def name(self) -> str:
        """In ASCII as the author writes it: ``Bb major``."""
        return f"{self.tonic} {self.mode}"

    @property
    def display(self) -> str:
        """As printed: ``B♭ major``."""
        return f"{self.tonic.display} {self.mode}"

    @property
    def spoken(self) -> str:
        """As said: ``B flat major``."""
        return f"{self.tonic.spoken} {self.mode}"

    def __str__(self) -> str:
        return self.name

    @property
    def signature(self) -> int:
        """Sharps of the key signature, flats negative."""
        return self.tonic.fifths - _FIFTHS_ABOVE_SIGNATURE[self.mode]

    @property
    def is_minor_like(self) -> bool:
        """Whether the third is minor."""
        return _INTERVALS[self.mode][2].semitones == 3

    def spelling(self, semitone: int) -> PitchClass | None:
        """How the key spells a pitch class; in minor the raised sixth and seventh too, and its further names.

        Args:
            semitone: A pitch class; a MIDI number does too.

        Returns:
            The note, or ``None`` for one outside the (working) scale.
        """
        return self._spellings[semitone % 12]

    def degree_of(self, note: int | PitchClass) -> str:
        """The degree of a note, counted from the major scale on the tonic.

        Args:
            note: A pitch class 0 to 11 (a MIDI number does too), or a spelled note.

        Returns:
            The label of the spelling; for a number that of the key's scale, else the conventional
            one: ``b2 b3 #4 b6 b7``.
        """
        if isinstance(note, PitchClass):
            interval = Interval.between(self.tonic, note)
            if abs(interval.alter) <= 1:
                return interval.label
            note = note.semitone
        spelled = self._spellings[note % 12]
        if spelled is not None:
            return Interval.between(self.tonic, spelled).label
        return _CHROMATIC[(note - self.tonic.semitone) % 12]


def _in_reach(key: Key) -> bool:
    return -7 <= key.signature <= 7


@lru_cache(maxsize=512)
def _parse(text: str) -> Key | None:
    tonic, _, mode = text.partition(" ")
    note = PitchClass.parse(tonic)
    if note is None or mode.strip() not in MODES:
        return None
    key = Key(note, mode.strip())
    return key if _in_reach(key) else None


def parse_key(text: str) -> Key | None:
    """Read ``A major``, ``F# minor``, ``B♭ mixolydian``; the case is exact.

    Returns:
        The key, or ``None`` when the text is none or its signature exceeds seven signs.
    """
    return _parse(text) if len(text) <= 40 else None


_MODE_WORDS = {"maj": "major", "min": "minor", "m": "minor", "": "major", "mix": "mixolydian"}


@lru_cache(maxsize=512)
def suggest_key(text: str) -> str | None:
    """The nearest key that reads: ``am`` is ``A minor``, ``G# major`` is ``Ab major``.

    Returns:
        A name that :func:`parse_key` reads, or ``None`` when nothing is near.
    """
    if len(text) > 40:
        return None
    words = text.replace("♯", "#").replace("♭", "b").split()
    if not words or words[0][0].upper() not in NATURALS:
        return None
    tonic, rest = words[0][0].upper(), words[0][1:]
    while rest[:1] in ("#", "b"):
        tonic, rest = tonic + rest[0], rest[1:]
    word = (rest + " ".join(words[1:])).casefold().replace("sharp", "#").replace("flat", "b").strip(" -")
    if word[:1] in ("#", "b"):
        tonic, word = tonic + word[0], word[1:].strip(" -")
    word = _MODE_WORDS.get(word, word)
    modes = [word] if word in MODES else get_close_matches(word, MODES, n=1, cutoff=0.6)
    note = PitchClass.parse(tonic)
    if not modes or note is None:
        return None
    key = Key(note, modes[0])
    if not _in_reach(key):  # the same key on the other side of the circle of fifths
        away = Interval(1, 0) if key.signature > 0 else Interval(-1, 0)
        key = Key(away.above(note), modes[0])
    return key.name if _in_reach(key) else None
