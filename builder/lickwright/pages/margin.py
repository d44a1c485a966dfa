"""The margin of a system: one entry a bar with its chords, position and roles.

Fingers and strokes are drawn in the notation itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from lickwright.analysis import Role, RoleOf
from lickwright.analysis.naming import spelled
from lickwright.model.music import Music, MusicBar
from lickwright.pages.counting import signs
from lickwright.terms.numbers import roman
from lickwright.theory.chord import Chord
from lickwright.theory.interval import Interval

Positions = Mapping[int, int | None]
"""Where a position begins, or (None) ends: its fret by the number of the bar."""


@dataclass(frozen=True, slots=True)
class RoleMark:
    """The degree of a sound in the role line; ``kind`` is ``root``, ``chord`` or ``other``."""

    text: str
    kind: str


@dataclass(frozen=True, slots=True)
class BarMargin:
    """What the margin says of a bar; an empty field is not printed. ``low``: the lower voice's roles."""

    name: str
    chords: str
    position: str
    roles: tuple[RoleMark, ...]
    low: tuple[RoleMark, ...] = ()


def bar_name(bar: MusicBar) -> str:
    """Return how a bar is called in a list: its number, or ``pickup``."""
    return str(bar.number) if bar.number else "pickup"


def bar_margins(
    music: Music, roles: Sequence[RoleOf] = (), positions: Positions | None = None
) -> dict[int, BarMargin]:
    """Return the margin of every bar by its number.

    Args:
        music: Its bars.
        roles: As the classifier gives them.
        positions: Fret of the position by bar, None where it ends; without them the music's own.
    """
    named = tuple(spelled_degrees(music, roles))
    starts: Positions = dict(music.positions) if positions is None else positions
    position: int | None = None
    margins: dict[int, BarMargin] = {}
    for bar in music.bars:
        position = starts.get(bar.number, position)
        margins[bar.number] = BarMargin(
            name="pickup" if not bar.number else f"bar {bar.number}",
            chords=chord_words(bar),
            position=_position(position),
            roles=tuple(_marks(r for r in named if r.address.bar == bar.number and not r.address.lower)),
            low=tuple(_marks(r for r in named if r.address.bar == bar.number and r.address.lower)),
        )
    return margins


def chord_words(bar: MusicBar) -> str:
    """Return the chords of a bar as printed: ``A7 D7``, a stop with its mark."""
    return " ".join(chord.symbol.display + ("’" if chord.stop else "") for chord in bar.chords)


def _position(fret: int | None) -> str:
    if fret is None:
        return ""
    return f"{roman(fret)} position" if fret else "open position"


def spelled_degrees(music: Music, roles: Sequence[RoleOf]) -> Iterator[RoleOf]:
    """Yield the roles with the degrees of the notes as the staff spells them: D sharp over D is ``#1``."""
    names = spelled(music) if roles else {}
    for role in roles:
        spellings = names.get((role.address, role.tone + 1), ())
        note = next((pitch.name for pitch in spellings if pitch.midi == role.pitch), None)
        if note is None:
            yield role
        elif isinstance(role.chord, Chord):
            yield replace(role, degree=role.chord.degree_of(note))
        else:
            interval = Interval.between(music.key.tonic, note)
            yield replace(role, degree=interval.label) if abs(interval.alter) <= 1 else role


def _marks(roles: Iterable[RoleOf]) -> Iterator[RoleMark]:
    """One mark a sound; what sounds together is joined, ``5+1``."""
    for _, together in groupby(roles, key=lambda role: (role.address, role.turn)):
        found = list(together)
        text = "+".join(signs(role.degree) for role in found)
        if any(role.role is not Role.CHORD_TONE for role in found):
            yield RoleMark(text, "other")
        else:
            yield RoleMark(text, "root" if text == "1" else "chord")
