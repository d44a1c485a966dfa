"""The repair that words alone ask for: no row and no rule accuses a note, and a sentence calls it otherwise.

The notes that a finger that types may have meant are tried. One is offered where it makes the words true, all
other words of the piece stay true, and the rules find nothing that they did not find before. The finding is
as severe as it was: the words may be what has slipped.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from lickwright.checks.candidates import Candidate, list_candidates
from lickwright.checks.claims.claim import Differs, Held
from lickwright.checks.claims.ledger import Judged, judge_again
from lickwright.checks.confirmation import SAYING, Words
from lickwright.checks.subject import Subject
from lickwright.checks.trial import Places, list_places, put_tone
from lickwright.findings import Edit, Finding, Fix
from lickwright.model.address import Address
from lickwright.model.music import Sound, Tone

MOST = 8
"""Sounds of one link, and findings of one piece, that are tried: our own threshold."""


@dataclass(frozen=True, slots=True)
class _Try:
    """A note to be tried in the place of another."""

    sound: Sound
    tone: Tone
    candidate: Candidate
    subject: Subject


def mend_by_words(subject: Subject, findings: Iterable[Finding], words: Words) -> tuple[Finding, ...]:
    """Return the findings of a piece, those about words with the note that would make them true.

    Args:
        subject: The piece.
        findings: Of it.
        words: What the lessons say of it.
    """
    told = tuple(findings)
    if subject.piece.kind != "lick":
        return told
    asked = [f for f in told if f.rule in SAYING and f.fix is None and f.address and not words.stands(f)]
    if not asked:
        return told
    known = list_places(subject)
    fixes = {id(f): fix for f in asked[:MOST] if (fix := _find(subject, f, words, known)) is not None}
    return tuple(replace(f, fix=fixes[id(f)]) if id(f) in fixes else f for f in told)


def _find(subject: Subject, finding: Finding, words: Words, known: Places) -> Fix | None:
    """The one note that does it; none where several sounds of the link could be the slip."""
    told = next((one for one in words.differing if _is_of(one, finding)), None)
    if told is None:
        return None
    others = [one for one in words.differing if one is not told]
    found: list[tuple[int, _Try]] = []
    for tried in _tries(subject, told):
        if not isinstance(judge_again(told, tried.subject), Held) or list_places(tried.subject) - known:
            continue
        if any(isinstance(judge_again(one, tried.subject), Differs) for one in words.holding):
            continue
        found.append((sum(isinstance(judge_again(o, tried.subject), Held) for o in others), tried))
    most = max((count for count, _ in found), default=0)
    best = [tried for count, tried in found if count == most]
    if len({tried.sound.address for tried in best}) != 1:
        return None
    text = best[0].candidate.text
    title = f"{text}: {best[0].candidate.how} it is what the words say"
    return Fix(title, (Edit(best[0].tone.span, text),))


def _is_of(one: Judged, finding: Finding) -> bool:
    """Whether a finding tells of a claim."""
    term = one.verdict.term if isinstance(one.verdict, Differs) else None
    here, there = one.claim.span(term), finding.span
    same = (here.source.path, here.start, here.end) == (there.source.path, there.start, there.end)
    return same and finding.rule == f"prose/{one.claim.kind}"


def _tries(subject: Subject, told: Judged) -> Iterator[_Try]:
    """What is worth trying: at the sound that the claim is about, else at each sound of a short link."""
    verdict = told.verdict
    at = verdict.address if isinstance(verdict, Differs) else None
    sounds = [heard.sound for heard in told.notes.heard if at is None or heard.sound.address == at]
    if len(sounds) > MOST:
        return
    for sound in sounds:
        if subject.piece.of and sound.address not in subject.piece.changed:
            continue  # stands in the base
        for index, tone in enumerate(sound.tones):
            for candidate in list_candidates(subject, sound, index):
                if candidate.text and not _two_frets(tone, candidate.tone):
                    yield _Try(sound, tone, candidate, _with(subject, sound.address, index, candidate.tone))


def _two_frets(tone: Tone, other: Tone) -> bool:
    """A slip that no rule and no row bears witness to is one fret, a string, an octave, a digit."""
    return tone.string == other.string and abs((tone.fret or 0) - (other.fret or 0)) == 2


def _with(subject: Subject, address: Address, index: int, tone: Tone) -> Subject:
    return Subject(put_tone(subject.piece, address, index, tone), subject.limits, subject.base)
