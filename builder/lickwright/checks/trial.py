"""Another fret in the place of a note, and the rules run again: what becomes of the findings.

Nothing is guessed: a change is judged by the same rules that found the fault.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from lickwright.checks.catalogue import rules
from lickwright.checks.subject import Subject
from lickwright.findings import Finding
from lickwright.model.address import Address
from lickwright.model.music import Line, MusicBar, Piece, Sound, Tone

Places = frozenset[tuple[str, str]]
"""What is found where: rule and address."""


def run_rules(subject: Subject) -> list[Finding]:
    """Return what every rule finds in one piece."""
    found: list[Finding] = []
    for rule in rules().values():
        if rule.run is not None:
            found += rule.run(subject)
    return found


def put_tone(piece: Piece, address: Address, index: int, tone: Tone) -> Piece:
    """Return the piece with another tone in the place of one; nothing else is moved."""
    music = piece.music
    bars = tuple(
        _in_bar(bar, address, index, tone) if bar.number == address.bar else bar for bar in music.bars
    )
    return replace(piece, music=replace(music, bars=bars))


def _in_bar(bar: MusicBar, address: Address, index: int, tone: Tone) -> MusicBar:
    if address.lower:
        return bar if bar.lower is None else replace(bar, lower=_in_line(bar.lower, address, index, tone))
    return replace(bar, upper=_in_line(bar.upper, address, index, tone))


def _in_line(line: Line, address: Address, index: int, tone: Tone) -> Line:
    sounds = tuple(_in_sound(s, index, tone) if s.address == address else s for s in line.sounds)
    return replace(line, sounds=sounds)


def _in_sound(sound: Sound, index: int, tone: Tone) -> Sound:
    return replace(sound, tones=(*sound.tones[:index], tone, *sound.tones[index + 1 :]))


def try_tone(
    piece: Piece, limits: Mapping[str, float], address: Address, index: int, tone: Tone
) -> tuple[Subject, Places]:
    """Return the piece as it would be with another tone, and what the rules then find."""
    subject = Subject(put_tone(piece, address, index, tone), limits)
    return subject, list_places(run_rules(subject))


def list_places(findings: list[Finding]) -> Places:
    """Return rule and address of each finding."""
    return frozenset((finding.rule, finding.address) for finding in findings)
