"""What may stand under every note: its degree over the chord, what it is to the chord, its name.

One entry a tone, by the end of its id in the engraving. The page asks for the file when a line is
switched on. What a note is to its chord is told by a shape, never by a colour alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from lickwright.analysis import Role
from lickwright.analysis.classifier import Analysis, list_roles
from lickwright.analysis.naming import spelled
from lickwright.analysis.notation.ids import local_id
from lickwright.model.music import Music
from lickwright.pages.counting import signs
from lickwright.pages.margin import spelled_degrees
from lickwright.pages.site_file import SiteFile, script_of
from lickwright.theory.chord import Chord
from lickwright.theory.spelling import spell

ROOT, CHORD, BLUE, OTHER = "r", "c", "b", "o"
"""The kinds: in a ring, bold, in a lozenge, in brackets."""


@dataclass(frozen=True, slots=True)
class NoteMark:
    """What is said of one tone; ``degree`` is ``R`` for the root."""

    degree: str
    kind: str
    name: str


def note_marks(music: Music, analysis: Analysis) -> Mapping[str, NoteMark]:
    """Return the marks by tone (``2-3u1``), of one sound from the highest string; a dead note has none.

    A string bent and let down again has the mark of the first pitch that harmony hears.
    """
    names = spelled(music)
    roles = sorted(spelled_degrees(music, list_roles(analysis)), key=lambda r: r.turn, reverse=True)
    found = {(role.address, role.tone + 1): role for role in roles}
    marks: dict[str, NoteMark] = {}
    for bar in music.bars:
        for line in bar.lines:
            for sound in line.sounds:
                order = sorted(range(len(sound.tones)), key=lambda k: sound.tones[k].string)
                for k in (place + 1 for place in order):
                    role, pitches = found.get((sound.address, k)), names.get((sound.address, k), ())
                    if role is None:
                        continue
                    heard = next((pitch for pitch in pitches if pitch.midi == role.pitch), None)
                    if heard is None:  # bent between two frets: the one that harmony hears
                        heard = spell(role.pitch, music.key, role.chord, None, None)
                    root = role.degree == "1" and isinstance(role.chord, Chord)
                    marks[local_id(sound.address, k)] = NoteMark(
                        "R" if root else signs(role.degree),
                        _kind(role.role, root=root),
                        signs(str(heard.name)),
                    )
    return marks


def _kind(role: Role, *, root: bool) -> str:
    if role is Role.BLUE:
        return BLUE
    if role is not Role.CHORD_TONE:
        return OTHER
    return ROOT if root else CHORD


def marks_file(music: Music, analysis: Analysis) -> SiteFile:
    """Return the file that brings the marks of a piece: ``[degree, kind, name]`` a tone."""
    marks = note_marks(music, analysis)
    return script_of({tone: [mark.degree, mark.kind, mark.name] for tone, mark in marks.items()})
