"""Blue notes: the flat third, fifth and seventh of the key, or of a chord with a major third.

In plain style one that no half step leads is still put to the author. Outside a blues a bend of a half
step or more has no excuse: its target is judged.
Held for two beats at the end of a phrase, the flat third or fifth of a major chord is no colour
any more, unless it is curled.

In a blues the minor pentatonic of the key, its tonic above all, is at home over all three chords, the
first, fourth and fifth, whatever it is to them: held, on a strong beat, or at the end of a bend. The flat
fifth of the other two, held for two beats, is a slip.

References: the blues scale, and one scale over three chords, as taught (common practice); the calibration
of the exemption is our own.
"""

from __future__ import annotations

from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role

BLUE_DEGREES = frozenset({3, 6, 10})
FAR = 8
"""Notes within which another blue note makes a blue line."""
ONWARD = (-3, 2)
"""Where a blue note that is reached by a half step goes on to: 3 b3 1, 6 b7 5; 2 b3 4, 6 b7 1."""
RUBBING = frozenset({3, 6})
PENTATONIC = frozenset({0, 3, 5, 7, 10})
"""The minor pentatonic, in half steps above the tonic."""
THREE_CHORDS = frozenset({0, 5, 7})
"""The roots of a blues, in half steps above the tonic."""
FLAT_FIFTH, FIFTH = 6, 7
FOREIGN = frozenset({1, 11})
"""Half steps above a root that are no blue note outside a blues, whatever they are in the key."""


def find_blue(at: Moment) -> Role | None:
    """A blue note that is not left standing."""
    if at.note.bent and at.setting.blues < 2:
        return None
    of_key = (at.pitch - at.setting.tonic) % 12 in BLUE_DEGREES
    above = (at.pitch - at.over.root) % 12
    held_fifth = above == FLAT_FIFTH and at.long and at.setting.blues > 1
    of_chord = at.over.major_third and above in BLUE_DEGREES and not held_fifth
    if not (of_key or of_chord) or (above in FOREIGN and at.setting.blues < 2):
        return None
    standing = at.long and at.ends_phrase and not at.note.curl
    if standing and at.over.major_third and above in RUBBING:
        fifth_chord = (at.over.root - at.setting.tonic) % 12 == FIFTH
        return Role.BLUE if fifth_chord and _at_home(at) else None
    return Role.BLUE


def find_pentatonic(at: Moment) -> Role | None:
    """In a blues the tonic, fourth and fifth of the key: over its three chords they may stand."""
    return Role.SCALE_TONE if at.in_key and _at_home(at) else None


def _at_home(at: Moment) -> bool:
    setting = at.setting
    return setting.blues > 1 and is_pentatonic(setting.tonic, at.over.root, at.pitch)


def is_pentatonic(tonic: int, root: int, pitch: int) -> bool:
    """Whether a note is of the key's minor pentatonic over one of the three chords of a blues.

    Args:
        tonic: Pitch class of the key's tonic.
        root: Of the chord.
        pitch: MIDI number or pitch class.
    """
    return (root - tonic) % 12 in THREE_CHORDS and (pitch - tonic) % 12 in PENTATONIC


def exempt(at: Moment) -> bool:
    """Whether a blue note needs no further leading: the blue exemption.

    In a blues the flat third and seventh of the key or of the chord's root never do, nor the key's flat
    fifth with a half step on at least one side or another blue note in the bar. In country and bluegrass
    something near it must make it idiomatic: a half step out of it, or into it and a third down (3 b3 1)
    or a step up from there; another blue note within the bar (the minor pentatonic at work); for the flat
    seventh of the key the tonic beside it (the mixolydian turn); for the flat third over a dominant
    seventh the fall to the root (5 b3 1). A repeated note goes where its last repetition goes.
    """
    setting = at.setting
    if not setting.blues:
        return False
    above_tonic = (at.pitch - setting.tonic) % 12
    above_root = (at.pitch - at.over.root) % 12
    come, onward = at.come, at.onward
    contact = abs(onward) == 1 or (abs(come) == 1 and (at.ends_phrase or onward in ONWARD))
    if above_tonic == 6:
        near = abs(come) == 1
        if setting.blues > 1:
            return contact or near
        return contact or (near and _company(at))
    if above_tonic not in (3, 10) and above_root not in (3, 10):
        return False
    if setting.blues > 1 or contact:
        return True
    if above_tonic == 10 and (come == -2 or onward == 2):
        return True
    if above_root == 3 and at.over.dominant and onward == -3:
        return True
    return _company(at)


def _company(at: Moment) -> bool:
    """Whether another blue note of the key, or this one again, stands within the bar."""
    line, index, note = at.line, at.index, at.note
    tonic = at.setting.tonic
    for way in (-1, 1):
        other = index + way
        while 0 <= other < len(line) and abs(other - index) <= FAR and line[other].bar == note.bar:
            near = line[other]
            if (near.pitch - tonic) % 12 in BLUE_DEGREES and near.sound is not note.sound:
                return True
            other += way
    return False
