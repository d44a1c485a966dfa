"""Fingers of the `lh` row that make the hand move where the frets do not.

A finger stands a fret beside the next, and reaches one fret aside. Of notes one after the other the lower
finger has the lower fret, a finger keeps its fret, and two fingers are no farther apart than they reach.
Where the row says otherwise the hand has to shift. That is found only where the frets before and after lie
under one hand: a shift that the frets ask for stands.

A note struck again keeps its finger, unless the hand moves on from there. Where one finger stands apart from
most of those around it, and the hand could stay but for it, that one is named.

An open string and a rest free the hand, a slide carries it there and lets it come back, a chord is gripped
anew; another position may be stated. After a beat's time a single shift is left alone. So is a finger that
takes the next fret beside its neighbour, and one that leads a broken double stop along its string. The thumb
may be anywhere.

Why it matters: a beginner follows the row literally. One finger in the wrong place sends the hand along the
neck and back, and the line falls apart where it is easy.

What to do: give the lower fret the lower finger; where the hand is to move, write the slide or state the
position.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from lickwright.checks.grips import Grip, Hold, list_stretches
from lickwright.checks.limits import limit_name
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.findings import Label
from lickwright.instrument.fretboard import span
from lickwright.instrument.position import STRETCH, Standing, standing
from lickwright.model.address import Address

LITTLE = 4
"""The little finger."""
ONE_HAND = 3
"""Frets from the index finger's to the little finger's, a finger a fret."""


@dataclass(frozen=True, slots=True)
class _Break:
    """Two notes between which the fingers move the hand, and why they do."""

    before: Hold
    after: Hold
    why: str


@dataclass(frozen=True, slots=True)
class _Odd:
    """A note whose finger stands apart, and the fret of the index finger as most of the others have it."""

    hold: Hold
    index: int


@dataclass(frozen=True, slots=True)
class _Run:
    """Grips that the fingers take without a shift; ``broken`` is what it begins with, None at first."""

    broken: _Break | None = None
    grips: list[Grip] = field(default_factory=list)

    @property
    def frets(self) -> list[int]:
        return [fret for grip in self.grips for fret in grip.frets]


def run(subject: Subject) -> Iterator[Finding]:
    """In each stretch without leave to move, look for two runs of fingers whose frets one hand covers."""
    if subject.piece.kind == "chorus" or not any(written.tone.finger for written in subject.tones):
        return
    told: set[Address] = set()
    for stretch in list_stretches(subject.piece, subject.onsets):
        needless = [after for before, after in pairwise(_runs(subject, stretch)) if _fit(before, after)]
        if len(needless) > 1 or any(not after.grips[0].eased for after in needless):
            first, odd = needless[0].broken, _find_odd(subject, stretch)
            at = odd.hold if odd is not None else None if first is None else first.after
            if first is None or at is None or at.sound.address in told:
                continue
            told.add(at.sound.address)
            yield _report(subject, first, len(needless) - 1) if odd is None else _report_odd(subject, odd)


def _find_odd(subject: Subject, stretch: Sequence[Grip]) -> _Odd | None:
    """The one finger that stands apart from most of a stretch, if the hand need not move without it."""
    fingered = [(hold, hold.fret - hold.finger) for grip in stretch for hold in grip.held if hold.finger]
    usual, times = Counter(place for _, place in fingered).most_common(1)[0]
    if 2 * times <= len(fingered):
        return None
    apart = [(abs(place - usual), hold) for hold, place in fingered if 1 <= hold.fret - usual <= LITTLE]
    odd = [(far, hold) for far, hold in apart if far and _stays(subject, stretch, hold)]
    farthest = [hold for far, hold in odd if far == max(far for far, _ in odd)]
    return _Odd(farthest[0], usual + 1) if len(farthest) == 1 else None


def _stays(subject: Subject, stretch: Sequence[Grip], hold: Hold) -> bool:
    """Whether the hand can stay where it is but for the finger of one note."""
    silent = [_without_finger(grip, hold) for grip in stretch]
    return not any(_fit(before, after) for before, after in pairwise(_runs(subject, silent)))


def _without_finger(grip: Grip, odd: Hold) -> Grip:
    held = (replace(h, tone=replace(h.tone, finger=None)) if h is odd else h for h in grip.held)
    return replace(grip, held=tuple(held))


def _fit(before: _Run, after: _Run) -> bool:
    """Whether the frets of both lie under one hand, be it one that a run has opened by a fret; none leads."""
    if after.broken is None or _leads(before.grips, after.broken.after):
        return False
    opened = max(_width(before.frets), _width(after.frets)) == ONE_HAND + STRETCH
    return _width(before.frets + after.frets) <= ONE_HAND + (STRETCH if opened else 0)


def _width(frets: Sequence[int]) -> int:
    return max(frets) - min(frets)


def _leads(before: Sequence[Grip], after: Hold) -> bool:
    """Whether a finger comes along its string from the note before the last, which is on another one."""
    if len(before) < 2:
        return False
    leader, between = before[-2].held[0], before[-1].held[0]
    same = leader.tone.string == after.tone.string != between.tone.string
    return same and leader.finger == after.finger


def _runs(subject: Subject, stretch: Sequence[Grip]) -> Iterator[_Run]:
    """The longest runs, from the left, that one place of the hand serves."""
    anywhere = Standing(1, subject.piece.music.guitar.frets)
    run, place = _Run(), anywhere
    for number, grip in enumerate(stretch):
        common = _narrow(place, grip)
        following = stretch[number + 1].held if number + 1 < len(stretch) else ()
        broken = _find_break(subject, run.grips, grip, following)
        if common is None and broken is None:
            broken = _find_move(run.grips, grip)
        if broken is not None:
            yield run
            run, common = _Run(broken), _narrow(anywhere, grip)
        run.grips.append(grip)
        place = common or anywhere
    yield run


def _narrow(place: Standing, grip: Grip) -> Standing | None:
    """From where a grip can be taken as well; None where the hand has to move."""
    own = [standing(hold.fret, hold.finger) for hold in grip.held if hold.finger is not None]
    lowest = max([place.lowest, *(one.lowest for one in own)])
    highest = min([place.highest, *(one.highest for one in own)])
    return Standing(lowest, highest) if lowest <= highest else None


def _find_move(run: Sequence[Grip], grip: Grip) -> _Break | None:
    """Tell of a hand that no single place serves."""
    after = next((hold for hold in grip.held if hold.finger is not None), None)
    fingered = (hold for each in reversed(run) for hold in each.held if hold.finger is not None)
    before = next(fingered, None)
    if after is None or before is None:
        return None
    why = f"finger {before.finger} on fret {before.fret}, then finger {after.finger} on fret {after.fret}"
    return _Break(before, after, why)


def _find_break(
    subject: Subject, run: Sequence[Grip], grip: Grip, following: Sequence[Hold]
) -> _Break | None:
    """Look at each two notes of a voice that follow each other."""
    for after in grip.held:
        for before in run[-1].held if run else ():
            if before.sound.address.lower == after.sound.address.lower:
                why = _why(subject, before, after, following)
                if why:
                    return _Break(before, after, why)
    return None


def _why(subject: Subject, before: Hold, after: Hold, following: Sequence[Hold]) -> str:
    """What two fingers cannot do one after the other without a shift; empty if nothing."""
    a, b = before.finger, after.finger
    if a is None or b is None:
        return ""
    if before.fret == after.fret:
        again = a != b and before.tone.string == after.tone.string
        stays = all(_together(before, hold) for hold in following)
        return f"finger {b} takes fret {after.fret} from finger {a}" if again and stays else ""
    if a == b:
        beside = any(hold.fret == after.fret and hold.finger != b for hold in following)
        near = abs(before.fret - after.fret) == 1 and beside
        return "" if near else f"finger {b} goes from fret {before.fret} to fret {after.fret} without a slide"
    if (a < b) != (before.fret < after.fret):
        low, high = sorted((before, after), key=lambda hold: hold.fret)
        return f"finger {high.finger} is on fret {high.fret} above finger {low.finger} on fret {low.fret}"
    if 1 not in (a, b) and abs(before.fret - after.fret) > abs(a - b) + STRETCH:
        return f"frets {before.fret} and {after.fret} are too far apart for fingers {a} and {b}"
    guitar, limits = subject.piece.music.guitar, subject.limits
    size = span(before.fret, after.fret, guitar.scale_length, guitar.capo)
    if size <= limits[f"{limit_name(a, b)}-error"] * limits["reach-passing"]:
        return ""
    return f"frets {before.fret} and {after.fret} are {size:.0f} mm apart, too far for fingers {a} and {b}"


def _together(one: Hold, two: Hold) -> bool:
    """Whether a hand can stand where it takes both with their fingers; where one has none, it can."""
    places = [standing(hold.fret, hold.finger) for hold in (one, two)]
    return max(each.lowest for each in places) <= min(each.highest for each in places)


def _report(subject: Subject, broken: _Break, more: int) -> Finding:
    low, high = sorted((broken.before, broken.after), key=lambda hold: hold.fret)
    where = f"frets {low.fret} and {high.fret} and those beside them"
    hint = "Give the lower fret the lower finger"
    if low.fret == high.fret:
        where, hint = "this fret and those beside it", "Let one finger have the fret"
    elif (low.finger or 0) < (high.finger or 0):
        hint = "Give each fret the finger that lies over it"
    others = f"; and {_times(more)} more before it is free" if more else ""
    entry = next((span for kind, span in broken.after.sound.entries if kind == "lh"), None)
    return subject.report(
        RULE,
        f"{broken.why}: the hand has to shift, though {where} lie under it{others}",
        broken.after.tone.span,
        broken.after.sound.address,
        labels=(
            Label(broken.before.tone.span, "from here"),
            *(() if entry is None else (Label(entry, "the lh row"),)),
        ),
        help=f"{hint}; where the hand is to move, write a slide or its position",
    )


def _report_odd(subject: Subject, odd: _Odd) -> Finding:
    hold, right = odd.hold, odd.hold.fret - odd.index + 1
    entry = next((span for kind, span in hold.sound.entries if kind == "lh"), None)
    return subject.report(
        RULE,
        f"finger {hold.finger} is on fret {hold.fret}, where the fingers around it have finger {right}:"
        " for one note the hand would have to shift",
        hold.tone.span,
        hold.sound.address,
        labels=() if entry is None else (Label(entry, "the lh row"),),
        help=f"Give it finger {right}; where the hand is to move, write a slide or its position",
    )


def _times(number: int) -> str:
    return "once" if number == 1 else "twice" if number == 2 else f"{number} times"


RULE = Rule(
    id="hands/needless-shift",
    title="Fingers that make the hand move where the frets do not",
    severity=Severity.QUERY,
    source=Source(
        "common practice",
        "Position playing: a finger a fret, a fret to either side, the fingers in the order of the frets",
    ),
    good=(
        Example("N.C. | 1:5 1:6 1:7 1:8 1:9 1:10 1:11 1:12\n  lh | 1 2 3 4 1 2 3 4"),
        Example("N.C. | 3:5 - s 3:7 2:8 2:10 2:8 3:7 -\n  lh | 1 1 2 4 2 1"),
        Example("N.C. | 2:8 2:5 3:7 3:5 3:7 - 4:7 4:5\n  lh | 3 1 3 1 3 3 1"),
        Example("N.C. | 3:7 1:6 3:8 1:8 3:10 1:10 3:12 1:11\n  lh | 2 1 2 3 2 3 2 1"),
        Example("N.C. | 1:5 1:6 1:0 1:7 1:8 - - -\n  lh | 1 3 0 1 3"),
        Example("N.C. | 6:2 5:2 4:4 5:2 6:2 - - -\n  lh | T 1 3 1 T"),
    ),
    bad=(
        Example("N.C. | 1:5 1:6 1:7 1:8 1:5 - - -\n  lh | 1 3 1 3 1", marks=("1:7",)),
        Example("N.C. | 1:5 1:7 1:8 1:7 1:5 - - -\n  lh | 4 4 4 4 4", marks=("1:7",)),
        Example("N.C. | 2:5 1:8 2:5 1:5 2:8 - - -\n  lh | 4 1 1 1 4", marks=("1:8",)),
        Example("N.C. | 3:1 2:4 3:1 3:3 4:3 - - -\n  lh | 1 2 1 3 3", marks=("2:4",)),
    ),
    run=run,
)
