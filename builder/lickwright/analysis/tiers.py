"""How firmly an explained note is led: what a proof still asks of it.

Tier 0: nothing explains the note. Tier 1, *disconnected*: a chromatic note that half steps do not
lead. Tier 2, *loose*: a chromatic note that is in no half-step run and no half-step neighbour, or a
note that rubs against the chord, on a beat, and is not left by step.

A chromatic note is led when it rises a half step, the way a leading note does; when it falls through half
steps on both sides; when it begins a chromatic run; when it is slurred or bent, or slurred into what
follows; when it passes along the scale of its chord; or as the flat ninth or thirteenth of a dominant.
One that is leapt to and only falls a half step is not, nor a chromatic neighbour above: the neighbour
that is raised or lowered out of the key lies below (common practice), the flat seventh excepted. That
is how a slip of the hand looks; enclosures and blue notes that do so are told apart by themselves.
A turn that is written twice is meant, and no more than loose.

References: leading by half step (common practice); the tiers are our own, set on a printed collection of
fiddle tunes.
"""

from __future__ import annotations

from lickwright.analysis.figures.blue import exempt
from lickwright.analysis.figures.sequence import find_pattern
from lickwright.analysis.figures.targeting import find_enclosure
from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role

UNEXPLAINED, DISCONNECTED, LOOSE = 0, 1, 2
PLACED: frozenset[Role] = frozenset(
    {
        Role.ANTICIPATION,
        Role.SUSPENSION,
        Role.RETARDATION,
        Role.TENSION,
        Role.ENCLOSURE,
        Role.DRONE,
        Role.PATTERN,
        Role.PARALLEL,
    }
)
"""Roles that place a chromatic note by more than its half steps."""
_FALLING = (1, 8)
"""Tensions of a dominant that fall to its root and fifth: the flat ninth and the flat thirteenth."""
SURE = 4
"""Notes of a moved cell that excuse a chromatic note: three may come about by chance."""
_SCALE_STEPS = ((-1, -2), (-2, -1), (1, 2), (2, 1))


def find_tier(at: Moment, role: Role) -> int | None:
    """Return 0, 1 or 2 as above, or None for a note that nothing is asked of."""
    if role is Role.UNEXPLAINED:
        return UNEXPLAINED
    if not at.over.harmony or at.relation == "t":
        return None
    if at.in_key:
        rubs = at.relation == "a" and at.note.weight >= 2
        return LOOSE if rubs and role is Role.WEAK and not 1 <= abs(at.rise_out) <= 2 else None
    if role in PLACED or _slurred(at) or exempt(at):
        return None
    rise_in, rise_out = at.rise_in, at.rise_out
    if not (abs(rise_in) == 1 and abs(rise_out) == 1):
        through_in, through_out = at.rises()
        if abs(through_in) == 1 and abs(through_out) == 1:
            rise_in, rise_out = through_in, through_out
    enclosed = find_enclosure(at) is not None
    if not _led(at, rise_in, rise_out) and not enclosed:
        if find_pattern(at, SURE) is not None:
            return None
        return LOOSE if _comes_again(at) else DISCONNECTED
    return None if enclosed or (abs(rise_in) == 1 and abs(rise_out) == 1) else LOOSE


def _slurred(at: Moment) -> bool:
    """Bent, curled, slurred from the note before, or slurred by step into a note at rest."""
    note, after = at.note, at.after
    if note.curl or note.bent or note.linked:
        return True
    return after is not None and after.linked and abs(at.rise_out) <= 2 and at.setting.stable(after)


def _led(at: Moment, rise_in: int, rise_out: int) -> bool:
    if rise_out == 1:
        return True
    if (rise_in, rise_out) in _SCALE_STEPS and _of_its_chord(at):
        return True
    if rise_out == -1:
        if rise_in == -1 or _runs_on(at) or (rise_in == 1 and _flat_seventh(at)):
            return True
        return at.over.dominant and (at.pitch - at.over.root) % 12 in _FALLING
    return False


def _of_its_chord(at: Moment) -> bool:
    """A note of the chord's own scale: the major sixth of a minor chord, the fourth of a major one."""
    above = (at.pitch - at.over.root) % 12
    return (at.over.minor and above == 9) or (at.over.major_third and above == 5)


def _flat_seventh(at: Moment) -> bool:
    """The key's flat seventh, which turns towards the fourth degree and is at home above the sixth."""
    return (at.pitch - at.setting.tonic) % 12 == 10


def _runs_on(at: Moment) -> bool:
    """Whether the two notes after go on by half steps the same way, the second of them chromatic too."""
    after, second = at.after, at.second
    if after is None or second is None or second.pitch - after.pitch != at.rise_out:
        return False
    return not at.setting.scale[second.pitch % 12]


def _comes_again(at: Moment) -> bool:
    """Whether the same turn, the note with its neighbours, is written elsewhere in the line: it is meant."""
    before, after = at.before, at.after
    if before is None or after is None:
        return False
    turn = (before.pitch, at.pitch, after.pitch)
    line, own = at.line, at.note.key
    return any(
        line[i].pitch == at.pitch
        and (line[i - 1].pitch, line[i].pitch, line[i + 1].pitch) == turn
        and line[i].key != own
        for i in range(1, len(line) - 1)
    )
