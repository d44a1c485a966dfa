"""Every claim of the course with what came of it, worked out once for all rules about prose."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib import import_module
from itertools import groupby
from typing import TYPE_CHECKING

from lickwright.checks.claims.attachment import find_claims
from lickwright.checks.claims.claim import KINDS, Claim, ClaimKind, Differs, Unresolved, Verdict
from lickwright.checks.claims.pointed import Pointed
from lickwright.findings import Edit, Finding, Fix, Severity
from lickwright.model.course import Lesson, LickLink
from lickwright.model.timeline.excerpt import has_part

if TYPE_CHECKING:
    from lickwright.checks.subject import Subject
    from lickwright.checks.survey import Survey

Judge = Callable[[Claim, Pointed], Verdict]


@dataclass(frozen=True, slots=True)
class Judged:
    """A claim and what came of it."""

    claim: Claim
    notes: Pointed
    verdict: Verdict


def judge_course(survey: Survey) -> tuple[Judged, ...]:
    """Judge every claim of a course, in the order of study.

    Of the claims of one link the first that differs is kept and no other that does: they have one cause.
    """
    course = survey.course
    lessons = (*course.lessons, *course.drafts)
    return tuple(judged for lesson in lessons for judged in _judge_lesson(lesson, survey))


def _judge_lesson(lesson: Lesson, survey: Survey) -> Iterator[Judged]:
    for _, group in groupby(lesson.links, key=lambda link: id(link.passage)):
        yield from judge_links(tuple(group), survey)


def judge_links(links: Sequence[LickLink], survey: Survey) -> Iterator[Judged]:
    """Judge the claims of one sentence.

    Args:
        links: All links of the sentence, in order.
        survey: With the notes they point at.
    """
    claims = sorted(find_claims(links[0].passage, links), key=lambda claim: KINDS.index(claim.kind))
    pointed: dict[LickLink, Pointed | None] = {link: _point(link, survey) for link in links}
    judged: list[Judged] = []
    for claim in claims:
        notes = pointed[claim.link] if claim.link in pointed else _point(claim.link, survey)
        others = [other for link in claim.others if (other := pointed[link]) is not None]
        if notes is None or len(others) < len(claim.others):
            continue
        verdict = _judges()[claim.kind](claim, notes.beside(*others) if others else notes)
        judged.append(Judged(claim, notes, verdict))
    yield from _once(_settle(judged))


def judge_again(one: Judged, subject: Subject) -> Verdict | None:
    """Judge a claim with other notes in the piece of its link; None where it compares several links.

    Args:
        one: The claim, and what came of it.
        subject: The piece as it is tried.
    """
    notes = Pointed(subject, one.notes.at)
    if one.claim.others or not notes.heard:
        return None
    return _judges()[one.claim.kind](one.claim, notes)


def _settle(judged: Sequence[Judged]) -> Iterator[Judged]:
    """Where words may be read in two ways, the way that agrees is meant.

    Where both differ they are false either way: a degree is the likelier, else the longer words. Where the
    one differs and the other claims nothing, nobody knows.
    """
    yield from (one for one in judged if not one.claim.reading)
    doubtful = [one for one in judged if one.claim.reading]
    for _, group in groupby(sorted(doubtful, key=_place), key=_place):
        here = tuple(group)
        readings = [[o for o in here if o.claim.reading == reading] for reading in ("article", "note")]
        differing = [[o for o in reading if isinstance(o.verdict, Differs)] for reading in readings]
        agreeing = next((r for r, out in zip(readings, differing, strict=True) if r and not out), None)
        if agreeing is not None:
            yield from agreeing
        elif all(differing):
            told = [out[0] for out in differing]
            yield max(told, key=lambda one: (one.claim.kind == "degree", len(one.claim.words)))
        else:
            first = next(out[0] for out in differing if out)
            yield replace(first, verdict=Unresolved("the “A” may be the note, or only the article"))


def _place(one: Judged) -> tuple[int, int]:
    return one.claim.link.start, one.claim.link.end


def _once(judged: Iterable[Judged]) -> Iterator[Judged]:
    """Of what differs at one link the first: they have one cause.

    What the link's own words call its notes goes before what is said about them: ``[The triplet] takes a
    beat`` leads astray where there is no triplet.
    """
    given = tuple(judged)
    told: dict[tuple[int, int], Judged] = {}
    for one in sorted(given, key=lambda one: not one.claim.inside):
        if isinstance(one.verdict, Differs):
            told.setdefault(_place(one), one)
    for one in given:
        if not isinstance(one.verdict, Differs) or told[_place(one)] is one:
            yield one


def _point(link: LickLink, survey: Survey) -> Pointed | None:
    """The notes of a link; None where some are not there (the link is told), or could not be read whole."""
    subject = survey.subject(link.target)
    if subject is None or (link.at is not None and not has_part(subject.piece.music, link.at)):
        return None
    notes = Pointed.of(link, subject)
    broken = survey.broken.get(link.target, frozenset())
    if not notes.heard or (broken and any(bar.number in broken for bar in notes.bars)):
        return None
    return notes


@lru_cache(maxsize=1)
def _judges() -> Mapping[ClaimKind, Judge]:
    """The judge of each kind: the rule of that name holds it."""
    package = "lickwright.checks.prose"
    return {kind: import_module(f"{package}.{kind.replace('-', '_')}").judge for kind in KINDS}


def tell(kind: ClaimKind, severity: Severity) -> Callable[[Survey], Iterable[Finding]]:
    """Return the survey of a rule: what differs among the claims of its kind."""

    def run(survey: Survey) -> Iterator[Finding]:
        for one in survey.claims:
            if one.claim.kind == kind and isinstance(one.verdict, Differs):
                yield _report(one, one.verdict, kind, severity)

    return run


def _report(one: Judged, verdict: Differs, kind: ClaimKind, severity: Severity) -> Finding:
    span = one.claim.span(verdict.term)
    fix = None
    term = verdict.term or one.claim.terms[0]
    if verdict.write and span.text == term.text:
        fix = Fix(f"write {verdict.write}", (Edit(span, verdict.write),))
    address = verdict.address or one.notes.address
    return Finding(
        f"prose/{kind}",
        severity if verdict.severity is None else verdict.severity,
        verdict.message,
        span,
        (),
        verdict.help,
        fix,
        one.claim.link.target,
        "" if one.notes.at is None and verdict.address is None else str(address),
    )


def list_unresolved(survey: Survey) -> Iterator[tuple[Judged, str]]:
    """Yield the claims that could not be held against their notes, each with the reason."""
    for one in survey.claims:
        if isinstance(one.verdict, Unresolved):
            yield one, one.verdict.why
