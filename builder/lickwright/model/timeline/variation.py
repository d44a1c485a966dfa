"""Variations: the base lick with the author's changes written into it.

Conventions: addresses count in the base. A changed sound keeps its place, its
time and its joins; its entries of ``lh``, ``names`` and ``degrees`` say nothing.
A silenced sound has no entries. ``over`` replaces the margins' chords.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from lickwright.model.address import Address
from lickwright.model.bar import Bar, Entry, Row, Voice
from lickwright.model.blocks import Lick
from lickwright.model.fields import Change
from lickwright.model.slots import Group, Rest, Slot
from lickwright.model.strike import Strike
from lickwright.model.timeline.faults import Faults
from lickwright.text import Span

_OWN = ("name", "title", "tags", "stets", "vary", "span", "places", "bars", "changes")
_SILENT_ROWS = ("lh", "names", "degrees")


def vary(lick: Lick, licks: Mapping[str, Lick], faults: Faults) -> tuple[Lick, tuple[Address, ...]] | None:
    """Return a variation with bars of its own, and the addresses of what changed in it.

    A lick that varies nothing comes back as it is. None when its base cannot be found.
    """
    if lick.vary is None:
        return lick, ()
    chain = [lick.name]
    base: Lick | None = lick
    while base is not None and base.vary is not None:
        chain.append(base.vary)
        if base.vary == lick.name and lick.name == next(name for name in licks if name in chain):
            circle = " → ".join(chain)
            faults.add("course/vary-circle", f"{circle}: a variation of itself", lick.place_of("vary"))
        if chain.count(base.vary) > 1:
            return None
        base = licks.get(base.vary)
    if len(chain) > 1 and chain[1] not in licks:
        faults.add(
            "course/unknown-lick",
            f"there is no lick “{chain[1]}” to vary",
            lick.place_of("vary"),
        )
    if base is None:
        return None
    resolved = base
    for name in reversed(chain[1:-1]):
        resolved, _ = _apply(licks[name], resolved, Faults(name))
    return _apply(lick, resolved, faults)


def _apply(lick: Lick, base: Lick, faults: Faults) -> tuple[Lick, tuple[Address, ...]]:
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
    return replace(varied, places=tuple(places.items())), tuple(changed)


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
