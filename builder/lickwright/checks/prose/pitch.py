"""A note that the words name and the link does not play.

Names that a link's words give are looked for in its notes, in the order in which they are said; octaves
do not matter, grace notes and both ends of a bend count. ``E and A`` of a double stop may come in
either order.

Why it matters: the student hears one note and reads another, and believes the page.

What to do: find out which of the three is right, the words, the notes or the address.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from lickwright.checks.claims.certainty import weigh_name
from lickwright.checks.claims.claim import HELD, Claim, Differs, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.matching import Test, find_missing
from lickwright.checks.claims.pointed import Heard, Pointed
from lickwright.checks.claims.saying import say_notes, say_place, say_sound
from lickwright.checks.claims.term import StringName
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.model.address import AddressRange
from lickwright.theory.pitch import PitchClass

_FROM = re.compile(r"\bfrom\b")
_TO = re.compile(r"\b(?:to|into)\b")
_IN_ORDER = re.compile(r"[,;–—]|\b(?:to|into|then|from|down|up|back)\b")


def names_of(claim: Claim) -> tuple[PitchClass, ...]:
    """Return the notes that a claim names, an open string by its note."""
    values = (t.value.note if isinstance(t.value, StringName) else t.value for t in claim.terms)
    return tuple(value for value in values if isinstance(value, PitchClass))


def _is(name: PitchClass) -> Test:
    return lambda _, pitch: pitch == name.semitone


def _in_order(claim: Claim) -> Claim:
    """``E, bent from D`` says last what comes first."""
    text = claim.link.passage.text
    origin = _FROM.search(text, claim.terms[0].end, claim.terms[-1].start)
    if origin is None or _TO.search(text, origin.end(), claim.terms[-1].start):
        return claim
    later = tuple(term for term in claim.terms if term.end <= origin.start())
    return replace(claim, terms=(*claim.terms[len(later) :], *later))


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Look for the names among the notes, in order."""
    claim = _in_order(claim)
    names = names_of(claim)
    voice = notes.voices[0]
    odd: list[int] = []
    if len(notes.voices) == 1 and len(voice) == len(names) > 1:
        odd = [i for i, name in enumerate(names) if name.semitone not in voice[i].pitch_classes]
    listed = len(odd) > 0 and len(names) > 2 and _IN_ORDER.search(claim.words) is not None
    if not listed and find_missing(notes, [_is(name) for name in names]) is None:
        return HELD
    sounding = frozenset().union(*(heard.pitch_classes for heard in notes.heard))
    graced = {p % 12 for h in notes.heard for g in h.sound.grace for t in g.tones for p in t.path}
    strangers = [i for i, name in enumerate(names) if name.semitone not in sounding | graced]
    pair = len({name.semitone for name in names}) == len(names) == 2
    if not strangers and pair and not _IN_ORDER.search(claim.words):
        return HELD
    if odd and (strangers or len(odd) == 1):
        first = next((i for i in odd if i in strangers), odd[0])
        address = voice[first].sound.address
        real = say_sound(notes, voice[first])
        message = f"the words say {names[first].spoken}, and {address} is {real}"
        severity = weigh_name(claim, notes, names[first]) if strangers else Severity.QUERY
        help_ = _elsewhere(notes, names, real) or _advice(notes, names[first], real)
        return Differs(message, claim.terms[first], help_, severity, address)
    said = ", ".join(name.spoken for name in names)
    message = f"the words say {said}, and {say_place(notes)} is {say_notes(notes)}"
    if not strangers:
        there = _elsewhere(notes, names, say_notes(notes))
        order = there or f"The order differs: write {say_notes(notes)}, or mend the address"
        return Differs(message, help=order, severity=Severity.QUERY)
    one = len(strangers) < len(names) or len(names) == 1
    stranger = names[strangers[0]]
    help_ = _elsewhere(notes, names, say_notes(notes)) or _advice(notes, stranger, say_notes(notes))
    return Differs(
        message, claim.terms[strangers[0]] if one else None, help_, weigh_name(claim, notes, stranger)
    )


def _advice(notes: Pointed, said: PitchClass, real: str) -> str:
    """What the notes are, and where the note is that was named, if it is near."""
    bars = {bar.number for bar in notes.bars}
    near = (h for h in replace(notes, at=None).heard if h.bar.number in bars)
    other = next((h.sound.address for h in near if said.semitone in h.pitch_classes), None)
    link = f"link {other}, which is {said.spoken}, or " if other is not None else ""
    return f"Write {real}, {link}mend the notes" if link else f"Write {real}, or mend the notes"


def _elsewhere(notes: Pointed, names: tuple[PitchClass, ...], real: str) -> str:
    """Where other sounds in a row are what is listed, in the bar where a link begins or beside it."""
    if len({name.semitone for name in names}) < 2 or not notes.heard:
        return ""
    first = notes.heard[0]
    found: list[tuple[bool, Fraction, AddressRange]] = []
    for voice in replace(notes, at=None).voices:
        for start in range(len(voice) - len(names) + 1):
            row = voice[start : start + len(names)]
            beside = all(abs(h.index - first.index) <= 1 for h in (row[0], row[-1]))
            if beside and all(n.semitone in h.pitch_classes for n, h in zip(names, row, strict=True)):
                at = AddressRange(row[0].sound.address, row[-1].sound.address)
                shifted = at.first.sound != first.sound.address.sound  # not by whole bars, the likelier slip
                found.append((shifted, abs(_onset(notes, row[0]) - _onset(notes, first)), at))
    if not found:
        return ""
    said = ", ".join(name.spoken for name in names)
    nearest = min(found, key=lambda each: each[:2])[2]
    return f"Link {nearest}, which is {said}; or else write {real}, or mend the notes"


def _onset(notes: Pointed, heard: Heard) -> Fraction:
    """When a sound begins, in quarters from the start as written."""
    bars = notes.subject.piece.music.bars[: heard.index]
    return sum((bar.length for bar in bars), Fraction(0)) + heard.sound.onset


RULE = Rule(
    id="prose/pitch",
    title="A note that the words name and the link does not play",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 5, Prose that points at notes: pitch names"),
    good=(
        Example(
            "```lick example\nA7 | 5:0 5:2 5:3 5:4 4:2 - 3:2 -\n```\n\n"
            "It walks up, [A, B, C, C sharp](lick:example@1.1-1.4), and lands on [E](lick:example@1.5)."
        ),
        Example(
            "```lick example\nA | 3:2+2:2 - - - 3:7b9 - 2:5 -\n```\n\n"
            "[C sharp and A](lick:example@1.1), then [D, bent to E](lick:example@1.2)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 5:0 5:2 5:3 5:4 4:2 - 3:2 -\n```\n\n"
            "It walks up, [A, B, C sharp, C sharp](lick:example@1.1-1.4).",
            ("C sharp",),
        ),
        Example(
            "```lick example\nA7 | 5:0 5:2 5:3 5:4 4:2 - 3:2 -\n```\n\nIt lands on [E♭](lick:example@1.5).",
            ("E♭",),
        ),
    ),
    survey=tell("pitch", Severity.ERROR),
)
