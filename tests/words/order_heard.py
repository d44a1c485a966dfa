"""The order of playing, from what is said of repeats: back to ``repeat from here``, endings by their times.

Common practice: without a sign one goes back to the bar after the last repeat, or to the first bar that is
no pickup; bars under an ending are passed over when it is another time's.
"""

from __future__ import annotations

from heard import HeardBar


def order(bars: tuple[HeardBar, ...]) -> tuple[int, ...]:
    """Numbers of the bars as played."""
    played: list[int] = []
    start, time, index = 0, 1, 0
    under = _under(bars)
    while index < len(bars):
        bar = bars[index]
        if bar.opens and start != index:
            start, time = index, 1
        if under[index] and time not in under[index]:
            index += 1
            continue
        played.append(bar.number)
        last = max((number for numbers in under[start:] for number in numbers), default=0)
        if bar.closes and time < (last if under[index] else bar.times):
            time += 1
            index = start
        else:
            index += 1
            if bar.closes or bar.ending_closed:
                start, time = index, 1
    return tuple(played)


def _under(bars: tuple[HeardBar, ...]) -> list[tuple[int, ...]]:
    """The times under whose ending each bar stands."""
    found = []
    now: tuple[int, ...] = ()
    for bar in bars:
        now = bar.endings or now
        found.append(now)
        if bar.closes or bar.ending_closed:
            now = ()
    return found
