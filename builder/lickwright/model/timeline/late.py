"""Late bends: what a string that still sounds can be bent or let down to.

Conventions: a bend goes up from where the string is; a release comes down to a bent
string, as far as the fret that is stopped and no further. A harmonic is taken as written.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from lickwright.instrument.guitar import Guitar
from lickwright.model.address import Address
from lickwright.model.music import Tone
from lickwright.model.strike import BendKind, Harmonic, Late
from lickwright.model.timeline.faults import Faults


def check_late(
    tones: tuple[Tone, ...], held: Mapping[int, Tone], guitar: Guitar, address: Address, faults: Faults
) -> None:
    """Report late bends of silent strings, and those that lead where a string cannot go.

    Args:
        tones: Of the sound.
        held: What each string sounds when it begins.
        guitar: The tuning gives the pitch of each fret.
        address: Of the sound.
        faults: Told.
    """
    for tone in tones:
        if not isinstance(tone.head, Late) or not guitar.has_string(tone.string):
            continue
        before = held.get(tone.string)
        if before is None or not before.path:
            faults.add(
                "syntax/late-bend",
                f"string {tone.string} is not sounding here, so it cannot be bent or let down",
                tone.span,
                help=f"Strike it first: {tone.string}: and its fret",
                address=address,
            )
            continue
        fault = _misled(tone, before, guitar)
        if fault is not None:
            faults.add("hands/late-bend-direction", fault[0], tone.span, help=fault[1], address=address)


def _misled(tone: Tone, before: Tone, guitar: Guitar) -> tuple[str, str] | None:
    if isinstance(before.head, Harmonic) or before.fret is None:
        return None
    string = tone.string
    ground = Fraction(before.fret)
    now = before.path[-1] - guitar.midi(string, 0)
    target = tone.path[-1] - guitar.midi(string, 0)
    if tone.bends[0].kind is not BendKind.RELEASE:
        if target > now:
            return None
        return (
            f"a bend goes up: {_fret(target)} is not above {_fret(now)}, where string {string} is",
            "The number after b is the fret whose pitch is reached, as in 2:15 2:b17",
        )
    if now <= ground:
        return (
            f"string {string} is not bent here, so it cannot be let down",
            f"Bend it first, as in {string}:{before.fret}b{before.fret + 2} {string}:r{before.fret}",
        )
    if ground <= target < now:
        return None
    message = f"a release goes down towards {_fret(ground)}, not from {_fret(now)} to {_fret(target)}"
    return (
        message,
        "The number after r is the fret whose pitch the string is let down to",
    )


def _fret(fret: Fraction) -> str:
    return f"fret {fret.numerator if fret.denominator == 1 else float(fret)}"
