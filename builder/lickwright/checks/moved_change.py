"""The change of a variation at the wrong address: what the hand cannot do there it can at the sound beside.

Tried, not guessed: of the two sounds between which the hand cannot go, the change is put at the other one,
the sound it stood at is made as in the base, and the rules are run. It is offered only if the fault is gone
and no other has come.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from lickwright.checks.subject import Subject
from lickwright.checks.trial import change_sound, list_places
from lickwright.findings import Edit, Finding, Fix
from lickwright.model.address import Address
from lickwright.model.music import Sound
from lickwright.text import Span

HANDS = "hands/"


def mend_changes(subject: Subject, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the findings of a variation; those of the hand with the address where a change fits."""
    told = tuple(findings)
    if subject.base is None or subject.piece.kind != "lick":
        return told
    return tuple(_mend(subject, f) if f.rule.startswith(HANDS) and f.fix is None else f for f in told)


def _mend(subject: Subject, finding: Finding) -> Finding:
    at = Address.parse(finding.address)
    if at is None or at not in subject.by_address:
        return finding
    voice = [address for address in subject.by_address if address.lower == at.lower]
    place = voice.index(at)
    ends = voice[max(0, place - 1) : place + 1]  # the hand comes from the one to the other
    fixes = [fix for change in ends for to in ends if (fix := _try(subject, finding, change, to)) is not None]
    if len(fixes) != 1:
        return finding
    return replace(finding, help=f"{fixes[0].title}; or mend the change", fix=fixes[0])


def _try(subject: Subject, finding: Finding, change: Address, to: Address) -> Fix | None:
    """The address that a change goes to, if it clears a finding there."""
    base, sound = subject.base, subject.by_address[change]
    changed = subject.piece.changed
    if base is None or change not in changed or to in changed or {change, to} - set(base.by_address):
        return None
    written = _written(sound, change)
    if written is None:
        return None
    piece = change_sound(subject.piece, change, lambda each: _take(each, base.by_address[change]))
    piece = change_sound(piece, to, lambda each: _take(each, sound))
    piece = replace(piece, changed=tuple(to if address == change else address for address in changed))
    places = list_places(Subject(piece, subject.limits, base))
    if (finding.rule, finding.address) in places or places - list_places(subject):
        return None
    return Fix(f"The change of {change} fits at {to}", (Edit(written, str(to)),))


def _take(sound: Sound, other: Sound) -> Sound:
    """A sound with the notes of another; joins and time stay, and degrees were those of other chords."""
    links = {tone.string: tone.link for tone in sound.tones}
    tones = (replace(tone, link=links.get(tone.string), degree=None) for tone in other.tones)
    return replace(sound, tones=tuple(tones))


def _written(sound: Sound, change: Address) -> Span | None:
    """Where a variation writes the address of a change: at the head of its line."""
    span = sound.tones[0].span if sound.tones else None
    if span is None:
        return None
    text = span.source.text
    start = text.rfind("\n", 0, span.start) + 1
    head, colon, _ = text[start : span.start].partition(":")
    found = head.strip() == str(change) and colon
    return Span(span.source, start, start + len(head)) if found else None
