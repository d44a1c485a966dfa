"""The margin of a system: one entry a bar with its chords, position, roles and fingers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lickwright.analysis import Role, RoleOf
from lickwright.model.music import Line, Music, MusicBar, Tone
from lickwright.pages.counting import roman, signs


@dataclass(frozen=True, slots=True)
class RoleMark:
    """One degree in the role line; ``kind`` is ``root``, ``chord`` or ``other``."""

    text: str
    kind: str


@dataclass(frozen=True, slots=True)
class BarMargin:
    """What the margin says of a bar; an empty field is not printed."""

    name: str
    chords: str
    position: str
    roles: tuple[RoleMark, ...]
    fingers: str


def bar_name(bar: MusicBar) -> str:
    """Return how a bar is called in a list: its number, or ``pickup``."""
    return str(bar.number) if bar.number else "pickup"


def bar_margins(music: Music, roles: Sequence[RoleOf] = ()) -> dict[int, BarMargin]:
    """Return the margin of every bar by its number; ``roles`` as the classifier gives them."""
    starts = dict(music.positions)
    position: int | None = None
    margins: dict[int, BarMargin] = {}
    for bar in music.bars:
        position = starts.get(bar.number, position)
        margins[bar.number] = BarMargin(
            name="pickup" if not bar.number else f"bar {bar.number}",
            chords=chord_words(bar),
            position=_position(position),
            roles=tuple(_mark(r) for r in roles if r.address.bar == bar.number and not r.address.lower),
            fingers=_fingers(bar.upper),
        )
    return margins


def chord_words(bar: MusicBar) -> str:
    """Return the chords of a bar as printed: ``A7 D7``, a stop with its mark."""
    return " ".join(chord.symbol.display + ("’" if chord.stop else "") for chord in bar.chords)


def _position(fret: int | None) -> str:
    if fret is None:
        return ""
    return f"{roman(fret)} position" if fret else "open position"


def _mark(role: RoleOf) -> RoleMark:
    chordal = role.role is Role.CHORD_TONE
    return RoleMark(
        signs(role.degree), "root" if chordal and role.degree == "1" else "chord" if chordal else "other"
    )


def _fingers(line: Line) -> str:
    sounds = [[_finger(tone) for tone in sound.tones] for sound in line.sounds]
    if not any(finger for sound in sounds for finger in sound):
        return ""
    return " ".join("+".join(finger or "·" for finger in sound) for sound in sounds)


def _finger(tone: Tone) -> str:
    return tone.finger or ""
