"""Lives of strings: from a stroke to the moment the string is used again or damped.

One voice a string gives what a guitar does by itself: an open string rings on under the next note, and
a string struck again cuts off its own old note.
"""

from dataclasses import dataclass

from lickwright.performance.event import Performance, StringEvent

_SEAM = 1e-3  # seconds; a legato note that begins later than this after the end has nothing to go on from


@dataclass(frozen=True, slots=True)
class Life:
    """What one string does from one stroke to its end.

    Attributes:
        open: MIDI pitch of the open string.
        events: The stroke and what follows on it, in order of time.
        struck: True when it ends because the string is struck again, False when a finger damps it.
        turn: How many lives the string has had before.
    """

    open: float
    events: tuple[StringEvent, ...]
    struck: bool
    turn: int

    @property
    def start(self) -> float:
        """Seconds of the first onset."""
        return self.events[0].start

    @property
    def end(self) -> float:
        """Seconds at which the string is damped."""
        return self.events[-1].end


def part_lives(performance: Performance) -> tuple[Life, ...]:
    """Part a performance into the lives of its strings, in order of string, then time."""
    lives: list[Life] = []
    for number, pitch in enumerate(performance.opens, 1):
        own = sorted((e for e in performance.events if e.string == number), key=lambda e: e.start)
        groups: list[list[StringEvent]] = []
        for event in own:
            if groups and _goes_on(groups[-1], event):
                groups[-1].append(event)
            else:
                groups.append([event])
        for turn, group in enumerate(groups):
            after = groups[turn + 1][0].start if turn + 1 < len(groups) else None
            struck = after is not None and after <= group[-1].end + _SEAM
            lives.append(Life(pitch, tuple(group), struck, turn))
    return tuple(lives)


def _goes_on(group: list[StringEvent], event: StringEvent) -> bool:
    """True when the event needs no new stroke: the string sounds, and with the same partials."""
    sounding = event.start <= group[-1].end + _SEAM
    return event.attack.legato and sounding and event.harmonic == group[0].harmonic
