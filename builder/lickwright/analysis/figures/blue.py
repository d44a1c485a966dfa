"""Blue notes: the flat third, fifth and seventh of the key, or of a chord with a major third.

In plain style one that no half step leads is still put to the author. Outside a blues a bend of a half
step or more has no excuse: its target is judged.
Held for two beats at the end of a phrase, the flat third or fifth of a major chord is no colour
any more, unless it is curled.

References: the blues scale as taught (common practice); the calibration of the exemption is our own.
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
FOREIGN = frozenset({1, 11})
"""Half steps above a root that are no blue note outside a blues, whatever they are in the key."""


def find_blue(at: Moment) -> Role | None:
    """A blue note that is not left standing."""
    if at.note.bent and at.setting.blues < 2:
        return None
    of_key = (at.pitch - at.setting.tonic) % 12 in BLUE_DEGREES
    above = (at.pitch - at.over.root) % 12
    of_chord = at.over.major_third and above in BLUE_DEGREES
    if not (of_key or of_chord) or (above in FOREIGN and at.setting.blues < 2):
        return None
    standing = at.long and at.ends_phrase and not at.note.curl
    return None if standing and at.over.major_third and above in RUBBING else Role.BLUE


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
            return contact or near or _company(at)
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
