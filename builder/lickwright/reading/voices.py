"""The slots of one voice, bar line by bar line.

A voice remembers what runs over its bar lines: open brackets, a join that waits for the
first sound of the next bar, and whether something sounds.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from lickwright.findings import Edit, Fix
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
from lickwright.reading.collector import quote
from lickwright.reading.nearest import find_nearest
from lickwright.reading.sequence import Sequence
from lickwright.reading.strikes import Hand, read_strike
from lickwright.text import Span

if TYPE_CHECKING:
    from lickwright.reading.lines import Line

_TOKEN = re.compile(
    r"""(?P<opening>(?:ring|mute|open|pos\d{1,2})\s*\[)
      | (?P<strange>[^\s()\[\]]*+\[)
      | (?P<grace>g\()
      | (?P<group>\()
      | (?P<end>\)(?:/(?P<shares>\d+)(?![\d:]))?)
      | (?P<closing>\])
      | (?P<word>[^\s()\[\]]+)""",
    re.VERBOSE,
)
_TOUCHING = re.compile(r"(\d\S*?)((?:ring|mute|open|pos\d{1,2})\[)")
_JOINS = {kind.value: kind for kind in JoinKind}
_SIGNS = frozenset((*_JOINS, "-", "."))
_KINDS = {"ring": BracketKind.RING, "mute": BracketKind.MUTE, "open": BracketKind.POSITION}
_SHARES_APART = re.compile(r"/\d{1,2}")
DEEPEST = 16
"""How deep groups and brackets may nest."""
MOST_SHARES = 16
_MOST_FAULTS = 60
"""Faults told of one line; a line with more is no music."""


@dataclass(slots=True)
class _Open:
    """Something that waits for its end.

    Attributes:
        sign: ``(``, ``g(`` or ``[``.
        span: Where it opens.
        members: What it holds; a bracket holds nothing itself.
        kind: Of a bracket.
        flat: Too deep: its members go to what it stands in.
    """

    sign: str
    span: Span
    members: list[Slot]
    kind: BracketKind | None = None
    flat: bool = False


@dataclass(slots=True)
class VoiceLine:
    """The slots of one bar line as read.

    Attributes:
        slots: Not yet frozen: what the next bar shows may take a join out.
        sounds: One for each sound in order; None where a slot could not be read.
    """

    slots: list[Slot]
    sounds: list[Strike | None]
    span: Span


@dataclass(slots=True)
class VoiceReader:
    """Reads the bar lines of one voice in turn."""

    hand: Hand
    _open: list[_Open] = field(default_factory=list)
    _sequence: Sequence = field(init=False)
    _slots: list[Slot] = field(default_factory=list)
    _members: list[Slot] = field(default_factory=list)
    _sounds: list[Strike | None] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._sequence = Sequence(self.hand.found)

    def read(self, line: Line) -> VoiceLine:
        """Read the slots of one bar."""
        found, source, base = self.hand.found, self.hand.found.source, line.start
        self._slots = self._members = []
        self._sounds = []
        self._sequence.begin_line()
        faults = len(found.findings)
        touching = -1  # where the last slot ended: the next must not begin there
        for m in _TOKEN.finditer(line.text):
            kind = m.lastgroup if m.lastgroup != "shares" else "end"
            first, last = m.span()
            span = Span(source, base + first, base + last)
            if first == touching and kind not in ("end", "closing"):
                between = Span(source, span.start, span.start)
                found.add("syntax/slot", "a blank is missing between two slots", between, fix=" ")
            touching = last if kind in ("word", "end") else -1
            if kind == "word":
                self._read_word(m[0], span, line)
            elif kind == "group":
                self._open_group("(", span)
            elif kind == "end":
                self._close_group(m["shares"], span)
            elif kind == "opening":
                self._open_bracket(m[0], span)
            elif kind == "closing":
                self._close_bracket(span)
            elif kind == "grace":
                self._open_group("g(", span)
            else:
                self._mend_bracket(m[0], span, line)
            if len(found.findings) - faults > _MOST_FAULTS:
                rest = Span(source, span.end, line.end)
                found.add(
                    "syntax/slot", "the rest of this line was not read: too much of it is no music", rest
                )
                break
        self._end_line(line.end)
        return VoiceLine(self._slots, self._sounds, Span(source, line.start, line.end))

    def finish(self) -> None:
        """Report what is still open at the end of the voice, and begin anew."""
        for item in self._open:
            self.hand.found.add(
                "syntax/bracket",
                f"{item.span.text} is never closed",
                item.span,
                hint="put ] after the last sound it is meant for",
            )
        self._open.clear()
        self._sequence.finish()

    # Words: strikes, holds, rests, joins

    def _read_word(self, word: str, span: Span, line: Line) -> None:
        members = self._members
        top = self._open[-1] if self._open else None
        if top is not None and top.sign == "g(":
            self._read_grace(word, span, members)
        elif word in _SIGNS:
            self._read_sign(word, span)
        elif _SHARES_APART.fullmatch(word) and line.text[: span.start - line.start].rstrip().endswith(")"):
            at = len(line.text[: span.start - line.start].rstrip()) + line.start
            fix = Fix("leave out the blank", (Edit(Span(span.source, at, span.start), ""),))
            self.hand.found.add("syntax/group", f"no blank stands between ) and {word}", span, fix=fix)
        else:
            strike = read_strike(word, span.start, self.hand)
            if strike is None:
                self._read_on(span)
            else:
                self._sounds.append(strike)
                self._sequence.add_sound()
                members.append(strike)

    def _read_sign(self, word: str, span: Span) -> None:
        if word == "-":
            self._sequence.add_hold(span)
            self._members.append(Hold(span))
        elif word == ".":
            self._sequence.add_rest(span)
            self._members.append(Rest(span))
        else:
            join = Join(_JOINS[word], span)
            if self._sequence.add_join(join, self._members):
                self._members.append(join)

    def _read_on(self, span: Span) -> None:
        """Put in the place of a slot that was reported what it was meant for, else time."""
        for word in self.hand.mended.split() or ("",):
            if word in _SIGNS:
                self._read_sign(word, span)
            elif not word.endswith("["):
                self._sounds.append(None)
                self._sequence.add_unread()
                self._members.append(Rest(span))

    def _read_grace(self, word: str, span: Span, members: list[Slot]) -> None:
        if word in _SIGNS:
            hint = "grace notes on one string are slurred by themselves"
            self.hand.found.add(
                "syntax/grace", f"{word} has no place among grace notes", span, hint=hint, fix=""
            )
            return
        strike = read_strike(word, span.start, self.hand)
        if strike is None:
            return
        if any(isinstance(note.head, Late) for note in strike.notes):
            hint = "a grace note is struck: 2:15b17"
            self.hand.found.add("syntax/grace", f"{word} names no fret for the grace note", span, hint=hint)
            return
        members.append(strike)

    # Groups and grace notes

    def _open_group(self, sign: str, span: Span) -> None:
        if self._open and self._open[-1].sign == "g(":
            self.hand.found.add(
                "syntax/grace", "grace notes hold no group", span, hint="write them one by one"
            )
            self._open.append(_Open("(", span, self._members, flat=True))
            return
        flat = self._is_too_deep(span)
        members: list[Slot] = self._members if flat else []
        self._open.append(_Open(sign, span, members, flat=flat))
        self._members = members

    def _close_group(self, shares: str | None, span: Span) -> None:
        found = self.hand.found
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
            self._members.append(Closing(Span(span.source, span.start, span.start)))
        del self._open[at:]
        self._members = self._members_around()
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
            self.hand.found.add("syntax/grace", "grace notes take no share of the bar", whole)
        if not strikes:
            if not self.hand.found.findings or self.hand.found.findings[-1].span.start < whole.start:
                self.hand.found.add("syntax/grace", "no grace note stands in g( )", whole, fix="")
            self._sequence.add_unread()
            return
        grace = Grace(strikes, whole)
        if self._sequence.add_grace(grace):
            self._members.append(grace)

    def _add_group(self, group: _Open, whole: Span, shares: str | None) -> None:
        found = self.hand.found
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
        self._members.append(Group(tuple(group.members), size, whole) if count else Rest(whole))

    # Brackets

    def _open_bracket(self, text: str, span: Span) -> None:
        found = self.hand.found
        if self._open and self._open[-1].sign == "g(":
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
        self._open.append(_Open("[", span, self._members, kind, flat=flat))
        if not flat:
            self._members.append(Opening(kind, fret, span))

    def _close_bracket(self, span: Span) -> None:
        found = self.hand.found
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
            self._members.append(Closing(span))

    def _mend_bracket(self, text: str, span: Span, line: Line) -> None:
        """Part a slot from a bracket that it touches, ``4:2ring[``, or refuse the bracket."""
        m = _TOUCHING.fullmatch(text)
        if m is None:
            self._refuse_bracket(text, span)
            return
        at = span.start + m.start(2)
        between = Span(span.source, at, at)
        self.hand.found.add("syntax/slot", "a blank is missing between two slots", between, fix=" ")
        self._read_word(m[1], Span(span.source, span.start, at), line)
        self._open_bracket(m[2], Span(span.source, at, span.end))

    def _refuse_bracket(self, text: str, span: Span) -> None:
        word = text[:-1]
        near = find_nearest(word, ("ring", "mute", "open")) if word else None
        if word[:3].casefold() == "pos" and word[3:].isdecimal():
            near = word.lower()
        self.hand.found.add(
            "syntax/bracket",
            f"{quote(text, 16)} opens no bracket: ring[ mute[ pos5[ and open[ do",
            span,
            hint=f"did you mean {near}[" if near else "",
            fix=f"{near}[" if near else None,
        )
        self._open.append(_Open("[", span, self._members, flat=True))

    # Bounds

    def _is_too_deep(self, span: Span) -> bool:
        if len(self._open) < DEEPEST:
            return False
        if len(self._open) == DEEPEST:
            hint = "close some of them first"
            self.hand.found.add(
                "syntax/nesting", f"more than {DEEPEST} brackets and groups in one another", span, hint=hint
            )
        return True

    def _members_around(self) -> list[Slot]:
        return next((item.members for item in reversed(self._open) if item.sign != "["), self._slots)

    def _end_line(self, end: int) -> None:
        waiting = [item for item in self._open if item.sign != "[" and not item.flat]
        brackets = [item for item in self._open if item.sign == "["]
        for item in reversed(waiting):
            self._open = waiting[: waiting.index(item)]
            self._members = self._members_around()
            if item.sign == "g(":
                hint = "put ) after the last grace note"
                self.hand.found.add("syntax/grace", "g( is never closed in its bar", item.span, hint=hint)
                self._sequence.add_unread()
                continue
            hint = "put ) after its last member; a group does not cross the bar line"
            self.hand.found.add("syntax/group", "( is never closed in its bar", item.span, hint=hint)
            if any(isinstance(slot, Strike | Hold | Rest | Group) for slot in item.members):
                whole = Span(item.span.source, item.span.start, end)
                self._members.append(Group(tuple(item.members), 1, whole))
        self._open = brackets
        self._sequence.end_line()
