"""What a commentary goes through: the sounds of a voice in the order written, each with its roles."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from lickwright.analysis.commentary.words import name_degree
from lickwright.analysis.entries import Analysis, list_roles
from lickwright.analysis.line import LineNote
from lickwright.analysis.moment import Setting
from lickwright.analysis.role import Role, RoleOf
from lickwright.theory.chord import Chord
from lickwright.theory.key import Key

NEAR = 3
"""Notes within which two thirds are told apart."""
MINOR_THIRD, MAJOR_THIRD = 3, 4
BLUE = {3: "blue third", 6: "blue fifth", 10: "blue seventh"}
"""By half steps above the root of the chord, or above the key's tonic."""


@dataclass(frozen=True, slots=True)
class Item:
    """One sound, or one pitch of a bend, with the roles of its tones.

    Attributes:
        roles: Highest pitch first. ``notes``: the same as lines have them.
        joined: Whether it follows the item before without a rest longer than a beat.
        next_chord: The chord that comes after the one it stands over, where there is one.
        key: Of the piece.
        held: The chord that comes in while it sounds, where one does.
        both_thirds: Whether the minor and the major third of its chord stand near it.
    """

    roles: tuple[RoleOf, ...]
    notes: tuple[LineNote, ...]
    joined: bool
    next_chord: Chord | None
    key: Key
    held: Chord | None = None
    both_thirds: bool = False

    @property
    def top(self) -> RoleOf:
        """The role of its highest note."""
        return self.roles[0]

    @property
    def note(self) -> LineNote:
        """Its highest note."""
        return self.notes[0]

    @property
    def pitch(self) -> int:
        """MIDI number of the highest note."""
        return self.roles[0].pitch

    @property
    def single(self) -> bool:
        """Whether one note sounds."""
        return len(self.roles) == 1

    @property
    def bend(self) -> bool:
        """Whether one note sounds and the string is bent for it, or let down."""
        return self.single and (self.note.bent or self.note.turn > 0)

    @property
    def role(self) -> Role:
        """The role of its highest note."""
        return self.roles[0].role

    @property
    def degree(self) -> str:
        """The highest note's degree in words, without an article."""
        return self.name(self.top)

    def name(self, role: RoleOf) -> str:
        """Return the degree of one of its notes in words, without an article."""
        chord = role.chord
        thirds = role.interval == MINOR_THIRD and isinstance(chord, Chord) and chord.has_major_third
        if thirds and role.role is Role.TENSION:  # of an altered dominant
            return "sharp ninth"
        return name_degree(role.degree, role.chord, both_thirds=self.both_thirds)

    def blue(self, role: RoleOf) -> str:
        """Return the name of a blue note, without an article: of its chord, else of the key."""
        of_key = (role.pitch - self.key.tonic.semitone) % 12
        if role.interval not in BLUE and of_key in BLUE:
            return f"{BLUE[of_key]} of {self.key.tonic.display}"
        return BLUE.get(role.interval, self.name(role))

    def over(self, other: Item) -> bool:
        """Whether it stands over the same chord as another."""
        return self.top.chord.same_as(other.top.chord)

    @property
    def at_rest(self) -> bool:
        """Whether its highest note may be the goal of a line."""
        return self.role in (Role.CHORD_TONE, Role.TENSION, Role.ANTICIPATION, Role.NO_CHORD)


def list_items(analysis: Analysis) -> tuple[tuple[Item, ...], ...]:
    """Return the items of each voice, the upper voice first."""
    played: dict[tuple[object, int, int], LineNote] = {}
    for line in (*analysis.lines.melodic, analysis.lines.inner):
        for note in line:
            known = played.get(note.key)
            if known is None or note.start < known.start:
                played[note.key] = note
    sounds: dict[tuple[object, int], list[RoleOf]] = {}
    for role in list_roles(analysis):
        sounds.setdefault((role.address, role.turn), []).append(role)
    voices: tuple[list[Item], list[Item]] = ([], [])
    for roles in sounds.values():
        voice = voices[roles[0].address.lower]
        voice.append(_item(analysis.setting, roles, played, voice))
    return tuple(_with_thirds(_in_order(voice)) for voice in voices if voice)


def _item(
    setting: Setting,
    roles: list[RoleOf],
    played: dict[tuple[object, int, int], LineNote],
    voice: Sequence[Item],
) -> Item:
    roles = sorted(roles, key=lambda role: (-role.pitch, role.tone))
    notes = tuple(played[role.address, role.tone, role.turn] for role in roles)
    after = setting.following(notes[0])
    symbol = after.symbol if after is not None else None
    gap = notes[0].start - max(note.end for note in voice[-1].notes) if voice else 0
    joined = bool(voice) and gap <= setting.beat
    coming = symbol if isinstance(symbol, Chord) else None
    held = coming if after is not None and notes[0].end > after.start else None
    return Item(tuple(roles), notes, joined, coming, setting.key, held)


def _with_thirds(items: tuple[Item, ...]) -> tuple[Item, ...]:
    """Mark what stands over a minor chord with both its thirds near."""
    found = list(items)
    for index, item in enumerate(items):
        if not any(role.interval == MAJOR_THIRD for role in item.roles) or not _minor(item):
            continue
        for near in range(max(0, index - NEAR), min(len(items), index + NEAR + 1)):
            if items[near].over(item):
                found[near] = replace(found[near], both_thirds=True)
    return tuple(found)


def _minor(item: Item) -> bool:
    chord = item.top.chord
    return isinstance(chord, Chord) and 3 in chord.quality.tones and not chord.has_major_third


def _in_order(items: list[Item]) -> tuple[Item, ...]:
    return tuple(sorted(items, key=lambda item: (item.top.address, item.top.turn)))
