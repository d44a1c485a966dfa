"""A note that nothing explains: neither in the chord nor led to it.

Every note is heard against its chord: chord tones, colours and scale tones need no comment, nor do
passing and neighbour notes, approaches, enclosures, suspensions, anticipations, drones, patterns that are
moved, and in country, blues and bluegrass the blue notes. What is left is reported. It is an error only
where it is foreign to the key, held, on a strong beat and not slurred to an explained note; else a query.
A chromatic note that half steps do not lead is a query, too. Bars that the lick
claims to be ``outside`` are left alone; where three notes or more stand close together outside the key and
two of them lead nowhere, one finding asks whether the passage is meant to be outside.

Why it matters: one fret's slip survives every reading by eye; a student practises it into the hand.

What to do: look at the fret; of a passage that is meant to be outside, a side-slip, write
``claims: outside (bar 2)``; when the sound is meant, let the finding stand with a ``stet`` and its reason.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import NamedTuple

from lickwright.analysis.role import Role, RoleOf
from lickwright.checks.lines import lies_below
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.wording import count_word, held_for
from lickwright.findings import Label
from lickwright.model.address import Address
from lickwright.model.music import Music, MusicBar, Sound, Tone

FEWEST = 3
"""Notes outside the key, close together, that are asked about as one passage (own threshold)."""
NEAR = 2
"""Sounds from one of them to the next (own threshold)."""
MEANT = frozenset({Role.TENSION, Role.PATTERN})
"""Roles of notes outside the key that are no side-slip gone wrong; nor are blue notes in a blues."""
NEIGHBOURS = {
    False: "a neighbour note above, outside the key: one of the key was expected, or one below",
    True: "a neighbour note a whole step below, outside the key: the half step below was expected",
}
"""By whether it lies below; out of the key it leads by a half step, from below (common practice)."""


class Left(NamedTuple):
    """A note to report."""

    role: RoleOf
    tone: Tone
    severity: Severity


def run(subject: Subject) -> Iterator[Finding]:
    """Report what is left when every figure has been tried."""
    left: dict[RoleOf, Left] = {}
    explained = {(r.address, r.tone): r.role.explained for r in subject.roles}
    for role in subject.roles:
        if role.address.bar in subject.outside or (role.role.explained and not role.disconnected):
            continue
        sound = subject.by_address[role.address]
        tone = sound.tones[role.tone]
        if tone.tied:
            continue
        severe = not role.role.explained and _severe(subject.piece.music, role, tone, explained)
        left[role] = Left(role, tone, Severity.ERROR if severe else Severity.QUERY)
    if not left:
        return
    for passage in _passages(subject, left):
        lost = [left[role] for role in passage if role in left]
        if len(passage) >= FEWEST and len(lost) > 1:
            yield _outside(subject, passage, lost)
        else:
            yield from (_finding(subject, *each) for each in lost)


def _passages(subject: Subject, left: Mapping[RoleOf, Left]) -> list[list[RoleOf]]:
    """Part the notes outside the key into some that stand close together, each with what is left of it.

    A note of the key stands alone.
    """
    meant = MEANT | {Role.BLUE} if subject.piece.style == "blues" else MEANT
    places = {address: place for place, address in enumerate(sorted(subject.by_address, key=_voice_first))}
    passages: list[list[RoleOf]] = []
    for role in subject.roles:
        if role not in left and not (role.chromatic and role.role not in meant):
            continue
        last = passages[-1][-1] if passages else None
        if (
            last is not None
            and last.chromatic
            and role.chromatic
            and last.address.lower == role.address.lower
            and places[role.address] - places[last.address] <= NEAR
        ):
            passages[-1].append(role)
        else:
            passages.append([role])
    return passages


def _voice_first(address: Address) -> tuple[bool, Address]:
    return address.lower, address


def _outside(subject: Subject, passage: list[RoleOf], lost: list[Left]) -> Finding:
    """One finding for all notes of a passage, at the bar that has most of those left."""
    first, last = passage[0].address, passage[-1].address
    bars = [each.role.address.bar for each in lost]
    number = max(bars, key=bars.count)
    here = [each for each in lost if each.role.address.bar == number]
    named = f"bar {first.bar}" if first.bar == last.bar else f"bars {first.bar}-{last.bar}"
    which = "all" if len(lost) == len(passage) else f"{count_word(len(lost))} of them"
    chords = list(dict.fromkeys(role.chord.display for role in passage))
    return subject.report(
        RULE,
        f"{count_word(len(passage))} notes from {first} to {last} lie outside the key over"
        f" {' and '.join(chords)}, {which} neither in the chord nor led to it",
        here[0].tone.span.to(here[-1].tone.span),
        here[0].role.address,
        severity=Severity.ERROR if Severity.ERROR in {each.severity for each in lost} else Severity.QUERY,
        help=f"If the passage is meant to be played outside, write claims: outside ({named}); else mend it",
    )


def _severe(music: Music, role: RoleOf, tone: Tone, explained: dict[tuple[Address, int], bool]) -> bool:
    """Chromatic, and held on a strong beat or long on any; not slurred to an explained note."""
    bar = music.bar(role.address.bar)
    if bar is None or not role.chromatic:
        return False
    beat = bar.meter.beat
    held = (role.weight >= 3 and role.length >= beat) or (role.weight >= 2 and role.length >= 2 * beat)
    return held and not _slurred(bar, role, tone, explained)


def _slurred(bar: MusicBar, role: RoleOf, tone: Tone, explained: dict[tuple[Address, int], bool]) -> bool:
    line = bar.lower if role.address.lower else bar.upper
    sounds: tuple[Sound, ...] = line.sounds if line is not None else ()
    number = role.address.sound or 0
    near: list[Sound] = []
    if tone.link is not None and number >= 2:
        near.append(sounds[number - 2])
    if number < len(sounds) and any(t.link and t.string == tone.string for t in sounds[number].tones):
        near.append(sounds[number])
    return any(
        explained.get((sound.address, index), False)
        for sound in near
        for index, other in enumerate(sound.tones)
        if other.string == tone.string
    )


def _finding(subject: Subject, role: RoleOf, tone: Tone, severity: Severity) -> Finding:
    bar = subject.piece.music.bar(role.address.bar)
    name = subject.name_of(role)
    held = held_for(role.length, bar.meter.beat if bar else Fraction(1))
    bend = "reached by a bend, " if len(tone.path) > 1 and role.pitch != tone.path[0] else ""
    word = role.role.value
    article = "an" if word[0] in "aeiou" else "a"
    if role.role is Role.UNEXPLAINED:
        why = "neither in the chord nor led to it"
    elif role.role is Role.NEIGHBOUR:
        why = NEIGHBOURS[lies_below(subject, role)]
    else:
        why = f"{article} {word} outside the key that goes neither up a half step nor down a run of them"
    return subject.report(
        RULE,
        f"{name}, {bend}{held}, over {role.chord.display}: {why}",
        tone.span,
        role.address,
        severity=severity,
        help="Mend it, or let it stand with a stet and the reason why it is meant",
        labels=_chord_label(bar, subject, role),
    )


def _chord_label(bar: MusicBar | None, subject: Subject, role: RoleOf) -> tuple[Label, ...]:
    if bar is None:
        return ()
    onset = subject.by_address[role.address].onset
    chord = next((c for c in reversed(bar.chords) if c.onset <= onset), None)
    if chord is None or not chord.span.source.path:
        return ()
    return (Label(chord.span, "the chord in force"),)


RULE = Rule(
    id="harmony/unexplained",
    title="A note that neither chord nor line explains",
    severity=Severity.ERROR,
    source=Source(
        "common practice",
        "Embellishing tones of harmony teaching, approach notes and enclosures of jazz teaching; which of"
        " them are reported is our own, set on a printed collection of fiddle tunes so that none of its"
        " notes is an error",
    ),
    good=(
        Example("A7 | 5:0 5:3 h 5:4 4:2 4:4 3:2 4:4 4:2"),
        Example("key: D major\n\nA7 | 3:2 - 2:2 - 1:3 - - -\nD  | 1:3 - 1:2 - - - - -"),
        Example("A7 | 3:7b9 - 2:5 1:5 2:5 3:6 4:7 -"),
    ),
    bad=(
        Example(
            "key: C major\n\nC | 3:5 2:5 2:8 2:5 3:6 2:7 2:9 2:6\nC | 3:5 - - - 2:5 - - -",
            marks=("3:6 2:7 2:9",),
        ),
        Example("key: D major\n\nD | 4:0 - 3:2 - 2:3 - 3:2 -\n  | 4:3 - - - - - - -", marks=("4:3",)),
        Example("A | 2:3 - - - 3:2 - - -", marks=("2:3",)),
        Example("A | 5:0 - 5:4 - 4:2 - 3:3 -\n  | 2:2 - - - 3:2 - - -", marks=("3:3",)),
    ),
    run=run,
    one_note=True,
)
