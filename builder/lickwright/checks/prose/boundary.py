"""A beginning or an end that the words name, and something else stands there.

``it begins on [A]`` is held against the first sound of the lick, or of the bar that is named; ``[starting on
C]`` against the first sound of the link, ``over D7 it begins on [C]`` against the first sound over
that chord, each time it comes. A pickup may be counted in or not, each ending has an end.

Why it matters: a lick is remembered by how it begins, and joined to the next by how it ends.

What to do: find out which is right, the words, the address or the notes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace

from lickwright.checks.claims.claim import HELD, Claim, ClaimKind, Differs, Unresolved, Verdict
from lickwright.checks.claims.harmony import fits_harmony
from lickwright.checks.claims.ledger import Judge, tell
from lickwright.checks.claims.pointed import Heard, Pointed
from lickwright.checks.claims.saying import say_place, say_sound
from lickwright.checks.claims.term import ChordName, Degree, Numbers, Term, TermKind
from lickwright.checks.prose import chord, degree, finger, fret, numeral, pitch, string, stroke, technique
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.model.address import Address, AddressRange
from lickwright.model.music import MusicBar
from lickwright.theory.chord import Chord
from lickwright.theory.pitch import PitchClass
from lickwright.theory.quality import QUALITIES

_JUDGES: Mapping[TermKind, tuple[ClaimKind, Judge]] = {
    "note": ("pitch", pitch.judge),
    "string": ("string", string.judge),
    "fret": ("fret", fret.judge),
    "degree": ("degree", degree.judge),
    "finger": ("finger", finger.judge),
    "stroke": ("stroke", stroke.judge),
    "technique": ("technique", technique.judge),
    "chord": ("chord", chord.judge),
    "tonality": ("chord", chord.judge),
    "numeral": ("numeral", numeral.judge),
}
TARGETS = frozenset(_JUDGES)
"""What may be said to stand first or last."""
_WHOLE = r"lick|phrase|tune|song|solo|piece|study|melody|solo|riff|exercise|it|this|one"
_PART = r"half|roll|part|ending|answer|section|chorus|triplet|climb|beat|line|run|walk|pair|voice|each|every"
_SUBJECT = re.compile(rf"(?i)\b(?:({_WHOLE})|({_PART})s?)\b")
_CLAUSE = re.compile(r"[;:.!?()—–]")


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Compare what is said to stand at an end with the sound that does."""
    which = str(claim.terms[0].value)
    targets = claim.terms[1:]
    if targets:
        verdicts = [_at(claim, replace(notes, at=AddressRange(a, a))) for a in _ends(notes, which)]
        return next((v for v in verdicts if v == HELD), verdicts[0]) if verdicts else HELD
    about = claim.about.value if claim.about is not None else None
    bars = notes.subject.piece.music.bars
    if isinstance(about, Numbers):
        return _place(claim, notes, which, tuple(bar for bar in bars if bar.number == about.first))
    if claim.about is not None and not isinstance(about, Numbers):
        return _over(claim, notes, which)
    if _subject(claim) == "whole":
        return _place(claim, notes, which, bars)
    inside = any(_reached(notes, which, (bar,)) for bar in bars)
    return HELD if inside else Unresolved("it is not clear what begins or ends there")


def _subject(claim: Claim) -> str:
    """What is said to begin or end: the ``whole`` lick, or a ``part``, which no address tells."""
    if claim.inside:
        after = claim.link.passage.text[claim.terms[0].end :]
        return "whole" if re.match(r" of (?:the|this) (?:lick|phrase)\b", after) else "part"
    before = _CLAUSE.split(claim.link.passage.text[: claim.terms[0].start])[-1]
    found = list(_SUBJECT.finditer(before))
    return "whole" if found and found[-1][1] else "part"


def _ends(notes: Pointed, which: str) -> list[Address]:
    """The sounds at one end of the link, in each voice; with a pickup, those of bar 1 too."""
    voices = list(notes.voices)
    if notes.at is None and which == "first":
        voices += [tuple(h for h in voice if h.bar.number > 0) for voice in notes.voices]
    place = 0 if which == "first" else -1
    return list(dict.fromkeys(voice[place].sound.address for voice in voices if voice))


def _at(claim: Claim, end: Pointed) -> Verdict:
    """Hold what is said against the sound at the end."""
    for said in claim.terms[1:]:
        term = _as_chord(said) if claim.terms[0].text.casefold().endswith("over") else said
        if _leaves_out(term, end):
            continue
        kind, judges = _JUDGES[term.kind]
        verdict = judges(replace(claim, kind=kind, terms=(term,), about=None), end)
        if isinstance(verdict, Differs):
            place = verdict.address or end.address
            edge = f"{place} is the {claim.terms[0].value} sound"
            return replace(verdict, help=f"{verdict.help}; {edge}".removeprefix("; "), address=place)
        if verdict != HELD:
            return verdict
    return HELD


