"""What may follow what in a voice: joins between two sounds, grace notes straight before one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lickwright.findings import Edit, Fix
from lickwright.model.slots import SLIDES, Grace, Join, JoinKind
from lickwright.text import Span

if TYPE_CHECKING:
    from lickwright.model.slots import Slot
    from lickwright.reading.collector import Collector

_RULE = "syntax/join"
_SAID = {
    JoinKind.HAMMER: "hammer-on",
    JoinKind.PULL: "pull-off",
    JoinKind.SLIDE: "slide",
    JoinKind.SHIFT: "slide",
}


@dataclass(slots=True)
class Sequence:
    """The order of one voice, over its bar lines.

    Attributes:
        found: Where faults go.
    """

    found: Collector
    _last: Literal["sound", "rest", "unknown", "unread"] = "unknown"
    _join: Join | None = None
    _among: list[Slot] | None = None
    _grace: Grace | None = None
    _grace_slides: bool = False
    _at_start: bool = True

    def begin_line(self) -> None:
        """Begin the slots of a bar."""
        self._at_start = True

    def end_line(self) -> None:
        """End the slots of a bar: its grace notes must have led to a sound."""
        self._drop_grace("the bar ends after them")

    def finish(self) -> None:
        """End the voice: no join may be waiting."""
        self._drop_join("no sound follows")
        self._last = "unknown"

    def add_sound(self) -> None:
        """A sound begins."""
        self._join = self._grace = None
        self._last, self._at_start, self._grace_slides = "sound", False, False

    def add_unread(self) -> None:
        """A slot stands here that could not be read: nothing is known of it."""
        if self._join is not None and self._among is not None:
            _take_out(self._join, self._among)
        self.add_sound()
        self._last = "unread"

    def add_hold(self, span: Span) -> None:
        """A hold stands here."""
        self._drop_grace("a hold follows")
        if self._join is not None and not self._at_start:
            join = self._join
            edits = (Edit(Span(span.source, join.span.start, span.end), f"- {join.kind.value}"),)
            gap = span.source.text[join.span.end : span.start]
            self.found.add(
                _RULE,
                f"the hold belongs before the {join.kind.value}: it lengthens the first sound",
                span,
                fix=Fix(f"write - {join.kind.value}", edits) if not gap.strip() else None,
            )
        if self._at_start:
            self._last = "unknown"  # what it holds may come from another ending
        self._at_start = False

    def add_rest(self, span: Span) -> None:
        """A rest stands here."""
        del span
        self._drop_grace("a rest follows")
        self._drop_join("a rest follows")
        self._last, self._at_start = "rest", False

    def add_join(self, join: Join, members: list[Slot]) -> bool:
        """Take a join.

        Returns:
            False when it is out of place and has been reported.
        """
        said = f"{join.kind.value} ({_SAID[join.kind]})"
        fault = hint = ""
        if self._grace is not None:
            if join.kind in SLIDES and not self._grace_slides:
                self._grace_slides = True
                return True
            fault = f"{said} after grace notes: only a slide can stand there"
            hint = "on the sound's own string grace notes are slurred by themselves"
        elif self._join is not None:
            fault = f"{said} straight after {self._join.kind.value}: one join stands between two sounds"
        elif self._at_start:
            fault = f"a line never begins with a join, here {said}"
            hint = "put it at the end of the bar before: it leads to the first sound of this one"
        elif self._last == "rest":
            fault = f"{said} after a rest: a join stands between two sounds"
        if fault:
            self.found.add(_RULE, fault, join.span, hint=hint, fix="" if not self._at_start else None)
            return False
        if self._last == "unread":
            return False
        self._join, self._among = join, members
        return True

    def add_grace(self, grace: Grace) -> bool:
        """Take grace notes.

        Returns:
            False when they are out of place and have been reported.
        """
        if self._grace is not None:
            hint = "write them in one g( )"
            self.found.add("syntax/grace", "grace notes straight after grace notes", grace.span, hint=hint)
            return False
        self._grace, self._grace_slides, self._at_start = grace, False, False
        return True

    def _drop_join(self, why: str) -> None:
        join, among = self._join, self._among
        self._join = self._among = None
        if join is None or among is None:
            return
        message = f"{join.kind.value} ({_SAID[join.kind]}) leads to no sound: {why}"
        self.found.add(_RULE, message, join.span, fix="")
        _take_out(join, among)

    def _drop_grace(self, why: str) -> None:
        if self._grace is not None:
            message = f"grace notes lead straight to a sound of their bar: {why}"
            self.found.add("syntax/grace", message, self._grace.span)
        self._grace, self._grace_slides = None, False


def _take_out(slot: Slot, among: list[Slot]) -> None:
    for at in range(len(among) - 1, -1, -1):
        if among[at] is slot:
            del among[at]
            return
