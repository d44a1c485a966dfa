"""A sound in words: one sentence, from the place in the bar to the last sign."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.model.slots import JoinKind
from lickwright.model.strike import Slide
from lickwright.terms.signs import parse_sign
from lickwright.words.tones import tone

if TYPE_CHECKING:
    from collections.abc import Mapping

    from lickwright.analysis.naming import GraceKey
    from lickwright.model.address import Address
    from lickwright.model.music import GraceNote, Sound
    from lickwright.theory.pitch import Pitch

JOINS = {
    JoinKind.HAMMER: "hammer on to",
    JoinKind.PULL: "pull off to",
    JoinKind.SLIDE: "slide to",
    JoinKind.SHIFT: "slide and strike",
}
"""Said before the sound that is joined."""
_LEADS = {
    JoinKind.HAMMER: "hammered into the next",
    JoinKind.PULL: "pulled into the next",
    JoinKind.SLIDE: "slid into the next",
    JoinKind.SHIFT: "slid into the next, which is struck",
}
STROKES = {"d": "down-stroke", "u": "up-stroke", "P": "picked"}
"""The ``rh`` row, for a whole sound."""
SIGNS = {
    "tremolo": "tremolo",
    "trill": "trill with fret",
    "swell": "swell",
    "pinch": "pinch harmonic",
    "wide": "wide vibrato",
    "scrape": "scraped",
    "ghost": "ghost note",
    "fermata": "fermata",
    "rit": "slower from here to the end",
}
"""The ``signs`` row; every word of ``terms.signs`` has an entry."""
_INTO = {Slide.RISING: "slid into from below", Slide.FALLING: "slid into from above"}
_OUT = {Slide.RISING: "slid out of upwards", Slide.FALLING: "slid out of downwards"}


def sound(
    heard: Sound,
    names: Mapping[tuple[Address, int], tuple[Pitch, ...]],
    grace_names: Mapping[GraceKey, tuple[Pitch, ...]],
) -> tuple[str, ...]:
    """Return what is struck and how: the parts of a sentence.

    Args:
        heard: The sound.
        names: Of every tone of the piece, spelled.
        grace_names: Of every grace note.
    """
    at = heard.address
    parts = [_grace(grace, at, number, grace_names) for number, grace in enumerate(heard.grace, 1)]
    tones = " with ".join(tone(each, names[at, k]) for k, each in enumerate(heard.tones, 1))
    lead = f"{JOINS[heard.joined]} " if heard.joined else ""
    parts.append(lead + tones)
    if heard.slide_in:
        parts.append(_INTO[heard.slide_in])
    if heard.slide_out:
        parts.append(_OUT[heard.slide_out])
    parts += [said for said, meant in _manner(heard) if meant]
    if heard.stroke:
        parts.append(STROKES[heard.stroke])
    parts += [_sign(word) for word in heard.signs]
    return tuple(parts)


def _manner(heard: Sound) -> tuple[tuple[str, bool], ...]:
    return (
        ("accent", heard.accent),
        ("short", heard.short),
        ("spread from low to high", heard.spread),
    )


def _grace(grace: GraceNote, at: Address, number: int, names: Mapping[GraceKey, tuple[Pitch, ...]]) -> str:
    tones = " with ".join(tone(each, names[at, number, k]) for k, each in enumerate(grace.tones, 1))
    lead = f", {_LEADS[grace.leads]}" if grace.leads else ""
    return f"grace note {tones}{lead}"


def _sign(entry: str) -> str:
    found = parse_sign(entry)
    if found is None:
        raise ValueError(f"no sign: {entry}")
    word, fret = found
    return SIGNS[word.word] + (f" {fret}" if fret is not None else "")
