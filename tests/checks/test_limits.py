"""The table of limits says which rules go by which, and a seal lets go when one of those is set anew."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any

import pytest
from proofroom import MANIFEST, Proofroom

from lickwright.checks.catalogue import rules
from lickwright.checks.limits import LIMITS, Limit, set_limits
from lickwright.checks.rule import Example, Rule
from lickwright.checks.seals import Judged, seal
from lickwright.model.course import Course
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course

SPOKEN = "prose/"
"""What the words claim is judged once for all the rules of the group: by whom, the calls do not show."""
OVERSEER = "course/limit"
"""Holds the limits against each other, and measures nothing by them."""


class Recorder(dict[str, float]):
    """Limits that note which rule asks for them."""

    def __init__(self, values: Mapping[str, float], asked: set[tuple[str, str]], asking: list[str]) -> None:
        super().__init__(values)
        self._asked, self._asking = asked, asking

    def __getitem__(self, name: str) -> float:
        """The value, as it is, with a note of who asked."""
        if self._asking:
            self._asked.add((self._asking[-1], name))
        return super().__getitem__(name)


@pytest.fixture(scope="module")
def asked(tmp_path_factory: pytest.TempPathFactory) -> set[tuple[str, str]]:
    """Rule and limit of every question asked while the examples of the rules that measure are proofed."""
    found: set[tuple[str, str]] = set()
    asking: list[str] = []

    def watch(rule: Rule, function: Any) -> Any:
        def watched(given: object) -> Iterable[object]:
            asking.append(rule.id)
            try:
                return list(function(given))
            finally:
                asking.pop()

        return function and watched

    watched = {
        name: replace(r, run=watch(r, r.run), survey=watch(r, r.survey)) for name, r in rules().items()
    }
    room = Proofroom(tmp_path_factory.mktemp("limits"))
    with pytest.MonkeyPatch.context() as patch:
        for module in ("proof", "subject"):
            patch.setattr(sys.modules[f"lickwright.checks.{module}"], "rules", lambda: watched)
        patch.setattr(
            sys.modules["lickwright.checks.proof"],
            "set_limits",
            lambda changed: Recorder(set_limits(changed), found, asking),
        )
        for example in _measured():
            room.prove(example)
    return {(rule, name) for rule, name in found if rule != OVERSEER}


def _measured() -> Iterator[Example | str]:
    for rule in rules().values():
        if rule.source.kind == "own threshold" or _limits_of(rule):
            yield from (*rule.bad, *rule.good)
    for fingers in (
        "1 2",
        "1 3",
        "1 4",
        "2 3",
        "2 4",
        "3 4",
    ):  # every pair of fingers reaches, together and apart
        one, other = fingers.split()
        yield f"A | 3:2+2:5 - - - - - - -\n  lh | {one}{other}"
        yield f"A | 3:2 3:14 3:2 2:2 - - - -\n  lh | {one} {other} {one} {one}"
        yield f"A | 3:2 - h 3:14 - - - - -\n  lh | {one} {other}"


def _limits_of(rule: Rule) -> list[Limit]:
    return [limit for limit in LIMITS.values() if rule.id in limit.rules]


def test_a_rule_asks_for_its_own_limits_alone(asked: set[tuple[str, str]]) -> None:
    """What it asks for names it in the table; so the handbook, the guide and the seals know."""
    spoken = {name for name, limit in LIMITS.items() if limit.rules[0].startswith(SPOKEN)}
    foreign = {(rule, name) for rule, name in asked if name not in spoken and rule not in LIMITS[name].rules}
    assert foreign == set()
    assert spoken <= {name for _, name in asked}


def test_a_rule_that_is_named_asks(asked: set[tuple[str, str]]) -> None:
    """No rule stands in the table that does not go by the limit, so that no seal goes stale for nothing."""
    named = {(rule, name) for name, limit in LIMITS.items() for rule in limit.rules}
    assert {(rule, name) for rule, name in named - asked if not rule.startswith(SPOKEN)} == set()


def test_an_own_threshold_is_in_the_table(asked: set[tuple[str, str]]) -> None:
    """Whoever says that its source is a threshold of ours has one to be set; the builder's own ways aside."""
    ours = [r for r in rules().values() if r.source.kind == "own threshold" and (r.run or r.survey)]
    assert len(ours) > 15
    asking = {rule for rule, _ in asked}
    assert [rule.id for rule in ours if rule.id not in asking] == []


@pytest.mark.parametrize("limit", LIMITS.values(), ids=list(LIMITS))
def test_a_seal_goes_stale_with_the_limits_of_its_rule(limit: Limit, judged: Judged) -> None:
    """Set anew, it breaks the seal of every rule that goes by it, and of no other."""
    changed = _set(judged.course, limit)
    for rule in rules():
        one, other = replace(judged, rule=rule), replace(judged, rule=rule, course=changed)
        assert (seal(one) == seal(other)) is (rule not in limit.rules), rule


def test_a_seal_of_a_needless_shift_goes_by_the_reach(judged: Judged) -> None:
    """It is the reach of two fingers, a limit made for chords, that says how far is too far."""
    here = replace(judged, rule="hands/needless-shift")
    assert seal(here) != seal(replace(here, course=_set(here.course, LIMITS["reach-1-2-error"])))
    assert seal(here) == seal(replace(here, course=_set(here.course, LIMITS["reach-1-2-query"])))


def _set(course: Course, limit: Limit) -> Course:
    settings = replace(course.settings, limits=((limit.name, limit.value * 1.5),))
    return replace(course, settings=settings)


@pytest.fixture(scope="module")
def judged(tmp_path_factory: pytest.TempPathFactory) -> Judged:
    """A bar and a finding; the rule is put in by the tests."""
    folder = tmp_path_factory.mktemp("judged")
    found = Proofroom(folder).prove("A | 2:3 - - - 3:2 - - -").findings
    course, _ = read_course(folder / "course-1")
    assert course is not None
    piece = resolve(course)[0].pieces[0]
    return Judged(course, piece, found[0].rule, piece.music.bars[0].upper.sounds[0].address, found)


@pytest.mark.parametrize(
    ("rule", "limit", "value"),
    [
        ("hands/stray-note", "stray-frets", 13),
        ("picking/seam", "seam-beats", 0.25),
        ("rhythm/double-swing", "double-swing", 1),
        ("rhythm/near-duplicate", "alike-sounds", 9),
        ("rhythm/near-duplicate", "alike-frets", 1),
        ("course/near-duplicate", "alike-sounds", 9),
    ],
)
def test_a_course_that_turns_a_limit_is_heard(room: Proofroom, rule: str, limit: str, value: float) -> None:
    """The bad examples of the rule give its finding, and give none where the course is more lenient."""
    for example in rules()[rule].bad:
        assert rule in {finding.rule for finding in room.prove(example).findings}
        manifest = MANIFEST.format(style="country") + f"\n[limits]\n{limit} = {value}\n"
        assert rule not in {f.rule for f in room.prove(replace(example, course=manifest)).findings}
