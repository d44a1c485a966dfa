"""Rows that are miscounted because of their bar: a slot dropped or added is one fault, told once.

Where all rows under a bar agree with each other and not with its sounds, the bar has slipped and
not each of the rows.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from lickwright.findings import Finding, Label
from lickwright.model.address import Address
from lickwright.model.music import MusicBar, Piece

_ROW = re.compile(r"\s*(?:rh|lh|names|degrees|signs)\s*\|(.*)")
_FRAME = re.compile(r"(?:ring|mute|open|pos[0-9]{1,2})?\[|\]|\)(?:/[0-9]+)?|\(")


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
        counts = _count(bar)
        if len(set(counts)) != 1:
            continue
        sounds = len(bar.upper.sounds)
        said = f"the rows have {counts[0]} entries for {sounds} sounds"
        length = next((f for f in findings if f.rule == "rhythm/bar-length" and _bar(f) == bar.number), None)
        if length is not None:
            lost = "is missing" if counts[0] > sounds else "is too many"
            mended[id(length)] = replace(
                length,
                help=f"{said}: most likely a sound {lost}",
                labels=(*length.labels, Label(under[0].span, said)),
            )
            dropped += under
        elif len(under) > 1:
            labels = tuple(Label(f.span, f.message) for f in under[1:])
            mended[id(under[0])] = replace(
                under[0],
                labels=labels,
                help=f"The rows agree with each other: look at the bar's slots; {said}",
            )
            dropped += under[1:]
    return tuple(mended.get(id(f), f) for f in findings if not any(f is d for d in dropped))


def _count(bar: MusicBar) -> list[int]:
    """How many entries each row under a bar has; empty and comment lines part no row from it."""
    source, counts = bar.span.source, []
    for line in source.text[bar.span.end :].split("\n")[1:]:
        found = _ROW.match(line)
        if found is not None:
            counts.append(len(_FRAME.sub(" ", found[1].split(" ;")[0]).split()))
        elif line.strip() and not line.lstrip().startswith(";"):
            break
    return counts


def _bar(finding: Finding) -> int | None:
    address = Address.parse(finding.address)
    return None if address is None else address.bar
