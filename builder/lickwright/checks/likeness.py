"""Bars and licks that are the same but for one note, found by hashing them with each note masked in turn.

Nothing is compared with everything: a piece of n notes is entered under n hashes, and meets only what
has been entered under one of them.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lickwright.checks.catalogue import rules
from lickwright.checks.wording import say_name
from lickwright.findings import Severity
from lickwright.model.address import Address
from lickwright.model.music import MusicBar, Piece, Sound
from lickwright.text import Span

if TYPE_CHECKING:
    from lickwright.checks.survey import Survey

Notes = tuple[tuple[int, int | None, float], ...]
"""The tones of a sound: string, fret, last pitch (0 for dead notes)."""


@dataclass(frozen=True, slots=True)
class Part:
    """A bar or a lick as a row of notes.

    Attributes:
        piece: It belongs to. ``bar``: its first bar.
        frame: What has to be equal: rhythm, meter, chords and more.
        sounds: In order; ``notes`` what each of them plays.
    """

    piece: Piece
    bar: MusicBar
    frame: Hashable
    sounds: tuple[Sound, ...]
    notes: tuple[Notes, ...]


@dataclass(frozen=True, slots=True)
class Likeness:
    """A part that is like an earlier one; ``at`` is the sound that is not, None where all are equal."""

    earlier: Part
    later: Part
    at: int | None

    @property
    def span(self) -> Span:
        """The note in the later part."""
        return self.later.sounds[self.at or 0].span

    @property
    def other_span(self) -> Span:
        """The same place in the earlier part."""
        return self.earlier.sounds[self.at or 0].span

    @property
    def address(self) -> Address:
        """Of the note in the later part."""
        return self.later.sounds[self.at or 0].address


def part_of_bar(piece: Piece, bar: MusicBar) -> Part:
    """Return a bar as a row of notes; the rhythm, the meter and the chords are its frame."""
    sounds = tuple(sound for line in bar.lines for sound in line.sounds)
    return Part(piece, bar, _frame(bar, sounds), sounds, tuple(map(_notes, sounds)))


def part_of_lick(piece: Piece, bars: Sequence[Part]) -> Part:
    """Return a lick as a row of notes; guitar, key, feel and picking belong to its frame."""
    music = piece.music
    sounds = tuple(sound for bar in bars for sound in bar.sounds)
    strokes = tuple((sound.stroke, *(tone.hand for tone in sound.tones)) for sound in sounds)
    setting = (music.guitar.tuning, music.guitar.capo, str(music.key), piece.feel, music.picking.style)
    frame = (setting, music.order, strokes, tuple(bar.frame for bar in bars))
    return Part(piece, music.bars[0], frame, sounds, tuple(notes for bar in bars for notes in bar.notes))


def _frame(bar: MusicBar, sounds: Iterable[Sound]) -> Hashable:
    rhythm = tuple(
        (s.address.lower, *s.onset.as_integer_ratio(), *s.duration.as_integer_ratio(), s.joined)
        for s in sounds
    )
    return bar.meter, tuple(str(chord.symbol) for chord in bar.chords), rhythm


def _notes(sound: Sound) -> Notes:
    return tuple((t.string, t.fret, float(t.path[-1]) if t.path else 0.0) for t in sound.tones)


def find_like(parts: Iterable[Part], fewest: float, *, equal: bool) -> Iterator[Likeness]:
    """Yield each part that is an earlier one but for one note.

    Args:
        parts: In the order of study.
        fewest: Sounds that make a likeness no accident; parts of fewer are left out.
        equal: Whether parts that are equal in every note are yielded too.

    Where three or more notes are met at one place, the change is meant, and nothing is yielded. Of
    two notes the one that is met more often, else earlier, is taken for the model.
    """
    masked: dict[tuple[int, int, int], dict[Notes, list[Part]]] = {}
    wholes: dict[tuple[int, int], Part] = {}
    for part in parts:
        if len(part.notes) < fewest:
            continue
        frame = hash(part.frame)
        hashes = [hash((place, notes)) for place, notes in enumerate(part.notes)]
        whole = sum(hashes)
        same = wholes.setdefault((frame, whole), part)
        if same is not part and equal and same.notes == part.notes:
            yield Likeness(same, part, None)
            continue
        for place, one in enumerate(hashes):
            met = masked.setdefault((frame, place, whole - one), {})
            met.setdefault(part.notes[place], []).append(part)
    for (_, place, _), met in masked.items():
        if len(met) == 2:
            many, few = sorted(met.values(), key=len, reverse=True)  # stable: the earlier comes first
            if _is_equal_but(many[0], few[0], place):
                yield Likeness(many[0], few[0], place)


def say_difference(like: Likeness, survey: Survey) -> tuple[str, str]:
    """Return the note that differs as it is in the later and in the earlier part: ``C sharp (5:4)``."""
    at = like.at or 0
    return _say(like.later, at, survey), _say(like.earlier, at, survey)


def _say(part: Part, at: int, survey: Survey) -> str:
    sound, subject = part.sounds[at], survey.subject(part.piece.name)
    spelled = {} if subject is None else subject.spelled
    pitches = [spelled.get((sound.address, k), ()) for k in range(1, len(sound.tones) + 1)]
    names = " and ".join(say_name(tone[-1].name) for tone in pitches if tone)
    return f"{names} ({sound.span.text})" if names else sound.span.text


def is_in_fault(like: Likeness, survey: Survey) -> bool:
    """Whether the note that differs is found wrong in either part.

    It is told there then, and the one part is the other mended.
    """
    return like.at is not None and any(
        _in_fault(part.piece, part.sounds[like.at].address, survey) for part in (like.later, like.earlier)
    )


def _in_fault(piece: Piece, address: Address, survey: Survey) -> bool:
    subject, known = survey.subject(piece.name), rules()
    if subject is None:
        return False
    return any(
        finding.address == str(address) and known[finding.rule].one_note and finding.severity > Severity.NOTE
        for finding in subject.found
    )


def _is_equal_but(one: Part, other: Part, place: int) -> bool:
    a, b = one.notes, other.notes
    return one.frame == other.frame and a[:place] == b[:place] and a[place + 1 :] == b[place + 1 :]
