"""One slot that sounds: ``4:5``, ``2:3+3:4!``, ``2:15b17r15~``, a shape's name.

The grammar is that of the lick language; a token that is none of it is handed to ``habits``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from lickwright.model.strike import (
    Bend,
    BendKind,
    Dead,
    Fretted,
    Hammered,
    Harmonic,
    Head,
    Late,
    Note,
    Slide,
    Strike,
    Tapped,
)
from lickwright.reading.habits import explain_slot, swap_string_and_fret
from lickwright.text import Span

if TYPE_CHECKING:
    from lickwright.instrument.tuning import Tuning
    from lickwright.model.fields import Shape
    from lickwright.reading.collector import Collector

_PLAIN = re.compile(r"([1-9]):([0-9]{1,2})")
_STRIKE = re.compile(r"([/\\]?)([^/\\!'^]+)([/\\]?)(!?)('?)(\^?)")
_NOTE = re.compile(
    r"([0-9]{1,2}):(?:(x)|t([0-9]{1,2})|h([0-9]{1,2})|([0-9]{1,2})?(?:<([0-9]{1,2}(?:\.[0-9]{1,2})?)>)?)"
    r"((?:(?:[pn]?b|r)[0-9]{1,2}(?:\.5)?)*)(~?)"
)
_BEND = re.compile(r"([pn]?b|r)([0-9]{1,2}(?:\.5)?)")
_SLIDES = {"": None, "/": Slide.RISING, "\\": Slide.FALLING}
_FRETTED = tuple(Fretted(fret) for fret in range(100))
_DEAD = Dead()


@dataclass(slots=True)
class Hand:
    """What a slot is read against.

    Attributes:
        found: Where faults go.
        strings: How many strings the guitar has.
        shapes: Chords with a name, usable as slots.
        inherited: Those of the lick that this one varies.
        tuning: Its open strings, where they are known.
        mended: The right form of the slot reported last, None when there is not exactly one.
    """

    found: Collector
    strings: int
    shapes: dict[str, Shape] = field(default_factory=dict)
    inherited: dict[str, Shape] = field(default_factory=dict)
    tuning: Tuning | None = None
    mended: str | None = None


def read_strike(token: str, start: int, hand: Hand) -> Strike | None:
    """Read a slot that sounds.

    Args:
        token: The slot, without blanks.
        start: Its offset in the file.
        hand: What it is read against.

    Returns:
        The strike; None when a fault has been reported.
    """
    source = hand.found.source
    span = Span(source, start, start + len(token))
    plain = _PLAIN.fullmatch(token)  # most slots are
    if plain is not None and int(plain[1]) <= hand.strings:
        return Strike((Note(int(plain[1]), _FRETTED[int(plain[2])], (), False, span),), span=span)
    hand.mended = None
    found = _STRIKE.fullmatch(token)
    if not found:
        explain_slot(token, span, hand)
        return None
    slide_in, core, slide_out, accent, short, spread = found.groups()
    shape = hand.shapes.get(core) or hand.inherited.get(core)
    notes: list[Note] = []
    if shape is None:
        at = start + len(slide_in)
        parts = core.split("+") if "+" in core else (core,)
        matches = [_NOTE.fullmatch(part) for part in parts]
        if not all(m and m.end(7) > m.end(1) + 1 for m in matches):
            explain_slot(token, span, hand)
            return None
        fine = True
        for part, m in zip(parts, matches, strict=True):
            note = _read_note(m, Span(source, at, at + len(part)), hand) if m else None
            if note is None:
                fine = False
            else:
                notes.append(note)
            at += len(part) + 1
        if not fine:
            return None
    elif not (slide_in or slide_out or accent or short or spread):
        return replace(shape.strike, shape=core, span=span)
    else:
        chord = shape.strike
        return Strike(
            chord.notes,
            _SLIDES[slide_in] or chord.slide_in,
            _SLIDES[slide_out] or chord.slide_out,
            bool(accent) or chord.accent,
            bool(short) or chord.short,
            bool(spread) or chord.spread,
            core,
            span,
        )
    return Strike(
        tuple(notes),
        _SLIDES[slide_in],
        _SLIDES[slide_out],
        accent != "",
        short != "",
        spread != "",
        "",
        span,
    )


def _read_note(m: re.Match[str], span: Span, hand: Hand) -> Note | None:
    number, dead, tap, hammer, fret, touch, bends, vibrato = m.groups()
    string = int(number)
    if not 1 <= string <= hand.strings:
        _report_string(string, len(number), span, hand)
        return None
    if not bends and touch is None and fret is not None:
        return Note(string, _FRETTED[int(fret)], (), vibrato != "", span)
    fault = _find_head_fault(span.text, dead, tap, hammer, vibrato)
    if fault:
        hand.found.add("syntax/slot", fault[0], span, hint=fault[1], fix=fault[2])
        return None
    head: Head
    if dead:
        head = _DEAD
    elif tap:
        head = Tapped(int(tap))
    elif hammer:
        head = Hammered(int(hammer))
    elif touch is not None:
        head = Harmonic(int(fret or 0), Fraction(touch))
        if head.touch <= head.fret:
            hand.found.add(
                "syntax/slot",
                f"a harmonic touched over fret {touch} needs a fret above the stopped one, {head.fret}",
                span,
                hint="4:2<14> is fret 2 stopped and touched over 14; 4:<12> is an open string",
            )
            return None
    elif fret is not None:
        head = _FRETTED[int(fret)]
    else:
        return _read_late(string, bends, vibrato, m.start(7), span, hand)
    read = _read_bends(head, bends, span.start + m.start(7), hand) if bends else ()
    return None if read is None else Note(string, head, read, vibrato != "", span)


def _find_head_fault(
    text: str, dead: str | None, tap: str | None, hammer: str | None, vibrato: str
) -> tuple[str, str, str | None] | None:
    """Return message, hint and fix for a note that no hand can play."""
    if dead and vibrato:
        return f"{text} is a dead note, which has no pitch to shake", "", text.removesuffix("~")
    if (tap and not int(tap)) or (hammer and not int(hammer)):
        done = "tapped" if tap else "hammered"
        hint = "an open string is struck, 3:0, or pulled off to: 3:2 p 3:0"
        return f"{text}: an open string has no fret to be {done} on", hint, None
    return None


def _report_string(string: int, digits: int, span: Span, hand: Hand) -> None:
    message = f"string {string} does not exist: strings run from 1 to {hand.strings}"
    swapped = swap_string_and_fret(span.text, hand.strings)
    if swapped is None:
        number = Span(span.source, span.start, span.start + digits)
        hand.found.add("syntax/string", message, number, hint="string 1 is the highest-sounding one")
        return
    hint = "the string comes first, then the fret: string 3, fret 12 is 3:12"
    hand.mended = swapped or None
    hand.found.add(
        "syntax/habit", f"{message}; it looks swapped with the fret", span, hint=hint, fix=swapped or None
    )


def _read_late(string: int, bends: str, vibrato: str, offset: int, span: Span, hand: Hand) -> Note | None:
    found = _BEND.match(bends)
    at = span.start + offset
    if found is None or found[1] not in ("b", "r"):
        hand.found.add(
            "syntax/bend",
            f"{span.text} bends a string before it is struck but names no fret",
            span,
            hint="write the fret that is held, as in 2:15pb17",
        )
        return None
    if found.end() < len(bends) or vibrato:
        rest = Span(span.source, at + found.end(), span.end)
        hand.found.add(
            "syntax/bend",
            f"nothing can follow in {span.text}: a bend of a sounding string is a slot of its own",
            rest,
            hint="write the next bend or release as the next slot, as in 2:b17 2:r15",
        )
        return None
    bend = Bend(BendKind(found[1]), Fraction(found[2]), Span(span.source, at, at + found.end()))
    return Note(string, Late(bend), (), False, span)


def _read_bends(head: Head, text: str, start: int, hand: Hand) -> tuple[Bend, ...] | None:
    """Read the bends of a struck note; each must lead somewhere a string can go."""
    source = hand.found.source
    rest: Fraction | None = None
    match head:
        case Fretted(fret) | Tapped(fret) | Hammered(fret):
            rest = Fraction(fret)
        case Dead():
            span = Span(source, start, start + len(text))
            hand.found.add("syntax/bend", "a dead note has no pitch to bend", span, fix="")
            return None
    bends: list[Bend] = []
    now = rest
    for m in _BEND.finditer(text):
        kind, to = BendKind(m[1]), Fraction(m[2])
        span = Span(source, start + m.start(), start + m.end())
        fault = _find_bend_fault(kind, to, rest, now, first=not bends)
        if fault:
            hand.found.add("syntax/bend", fault[0], span, hint=fault[1])
            return None
        bends.append(Bend(kind, to, span))
        now = to if rest is not None else None
    return tuple(bends)


def _find_bend_fault(
    kind: BendKind, to: Fraction, rest: Fraction | None, now: Fraction | None, *, first: bool
) -> tuple[str, str] | None:
    if kind is BendKind.RELEASE:
        if first:
            return "a release with no bend before it", "2:15pb17r15 is bent first, then let down"
        if now is not None and rest is not None and not rest <= to < now:
            return (
                f"a release goes down towards fret {_say(rest)}, not from {_say(now)} to {_say(to)}",
                "the target of r is the pitch the string is let down to",
            )
        return None
    if not first and kind is not BendKind.UP:
        return f"{kind.value} begins a note, it cannot follow another bend", "a further bend is b"
    if kind is BendKind.NUT and rest:
        return (
            f"a bend behind the nut needs an open string, not fret {_say(rest)}",
            "3:0nb2 raises the open string by two frets",
        )
    if now is not None and to <= now:
        return (
            f"a bend goes up: fret {_say(to)} is not above {_say(now)}",
            "the number after b is the fret whose pitch is reached, as in 2:15b17",
        )
    return None


def _say(fret: Fraction) -> str:
    return str(float(fret)) if fret.denominator > 1 else str(fret.numerator)
