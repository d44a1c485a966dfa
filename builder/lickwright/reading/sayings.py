"""The values of fields that say something of some bars: position, picking, claims, over, stet."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, get_args

from lickwright.model.address import Address, AddressRange
from lickwright.model.bar import MarginChord
from lickwright.model.fields import (
    CLAIM_KINDS,
    PICKING_STYLES,
    Claim,
    ClaimKind,
    Over,
    Picking,
    PickingStyle,
    PositionClaim,
    Stet,
)
from lickwright.reading.chords import read_chord
from lickwright.reading.collector import Collector, quote
from lickwright.reading.values import NAME, choose, refuse
from lickwright.text import Span

if TYPE_CHECKING:
    from lickwright.reading.lines import Line

_BARS = re.compile(r"bars?\s+([0-9]{1,4}(?:\s*[-–]\s*[0-9]{1,4})?)")
_ITEM = re.compile(r"([^()]*?)\s*(?:\(\s*(.*?)\s*\))?")
_HIGHEST_POSITION = 24
_POSITION_WORDS = (
    r"(?:(?:fret|position|pos\.?)\s*)?[0-9]{1,2}(?:st|nd|rd|th)?(?:\s*(?:fret|position|pos\.?))?"
)
_OVER = re.compile(r"([a-z0-9]+(?:-+[a-z0-9]+)*)(?:\s+(bars?\s.*))?")
_STET = re.compile(r"""(\S+)(?:\s+((?:low)?[0-9]\S*))?(?:\s+\#(\S+))?\s+["“„](.+)["”“]""")
_RULE = re.compile(r"[a-z][a-z-]*/[a-z][a-z0-9-]*")
_SEAL = re.compile(r"[0-9a-f]{4,64}")


def read_bars(line: Line, found: Collector) -> AddressRange | None:
    """Read ``bars 1-2`` or ``bar 3``."""
    m = _BARS.fullmatch(line.text)
    bars = AddressRange.parse(re.sub(r"\s", "", m[1]).replace("–", "-")) if m else None
    if bars is None:
        refuse(line, found, f"{quote(line.text)} names no bars", "as in bars 1-2, or bar 3")
    return bars


def _split(line: Line) -> list[Line]:
    """Part a list at its commas, not those in parentheses."""
    parts, depth, start = [], 0, 0
    for at, sign in enumerate(line.text):
        if sign == "(":
            depth += 1
        elif sign == ")":
            depth = max(0, depth - 1)
        elif sign == "," and not depth:
            parts.append(line.part(start, at).strip())
            start = at + 1
    parts.append(line.part(start).strip())
    return parts


def _split_item(part: Line, found: Collector) -> tuple[Line, AddressRange | None] | None:
    """Part ``2 (bars 1-2)`` into what is said and of which bars."""
    m = _ITEM.fullmatch(part.text)
    if m is None or not m[1]:
        refuse(part, found, f"{quote(part.text)} cannot be read", "as in 2 (bars 1-2), open (bar 3)")
        return None
    if m[2] is None:
        return part.part(0, m.end(1)), None
    bars = read_bars(part.part(m.start(2), m.end(2)), found)
    return None if bars is None else (part.part(0, m.end(1)), bars)


def read_position(line: Line, found: Collector) -> tuple[PositionClaim, ...] | None:
    """Read the positions claimed, perhaps by bar; open position is fret 0."""
    claims: list[PositionClaim] = []
    for part in _split(line):
        item = _split_item(part, found)
        if item is None:
            continue
        said, bars = item
        fret = 0 if said.text == "open" else int(said.text) if re.fullmatch(r"[0-9]{1,2}", said.text) else -1
        if not 0 <= fret <= _HIGHEST_POSITION:
            hint = "a position is the fret of the first finger, or open"
            number = re.search(r"[0-9]{1,2}", said.text)
            right = number[0] if number and re.fullmatch(_POSITION_WORDS, said.text) else None
            if by_bars := re.fullmatch(r"([0-9]{1,2}|open),? +(bars? +[-0-9 ,]+)", said.text):
                hint, right = "the bars stand in brackets", f"{by_bars[1]} ({by_bars[2]})"
            refuse(said, found, f"{quote(said.text)} is no position", hint, right)
            continue
        if bars is None and any(claim.bars is None for claim in claims):
            hint = "say of which bars, as in 5 (bars 1-2), 7 (bar 3)"
            refuse(part, found, "a second position for the whole lick", hint)
            continue
        claims.append(PositionClaim(fret, bars, Span(found.source, part.start, part.end)))
    return tuple(claims) or None


def read_picking(line: Line, found: Collector) -> Picking | None:
    """Read how the picking hand goes about it."""
    said, *more = _split(line)
    bare = re.fullmatch(r"alternate\s+((?:down|up) first)", " ".join(said.text.split()))
    if bare and not more:
        message = f"{quote(line.text)} lacks its comma: alternate, {bare[1]} was expected"
        refuse(line, found, message, "", f"alternate, {bare[1]}")
        return None
    word = choose(said, found, PICKING_STYLES, "way of picking")
    style: PickingStyle | None = next((s for s in get_args(PickingStyle) if s == word), None)
    if style is None:
        return None
    span = Span(found.source, line.start, line.end)
    if not more:
        return Picking(style, None, span)
    stroke = " ".join(more[0].text.split())
    if style != "alternate" or len(more) > 1 or stroke not in ("down first", "up first"):
        hint = "only alternate picking says its first stroke: alternate, down first or alternate, up first"
        refuse(line, found, f"{quote(line.text)} cannot be read", hint)
        return None
    return Picking(style, "d" if stroke == "down first" else "u", span)


def read_claims(line: Line, found: Collector) -> tuple[Claim, ...] | None:
    """Read what the lick is said to be."""
    claims: list[Claim] = []
    for part in _split(line):
        item = _split_item(part, found)
        word = choose(item[0], found, CLAIM_KINDS, "claim") if item else None
        kind: ClaimKind | None = next((k for k in get_args(ClaimKind) if k == word), None)
        if item and kind:
            claims.append(Claim(kind, item[1], Span(found.source, part.start, part.end)))
    return tuple(claims) or None


def read_over(line: Line, found: Collector) -> Over | None:
    """Read a progression, perhaps some bars of it, or chords, one a bar."""
    span = Span(found.source, line.start, line.end)
    named = _OVER.fullmatch(line.text)
    if named:
        if named[2] is None:
            return Over(named[1], None, (), span)
        bars = read_bars(line.part(named.start(2), named.end(2)), found)
        return Over(named[1], bars, (), span) if bars else None
    chords: list[MarginChord] = []
    faults = len(found.findings)
    for m in re.finditer(r"\S+", line.text):
        place = Span(found.source, line.start + m.start(), line.start + m.end())
        chord = read_chord(m[0], place, found)
        if chord is not None:
            chords.append(MarginChord(chord, None, False, False, place))
        if len(found.findings) - faults > 20:
            break
    if len(found.findings) > faults:
        return None
    return Over("", None, tuple(chords), span)


def read_progression_name(line: Line, found: Collector) -> Over | None:
    """Read what a chorus is played over: a progression, perhaps some bars of it."""
    over = read_over(line, found) if NAME.match(line.text) else None
    if over is None and not NAME.match(line.text):
        refuse(line, found, f"{quote(line.text)} names no progression", "as in over: porch")
    return over


def read_stet(line: Line, found: Collector) -> Stet | None:
    """Read a finding that the author lets stand, with the reason."""
    shape = 'stet: RULE 2.3 "the reason"; the address may be left out'
    m = _STET.fullmatch(line.text) if len(line.text) < 2000 else None
    if m is None:
        lacks = '"' not in line.text and "“" not in line.text
        message = "a stet needs its reason, in quotation marks" if lacks else f"{quote(line.text)} is no stet"
        refuse(line, found, message, shape)
        return None
    fault = ""
    if not _RULE.fullmatch(m[1]):
        fault = f"{quote(m[1])} is no rule: the proof prints it before each finding"
    elif m[2] and Address.parse(m[2]) is None:
        fault = f"{quote(m[2])} is no address: a bar, 2, or a sound of it, 2.3"
    elif m[3] and not _SEAL.fullmatch(m[3]):
        fault = f"#{quote(m[3])} is no seal: the proof prints it"
    elif not m[4].strip():
        fault = "a stet needs its reason"
    if fault:
        refuse(line, found, fault, shape)
        return None
    address = Address.parse(m[2]) if m[2] else None
    return Stet(m[1], m[4].strip(), address, m[3] or "", Span(found.source, line.start, line.end))
