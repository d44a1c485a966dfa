"""A part of the proof: some groups or rules, some lessons."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fnmatch import fnmatchcase
from pathlib import PurePosixPath

from lickwright.checks.proof import Proof
from lickwright.findings import Finding

LESSONS = "lessons/"
"""The folder of the lessons."""


def list_paths(finding: Finding) -> frozenset[str]:
    """Return the files of the lessons that a finding is about: the one it stands in.

    Where that is no lesson, a signature or a promise, they are those that its labels show.
    """
    stands = finding.span.source.path
    if stands.startswith(LESSONS):
        return frozenset((stands,))
    shown = (label.span.source.path for label in finding.labels)
    return frozenset(path for path in shown if path.startswith(LESSONS))


def select(proof: Proof, only: Sequence[str] = (), lessons: Sequence[str] = ()) -> Proof:
    """Return the findings, standing ones too, of some rules in some lessons.

    Args:
        proof: Of the whole course.
        only: Groups, ``harmony``, or rules, ``harmony/unexplained``; none for all.
        lessons: Names of lessons, with or without ``.md``; none for all.
    """
    names = {PurePosixPath(lesson).stem for lesson in lessons}

    def wanted(finding: Finding) -> bool:
        rule = finding.rule
        told = not only or any(rule == part or fnmatchcase(rule, f"{part}/*") for part in only)
        return told and (not names or any(PurePosixPath(path).stem in names for path in list_paths(finding)))

    return replace(
        proof,
        findings=tuple(filter(wanted, proof.findings)),
        standing=tuple(one for one in proof.standing if wanted(one.finding)),
    )
