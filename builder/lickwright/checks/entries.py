"""Rows that are miscounted because of their bar: a slot dropped or added is one fault, told once.

Where all rows under a bar agree with each other and not with its sounds, the bar has slipped and
not each of the rows.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from lickwright.checks.witnesses import top_pitch
from lickwright.findings import Finding, Label
from lickwright.model.address import Address
from lickwright.model.music import MusicBar, Piece
from lickwright.theory.pitch import PitchClass

_ROW = re.compile(r"\s*(rh|lh|names|degrees|signs)\s*\|(.*)")
_FRAME = re.compile(r"(?:ring|mute|open|pos[0-9]{1,2})?\[|\]|\)(?:/[0-9]+)?|\(")

HOLD = "-"


def merge_counts(piece: Piece, findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Return the findings of a piece with the miscounted rows of one bar told as one."""
    rows = [finding for finding in findings if finding.rule == "syntax/row-count"]
    if not rows:
        return tuple(findings)
    bars = sorted((bar for bar in piece.music.bars if bar.span.source.path), key=lambda b: b.span.start)
    dropped: list[Finding] = []
    mended: dict[int, Finding] = {}
    for index, bar in enumerate(bars):
        until = bars[index + 1].span.start if index + 1 < len(bars) else None
        under = [
            f for f in rows if bar.span.start <= f.span.start and (until is None or f.span.start < until)
        ]
        if not under or bar.lower is not None:
            continue
        entries = _list_entries(bar)
        counts = [len(each) for each in entries.values()]
        if len(set(counts)) != 1:
            continue
        sounds = len(bar.upper.sounds)
        said = f"the rows have {counts[0]} entries for {sounds} sounds"
        length = next((f for f in findings if f.rule == "rhythm/bar-length" and _bar(f) == bar.number), None)
        if length is not None:
            mended[id(length)] = replace(
                length,
                help=f"{said}: most likely {_say_lost(bar, entries, counts[0])}",
                labels=(*length.labels, Label(under[0].span, said)),
            )
            dropped += under
        elif len(under) > 1:
            labels = tuple(Label(f.span, "and so it is here") for f in under[1:])
            hint = f"The rows agree with each other: look at the bar's slots; {_say_why(bar, counts[0])}"
            mended[id(under[0])] = replace(under[0], labels=labels, help=hint)
            dropped += under[1:]
    return tuple(mended.get(id(f), f) for f in findings if not any(f is d for d in dropped))


def _list_entries(bar: MusicBar) -> dict[str, list[str]]:
    """The entries of each row under a bar; empty and comment lines part no row from it."""
    source, entries = bar.span.source, {}
    for line in source.text[bar.span.end :].split("\n")[1:]:
        found = _ROW.match(line)
        if found is not None:
            entries[found[1]] = _FRAME.sub(" ", found[2].split(" ;")[0]).split()
        elif line.strip() and not line.lstrip().startswith(";"):
            break
    return entries


def _say_lost(bar: MusicBar, entries: Mapping[str, list[str]], count: int) -> str:
    """What the bar has lost, or has too many; the names say which sound, where only one would do."""
    sounds = bar.upper.sounds
    missing = count > len(sounds)
    names = entries.get("names", [])
    if names and abs(count - len(sounds)) == 1:
        sounding = [frozenset(p % 12 for t in sound.tones for p in top_pitch(t)) for sound in sounds]
        said = [_pitch_classes(name) for name in names]
        longer, shorter = (said, sounding) if missing else (sounding, said)
        places = [
            place
            for place in range(len(longer))
            if all(
                a <= b or b <= a for a, b in zip(longer[:place] + longer[place + 1 :], shorter, strict=True)
            )
        ]
        if places and len({longer[place] for place in places}) == 1:
            which = names[places[0]] if missing else sounds[places[0]].span.text
            where = f"{which}, number {places[0] + 1}"
            return f"{where} of the names, is missing" if missing else f"{where} of the sounds, is too many"
    return f"a sound {'is missing' if missing else 'is too many'}"


def _say_why(bar: MusicBar, count: int) -> str:
    """Which slots have no entry: the note held over from the bar before, where just that would do."""
    steps, sounds = bar.upper.steps, bar.upper.sounds
    if count == len(sounds) + 1 and steps and steps[0][1].text == HOLD:
        return "it begins with a held note, which has no entry"
    return "holds, rests and grace notes have no entry"


def _pitch_classes(name: str) -> frozenset[int]:
    """The pitch classes of an entry of the names row; empty for ``*``."""
    read = (PitchClass.parse(part) for part in name.split("+"))
    return frozenset(each.semitone for each in read if each is not None)


def _bar(finding: Finding) -> int | None:
    address = Address.parse(finding.address)
    return None if address is None else address.bar
