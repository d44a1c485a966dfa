"""Variations: the base lick with the author's changes written into it.

Conventions: addresses count in the base. A changed sound keeps its place, its
time and its joins; its entries of ``lh``, ``names`` and ``degrees`` say nothing.
A silenced sound has no entries. ``over`` replaces the margins' chords.
"""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import replace

from lickwright.model.address import Address
from lickwright.model.bar import Bar, Entry, Row, Voice
from lickwright.model.blocks import Lick
from lickwright.model.fields import Change
from lickwright.model.slots import Group, Rest, Slot
from lickwright.model.strike import Strike
from lickwright.model.timeline.faults import Faults
from lickwright.model.timeline.wording import Names
from lickwright.text import Span

_OWN = ("name", "title", "tags", "stets", "vary", "span", "places", "bars", "changes")
_SILENT_ROWS = ("lh", "names", "degrees")


def base_chain(
    lick: Lick, licks: Mapping[str, Lick], faults: Faults, names: Names
) -> tuple[Lick, ...] | None:
    """Return what a lick is made from: the lick that varies nothing first, the lick itself last.

    None when that leads nowhere: a base that is not there, or a circle (told once, at the
    first of its licks).
    """
    chain = [lick]
    seen = {lick.name}
    while (name := chain[-1].vary) is not None:
        if name in seen:
            _tell_circle(lick, [one.name for one in chain], name, licks, faults)
            return None
        base = licks.get(name)
        if base is None:
            if chain[-1] is lick:
                message, hint = names.missing(name, "lick")
                faults.add("course/unknown-lick", message, lick.place_of("vary"), help=hint)
            return None
        chain.append(base)
        seen.add(name)
    return tuple(reversed(chain))


def _tell_circle(lick: Lick, chain: list[str], back: str, licks: Mapping[str, Lick], faults: Faults) -> None:
    if back == lick.name and lick.name == next(name for name in licks if name in chain):
        circle = " → ".join((*chain, back))
        faults.add("course/vary-circle", f"{circle}: a variation of itself", lick.place_of("vary"))


def without_rows(lick: Lick, bars: Container[int], kinds: Container[str]) -> Lick:
    """Return a lick that says nothing in the rows of these kinds under these bars (indices)."""

    def voice(old: Voice) -> Voice:
        return replace(old, rows=tuple(row for row in old.rows if row.kind not in kinds))

    return replace(
        lick,
        bars=tuple(
            replace(bar, upper=voice(bar.upper), lower=bar.lower and voice(bar.lower)) if i in bars else bar
            for i, bar in enumerate(lick.bars)
        ),
    )


def apply(lick: Lick, base: Lick, faults: Faults) -> tuple[Lick, tuple[Address, ...]]:
    """Return a variation with bars of its own, and the addresses of what changed in it.

    Another tuning or capo makes other notes: the base's ``names`` and ``degrees`` fall silent.

    Args:
        lick: Varies ``base``.
        base: With bars of its own.
        faults: Told of changes that find nothing to change.
    """
    changes = {change.address: change for change in lick.changes}
    used: set[Address] = set()
    changed: list[Address] = []
    first = 0 if (lick.pickup if lick.pickup is not None else base.pickup) else 1
    place = lick.place_of("vary")
    bars = []
    for number, bar in enumerate(base.bars, first):
        upper = _voice(bar.upper, number, False, changes, used, changed, place)
        lower = (
            _voice(bar.lower, number, True, changes, used, changed, place) if bar.lower is not None else None
        )
        margin = replace(bar.margin, span=place)
        if lick.over is not None:
            margin = replace(margin, chords=())
        else:
            margin = replace(margin, chords=tuple(replace(c, span=place) for c in margin.chords))
        bars.append(Bar(margin, upper, lower, place))
    for address, change in changes.items():
        if address not in used:
            faults.add(
                "course/change-address",
                f"“{base.name}” has no sound at {address}",
                change.span,
                help="Addresses count in the lick that is varied: bar, point, sound",
                address=address,
            )
    kept = {name: getattr(lick, name) for name in _OWN if name not in ("bars", "changes")}
    fields = {
        name: getattr(lick, name)
        for name in Lick.__dataclass_fields__
        if name not in _OWN and getattr(lick, name) not in (None, ())
    }
    places = {**dict.fromkeys((n for n, _ in base.places), place), **dict(lick.places)}
    varied = replace(base, **(kept | fields), bars=tuple(bars), changes=())
    varied = replace(varied, places=tuple(places.items()))
    if (varied.tuning, varied.capo) != (base.tuning, base.capo):
        varied = without_rows(varied, range(len(varied.bars)), ("names", "degrees"))
    return varied, tuple(changed)


def _voice(
    voice: Voice,
    bar: int,
    lower: bool,
    changes: Mapping[Address, Change],
    used: set[Address],
    changed: list[Address],
    place: Span,
) -> Voice:
    counted = 0
    silenced: list[int] = []
    altered: list[int] = []

    def walk(slots: tuple[Slot, ...]) -> tuple[Slot, ...]:
        nonlocal counted
        walked: list[Slot] = []
        for slot in slots:
            if isinstance(slot, Group):
                walked.append(replace(slot, members=walk(slot.members), span=place))
            elif isinstance(slot, Strike):
                counted += 1
                change = changes.get(Address(bar, counted, lower))
                if change is None:
                    walked.append(_moved(slot, place))
                    continue
                used.add(change.address)
                (silenced if isinstance(change.to, Rest) else altered).append(counted)
                if not isinstance(change.to, Rest):
                    changed.append(Address(bar, counted - len(silenced), lower))
                walked.append(change.to)
            else:
                walked.append(replace(slot, span=place))
        return tuple(walked)

    slots = walk(voice.slots)
    rows = tuple(_row(row, silenced, altered) for row in voice.rows)
    return Voice(slots, rows, place)


def _moved(strike: Strike, place: Span) -> Strike:
    """A sound the variation takes over: what is found in it is found in the variation."""
    return replace(strike, span=place, notes=tuple(replace(note, span=place) for note in strike.notes))


def _row(row: Row, silenced: list[int], altered: list[int]) -> Row:
    entries = []
    for number, entry in enumerate(row.entries, 1):
        if number in silenced:
            continue
        if number in altered and row.kind in _SILENT_ROWS:
            entries.append(Entry((None,), entry.span))
        else:
            entries.append(entry)
    return replace(row, entries=tuple(entries))
