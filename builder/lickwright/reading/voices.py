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
    Hold,
    Join,
    JoinKind,
    Rest,
    Slot,
)
from lickwright.model.strike import Late, Strike
from lickwright.reading.habits import is_strike
from lickwright.reading.nesting import Nesting
from lickwright.reading.sequence import Sequence
from lickwright.reading.strikes import Hand, read_strike
from lickwright.text import Span

if TYPE_CHECKING:
    from lickwright.reading.lines import Line

_TOKEN = re.compile(
    r"""(?P<opening>(?:ring|mute|open|pos[0-9]{1,2})\s*\[)
      | (?P<strange>[^\s()\[\]]*+\[)
      | (?P<grace>g\()
      | (?P<group>\()
      | (?P<end>\)(?:/(?P<shares>[0-9]+)(?![0-9:]))?)
      | (?P<closing>\])
      | (?P<word>[^\s()\[\]]+)""",
    re.VERBOSE,
)
_TOUCHING = re.compile(r"([0-9]\S*?)((?:ring|mute|open|pos[0-9]{1,2})\[)")
_JOINS = {kind.value: kind for kind in JoinKind}
_SIGNS = frozenset((*_JOINS, "-", "."))
_SHARES_STUCK = re.compile(r"(.+[0-9x>~!'^])/([0-9]{1,2})")
_SHARES_APART = re.compile(r"/[0-9]{1,2}")
MOST_SLOTS = 4096
"""Slots, joins and signs read of one bar: more is no music, and would take its time."""
_MOST_FAULTS = 60
"""Faults told of one line; a line with more is no music."""


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
    _sequence: Sequence = field(init=False)
    _nesting: Nesting = field(init=False)
    _sounds: list[Strike | None] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._sequence = Sequence(self.hand.found)
        self._nesting = Nesting(self.hand.found, self._sequence)

    def read(self, line: Line) -> VoiceLine:
        """Read the slots of one bar."""
        found, source, base = self.hand.found, self.hand.found.source, line.start
        self._nesting.begin_line()
        self._sounds = []
        self._sequence.begin_line()
        faults = len(found.findings)
        touching = -1  # where the last slot ended: the next must not begin there
        for number, m in enumerate(_TOKEN.finditer(line.text)):
            if number >= MOST_SLOTS:
                rest = Span(source, base + m.start(), base + m.end())
                message = f"the bar has more than {MOST_SLOTS} slots: the rest of it was not read"
                found.add("syntax/slot", message, rest, hint="one bar a line")
                self._sounds.append(None)  # so that no row is counted against it
                break
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
                self._nesting.open_group("(", span)
            elif kind == "end":
                self._nesting.close_group(m["shares"], span)
            elif kind == "opening":
                self._nesting.open_bracket(m[0], span)
            elif kind == "closing":
                self._nesting.close_bracket(span)
            elif kind == "grace":
                self._nesting.open_group("g(", span)
            else:
                self._mend_bracket(m[0], span, line)
            if len(found.findings) - faults > _MOST_FAULTS:
                rest = Span(source, span.end, line.end)
                found.add(
                    "syntax/slot", "the rest of this line was not read: too much of it is no music", rest
                )
                break
        self._nesting.end_line(line.end)
        return VoiceLine(self._nesting.slots, self._sounds, Span(source, line.start, line.end))

    def finish(self) -> None:
        """Report what is still open at the end of the voice, and begin anew."""
        self._nesting.finish()
        self._sequence.finish()

    # Words: strikes, holds, rests, joins

    def _read_word(self, word: str, span: Span, line: Line) -> None:
        members = self._nesting.members
        if self._nesting.in_grace:
            self._read_grace(word, span, members)
        elif word in _SIGNS:
            self._read_sign(word, span)
        elif _SHARES_APART.fullmatch(word) and line.text[: span.start - line.start].rstrip().endswith(")"):
            at = len(line.text[: span.start - line.start].rstrip()) + line.start
            fix = Fix("leave out the blank", (Edit(Span(span.source, at, span.start), ""),))
            self.hand.found.add("syntax/group", f"no blank stands between ) and {word}", span, fix=fix)
        else:
            stuck = _SHARES_STUCK.fullmatch(word) if self._nesting.in_group else None
            if stuck and is_strike(stuck[1]) and ")" not in line.text[span.end - line.start :]:
                self._close_before_shares(stuck, span)
                return
            strike = read_strike(word, span.start, self.hand)
            if strike is None:
                self._read_on(span)
            else:
                self._sounds.append(strike)
                self._sequence.add_sound()
                members.append(strike)

    def _close_before_shares(self, stuck: re.Match[str], span: Span) -> None:
        """Read ``3:1/4``, the last member of a group whose ``)`` is missing, and close the group."""
        at = span.start + len(stuck[1])
        between = Span(span.source, at, at)
        message = f"the group is not closed before its /{stuck[2]}"
        self.hand.found.add("syntax/group", message, between, hint="put ) after its last member", fix=")")
        strike = read_strike(stuck[1], span.start, self.hand)
        if strike is not None:
            self._sounds.append(strike)
            self._sequence.add_sound()
            self._nesting.members.append(strike)
        self._nesting.close_group(stuck[2], Span(span.source, at, span.end))

    def _read_sign(self, word: str, span: Span) -> None:
        if word == "-":
            self._sequence.add_hold(span)
            self._nesting.members.append(Hold(span))
        elif word == ".":
            self._sequence.add_rest(span)
            self._nesting.members.append(Rest(span))
        else:
            join = Join(_JOINS[word], span)
            if self._sequence.add_join(join, self._nesting.members):
                self._nesting.members.append(join)

    def _read_on(self, span: Span) -> None:
        """Put in the place of a slot that was reported what it was meant for, else time."""
        for word in ("",) if self.hand.mended is None else self.hand.mended.split():
            if word in _SIGNS:
                self._read_sign(word, span)
            elif word.endswith("["):
                self._nesting.await_end(span)
            else:
                self._sounds.append(None)
                self._sequence.add_unread()
                self._nesting.members.append(Rest(span))

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

    def _mend_bracket(self, text: str, span: Span, line: Line) -> None:
        """Part a slot from a bracket that it touches, ``4:2ring[``, or refuse the bracket."""
        m = _TOUCHING.fullmatch(text)
        if m is None:
            self._nesting.refuse_bracket(text, span)
            return
        at = span.start + m.start(2)
        between = Span(span.source, at, at)
        self.hand.found.add("syntax/slot", "a blank is missing between two slots", between, fix=" ")
        self._read_word(m[1], Span(span.source, span.start, at), line)
        self._nesting.open_bracket(m[2], Span(span.source, at, span.end))
