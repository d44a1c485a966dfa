"""A note among its neighbours: what every figure looks at."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from lickwright.analysis.changes import Change
from lickwright.analysis.line import LineNote
from lickwright.analysis.role import Role
from lickwright.theory.key import Key

STRIKES = 3
"""Of one pitch, that make a drone."""
AROUND = 8
"""Notes on either side among which they are counted."""
FURTHEST = 4
"""Notes across which a line is followed through a drone."""


@dataclass(frozen=True, slots=True)
class Setting:
    """What holds for the whole piece.

    Attributes:
        tonic: Pitch class of the key's tonic.
        scale: Twelve truths: whether the key's scale has the pitch class.
        raised: In minor, the pitch classes of the raised sixth and seventh; else None.
        blues: How much a blue note is excused: 0 in plain style, where it needs leading like any other
            chromatic note; 1 where something near makes it idiomatic; 2 in a blues, anywhere.
        beat: A beat in ticks.
        changes: Chords in order.
        key: It spells what the chord does not.
    """

    tonic: int
    scale: tuple[bool, ...]
    raised: tuple[int, int] | None
    blues: int
    beat: int
    changes: tuple[Change, ...]
    key: Key

    def following(self, note: LineNote) -> Change | None:
        """Return the change after the one a note stands over."""
        after = note.chord + 1
        return self.changes[after] if after < len(self.changes) else None

    def relation(self, note: LineNote) -> str:
        """Return what the note is to its chord: ``t``, ``f``, ``c``, ``a`` or ``.``."""
        return self.changes[note.chord].relation[note.pitch % 12]

    def stable(self, note: LineNote) -> bool:
        """Whether it is a tone of its chord, or of the next one if that begins within a beat."""
        if self.relation(note) == "t":
            return True
        after = self.following(note)
        return (
            after is not None
            and after.start - note.start <= self.beat
            and after.relation[note.pitch % 12] == "t"
        )


class Moment:
    """A note of a line with its neighbours, moved along the line.

    Neighbours across a rest longer than a beat are none: there a phrase ends.

    Attributes:
        note: The note. ``pitch``: its MIDI number.
        before, after, second: Neighbours; ``second`` is the one after ``after``.
        rise_in, rise_out: Half steps from ``before``, and to ``after``; 0 without a neighbour.
        relation: What it is to its chord. ``over``: that chord.
        in_key: Whether the key's scale has it where it stands.
    """

    __slots__ = (
        "_joins", "after", "before", "in_key", "index", "line", "note", "over", "pitch", "relation",
        "rise_in", "rise_out", "roles", "second", "setting",
    )  # fmt: skip  # fmt: skip

    note: LineNote
    over: Change
    before: LineNote | None
    after: LineNote | None
    second: LineNote | None

    def __init__(self, setting: Setting, line: tuple[LineNote, ...], roles: list[Role]) -> None:
        self.setting = setting
        self.line = line
        self.roles = roles
        beat = setting.beat
        self._joins = [b.start - a.end <= beat for a, b in pairwise(line)]
        self._joins.append(False)

    def move(self, index: int) -> None:
        """Look at another note of the line."""
        line = self.line
        note = line[index]
        self.index = index
        self.note = note
        pitch = self.pitch = note.pitch
        self.over = self.setting.changes[note.chord]
        self.relation = self.over.relation[pitch % 12]
        joins = self._joins
        before = self.before = line[index - 1] if index and joins[index - 1] else None
        after = self.after = line[index + 1] if joins[index] else None
        self.second = line[index + 2] if after and joins[index + 1] else None
        self.rise_in = pitch - before.pitch if before else 0
        self.rise_out = after.pitch - pitch if after else 0
        self.in_key = self._in_key(pitch % 12)

    def _neighbour(self, index: int, beside: int) -> LineNote | None:
        if not 0 <= index < len(self.line):
            return None
        return self.line[index] if self._joins[min(index, beside)] else None

    def _in_key(self, pitch_class: int) -> bool:
        setting = self.setting
        if setting.scale[pitch_class]:
            return True
        if setting.raised is None:
            return False
        sixth, seventh = setting.raised
        if pitch_class == seventh:
            return True
        return pitch_class == sixth and any(
            near is not None and near.pitch % 12 == seventh for near in (self.before, self.after)
        )

    def rises(self) -> tuple[int, int]:
        """Half steps in and out, looked at through a repetition, and through a drone that it alternates with.

        The drone is a pitch beside the note that is struck three times or more hereabouts; what lies
        on the other side of it is the true neighbour.
        """
        drone = self._drone()
        rise_in = self._rise(-1, drone)
        rise_out = self._rise(1, drone)
        return -rise_in, rise_out

    @property
    def onward(self) -> int:
        """Half steps to the next other pitch, looked at through repetitions; 0 without one."""
        return self.rise_out or self._rise(1, None)

    @property
    def come(self) -> int:
        """Half steps from the last other pitch, looked at through repetitions; 0 without one."""
        return self.rise_in or -self._rise(-1, None)

    def _drone(self) -> int | None:
        for near in (self.before, self.after):
            if near is None or abs(near.pitch - self.pitch) <= 2:
                continue
            around = self.line[max(0, self.index - AROUND) : self.index + AROUND + 1]
            if sum(note.pitch == near.pitch for note in around) >= STRIKES:
                return near.pitch
        return None

    def _rise(self, way: int, drone: int | None) -> int:
        index, beside = self.index + way, self.index
        while (near := self._neighbour(index, beside)) is not None:
            if near.pitch not in (self.pitch, drone):
                return near.pitch - self.pitch
            index, beside = index + way, index
            if abs(index - self.index) > FURTHEST:
                break
        return 0

    def joined(self, first: int, last: int) -> bool:
        """Whether no rest longer than a beat stands between two notes of the line, given by index."""
        return all(self._joins[first:last])

    @property
    def long(self) -> bool:
        """Held for two beats or more."""
        return self.note.end - self.note.start >= 2 * self.setting.beat

    @property
    def ends_phrase(self) -> bool:
        """Whether nothing follows within a beat."""
        return self.after is None
