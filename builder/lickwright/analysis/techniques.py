"""Which techniques a piece uses, each with the first place where it does.

Conventions: techniques go by the names of :mod:`lickwright.terms.techniques`. A double stop is two
notes struck together, a chord three or more. Picking counts where the author says it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from lickwright.model.address import Address
from lickwright.model.music import Piece, Sound, Tone
from lickwright.model.slots import JoinKind
from lickwright.model.strike import BendKind, Dead, Hammered, Harmonic, Late, Tapped
from lickwright.terms.techniques import NAMES
from lickwright.text import Span

_JOINS = {
    JoinKind.HAMMER: "hammer-on",
    JoinKind.PULL: "pull-off",
    JoinKind.SLIDE: "slide",
    JoinKind.SHIFT: "shift slide",
}
_BENDS = {
    BendKind.UP: "bend",
    BendKind.PRE: "pre-bend",
    BendKind.NUT: "behind-the-nut bend",
    BendKind.RELEASE: "release",
}
_SIGNS = {
    "tremolo": "tremolo",
    "trill": "trill",
    "swell": "swell",
    "pinch": "pinch harmonic",
    "wide": "vibrato",
    "scrape": "scrape",
    "ghost": "ghost note",
}
_PICKING = {
    "alternate": "alternate picking",
    "pendulum": "pendulum picking",
    "hybrid": "hybrid picking",
    "economy": "economy picking",
    "fingers": "fingerpicking",
}
_CLAIMS = {"forward roll", "backward roll", "cascade"}
_CHORD = 3
"""Strings."""


@dataclass(frozen=True, slots=True)
class Use:
    """The first place of a technique; ``address`` is None for what the whole piece is said to be."""

    address: Address | None
    span: Span


def list_techniques(piece: Piece) -> Mapping[str, Use]:
    """Return the techniques of a piece by name, in the order of the table of terms."""
    first: dict[str, Use] = {}
    for bar in piece.music.bars:
        for line in bar.lines:
            for sound in line.sounds:
                for name in uses(sound):
                    if name not in first:
                        first[name] = Use(sound.address, sound.span)
    lower = next((s for bar in piece.music.bars if bar.lower is not None for s in bar.lower.sounds), None)
    if lower is not None:
        first["two voices"] = Use(lower.address, lower.span)
    picking = piece.music.picking
    if picking.style in _PICKING:
        first[_PICKING[picking.style]] = Use(None, picking.span)
    for claim in piece.claims:
        if claim.kind in _CLAIMS:
            first.setdefault(claim.kind, Use(None, claim.span))
    return {name: first[name] for name in NAMES if name in first}


def uses(sound: Sound) -> Iterator[str]:
    """Yield the techniques of a sound by name; one may come twice."""
    if sound.joined is not None:
        yield _JOINS[sound.joined]
    if sound.grace:
        yield from _of_grace(sound)
    if sound.slide_in is not None or sound.slide_out is not None:
        yield "slide"
    if sound.spread:
        yield "spread chord"
    if sound.ring:
        yield "let ring"
    if sound.mute:
        yield "palm mute"
    for sign in sound.signs:
        name = _SIGNS.get(sign.rstrip("0123456789"))
        if name is not None:
            yield name
    tones = sound.tones
    if len(tones) > 1 and sum(tone.struck for tone in tones) > 1:
        pitched = sum(bool(tone.path) for tone in tones)
        if pitched > 1:
            yield "double stop" if pitched < _CHORD else "chord"
    for tone in tones:
        yield from _of_tone(tone)


def _of_grace(sound: Sound) -> Iterator[str]:
    notes = sound.grace
    dead = all(isinstance(tone.head, Dead) for note in notes for tone in note.tones)
    yield "rake" if dead else "grace note"
    for note in notes:
        if note.leads is not None:
            yield _JOINS[note.leads]


def _of_tone(tone: Tone) -> Iterator[str]:
    match tone.head:
        case Dead():
            yield "dead note"
        case Tapped():
            yield "tapping"
        case Hammered():
            yield "hammer-on"
        case Harmonic(fret, _):
            yield "stopped harmonic" if fret else "harmonic"
        case Late(bend):
            yield _BENDS[bend.kind]
        case _:
            pass
    for bend in tone.bends:
        yield _BENDS[bend.kind]
    if tone.vibrato:
        yield "vibrato"
