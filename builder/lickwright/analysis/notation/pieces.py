"""Pieces: what is printed as one note, chord or rest, with everything tied cut up.

A sound becomes one piece or several tied ones: at the printed values of its length, and where a
bend is let down or goes on (bent in the first half of its length, let down at the second, and so
on by halves). A string that rings on through the next sound is a tied tone of that sound's pieces.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

from lickwright.analysis.notation.ids import local_id
from lickwright.analysis.notation.values import PRINTED, Grid, grid_of, split, tuplet_grid
from lickwright.model.music import Tuplet
from lickwright.model.strike import Bend, BendKind, Late
from lickwright.model.timeline.grouping import SHORTEST

if TYPE_CHECKING:
    from lickwright.model.address import Address
    from lickwright.model.music import Element, Music, MusicBar, Sound, Tone, Value


@dataclass(frozen=True, slots=True)
class Head:
    """A tone in one piece.

    Attributes:
        tone, address, k: Which tone of which sound; ``k`` from 1.
        piece: Which of the tone's pieces, from 1.
        move: How many of the tone's bends and releases have been made.
        step: Index into the tone's path: what the staff prints here.
        tied: Goes on at the same pitch from the piece, or the sound, before.
        bent: Comes from the piece before by a bend or release.
    """

    tone: Tone
    address: Address
    k: int
    piece: int
    move: int
    step: int
    tied: bool = False
    bent: bool = False

    @property
    def local(self) -> str:
        """Its local id."""
        return local_id(self.address, self.k, self.piece)

    @property
    def fretted(self) -> bool:
        """Whether the tab prints a digit here: where it begins, and in brackets where it is let down."""
        return not self.tied and (self.piece == 1 or self.released)

    @property
    def released(self) -> bool:
        """Whether a bend is let down here."""
        return self.bent and moves(self.tone)[self.move - 1].kind is BendKind.RELEASE


@dataclass(frozen=True, slots=True)
class Piece:
    """One note, chord or rest.

    Attributes:
        onset: In its bar, as written, in quarters.
        length: As printed (a key of ``PRINTED``).
        sound: None = a rest.
        first: Begins its sound.
        whole_bar: A rest that fills its bar.
    """

    onset: Fraction
    length: Fraction
    sound: Sound | None = None
    heads: tuple[Head, ...] = ()
    first: bool = False
    whole_bar: bool = False
    lower: bool = False


@dataclass(frozen=True, slots=True)
class Bracketed:
    """A tuplet of pieces: ``number`` in the time of ``normal``.

    Attributes:
        ratio: Printed time to played time, counted through all tuplets round it.
    """

    number: int
    normal: int
    members: tuple[Part, ...]
    ratio: Fraction

    @property
    def nested(self) -> bool:
        """Whether it stands in another tuplet."""
        return self.ratio != Fraction(self.number, self.normal)

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """All its pieces, in order."""
        found: list[Piece] = []
        for member in self.members:
            found += member.pieces if isinstance(member, Bracketed) else (member,)
        return tuple(found)


Part = Piece | Bracketed


@dataclass(frozen=True, slots=True)
class Layer:
    """One voice of one bar, printed."""

    bar: MusicBar
    lower: bool
    parts: tuple[Part, ...]
    pieces: tuple[Piece, ...]


def moves(tone: Tone) -> tuple[Bend, ...]:
    """Return the bends and releases of a tone, a late one included, in order."""
    if isinstance(tone.head, Late) and tone.head.bend not in tone.bends:
        return (tone.head.bend, *tone.bends)
    return tone.bends


def path_index(tone: Tone, move: int) -> int:
    """Return where in its path a tone is after a move; a pre-bend is the path's first entry."""
    made = moves(tone)
    before = 1 if made and made[0].kind is BendKind.PRE else 0
    return max(0, min(move - before, len(tone.path) - 1))


