"""The repair of a row: where the notes agree with all else, its own entry is the slip.

For each kind of row one entry is tried: the name or the degree that the note has, the other stroke, the
finger that the hand's place gives. It is offered only if the rules, run again, no longer find the fault and
find no other; of a name or a degree only under a note of its chord, or where the other row says so, too.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from lickwright.analysis.role import Role
from lickwright.checks.subject import Subject
from lickwright.checks.trial import change_sound, list_places
from lickwright.checks.witnesses import top_pitch
from lickwright.checks.wording import degree_of
from lickwright.findings import Edit, Finding, Fix
from lickwright.model.music import MusicBar, Sound, Tone
from lickwright.terms.strokes import OTHER
from lickwright.theory.chord import Chord
from lickwright.theory.interval import parse_degree
from lickwright.theory.pitch import PitchClass

ROW_OF: Mapping[str, str] = {
    "witness/names": "names",
    "witness/degrees": "degrees",
    "picking/alternate": "rh",
    "picking/pendulum": "rh",
    "hands/finger": "lh",
    "hands/needless-shift": "lh",
}
"""Rules that hold a row against the notes, and the row."""
NEAR = 4
"""Sounds on either side that say where the hand is (own threshold)."""


@dataclass(frozen=True, slots=True)
class Entry:
    """What a row says of one tone: ``tone`` in ``sound``, ``index`` of it, in ``bar``."""

    bar: MusicBar
    sound: Sound
    index: int

    @property
    def tone(self) -> Tone:
        """The tone."""
        return self.sound.tones[self.index]


def mend_row(subject: Subject, finding: Finding, sound: Sound, index: int) -> Fix | None:
    """Return what the row should say of a tone, if that clears the finding and brings no other.

    Args:
        subject: The bars around it.
        finding: Of a rule in ``ROW_OF``.
        sound: Where it is.
        index: Of the tone in it.
    """
    row = ROW_OF[finding.rule]
    place = next((span for kind, span in sound.entries if kind == row), None)
    bar = subject.piece.music.bar(sound.address.bar)
    if place is None or bar is None:
        return None
    right = RIGHT[row](subject, Entry(bar, sound, index))
    text = None if right is None else _put(place.text, row, right, index, len(sound.tones))
    if right is None or text is None or text == place.text:
        return None
    tried = Subject(
        change_sound(subject.piece, sound.address, lambda each: _say(each, row, right, index)),
        subject.limits,
        subject.base,
    )
    places = list_places(tried)
    if (finding.rule, finding.address) in places or places - list_places(subject):
        return None
    return Fix(f"write {text} in the {row} row: all else agrees", (Edit(place, text),))


def _name(subject: Subject, entry: Entry) -> str | None:
    """The name that the staff gives the note."""
    sounding = top_pitch(entry.tone)
    if not sounding or not _agrees(subject, entry, "degrees"):
        return None
    spelled = subject.spelled.get((entry.sound.address, entry.index + 1), ())
    return next((str(pitch.name) for pitch in spelled if pitch.midi == sounding[-1]), None)


def _degree(subject: Subject, entry: Entry) -> str | None:
    """The degree of the note over its chord."""
    sounding = top_pitch(entry.tone)
    if not sounding or not _agrees(subject, entry, "names"):
        return None
    return degree_of(sounding[-1], entry.bar.chord_at(entry.sound.onset), subject.piece.music.key)


def _stroke(_subject: Subject, entry: Entry) -> str | None:
    """The other stroke."""
    return OTHER.get(entry.sound.stroke or "")


def _finger(subject: Subject, entry: Entry) -> str | None:
    """The finger that lies over the fret where the fingers before and after put the hand."""
    if not entry.tone.fret:
        return "0" if entry.tone.fret == 0 else None
    voice = [w for w in subject.tones if w.sound.address.lower == entry.sound.address.lower]
    at = next((k for k, written in enumerate(voice) if written.tone is entry.tone), None)
    if at is None:
        return None
    beside = [w.tone for w in voice[max(0, at - NEAR) : at + NEAR + 1] if w.tone is not entry.tone]
    stands = Counter(t.fret - int(t.finger) for t in beside if t.fret and t.finger and t.finger in "1234")
    if not stands:
        return None
    finger = entry.tone.fret - stands.most_common(1)[0][0]
    return str(finger) if 1 <= finger <= 4 else None


RIGHT: Mapping[str, Callable[[Subject, Entry], str | None]] = {
    "names": _name,
    "degrees": _degree,
    "rh": _stroke,
    "lh": _finger,
}
"""What each row should say of a tone; None where nobody knows."""


def _agrees(subject: Subject, entry: Entry, other: str) -> bool:
    """Whether something else speaks for the note: the chord it is of, or the other row."""
    roles = [r for r in subject.roles if (r.address, r.tone) == (entry.sound.address, entry.index)]
    if roles and max(roles, key=lambda role: role.pitch).role is Role.CHORD_TONE:
        return True
    heard = {pitch % 12 for pitch in top_pitch(entry.tone)}
    if other == "names":
        said = PitchClass.parse(entry.tone.name or "")
        return said is not None and said.semitone in heard
    degree, chord = parse_degree(entry.tone.degree or ""), entry.bar.chord_at(entry.sound.onset)
    root = chord.root if isinstance(chord, Chord) else subject.piece.music.key.tonic
    return degree is not None and (root.semitone + degree.semitones) % 12 in heard


def _say(sound: Sound, row: str, right: str, index: int) -> Sound:
    """The sound as it would be with another entry."""
    if row == "rh":
        return replace(sound, stroke=right)
    tone = sound.tones[index]
    if row == "names":
        tone = replace(tone, name=right)
    elif row == "degrees":
        tone = replace(tone, degree=right)
    else:
        tone = replace(tone, finger=right)
    return replace(sound, tones=(*sound.tones[:index], tone, *sound.tones[index + 1 :]))


def _put(text: str, row: str, right: str, index: int, tones: int) -> str | None:
    """The entry with what it says of one tone put anew; None where it does not speak tone by tone."""
    if tones == 1 or row == "rh":
        return right
    apart, parts = ("", list(text)) if row == "lh" else ("+", text.split("+"))
    if len(parts) != tones:
        return None
    parts[index] = right
    return apart.join(parts)