def _as_chord(term: Term) -> Term:
    """``begins over D``: the letter is a chord."""
    if not isinstance(term.value, PitchClass):
        return term
    return replace(term, kind="chord", value=ChordName(Chord(term.value, QUALITIES["major"]), plain=True))


def _leaves_out(term: Term, end: Pointed) -> bool:
    """``on the third`` may leave out a finger or a string, and be true of it."""
    degree = term.value
    if not isinstance(degree, Degree) or degree.alter is not None:
        return False
    return any(degree.number == tone.string or tone.finger == str(degree.number) for _, tone in end.tones)


def _over(claim: Claim, notes: Pointed, which: str) -> Verdict:
    """``over D7 it begins on [C]``: the first sound over the chord, or the last, each time it comes."""
    named = claim.about
    assert named is not None  # asked before
    edges: list[Address] = []
    for voice in replace(notes, at=None).voices:
        over = [_is_over(named, heard) for heard in voice]
        for place, heard in enumerate(voice):
            beside = place - 1 if which == "first" else place + 1
            outer = not 0 <= beside < len(voice) or not over[beside]
            if over[place] and (outer or voice[beside].bar is not heard.bar):
                edges.append(heard.sound.address)
    here = [voice[0 if which == "first" else -1].sound.address for voice in notes.voices]
    if not edges:
        return Unresolved(f"nothing is played over {named.text} there")
    if any(address in edges for address in here):
        return HELD
    there = replace(notes, at=AddressRange(edges[0], edges[0]))
    return Differs(
        f"the words say “{claim.terms[0].text}”, and {say_place(notes)} is not the {which} over {named.text}:"
        f" that is {edges[0]}, {say_sound(there, there.heard[0])}",
        claim.terms[0],
        help=f"Name and link {edges[0]}, or mend the chord that is named",
    )


def _is_over(named: Term, heard: Heard) -> bool:
    symbol = heard.bar.chord_at(heard.sound.onset)
    return isinstance(symbol, Chord) and fits_harmony(named, (symbol,))


def _place(claim: Claim, notes: Pointed, which: str, bars: tuple[MusicBar, ...]) -> Verdict:
    """Whether the link leads to the end that is meant."""
    if not bars or _reached(notes, which, bars):
        return HELD
    first = next(_edges(which, bars), None)
    if first is None:
        return HELD
    there = replace(notes, at=AddressRange(first, first))
    named = f"{first}, {say_sound(there, there.heard[0])}" if there.heard else str(first)
    return Differs(
        f"the words say “{claim.terms[0].text}”, and {say_place(notes)} is not the {which}: that is {named}",
        claim.terms[0],
        help=f"Name and link {first}, or say which part it is that begins or ends there",
    )


def _reached(notes: Pointed, which: str, bars: tuple[MusicBar, ...]) -> bool:
    heard: list[Heard] = [voice[0 if which == "first" else -1] for voice in notes.voices]
    return any(h.sound.address == edge for edge in _edges(which, bars) for h in heard)


def _edges(which: str, bars: tuple[MusicBar, ...]) -> Iterator[Address]:
    """The sounds that may be meant by the first or the last: with and without the pickup, of each ending."""
    ends = (0, 1) if which == "first" and bars[0].number == 0 else (0,)
    lasts = [i for i, bar in enumerate(bars) if bar.closes or i + 1 == len(bars)]
    for index in ends if which == "first" else reversed(lasts):
        for lower in (False, True):
            near = bars[index:] if which == "first" else bars[index::-1]
            sounds = (
                sound
                for bar in near
                for line in bar.lines
                for sound in (line.sounds if which == "first" else reversed(line.sounds))
                if sound.address.lower == lower
            )
            if (sound := next(sounds, None)) is not None:
                yield sound.address


_LICK = "```lick example\nA7 | 5:0 5:2 5:3 5:4 4:2 - 3:2 -\n```\n\n"

RULE = Rule(
    id="prose/boundary",
    title="A beginning or an end that the words name, and something else stands there",
    severity=Severity.ERROR,
    source=Source("common practice", "The first sound as written, with the pickup or without; the last"),
    good=(
        Example(f"{_LICK}The lick begins on [A](lick:example@1.1) and ends on [A](lick:example@1.6)."),
        Example(f"{_LICK}[A walk starting on B](lick:example@1.2-1.4)."),
    ),
    bad=(
        Example(f"{_LICK}The lick begins on [B](lick:example@1.2).", ("begins on",)),
        Example(f"{_LICK}[A walk starting on C](lick:example@1.2-1.4).", ("C",)),
    ),
    survey=tell("boundary", Severity.ERROR),
)
