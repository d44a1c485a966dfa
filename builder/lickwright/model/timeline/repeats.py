"""Repeats and endings unfolded into the order of playing.

Conventions: ``:|`` goes back to the ``|:`` that is open, else to bar 1. A repeat from
bar 1 whose last bar leaves out just the pickup's time takes the pickup in again, so
that no beat is lost (common practice). Endings belong to the bars before
them; the last one is as long as the first, or lasts to the end.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from lickwright.model.bar import Margin


@dataclass(frozen=True, slots=True)
class Unfolded:
    """The order of playing.

    Attributes:
        order: Indices of bars as played.
        before: For each bar that does not simply follow the bar written before it: the
            indices of the bars that come before it, in the order they first do.
        ending_ends: Indices of bars at which a printed ending bracket ends.
    """

    order: tuple[int, ...]
    before: dict[int, tuple[int, ...]]
    ending_ends: frozenset[int]


def unfold(margins: Sequence[Margin], *, pickup: bool, short: frozenset[int] = frozenset()) -> Unfolded:
    """Return the margins' order of playing.

    Args:
        margins: One a bar, as written.
        pickup: True when the first is a pickup.
        short: Indices of bars that are short by just the pickup.

    Signs that do not fit (the reader reports them) give a best guess.
    """
    order: list[int] = []
    ends: set[int] = set()
    start = first = 1 if pickup and len(margins) > 1 else 0
    index = 0
    while index < len(margins):
        margin = margins[index]
        if margin.opens:
            start = index
        if margin.endings:
            blocks = _endings(margins, index)
            last = max(number for numbers, _ in blocks for number in numbers)
            closing = -1  # a first ending numbered 2 comes back from nowhere
            for time in range(1, min(last, 8) + 1):
                bars = next((bars for numbers, bars in blocks if time in numbers), [])
                if time > 1:
                    order += range(_again(start, first, closing, short), index)
                order += bars
                closing = bars[-1] if bars else closing
            ends |= {bars[-1] for _, bars in blocks}
            index, start = blocks[-1][1][-1] + 1, first
        elif margin.closes:
            times = max(2, min(margin.times or 2, 8))
            again = range(_again(start, first, index, short), index + 1)
            order += [index, *list(again) * (times - 1)]
            index, start = index + 1, first
        else:
            order.append(index)
            index += 1
    return Unfolded(tuple(order), _before(order), frozenset(ends))


def _again(start: int, first: int, closing: int, short: frozenset[int]) -> int:
    """Where a repeat goes back to: to the pickup when its closing bar leaves the time for it."""
    return 0 if start == first and closing in short else start


_Block = tuple[tuple[int, ...], list[int]]


def _endings(margins: Sequence[Margin], first: int) -> list[_Block]:
    blocks: list[_Block] = []
    index = first
    while index < len(margins) and margins[index].endings:
        bars = [index]
        while not margins[bars[-1]].closes:
            following = bars[-1] + 1
            if following >= len(margins) or margins[following].endings or margins[following].opens:
                break
            if blocks and len(bars) == len(blocks[0][1]) and not _closes_later(margins, following):
                break
            bars.append(following)
        blocks.append((margins[index].endings, bars))
        index = bars[-1] + 1
        if not margins[bars[-1]].closes and blocks[1:]:
            break
    return blocks


def _closes_later(margins: Sequence[Margin], index: int) -> bool:
    """True when the ending that runs on at ``index`` reaches a ``:|`` of its own."""
    for margin in margins[index:]:
        if margin.opens or margin.endings:
            return False
        if margin.closes:
            return True
    return False


def _before(order: list[int]) -> dict[int, tuple[int, ...]]:
    before: dict[int, list[int]] = {}
    for previous, following in pairwise(order):
        known = before.setdefault(following, [])
        if previous not in known:
            known.append(previous)
    return {bar: tuple(known) for bar, known in before.items() if known != [bar - 1]}
