"""Reads what is said at the head of a bar."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from harmony_heard import chord
from heard import HeardChord
from phrases import NUMBER, MisheardError, ordinal, place, usual_length

_STOP, _PUSHED = " (one stroke, then silence)", " (pushed)"
_HEADING = re.compile(
    r"(?:Bar (?P<number>[0-9]+)|Pickup)"
    r"(?:, here begins “(?P<mark>.*)”)?"
    r"(?:, in (?P<meter>[0-9]+/[0-9]+))?"
    rf"(?:, (?P<length>{NUMBER}) (?:quarters?|of a quarter) long)?"
    r"(?:, beginning at (?P<begins>(?:beat )?[0-9]+(?: [a-z]+(?: [0-9/]+)?)?))?"
    r"(?P<opens>, repeat from here)?"
    r"(?:, (?P<endings>[a-z, -]+) ending)?"
    r"(?:, over (?P<chords>.*?))??"
    r"(?:, (?P<position>[a-z-]+) position)?"
    r"(?:, (?P<usual>[^,]+) unless said)?"
    r"(?P<closes>, go back at the end)?"
    r"(?:, played (?P<times>[0-9]+) times in all)?"
    r"(?P<ending_closed>, the ending closes)?"
)


@dataclass(frozen=True)
class Heading:
    """What the head of a bar tells; ``length`` is None where the bar is as long as its meter."""

    number: int
    mark: str
    meter: tuple[int, int]
    meter_told: bool
    length: Fraction
    offset: Fraction
    chords: tuple[HeardChord, ...]
    opens: bool
    closes: bool
    times: int
    endings: tuple[int, ...]
    ending_closed: bool
    position: int | None
    usual: Fraction | None


def heading(words: str, before: tuple[int, int] | None) -> Heading:
    """Read a heading; ``before`` is the meter in force, None at the first bar.

    Raises:
        MisheardError: When something in it tells nothing.
    """
    found = _HEADING.fullmatch(words)
    if not found:
        raise MisheardError(f"no heading: {words}")
    meter = before
    if found["meter"]:
        count, unit = found["meter"].split("/")
        meter = (int(count), int(unit))
    if meter is None:
        raise MisheardError(f"no meter yet: {words}")
    offset = place(found["begins"], meter) if found["begins"] else Fraction(0)
    usual = usual_length(found["usual"]) if found["usual"] else None
    if found["usual"] and usual is None:
        raise MisheardError(f"no usual length: {words}")
    whole = Fraction(4 * meter[0], meter[1])
    return Heading(
        number=int(found["number"] or 0),
        mark=found["mark"] or "",
        meter=meter,
        meter_told=bool(found["meter"]),
        length=Fraction(found["length"]) if found["length"] else whole,
        offset=offset,
        chords=tuple(_chords(found["chords"] or "", meter, offset)),
        opens=bool(found["opens"]),
        closes=bool(found["closes"]),
        times=int(found["times"] or 2),
        endings=_endings(found["endings"] or ""),
        ending_closed=bool(found["ending_closed"]),
        position=ordinal(found["position"]) if found["position"] else None,
        usual=usual,
    )


def _endings(words: str) -> tuple[int, ...]:
    return tuple(ordinal(word) for word in re.split(r", | and ", words)) if words else ()


def _chords(words: str, meter: tuple[int, int], offset: Fraction) -> list[HeardChord]:
    """``A seven (one stroke, then silence), then D major at 2 and (pushed)``."""
    found = []
    for index, part in enumerate(re.split(r", then (?!silence)", words) if words else []):
        said = part
        stop = said.endswith(_STOP)
        said = said.removesuffix(_STOP)
        pushed = said.endswith(_PUSHED)
        said = said.removesuffix(_PUSHED)
        carried = said.endswith(" still")
        said = said.removesuffix(" still")
        onset = Fraction(0)
        if index:
            said, _, at = said.rpartition(" at ")
            onset = place(at, meter) - offset
        root, tones, bass = chord(said)
        found.append(HeardChord(onset, root, tones, bass, carried, stop, pushed))
    return found
