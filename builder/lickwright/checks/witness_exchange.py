"""Two notes side by side of which a row of the second witness says each what the other is."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import pairwise

from lickwright.checks.rule import Finding, Rule
from lickwright.checks.subject import Subject, Written
from lickwright.checks.witness_slips import Row, say_class
from lickwright.checks.witnesses import top_pitch
from lickwright.checks.wording import note_text
from lickwright.findings import Edit, Fix, Label

ENTRIES: Mapping[Row, Callable[[Written], str | None]] = {
    "names": lambda written: written.tone.name,
    "degrees": lambda written: written.tone.degree,
}
"""What a row says of a tone."""


def find_exchanged(subject: Subject, row: Row) -> tuple[tuple[Written, Written], ...]:
    """Return the pairs that have each other's entries, where the row has not slipped as a whole.

    Of three in a row the first two are a pair.
    """
    slips = subject.slips(row)
    pairs: list[tuple[Written, Written]] = []
    for one, two in pairwise(w for w in subject.tones if w.voice not in slips):
        if not (pairs and pairs[-1][1] is one) and _exchanged(subject, row, one, two):
            pairs.append((one, two))
    return tuple(pairs)


def _exchanged(subject: Subject, row: Row, one: Written, two: Written) -> bool:
    """Whether both are the only note of their sound, and each is what the row says of the other."""
    if any(len(w.sound.tones) > 1 or w.tone.bends or ENTRIES[row](w) is None for w in (one, two)):
        return False
    if one.sound.address.lower != two.sound.address.lower:
        return False
    key = subject.piece.music.key
    first, second = (say_class(w.tone, row, w.chord, key) for w in (one, two))
    here, there = ({pitch % 12 for pitch in top_pitch(w.tone)} for w in (one, two))
    return here != there and first in there and second in here and first not in here


def tell_exchanged(subject: Subject, rule: Rule, row: Row, one: Written, two: Written) -> Finding:
    """Report a pair at its second note, with the exchange as its fix where both are plain frets."""
    names = [subject.name_at(w.sound.address, w.index, top_pitch(w.tone)[-1], w.chord) for w in (one, two)]
    said = " ".join(ENTRIES[row](w) or "" for w in (one, two))
    texts = [w.tone.span.text for w in (one, two)]
    fix = None
    if texts == [note_text(w.tone) for w in (one, two)] and texts[0] != texts[1]:
        edits = (Edit(one.tone.span, texts[1]), Edit(two.tone.span, texts[0]))
        fix = Fix(f"{texts[1]} {texts[0]}: exchanged", edits)
    return subject.report(
        rule,
        f"the {row} row says {said}, and {texts[0]} {texts[1]} are {names[0]} and {names[1]}:"
        " the other way round",
        two.tone.span,
        two.sound.address,
        labels=(Label(one.tone.span, "exchanged with this"), *two.label(row)),
        help=f"Exchange the two notes, or the two {row}",
        fix=fix,
    )
