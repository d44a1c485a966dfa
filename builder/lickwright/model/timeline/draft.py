"""What the layout keeps while a voice is being laid out: sounds in the making, and where it stands."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from lickwright.model.address import Address
from lickwright.model.music import Sound, Tone
from lickwright.model.slots import Join
from lickwright.model.strike import Dead


@dataclass(slots=True)
class Draft:
    """A sound while its holds are still coming in.

    Attributes:
        make: Makes it, told what is not known before its bar ends: its tones, its duration, what rows say.
    """

    address: Address
    make: Callable[..., Sound]
    tones: list[Tone]
    length: Fraction
    carried: dict[int, tuple[Draft, int]] = field(default_factory=dict)

    @property
    def sounding(self) -> dict[int, Tone]:
        """What each string holds once this sound has begun."""
        held = {string: draft.tones[k] for string, (draft, k) in self.carried.items()}
        return held | {tone.string: tone for tone in self.tones}

    @property
    def is_dead(self) -> bool:
        """True when every string of it is muffled."""
        return all(isinstance(tone.head, Dead) for tone in self.tones)


@dataclass(slots=True)
class State:
    """Where a voice stands between two bars.

    Attributes:
        last: The sound that holds lengthen; None = nothing yet, or (``resting``) a rest.
        ringing: By string, what sounds on in the let-ring bracket that is open; never changed in place.
        pending: A join that waits for its second sound.
    """

    last: Draft | None = None
    resting: bool = False
    pending: Join | None = None
    ringing: Mapping[int, Tone] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Share:
    """A stretch to fill: written place, printed length of a share, played place and length."""

    onset: Fraction
    length: Fraction
    printed: Fraction
    time: Fraction
    until: Fraction


def carry(before: Draft, after: Draft) -> None:
    """Let the strings of the sound before that the one after leaves alone ring on through it."""
    named = {tone.string for tone in after.tones}
    ringing = dict(before.carried)
    ringing |= {tone.string: (before, k) for k, tone in enumerate(before.tones)}
    for string, (draft, k) in ringing.items():
        if string not in named:
            draft.tones[k] = replace(draft.tones[k], rings_through=draft.tones[k].rings_through + 1)
            after.carried[string] = (draft, k)
