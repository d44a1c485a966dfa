"""Blue notes: the flat third, fifth and seventh of the key, or of a chord with a major third.

In plain style one that no half step leads is still put to the author. A bend of a half step or more
has no excuse: its target is judged.
Held for two beats at the end of a phrase, the flat third or fifth of a major chord is no colour
any more, unless it is curled.

References: the blues scale as taught (common practice); the calibration of the exemption is our own.
"""

from __future__ import annotations

from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role

BLUE_DEGREES = frozenset({3, 6, 10})
RUBBING = frozenset({3, 6})


def find_blue(at: Moment) -> Role | None:
    """A blue note that is not left standing."""
    if at.note.bent:
        return None
    of_key = (at.pitch - at.setting.tonic) % 12 in BLUE_DEGREES
    above = (at.pitch - at.over.root) % 12
    of_chord = at.over.major_third and above in BLUE_DEGREES
    if not (of_key or of_chord):
        return None
    standing = at.long and at.ends_phrase and not at.note.curl
    return None if standing and at.over.major_third and above in RUBBING else Role.BLUE


def exempt(at: Moment) -> bool:
    """Whether a chromatic note that is explained needs no further leading: the blue exemption.

    The flat third and seventh of the key or of the chord's root, and the key's flat fifth with
    a half step on at least one side.
    """
    if not at.setting.blues:
        return False
    above_tonic = (at.pitch - at.setting.tonic) % 12
    if above_tonic in (3, 10) or (at.pitch - at.over.root) % 12 in (3, 10):
        return True
    return above_tonic == 6 and (abs(at.rise_in) == 1 or abs(at.rise_out) == 1)
