"""How long each tone would sound if its string were not used again."""

from collections.abc import Sequence
from fractions import Fraction

from lickwright.model.music import Tone
from lickwright.model.timeline.played import Played


class Ringing:
    """Ends of tones, in quarters from the start.

    A tone lasts as written; through the joined sounds that leave its string alone; in a let-ring bracket to
    the end of the bracket.
    """

    def __init__(self, sounds: Sequence[Played]) -> None:
        self._ends: list[tuple[Fraction, ...]] = [()] * len(sounds)
        self._close: list[Fraction] = [Fraction(0)] * len(sounds)
        for lower in (False, True):
            voice = [(n, played) for n, played in enumerate(sounds) if played.sound.address.lower is lower]
            for place, (number, played) in enumerate(voice):
                chain = voice[place : place + 1 + _reach(played)]
                self._ends[number] = tuple(follower.end for _, follower in chain)
            self._mark(voice)

    def end(self, number: int, tone: Tone) -> Fraction:
        """Where a tone of the sound of that number (from 0) ends."""
        ends = self._ends[number]
        return max(ends[min(tone.rings_through, len(ends) - 1)], self._close[number])

    def _mark(self, voice: Sequence[tuple[int, Played]]) -> None:
        """Find each bracket's end; played again in a repeat it is a bracket of its own."""
        follower: Played | None = None
        close = Fraction(0)
        for number, played in reversed(voice):
            inside = (
                follower is not None
                and follower.sound.ring == played.sound.ring
                and follower.sound.address > played.sound.address
            )
            close = close if inside else played.end
            if played.sound.ring:
                self._close[number] = close
            follower = played


def _reach(played: Played) -> int:
    return max((tone.rings_through for tone in played.sound.tones), default=0)
