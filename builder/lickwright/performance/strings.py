"""The strings while the hands play: what each one sounds, until it is used again."""

from dataclasses import replace

from lickwright.performance.event import Attack, Glide, StringEvent

_LEAST = 0.02  # seconds; no event is shorter


class Strings:
    """Collects events in order of playing and keeps each string to one voice."""

    def __init__(self) -> None:
        self._done: list[StringEvent] = []
        self._now: dict[int, StringEvent] = {}

    def now(self, string: int) -> StringEvent | None:
        """The last event of a string, whether it still sounds or not."""
        return self._now.get(string)

    def height(self, string: int) -> float:
        """Cents over its stop at which the string is held, bent; 0 when it is not."""
        event = self._now.get(string)
        return event.curve[-1][1] if event and event.curve else 0.0

    def add(self, event: StringEvent) -> None:
        """Begin an event: what the string sounded ends here, a legato note goes on from it."""
        before = self._now.get(event.string)
        if before is not None:
            # bars that are too long overlap; a string still plays one note after the other
            if event.start < before.start + _LEAST:
                event = replace(event, start=before.start + _LEAST)
            # a joined note was held on to, whatever was planned; a struck one cuts off
            end = event.start if event.attack.legato else min(before.end, event.start)
            self._done.append(_end(before, end))
        if event.end < event.start + _LEAST:
            event = replace(event, end=event.start + _LEAST)
        self._now[event.string] = event

    def hold(self, string: int, end: float) -> None:
        """Let the string's event last to ``end`` seconds."""
        event = self._now.get(string)
        if event is not None:
            self._now[string] = replace(event, end=max(event.end, end))

    def leave(self, string: int, end: float) -> None:
        """End the string's event at ``end`` seconds if it would last longer."""
        event = self._now.get(string)
        if event is not None and event.end > end:
            self._now[string] = _end(event, end)

    def lead(self, string: int, stop: float, arrive: float, *, longest: float) -> None:
        """Slide the sounding string to ``stop`` (semitones) so that it arrives at ``arrive`` seconds."""
        event = self._now.get(string)
        if event is None or event.arrival == stop or event.attack in {Attack.DEAD, Attack.SCRAPE}:
            return
        room = arrive - event.start
        takes = min(longest, 0.5 * room, 0.06 + 0.025 * abs(stop - event.arrival))
        if takes > 0:
            glide = Glide(room - takes, takes, event.arrival, stop)
            self._now[string] = replace(event, glides=(*event.glides, glide), end=arrive)

    def finish(self) -> tuple[StringEvent, ...]:
        """Every event, in order of start, then string."""
        events = [*self._done, *self._now.values()]
        return tuple(sorted(events, key=lambda event: (event.start, event.string)))


def _end(event: StringEvent, end: float) -> StringEvent:
    return replace(event, end=max(end, event.start + _LEAST))
