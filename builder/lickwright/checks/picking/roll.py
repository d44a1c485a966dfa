"""A claimed roll that does not roll.

A forward roll is three picked notes in a row on three different strings, from the lower to the higher, by
the thumb (or the pick) and the fingers in turn; a backward roll is the same the other way. A claim for
some bars asks for one in each of them that has three picked notes, a claim for the whole lick for one
anywhere in it.

Why it matters: the name tells the hand which finger comes next.

What to do: mend the strings or the fingers, or take the claim back.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lickwright.checks.onsets import picked
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.instrument.hand import PLUCKING
from lickwright.model.fields import Claim
from lickwright.model.music import MusicBar, Sound

LENGTH = 3
"""Notes of a roll."""
Group = tuple[Sound, ...]


@dataclass(frozen=True, slots=True)
class _Bar:
    bar: MusicBar
    groups: tuple[Group, ...]


def run(subject: Subject) -> Iterator[Finding]:
    """Look for the rolls that are claimed."""
    if subject.piece.kind == "chorus":
        return
    for claim in subject.piece.claims:
        if claim.kind in ("forward roll", "backward roll"):
            yield from _check(subject, claim)


def _check(subject: Subject, claim: Claim) -> Iterator[Finding]:
    forward = claim.kind == "forward roll"
    bars = [_Bar(bar, _groups(bar)) for bar in subject.piece.music.bars if _is_in(bar, claim)]
    stretches = [[bar] for bar in bars if bar.groups] if claim.bars is not None else [bars]
    for stretch in stretches:
        groups = [group for each in stretch for group in each.groups]
        rolls = [group for group in groups if _rolls(group, forward=forward)]
        if any(_fingers_roll(group, forward=forward) for group in rolls):
            continue
        where = f"bar {stretch[0].bar.number}" if claim.bars is not None else "the lick"
        way = "rise" if forward else "fall"
        if rolls:
            hands = " ".join(sound.tones[0].hand or "*" for sound in rolls[0])
            yield subject.report(
                RULE,
                f"{where} is claimed to be a {claim.kind}: its strings {way}, its fingers, {hands}, do not go"
                f" from the {'thumb outwards' if forward else 'last finger back to the thumb'}",
                rolls[0][0].span.to(rolls[0][-1].span),
                rolls[0][0].address,
            )
        else:
            yield subject.report(
                RULE,
                f"{where} is claimed to be a {claim.kind}: no three picked notes in a row {way} over three"
                " strings",
                claim.span,
                help=f"Strike three strings in a row, from the {'lowest up' if forward else 'highest down'}",
            )


def _is_in(bar: MusicBar, claim: Claim) -> bool:
    return claim.bars is None or claim.bars.first.bar <= bar.number <= claim.bars.last.bar


def _groups(bar: MusicBar) -> tuple[Group, ...]:
    """Every three picked sounds in a row."""
    sounds = [sound for line in bar.lines for sound in line.sounds if picked(sound)]
    if bar.lower is not None:
        sounds.sort(key=lambda sound: (sound.onset, sound.address.lower))
    return tuple(tuple(sounds[n : n + LENGTH]) for n in range(len(sounds) - LENGTH + 1))


def _rolls(group: Group, *, forward: bool) -> bool:
    if any(len(sound.tones) > 1 for sound in group):
        return False
    return _is_rising([-sound.tones[0].string for sound in group], forward=forward)


def _fingers_roll(group: Group, *, forward: bool) -> bool:
    """Whether the fingers go in order too; what is not said, and a pick alone, may be anything."""
    hands = [sound.tones[0].hand for sound in group]
    if any(hand is None or hand not in PLUCKING for hand in hands) or set(hands) == {"P"}:
        return True
    return _is_rising([PLUCKING[hand or "p"] for hand in hands], forward=forward)


def _is_rising(numbers: Sequence[int], *, forward: bool) -> bool:
    return all(a < b if forward else a > b for a, b in pairwise(numbers))


RULE = Rule(
    id="picking/roll",
    title="A claimed roll that does not roll",
    severity=Severity.ERROR,
    source=Source("common practice", "Banjo rolls as taken over by the guitar: forward and backward"),
    good=(
        Example("claims: forward roll\n\nA | 4:2 3:2 2:2 4:2 3:2 2:2 4:2 2:2\n  rh | p i m p i m p m"),
        Example(
            "claims: backward roll (bar 1)\n\nA | 1:0 2:2 3:2 1:0 2:2 3:2 1:0 3:2\n  | 5:0 - - - - - - -"
        ),
    ),
    bad=(
        Example("claims: forward roll\n\nA | 1:0 2:2 3:2 1:0 2:2 3:2 1:0 2:2", marks=("forward roll",)),
        Example(
            "claims: forward roll\n\nA | 4:2 3:2 2:2 4:2 - 5:0 - -\n  rh | m p i m p", marks=("4:2 3:2 2:2",)
        ),
    ),
    run=run,
)
