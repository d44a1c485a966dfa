"""Slots laid out in time: one voice of a lick, bar by bar, becomes lines of values and sounds.

Conventions: holds of one stretch are one value; a hold over a bar line or a
group's edge is a tied value. After a dead note a hold is a rest. Rests side by
side are one rest.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial

from lickwright.instrument.guitar import Guitar
from lickwright.model.address import Address
from lickwright.model.bar import Voice
from lickwright.model.music import Element, GraceNote, Line, Sound, Tone, Tuplet, Value
from lickwright.model.place import NOWHERE
from lickwright.model.slots import (
    BracketKind,
    Closing,
    Grace,
    Group,
    Hold,
    Join,
    JoinKind,
    Opening,
    Rest,
    Slot,
)
from lickwright.model.strike import Late, Strike
from lickwright.model.timeline.draft import Draft, Share, State, carry
from lickwright.model.timeline.faults import Faults
from lickwright.model.timeline.grouping import ratio, shares_of
from lickwright.model.timeline.late import check_late
from lickwright.model.timeline.rows import finish
from lickwright.model.timeline.swing import played
from lickwright.model.timeline.tones import join, lead_of, moves, tones_of
from lickwright.text import Span
from lickwright.theory.meter import Meter


@dataclass(frozen=True, slots=True)
class Frame:
    """What the layout must know of a bar: number, meter, where in the meter it begins, its voice."""

    number: int
    meter: Meter
    offset: Fraction
    voice: Voice | None
    before: tuple[int, ...] | None = None


class VoiceLayout:
    """Lays out one voice of a lick. Use ``lay_out``."""

    def __init__(self, guitar: Guitar, step: Fraction, faults: Faults, *, swung: bool, lower: bool) -> None:
        self._guitar = guitar
        self._step = step
        self._known: dict[int, Fraction] = {}
        self._faults = faults
        self._swung = swung
        self._lower = lower
        self._state = State()
        self._brackets: list[tuple[BracketKind, int]] = []
        self._counts = {BracketKind.RING: 0, BracketKind.MUTE: 0}
        self._grace: Grace | None = None
        self._drafts: list[Draft] = []
        self._frame: Frame
        self._in_bar = 0
        self._again = False

    def lay_out(self, frames: Sequence[Frame]) -> list[Line | None]:
        """Return the line of each bar; None where the bar does not have the voice."""
        states: list[State] = []
        partial: list[
            tuple[Frame, list[Element], list[Draft], Fraction, list[tuple[Fraction, Span]]] | None
        ] = []
        for index, frame in enumerate(frames):
            self._again = False
            if frame.before is not None and len(frame.before) == 1 and frame.before[0] < index - 1:
                self._state = replace(states[frame.before[0]])
                self._again = True
            if frame.voice is None:
                self._leave()
                partial.append(None)
            else:
                partial.append(self._bar(frame, frame.voice))
            states.append(replace(self._state))
        self._leave()
        self._check_repeats(frames, states, partial)
        return [None if part is None else self._finish(*part) for part in partial]

    def _leave(self) -> None:
        """The voice ends: a join cannot lead into nothing."""
        if self._state.pending is not None:
            self._faults.add(
                "syntax/join",
                f"“{self._state.pending.kind.value}” at the end leads to no sound",
                self._state.pending.span,
                help="Write the sound it leads to, or take the join out",
            )
        self._state = State()

    def _bar(
        self, frame: Frame, voice: Voice
    ) -> tuple[Frame, list[Element], list[Draft], Fraction, list[tuple[Fraction, Span]]]:
        self._frame = frame
        self._in_bar = 0
        first = len(self._drafts)
        elements: list[Element] = []
        steps: list[tuple[Fraction, Span]] = []
        done = 0
        onset = self._steps(0)
        time = self._time(onset)
        for slot in voice.slots:
            shares = shares_of(slot)
            end, until = onset, time
            if shares:
                done += shares
                end = self._steps(done)
                until = self._time(end)
                steps.append((onset, slot.span))
            length = self._steps(shares)
            self._slot(slot, Share(onset, length, length, time, until), elements)
            onset, time = end, until
        return frame, elements, self._drafts[first:], self._steps(done), steps

    def _steps(self, number: int) -> Fraction:
        """So many steps, in quarters; remembered, for making fractions is slow."""
        known = self._known.get(number)
        if known is None:
            known = self._known[number] = number * self._step
        return known

    def _time(self, onset: Fraction) -> Fraction:
        return played(onset, self._frame.offset, swung=self._swung)

    def _slot(self, slot: Slot, share: Share, into: list[Element]) -> None:
        match slot:
            case Strike():
                self._strike(slot, share, into)
            case Hold():
                self._hold(slot, share, into)
            case Rest():
                self._rest(slot, share, into)
            case Group():
                self._group(slot, share, into)
            case Join():
                self._state.pending = slot
            case Grace():
                self._grace = slot
            case Opening():
                self._open(slot)
            case Closing():
                if self._brackets and self._brackets.pop()[0] is BracketKind.RING:
                    self._state.ringing = {}

    def _open(self, slot: Opening) -> None:
        """Open a bracket; an earlier one of its kind ends here, and one ``]`` closes the new one."""
        self._brackets = [bracket for bracket in self._brackets if bracket[0] is not slot.kind]
        if slot.kind is BracketKind.RING:
            self._state.ringing = {}
        if slot.kind in self._counts:
            self._counts[slot.kind] += 1
            self._brackets.append((slot.kind, self._counts[slot.kind]))
        else:
            self._brackets.append((slot.kind, slot.fret or 0))

    def _bracket(self, kind: BracketKind) -> int | None:
        if not self._brackets:
            return None
        return next((number for open_kind, number in reversed(self._brackets) if open_kind is kind), None)

    def _group(self, group: Group, share: Share, into: list[Element]) -> None:
        number = sum(map(shares_of, group.members))
        if number == 0:
            return
        printed = share.printed / number
        parted = ratio(printed, number, compound=self._frame.meter.is_compound)
        if parted:
            printed = printed * parted[0] / parted[1]
        inside: list[Element] = [] if parted else into
        done = 0
        for member in group.members:
            size = shares_of(member)
            part = Share(
                share.onset + share.length * done / number,
                share.length * size / number,
                printed * size,
                share.time + (share.until - share.time) * done / number,
                share.time + (share.until - share.time) * (done + size) / number,
            )
            self._slot(member, part, inside)
            done += size
        if parted:
            into.append(Tuplet(*parted, share.onset, share.length, tuple(inside), group.span))

    def _value(
        self, share: Share, span: Span, into: list[Element], sound: Address | None, *, tied: bool
    ) -> None:
        into.append(Value(share.onset, share.length, share.time, share.until, sound, tied, span))

    def _lengthen(self, share: Share, into: list[Element]) -> None:
        last = into[-1]
        assert isinstance(last, Value)
        duration = last.duration + share.length
        into[-1] = Value(last.onset, duration, last.time, share.until, last.sound, last.tied, last.span)

    def _rest(self, slot: Rest | Hold, share: Share, into: list[Element]) -> None:
        if into and isinstance(into[-1], Value) and into[-1].sound is None:
            self._lengthen(share, into)
        else:
            self._value(share, slot.span, into, None, tied=False)
        self._state.last, self._state.resting = None, True
        self._refuse_join("a rest")

    def _hold(self, slot: Hold, share: Share, into: list[Element]) -> None:
        last = self._state.last
        if last is None and not self._state.resting:
            self._faults.add(
                "rhythm/hold-at-start",
                "“-” has no sound before it to lengthen",
                slot.span,
                help="Write a note, or . for a rest",
                address=Address(self._frame.number, None, self._lower),
            )
        if last is None or last.is_dead:
            if last is not None:
                self._state.pending = None
            self._rest(slot, share, into)
            return
        if not self._again:  # a second ending's hold is not part of the first time through
            last.length += share.length
        address = last.address
        if into and isinstance(into[-1], Value) and into[-1].sound == address:
            self._lengthen(share, into)
        else:
            self._value(share, slot.span, into, address, tied=True)

    def _refuse_join(self, what: str) -> None:
        if self._state.pending is not None:
            self._faults.add(
                "syntax/join",
                f"“{self._state.pending.kind.value}” stands beside {what}: it needs a sound on both sides",
                self._state.pending.span,
                help="Take the join out, or write the sound it leads to or from",
            )
            self._state.pending = None

    def _strike(self, strike: Strike, share: Share, into: list[Element]) -> None:
        self._in_bar += 1
        self._again = False
        address = Address(self._frame.number, self._in_bar, self._lower)
        before = self._state.last
        sounding = before.sounding if before else {}
        held = {**self._state.ringing, **sounding}
        tones = tones_of(strike, self._guitar, held)
        late = any(isinstance(tone.head, Late) for tone in tones)
        check_late(tones, held, self._guitar, address, self._faults)
        pending = self._state.pending
        grace_lead: JoinKind | None = None
        if pending is not None and self._grace is not None:
            grace_lead, pending, self._state.pending = pending.kind, None, None
        if pending is not None and before is None:
            self._refuse_join("nothing that sounds")
            pending = None
        if pending is not None:
            tones = join(tones, pending.kind, sounding)
            self._check_moves(tones, pending, sounding, address)
        make = partial(
            Sound,
            address,
            share.onset,
            time=share.time,
            joined=pending.kind if pending else None,
            join_span=pending.span if pending else NOWHERE,
            grace=self._graces(tones, grace_lead),
            slide_in=strike.slide_in,
            slide_out=strike.slide_out,
            accent=strike.accent,
            short=strike.short,
            spread=strike.spread,
            ring=self._bracket(BracketKind.RING) or 0,
            mute=self._bracket(BracketKind.MUTE) or 0,
            position=self._bracket(BracketKind.POSITION),
            span=strike.span,
        )
        draft = Draft(address, make, list(tones), share.length)
        if (
            before is not None
            and (pending is not None or late)
            and not (pending is not None and pending.kind is JoinKind.SHIFT)
        ):
            carry(before, draft)
        self._drafts.append(draft)
        rings = self._bracket(BracketKind.RING) is not None
        ringing = {**self._state.ringing, **{tone.string: tone for tone in tones}} if rings else {}
        self._state = State(last=draft, ringing=ringing)
        self._grace = None
        self._value(share, strike.span, into, address, tied=False)

    def _check_moves(
        self, tones: tuple[Tone, ...], pending: Join, sounding: dict[int, Tone], address: Address
    ) -> None:
        if not moves(tones):
            elsewhere = not any(tone.string in sounding for tone in tones)
            self._faults.add(
                "hands/join-stands-still",
                f"“{pending.kind.value}” leads to another string, where nothing sounds"
                if elsewhere
                else f"after “{pending.kind.value}” no string has moved",
                pending.span,
                help="A join leads a string to another fret; - holds the sound",
                address=address,
            )

    def _graces(self, main: tuple[Tone, ...], lead: JoinKind | None) -> tuple[GraceNote, ...]:
        if self._grace is None:
            return ()
        notes: list[GraceNote] = []
        following = main
        for position, strike in enumerate(reversed(self._grace.strikes)):
            tones = tones_of(strike, self._guitar, {})
            leads = lead if position == 0 and lead else lead_of(tones, following)
            notes.insert(0, GraceNote(tones, leads, strike.span))
            following = tones
        return tuple(notes)

    def _check_repeats(
        self, frames: Sequence[Frame], states: list[State], partial: Sequence[tuple[object, ...] | None]
    ) -> None:
        """A hold first in a repeated bar must find the same sound at every way in."""
        for index, frame in enumerate(frames):
            ways = frame.before or ()
            if len(ways) < 2 or frame.voice is None or partial[index] is None:
                continue
            first = next((slot for slot in frame.voice.slots if shares_of(slot)), None)
            if not isinstance(first, Hold):
                continue
            sounds = {
                tuple(t.path[-1:] for t in d.tones) if (d := states[way].last) else None for way in ways
            }
            if len(sounds) > 1:
                self._faults.add(
                    "rhythm/hold-at-repeat",
                    f"bar {frame.number} begins with a hold, but the repeat comes to it from another sound",
                    first.span,
                    help="Strike the note again at the repeat",
                )

    def _finish(
        self,
        frame: Frame,
        elements: list[Element],
        drafts: list[Draft],
        filled: Fraction,
        steps: list[tuple[Fraction, Span]],
    ) -> Line:
        assert frame.voice is not None
        return Line(tuple(elements), finish(drafts, frame.voice.rows), filled, tuple(steps))