def printed_step(tone: Tone, move: int) -> int:
    """Return the index of the path that is printed after a move: quarter tones keep the pitch before."""
    step = path_index(tone, move)
    while step and tone.path[step].denominator != 1:
        step -= 1
    return step


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A value of a sound: quarters into the sound, length, where it is printed and how much longer."""

    begin: Fraction
    length: Fraction
    printed: Fraction
    scale: Fraction


@dataclass(slots=True)
class _Held:
    """A sound under way: how much of it is printed, its tones' last pieces.

    ``edges``: when each of its tones' printed moves begins.
    ``ringing``: tones of earlier sounds that sound on, and through how many sounds more after this.
    """

    sound: Sound
    edges: tuple[list[tuple[Fraction, int]], ...]
    ringing: tuple[tuple[Tone, Address, int, int], ...] = ()
    printed: Fraction = Fraction(0)
    last: dict[tuple[Address, int], Head] = field(default_factory=dict)


def layers_of(music: Music) -> tuple[tuple[Layer, ...], ...]:
    """Return the layers of every bar, upper voice first."""
    upper = _Cutter(music, lower=False)
    lower = _Cutter(music, lower=True)
    return tuple(
        tuple(cutter.bar(bar) for cutter, line in ((upper, bar.upper), (lower, bar.lower)) if line)
        for bar in music.bars
    )


class _Cutter:
    """Cuts one voice, bar after bar."""

    def __init__(self, music: Music, *, lower: bool) -> None:
        self.lower = lower
        self.sounds: dict[Address, Sound] = {}
        self.stretches: dict[Address, list[_Stretch]] = {}
        for bar in music.bars:
            line = bar.lower if lower else bar.upper
            if line is not None:
                self.sounds |= {sound.address: sound for sound in line.sounds}
                self._gather(line.elements, -bar.offset, Fraction(1))
        self.held: dict[Address, _Held] = {}
        self.before: _Held | None = None
        self.pieces: list[Piece] = []

    def _gather(self, elements: tuple[Element, ...], origin: Fraction, scale: Fraction) -> None:
        for element in elements:
            if isinstance(element, Tuplet):
                inner = scale * Fraction(element.number, element.normal)
                self._gather(element.elements, element.onset, inner)
            elif element.sound is not None:
                made = self.stretches.setdefault(element.sound, [])
                begin = made[-1].begin + made[-1].length if made else Fraction(0)
                made.append(_Stretch(begin, element.duration, (element.onset - origin) * scale, scale))

    def bar(self, bar: MusicBar) -> Layer:
        line = bar.lower if self.lower else bar.upper
        if line is None:
            raise ValueError("a bar without this voice")
        self.pieces = []
        meter = bar.meter
        grid = grid_of(meter)
        elements = line.elements
        only = elements[0] if len(elements) == 1 else None
        if (
            only is not None
            and not isinstance(only, Tuplet)
            and only.sound is None
            and only.duration == meter.length
        ):
            rest = Piece(only.onset, only.duration, whole_bar=True, lower=self.lower)
            return Layer(bar, self.lower, (rest,), (rest,))
        parts = self._parts(elements, grid, -bar.offset, Fraction(1))
        return Layer(bar, self.lower, parts, tuple(self.pieces))

    def _parts(
        self, elements: tuple[Element, ...], grid: Grid, origin: Fraction, scale: Fraction
    ) -> tuple[Part, ...]:
        parts: list[Part] = []
        for element in elements:
            if isinstance(element, Tuplet):
                inner = scale * Fraction(element.number, element.normal)
                unit = element.duration * inner / element.number
                members = self._parts(element.elements, tuplet_grid(unit), element.onset, inner)
                parts.append(Bracketed(element.number, element.normal, members, inner))
            else:
                parts.extend(self._value(element, grid, origin, scale))
        return tuple(parts)

    def _value(self, value: Value, grid: Grid, origin: Fraction, scale: Fraction) -> list[Piece]:
        start = (value.onset - origin) * scale
        if value.sound is None:
            made = []
            at = value.onset
            for length in split(grid, start, value.duration * scale, rest=True):
                made.append(Piece(at, length, lower=self.lower))
                at += length / scale
            self.pieces += made
            return made
        held = self._hold(value.sound)
        made = []
        done = Fraction(0)
        for stretch in _stretches(held, value.duration):
            at = value.onset + done
            for length in split(grid, (at - origin) * scale, stretch * scale):
                made.append(self._piece(held, at, length))
                at += length / scale
                held.printed += length / scale
            done += stretch
        self.pieces += made
        return made

    def _hold(self, address: Address) -> _Held:
        held = self.held.get(address)
        if held is None:
            sound = self.sounds.get(address)
            if sound is None:
                raise ValueError(f"no sound at {address}")
            before = self.before
            edges = tuple(_edges(tone, sound.duration, self.stretches[address]) for tone in sound.tones)
            held = self.held[address] = _Held(sound, edges, self._ringing(before, sound))
            if before is not None:
                held.last = {(a, k): before.last[a, k] for _, a, k, _ in held.ringing}
            self.before = held
        return held

    @staticmethod
    def _ringing(before: _Held | None, sound: Sound) -> tuple[tuple[Tone, Address, int, int], ...]:
        if before is None:
            return ()
        used = {tone.string for tone in sound.tones}
        own = [(t, before.sound.address, k, t.rings_through) for k, t in enumerate(before.sound.tones, 1)]
        return tuple(
            (tone, address, k, left - 1)
            for tone, address, k, left in (*before.ringing, *own)
            if left > 0 and tone.string not in used and tone.path
        )

    def _piece(self, held: _Held, at: Fraction, length: Fraction) -> Piece:
        sound = held.sound
        own = [
            self._head(held, tone, k, _move(held.edges[k - 1], held.printed))
            for k, tone in enumerate(sound.tones, 1)
        ]
        ringing = [self._rung(held, address, k) for _, address, k, _ in held.ringing]
        heads = (*own, *ringing)
        return Piece(at, length, sound, heads, first=held.printed == 0, lower=self.lower)

    def _head(self, held: _Held, tone: Tone, k: int, move: int) -> Head:
        key = (held.sound.address, k)
        before = held.last.get(key)
        step = printed_step(tone, move) if tone.path else 0
        if before is None:
            head = Head(tone, *key, 1, move, step, tied=tone.tied)
        else:
            same = before.step == step
            head = Head(tone, *key, before.piece + 1, move, step, tied=same, bent=not same)
        held.last[key] = head
        return head

    @staticmethod
    def _rung(held: _Held, address: Address, k: int) -> Head:
        before = held.last[address, k]
        head = replace(before, piece=before.piece + 1, tied=True, bent=False)
        held.last[address, k] = head
        return head


def _edges(tone: Tone, duration: Fraction, stretches: list[_Stretch]) -> list[tuple[Fraction, int]]:
    """When each printed move of a tone begins: ``(quarters into the sound, move)``, the first at 0."""
    count = len(moves(tone)) if tone.path else 0
    edges = [(Fraction(0), min(count, 1))]
    for move in range(2, count + 1):
        if printed_step(tone, move) != printed_step(tone, edges[-1][1]):
            at = duration - duration / 2 ** (move - 1)
            edges.append((_plain_place(at, edges[-1][0], stretches), move))
    return edges


def _plain_place(at: Fraction, after: Fraction, stretches: list[_Stretch]) -> Fraction:
    """Where a move can be printed: the half of a sound that goes on into a tuplet is no note value.

    Args:
        at: Quarters into the sound.
        after: Where the move before begins.
        stretches: The values of the sound.

    Returns:
        The place itself where values can be parted there, else the nearest half, quarter … of the
        value it lies in; ``after`` where there is no room for one more.
    """
    found = next((s for s in stretches if s.begin <= at < s.begin + s.length), None)
    if found is None or (found.printed + (at - found.begin) * found.scale) % SHORTEST == 0:
        return at
    share = found.length / 2
    while share * found.scale % SHORTEST == 0:
        place = found.begin + round((at - found.begin) / share) * share
        if after < place < stretches[-1].begin + stretches[-1].length:
            return place
        share /= 2
    return after


def _move(edges: list[tuple[Fraction, int]], elapsed: Fraction) -> int:
    return next(move for start, move in reversed(edges) if start <= elapsed)


def _stretches(held: _Held, duration: Fraction) -> list[Fraction]:
    """Cut a value where one of its sound's tones changes step."""
    start = held.printed
    cuts = sorted({at for edges in held.edges for at, _ in edges if start < at < start + duration})
    places = [start, *cuts, start + duration]
    return [after - before for before, after in pairwise(places)]


def printed(length: Fraction) -> tuple[str, int]:
    """Return MEI's ``dur`` and the number of dots of a printed length."""
    return PRINTED[length]
