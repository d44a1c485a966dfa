"""Notes that go another way than the words say, or in another order.

``[the line] descends`` is held against the pitches from the first to the last; ``climbs`` and ``walks up``
want one step that way at least. ``from [G] to [C]`` wants the second link after the first, ``[from G to C]``
the one note first and the other last, or lowest and highest. ``[A] is the lowest note`` is held against the
bars of the link.

Why it matters: up and down are the first thing an ear hears, and the last thing a fast reader checks.

What to do: turn the word round, or the address.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Heard, Pointed, pitch_classes
from lickwright.checks.claims.saying import say_notes, say_place, say_sound
from lickwright.checks.claims.term import Way
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.theory.pitch import PitchClass


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Follow the pitches, or the places, in the order of the words."""
    said = claim.terms[0].value
    if isinstance(said, PitchClass):
        return _from_to(claim, notes)
    if claim.terms[0].kind == "extreme" and isinstance(said, Way):
        return _extreme(claim, notes, said)
    other = notes.others[0] if notes.others else None
    if not isinstance(said, Way):
        return HELD if other is None else _order(notes, other)
    lines = [_pitches(voice) for voice in notes.voices]
    if other is not None:
        lines = [[*lines[0][-1:], *_pitches(other.voices[0])[:1]]]
    if all(len(line) < 2 for line in lines):
        return HELD if _way(_around(notes), said) else Unresolved("one note has no direction")
    verdicts = [_way(line, said) for line in lines if len(line) > 1]
    if True in verdicts:
        return HELD
    if None in verdicts:
        return Unresolved("it goes both ways")
    real = say_notes(notes) if other is None else f"{say_notes(notes)}, {say_notes(other)}"
    turned = "up" if said.to == "down" else "down"
    return Differs(
        f"the words say “{claim.terms[0].text}”, and {say_place(notes)} goes {turned}: {real}",
        claim.terms[0],
        help=f"Write a word for {turned}, or link the notes that go {said.to}",
    )


def _extreme(claim: Claim, notes: Pointed, said: Way) -> Verdict:
    """``the lowest note``: of the link, of its bars or of the whole lick, in its voice or in all of them."""
    turn = 1 if said.to == "up" else -1
    here = [turn * pitch for _, tone in notes.tones for pitch in tone.path]
    if not here:
        return Unresolved("the notes have no pitch")
    bars = {bar.number for bar in notes.bars}
    whole = replace(notes, at=None)
    lower = notes.heard[0].sound.address.lower
    every = [(h, turn * pitch) for h, tone in whole.tones for pitch in tone.path]
    near = [pitch for h, pitch in every if h.bar.number in bars]
    voice = [pitch for h, pitch in every if h.bar.number in bars and h.sound.address.lower == lower]
    if any(max(here) >= max(some) for some in (near, voice) if some) and len(set(near)) > 1:
        return HELD
    named = "bar" in claim.link.passage.text.casefold()
    at = max((e for e in every if not named or e[0].bar.number in bars), key=lambda each: each[1])[0]
    real = say_sound(notes, at)
    return Differs(
        f"the words say “{claim.terms[0].text}”, and that is {real}, at {at.sound.address}",
        claim.terms[0],
        help=f"Link {at.sound.address}, or mend the word",
    )


def _pitches(voice: Sequence[Heard]) -> list[Fraction]:
    """The highest string of each sound, bends from pitch to pitch."""
    tops = (max(heard.tones, key=lambda tone: tone.path[-1]) for heard in voice if heard.tones)
    return [pitch for tone in tops for pitch in tone.path]


def _around(notes: Pointed) -> list[Fraction]:
    """The pitches of a sound, of the one before it and of the one after it in its voice."""
    whole = next(v for v in replace(notes, at=None).voices if notes.heard[0] in v)
    place = whole.index(notes.heard[0])
    return _pitches(whole[max(place - 1, 0) : place + 2])


def _way(line: Sequence[Fraction], said: Way) -> bool | None:
    """Whether a line goes the way that is said; None where it can be heard either way."""
    sign = 1 if said.to == "up" else -1
    steps = [sign * (b - a) for a, b in pairwise(line)]
    with_it, against = sum(s > 0 for s in steps), sum(s < 0 for s in steps)
    if not said.strict:
        return with_it > 0
    net = sum(steps)
    if net > 0 and with_it >= against:
        return True
    return False if net < 0 and against >= with_it else None


def _order(notes: Pointed, other: Pointed) -> Verdict:
    if notes.subject is not other.subject or notes.at is None or other.at is None:
        return HELD
    begin, end = notes.at.first, other.at.first
    if (begin.bar, begin.sound or 0) <= (end.bar, end.sound or 0):
        return HELD
    return Differs(
        f"the words go from {say_place(notes)} to {say_place(other)}, which comes before it",
        help="Turn the two round, or mend the addresses",
    )


def _from_to(claim: Claim, notes: Pointed) -> Verdict:
    first, last = claim.terms[0].value, claim.terms[-1].value
    assert isinstance(first, PitchClass)  # the kind of claim says so
    assert isinstance(last, PitchClass)
    for voice in notes.voices:
        if first.semitone in _of(voice[0]) and last.semitone in _of(voice[-1]):
            return HELD
        pitches = sorted(p for heard in voice for tone in heard.tones for p in tone.path)
        whole = notes.at is None or notes.at.whole_bars
        outer = {int(pitches[0]) % 12, int(pitches[-1]) % 12} if pitches and whole else set()
        if {first.semitone, last.semitone} <= outer:
            return HELD
    voice = notes.voices[0]
    ends = f"begins on {say_sound(notes, voice[0])} and ends on {say_sound(notes, voice[-1])}"
    return Differs(
        f"the words say “{claim.words}”, and {say_place(notes)} {ends}",
        help="Write the notes it begins and ends on, or link the sounds that are meant",
    )


def _of(heard: Heard) -> frozenset[int]:
    grace = [tone for note in heard.sound.grace for tone in note.tones]
    return heard.pitch_classes.union(*(pitch_classes(tone) for tone in grace))


_LICK = "```lick example\nA7 | 5:0 5:2 5:3 5:4 4:2 - 3:2 -\n```\n\n"

RULE = Rule(
    id="prose/direction",
    title="Notes that go another way than the words say, or in another order",
    severity=Severity.QUERY,
    source=Source("common practice", "Up is higher, down is lower; from and to in the order of playing"),
    good=(
        Example(f"{_LICK}[The line](lick:example@1.1-1.4) ascends."),
        Example(f"{_LICK}It goes from [A](lick:example@1.1) to [E](lick:example@1.5)."),
    ),
    bad=(
        Example(f"{_LICK}[The line](lick:example@1.1-1.4) descends.", ("descends",)),
        Example(f"{_LICK}It goes from [E](lick:example@1.5) to [A](lick:example@1.1).", ("from",)),
    ),
    survey=tell("direction", Severity.QUERY),
)
