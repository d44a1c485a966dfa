"""Groups, grace notes and brackets: what opens, what it holds, and whether it closes in order."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from lickwright.findings import Edit, Fix
from lickwright.model.slots import BracketKind, Closing, Grace, Group, Hold, Opening, Rest, Slot
from lickwright.model.strike import Strike
from lickwright.reading.collector import Collector, quote
from lickwright.reading.nearest import find_nearest
from lickwright.text import Span

if TYPE_CHECKING:
    from lickwright.reading.sequence import Sequence

_KINDS = {"ring": BracketKind.RING, "mute": BracketKind.MUTE, "open": BracketKind.POSITION}
DEEPEST = 16
"""How deep groups and brackets may nest."""
MOST_SHARES = 16


@dataclass(slots=True)
class _Open:
    """Something that waits for its end.

    Attributes:
        sign: ``(``, ``g(`` or ``[``.
        span: Where it opens.
        members: What it holds; a bracket holds nothing itself.
        kind: Of a bracket.
        flat: Too deep: its members go to what it stands in.
        end: Where the first bar ends in which something follows a bracket; None before that.
    """

    sign: str
    span: Span
    members: list[Slot]
    kind: BracketKind | None = None
    flat: bool = False
    end: int | None = None


@dataclass(slots=True)
class Nesting:
    """What is open in a voice; brackets stay open over its bar lines.

    Attributes:
        found: Where faults go.
        sequence: The order of the voice.
        slots: Of the bar line being read.
        members: Of the innermost group that is open, else ``slots``.
    """

    found: Collector
    sequence: Sequence
    slots: list[Slot] = field(default_factory=list)
    members: list[Slot] = field(default_factory=list)
    _open: list[_Open] = field(default_factory=list)

    def begin_line(self) -> None:
        """Begin the slots of a bar."""
        self.slots = self.members = []

    @property
    def in_grace(self) -> bool:
        """True between ``g(`` and its ``)``."""
        return bool(self._open) and self._open[-1].sign == "g("

    @property
    def in_group(self) -> bool:
        """True when a group is open."""
        return any(item.sign == "(" for item in self._open)

    def open_group(self, sign: str, span: Span) -> None:
        """Open a group or, with ``g(``, grace notes."""
        if self.in_grace:
            self.found.add("syntax/grace", "grace notes hold no group", span, hint="write them one by one")
            self._open.append(_Open("(", span, self.members, flat=True))
            return
        flat = self._is_too_deep(span)
        members: list[Slot] = self.members if flat else []
        self._open.append(_Open(sign, span, members, flat=flat))
        self.members = members

    def close_group(self, shares: str | None, span: Span) -> None:
        """Close the innermost group at its ``)``."""
        found = self.found
        at = next((i for i in range(len(self._open) - 1, -1, -1) if self._open[i].sign != "["), None)
        if at is None:
            found.add("syntax/group", "a ) with no ( before it", span, fix="")
            return
        group = self._open[at]
        for item in self._open[at + 1 :]:
            found.add(
                "syntax/bracket",
                f"{item.span.text} is still open where the group ends: what opened last closes first",
                item.span,
                hint="put its ] before the )",
            )
            self.members.append(Closing(Span(span.source, span.start, span.start)))
        del self._open[at:]
        self.members = self._members_around()
        if group.flat:
            return
        whole = group.span.to(span)
        if group.sign == "g(":
            self._add_grace(group, whole, shares)
        else:
            self._add_group(group, whole, shares)

    def _add_grace(self, group: _Open, whole: Span, shares: str | None) -> None:
        strikes = tuple(slot for slot in group.members if isinstance(slot, Strike))
        if shares is not None:
            self.found.add("syntax/grace", "grace notes take no share of the bar", whole)
        if not strikes:
            if not self.found.findings or self.found.findings[-1].span.start < whole.start:
                self.found.add("syntax/grace", "no grace note stands in g( )", whole, fix="")
            self.sequence.add_unread()
            return
        grace = Grace(strikes, whole)
        if self.sequence.add_grace(grace):
            self.members.append(grace)

    def _add_group(self, group: _Open, whole: Span, shares: str | None) -> None:
        found = self.found
        count = sum(isinstance(slot, Strike | Hold | Rest | Group) for slot in group.members)
        if count < 2:
            said = "nothing" if not count else "one member only"
            hint = "a sound of one share stands alone; a ghost note is `ghost` in the signs row"
            found.add(
                "syntax/group",
                f"a group parts its time among two members or more, here is {said}",
                whole,
                hint=hint,
            )
        size = int(shares[:4]) if shares is not None else 1
        if not 1 <= size <= MOST_SHARES:
            found.add(
                "syntax/group",
                f"a group takes 1 to {MOST_SHARES} shares, not {quote(shares or '', 8)}",
                whole,
            )
            size = min(max(size, 1), MOST_SHARES)
        self.members.append(Group(tuple(group.members), size, whole) if count else Rest(whole))

    def open_bracket(self, text: str, span: Span) -> None:
        """Open a bracket, ``ring[``."""
        found = self.found
        if self.in_grace:
            found.add("syntax/grace", "grace notes hold no bracket", span, hint="put the bracket before g(")
            return
        word = text[:-1].rstrip()
        kind = _KINDS.get(word, BracketKind.POSITION)
        fret = None if word in ("ring", "mute") else 0 if word == "open" else int(word[3:])
        earlier = next((item for item in self._open if item.kind is kind), None)
        if earlier is not None:
            fix = Fix("close the earlier one", (Edit(Span(span.source, span.start, span.start), "] "),))
            found.add(
                "syntax/bracket-twice",
                f"{span.text} inside {earlier.span.text}: the earlier one ends here",
                span,
                hint="was a ] meant before it?",
                fix=fix,
            )
            self._open = [item for item in self._open if item is not earlier]
        flat = self._is_too_deep(span)
        self._open.append(_Open("[", span, self.members, kind, flat=flat))
        if not flat:
            self.members.append(Opening(kind, fret, span))

    def close_bracket(self, span: Span) -> None:
        """Close the innermost bracket at its ``]``."""
        found = self.found
        at = next((i for i in range(len(self._open) - 1, -1, -1) if self._open[i].sign == "["), None)
        if at is None:
            found.add("syntax/bracket", "a ] with no bracket open", span, fix="")
            return
        bracket = self._open.pop(at)
        if at < len(self._open):
            group = self._open[-1]
            found.add(
                "syntax/bracket",
                f"this ] closes {bracket.span.text} before the {group.span.text} inside it is closed",
                span,
                hint="what opened last closes first: ) comes before ]",
            )
        if not bracket.flat:
            self.members.append(Closing(span))

    def refuse_bracket(self, text: str, span: Span) -> None:
        """Report a ``[`` that opens no bracket, and wait for its ``]``."""
        word = text[:-1]
        near = find_nearest(word, ("ring", "mute", "open")) if word else None
        if word[:3].casefold() == "pos" and word[3:].isdecimal():
            near = word.lower()
        self.found.add(
            "syntax/bracket",
            f"{quote(text, 16)} opens no bracket: ring[ mute[ pos5[ and open[ do",
            span,
            hint=f"did you mean {near}[" if near else "",
            fix=f"{near}[" if near else None,
        )
        self.await_end(span)

    def await_end(self, span: Span) -> None:
        """Wait for the ``]`` of what was reported: where it opens, and whether it closes, is told no more."""
        self._open.append(_Open("[", span, self.members, flat=True))

    def _is_too_deep(self, span: Span) -> bool:
        if len(self._open) < DEEPEST:
            return False
        if len(self._open) == DEEPEST:
            hint = "close some of them first"
            self.found.add(
                "syntax/nesting", f"more than {DEEPEST} brackets and groups in one another", span, hint=hint
            )
        return True

    def _members_around(self) -> list[Slot]:
        return next((item.members for item in reversed(self._open) if item.sign != "["), self.slots)

    def end_line(self, end: int) -> None:
        """Report groups that are open at the end of a bar, and read on as if they closed there."""
        waiting = [item for item in self._open if item.sign != "[" and not item.flat]
        brackets = [item for item in self._open if item.sign == "["]
        for item in reversed(waiting):
            self._open = waiting[: waiting.index(item)]
            self.members = self._members_around()
            if item.sign == "g(":
                hint = "put ) after the last grace note"
                self.found.add("syntax/grace", "g( is never closed in its bar", item.span, hint=hint)
                self.sequence.add_unread()
                continue
            hint = "put ) after its last member; a group does not cross the bar line"
            self.found.add("syntax/group", "( is never closed in its bar", item.span, hint=hint)
            if any(isinstance(slot, Strike | Hold | Rest | Group) for slot in item.members):
                whole = Span(item.span.source, item.span.start, end)
                self.members.append(Group(tuple(item.members), 1, whole))
        for item in brackets:
            last = item.span.source.text[:end].rstrip()
            if item.end is None and len(last) > item.span.end:
                item.end = len(last)
        self._open = brackets
        self.sequence.end_line()

    def finish(self) -> None:
        """Report brackets still open at the end of the voice, and begin anew."""
        for item in self._open:
            if item.kind is None:
                continue  # what opens no bracket has been reported
            fix = None
            if item.end is not None:
                place = Span(item.span.source, item.end, item.end)
                fix = Fix("close it at the end of the bar", (Edit(place, " ]"),))
            self.found.add(
                "syntax/bracket",
                f"{item.span.text} is never closed",
                item.span,
                hint="put ] after the last sound it is meant for",
                fix=fix,
            )
        self._open.clear()
