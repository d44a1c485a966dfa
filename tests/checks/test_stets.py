"""Stet: what stands, what is stale, what has nothing to stand for."""

from __future__ import annotations

from pathlib import Path

import pytest
from proofroom import MANIFEST, Proofroom, only, prove_folder, told

from lickwright.checks import handbook, proof
from lickwright.checks.catalogue import rules
from lickwright.checks.groups import GROUPS
from lickwright.checks.handbook import lesson
from lickwright.checks.rule import Example, Rule, Severity
from lickwright.checks.seals import PARTS, READS, Read
from lickwright.checks.stets import Offers
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course

LICK = "A | 2:3 - - - 3:2 - - -"


def _with(stet: str, lick: str = LICK) -> str:
    return f"stet: {stet}\n\n{lick}"


def test_a_stet_lets_its_finding_stand(room: Proofroom) -> None:
    """The finding is gone from the list and kept with its reason and seal."""
    assert [rule for rule, _ in told(room.prove(LICK))] == ["harmony/unexplained"]
    proof = room.prove(_with('harmony/unexplained 1.1 "the clash is the point"'))
    assert told(proof) == []
    (standing,) = proof.standing
    assert (standing.finding.address, standing.stet.reason) == ("1.1", "the clash is the point")
    assert len(standing.seal) == 4


def test_a_stet_without_an_address_covers_the_block(room: Proofroom) -> None:
    """So does a bar's address all sounds of the bar, and another bar's none."""
    assert told(room.prove(_with('harmony/unexplained "meant"'))) == []
    assert told(room.prove(_with('harmony/unexplained 1 "meant"'))) == []
    other = room.prove(_with('harmony/unexplained 1.2 "meant"'))
    assert [rule for rule, _ in told(other)] == ["harmony/unexplained", "stet/unused"]


@pytest.mark.parametrize(
    "rule", [rule for rule in rules().values() if rule.no_stet], ids=lambda rule: rule.id
)
def test_what_nobody_can_play_or_count_is_not_let_stand(room: Proofroom, rule: Rule) -> None:
    """The finding stays, the stet is told why, and the handbook says the same."""
    for example in rule.bad:
        fields, music = example.text.split("\n\n", 1) if "\n\n" in example.text else ("", example.text)
        proof = room.prove(
            Example(
                _with(f'{rule.id} "meant"', music)
                if not fields
                else f'{fields}\nstet: {rule.id} "meant"\n\n{music}'
            )
        )
        assert [finding.rule for finding in proof.findings if finding.severity is Severity.ERROR] == [rule.id]
        (unused,) = [finding for finding in proof.findings if finding.rule == "stet/unused"]
        assert unused.message == f"{rule.id} cannot be let stand: {rule.no_stet}"
        assert proof.standing == ()
    page = handbook.page(rule.id)
    assert page is not None
    assert f"**Stet:** it cannot be let stand: {rule.no_stet}." in page.text


def test_what_stands_does_not_hide_what_cannot(room: Proofroom) -> None:
    """A name that is let stand explains no slur to another string: nobody can play it."""
    slip = "D7 | 3:5 h 2:7 - - 2:5 - 1:5 -\n  names | C D E A"
    assert [f.rule for f in room.prove(slip).findings] == ["witness/names"]
    found = room.prove(_with('witness/names 1.2 "meant"', slip)).findings
    assert [f.rule for f in found if f.severity is Severity.ERROR] == ["hands/join-stands-still"]


def test_which_rules_nobody_lets_stand() -> None:
    """What cannot be played at all, and what cannot be counted."""
    assert {rule.id for rule in rules().values() if rule.no_stet} == {
        "hands/one-note-a-string",
        "hands/range",
        "rhythm/bar-length",
        "rhythm/pickup-length",
    }
    assert not any(rule.stettable for rule in rules().values() if rule.no_stet)


def test_the_seal_goes_stale_with_the_music(room: Proofroom) -> None:
    """The seal that the proof prints holds until the bar changes."""
    (standing,) = room.prove(_with('harmony/unexplained 1.1 "meant"')).standing
    sealed = f'harmony/unexplained 1.1 #{standing.seal} "meant"'
    assert told(room.prove(_with(sealed))) == []
    stale = only(room.prove(_with(sealed, "A | 2:3 - - - 3:2 - 2:2 -")))
    assert stale.rule == "stet/stale"
    assert "#" in stale.help


def test_the_seal_does_not_see_places_and_numbers(room: Proofroom) -> None:
    """Moving the bar down the page or behind another bar changes nothing it plays."""
    (first,) = room.prove(_with('harmony/unexplained 1.1 "meant"')).standing
    moved = f"A | 5:0 - 5:4 - 4:2 - 3:2 -\n\n{LICK}"
    (second,) = room.prove(_with('harmony/unexplained 2.1 "meant"', moved)).standing
    assert first.seal == second.seal
    (other,) = room.prove(_with('harmony/unexplained 1.1 "meant"', "A | 2:3 - - - 3:2 - 2:2 -")).standing
    assert other.seal != first.seal


def test_what_leaves_no_music_cannot_stand(room: Proofroom) -> None:
    """A slot that cannot be read stays an error, and the stet is told."""
    proof = room.prove(_with('syntax/slot "meant"', "A | 5:0 - 5:4 ?? 4:2 - 3:2 -"))
    assert [rule for rule, _ in told(proof)] == ["stet/unused", "syntax/slot"]


def test_an_unknown_rule_is_named_with_its_neighbour(room: Proofroom) -> None:
    """A stet for a rule that does not exist suggests the nearest."""
    finding = only(room.prove(_with('hands/strech "meant"', "A | 5:0 - 5:4 - 4:2 - 3:2 -")))
    assert (finding.rule, finding.help) == ("stet/unused", "Did you mean hands/stretch?")


def test_a_variation_may_let_stand_what_its_base_has(room: Proofroom) -> None:
    """A stet for a fault that is told in the base is not called unused in the variation."""
    base = "```lick one\n\n" + LICK + "\n```\n"
    stet = 'stet: harmony/unexplained 1.1 "meant"\n'
    variation = "\n```lick two\nvary: one\n{stet}1.2: 4:7\n```\n"
    plain = room.prove(base + variation.format(stet=""))
    assert [(f.rule, f.lick) for f in plain.findings] == [("harmony/unexplained", "one")]
    stetted = room.prove(base + variation.format(stet=stet))
    assert [(f.rule, f.lick) for f in stetted.findings] == [("harmony/unexplained", "one")]


FAST = "5:0 5:2 5:4 4:0 4:2 4:4 3:2 4:4 5:0 5:2 5:4 4:0 4:2 4:4 3:2 -"
BEND = "\n\nA7 | 3:7b9r7 2:5 3:7 - 2:5 - - - 3:6 - - - 4:7 - - -"


def _course(level: str = "intermediate", limits: str = "", tempo: int = 120) -> str:
    course = MANIFEST.format(style="country").replace("tempo = 120", f'tempo = {tempo}\nlevel = "{level}"')
    return f"{course}\n[limits]\n{limits}\n"


def _sealed(room: Proofroom, rule: str, text: str, course: str = "") -> str:
    """The seal of a stet for a rule that stands in a text with ``{stet}`` in it."""
    standing = room.prove(Example(text.format(stet=f'stet: {rule} "meant"'), course=course)).standing
    assert {one.finding.rule for one in standing} == {rule}
    return standing[0].seal


def _is_stale(room: Proofroom, rule: str, seal: str, text: str, course: str = "") -> bool:
    proof = room.prove(Example(text.format(stet=f'stet: {rule} #{seal} "meant"'), course=course))
    stale = [finding for finding in proof.findings if finding.rule == "stet/stale"]
    assert bool(stale) != bool(proof.standing), told(proof)
    return bool(stale)


@pytest.mark.parametrize(
    ("rule", "lick"),
    [
        ("speed/strokes", f"step: 1/16\ntempo: TEMPO\n{{stet}}\n\nA | {FAST}"),
        ("speed/bend-time", f"step: 1/16\ntempo: TEMPO\n{{stet}}{BEND}"),
        (
            "hands/shift",
            "step: 1/16\ntempo: TEMPO\n{stet}\n\nA | 1:2 1:17 1:2 1:17 1:14 - - - 1:17 - - - - - - -",
        ),
    ],
)
def test_a_seal_of_speed_goes_stale_with_the_tempo(room: Proofroom, rule: str, lick: str) -> None:
    """Faster is another thing to ask; the same tempo written otherwise is not."""
    slow, fast = lick.replace("TEMPO", "130"), lick.replace("TEMPO", "132")
    seal = _sealed(room, rule, slow)
    assert not _is_stale(room, rule, seal, lick.replace("TEMPO", "half = 65"))
    assert _is_stale(room, rule, seal, fast)


def test_a_seal_of_strokes_goes_stale_with_the_level(room: Proofroom) -> None:
    """What is let stand for an intermediate player is not so for a beginner; its default may be written."""
    lick = f"step: 1/16\ntempo: 140\n{{stet}}\n\nA | {FAST}"
    seal = _sealed(room, "speed/strokes", lick)
    assert not _is_stale(room, "speed/strokes", seal, lick, _course())
    assert _is_stale(room, "speed/strokes", seal, lick, _course("beginner"))


def test_a_seal_goes_stale_with_the_limits_of_its_rule(room: Proofroom) -> None:
    """A threshold of the rule set anew; another rule's, or one set to its default, changes nothing."""
    lick = f"step: 1/16\ntempo: 140\n{{stet}}\n\nA | {FAST}"
    seal = _sealed(room, "speed/strokes", lick)
    assert not _is_stale(room, "speed/strokes", seal, lick, _course(limits="slurs-query = 13"))
    assert not _is_stale(room, "speed/strokes", seal, lick, _course(limits="strokes-intermediate-query = 8"))
    assert _is_stale(room, "speed/strokes", seal, lick, _course(limits="strokes-intermediate-query = 7"))


def test_a_seal_of_harmony_does_not_mind_the_tempo(room: Proofroom) -> None:
    """Nor the level, nor a threshold of the hands; the style of the course decides what is a blue note."""
    lick = "{stet}\n\n" + LICK
    seal = _sealed(room, "harmony/unexplained", lick)
    course = _course("beginner", "stretch-query = 90", 80)
    assert not _is_stale(room, "harmony/unexplained", seal, lick, course)
    plain = MANIFEST.format(style="plain")
    assert _is_stale(room, "harmony/unexplained", seal, lick, plain)


WORDS = "# T\n\n{words}\n\n```lick one\n{{stet}}\n\nA | 5:0 - 5:4 - 4:2 - 3:2 -\n```\n"


def test_a_seal_of_words_goes_stale_with_the_words(room: Proofroom) -> None:
    """The sentence is sealed: where its line breaks says nothing, nor what stands beside it."""
    said = "It starts on [the C natural](lick:one@1.1) and goes on."
    text = WORDS.format(words=said)
    seal = _sealed(room, "prose/pitch", text)
    broken = WORDS.format(words="Before. " + said.replace(" and ", "\nand ") + " Behind.")
    assert not _is_stale(room, "prose/pitch", seal, broken)
    other = WORDS.format(words=said.replace("C natural", "B flat"))
    assert _is_stale(room, "prose/pitch", seal, other)


QUERY, ERROR = (
    f"{{stet}}\n\nA | {bar}\nA | 3:3 - 2:2 - 3:2 - - -"
    for bar in ("3:2 - 2:2 - 3:2 - 2:2 -", "3:2 - 2:2 - 3:2 - 2:4 -")
)
"""One bar after two: the same note in it is a query behind the one, an error behind the other."""


def test_a_seal_goes_stale_when_the_finding_grows(room: Proofroom) -> None:
    """A query sealed does not let an error stand, though its own bar is as it was; that is what it says."""
    rule = "harmony/unexplained 2.1"
    (standing,) = room.prove(QUERY.format(stet=f'stet: {rule} "meant"')).standing
    assert standing.finding.severity.word == "query"
    sealed = f'stet: {rule} #{standing.seal} "meant"'
    assert room.prove(QUERY.format(stet=sealed)).findings == ()
    grown = next(f for f in room.prove(ERROR.format(stet=sealed)).findings if f.rule == "stet/stale")
    assert (grown.severity.word, grown.address) == ("error", "2.1")
    assert grown.message.startswith("this stet was sealed for a query, and this is an error: ")


def test_a_seal_holds_when_the_finding_shrinks(room: Proofroom) -> None:
    """An error sealed lets a query stand."""
    rule = "harmony/unexplained 2.1"
    (standing,) = room.prove(ERROR.format(stet=f'stet: {rule} "meant"')).standing
    assert standing.finding.severity.word == "error"
    assert room.prove(QUERY.format(stet=f'stet: {rule} #{standing.seal} "meant"')).findings == ()


def test_the_seal_offered_is_the_seal_that_holds(tmp_path: Path) -> None:
    """What the proof prints for a finding lets it stand when written down; several at one place, too."""
    said = "It starts on [the C natural](lick:one) and ends on [the B flat](lick:one)."
    texts = (WORDS.format(words=said), f"step: 1/16\ntempo: 140\n{{stet}}\n\nA | {FAST}", QUERY)
    for number, text in enumerate(texts):
        folder = tmp_path / f"course-{number}"
        (folder / "lessons").mkdir(parents=True)
        (folder / "course.toml").write_text(MANIFEST.format(style="country"), "utf-8")
        file = folder / "lessons" / "example.md"
        file.write_text(lesson(Example(text.format(stet=""))), "utf-8")
        course, _ = read_course(folder)
        assert course is not None
        book, _ = resolve(course)
        found = proof(course, book).findings
        lines = {Offers(course, book, found).stet(finding, "meant") for finding in found}
        assert found
        assert all("#" in line for line in lines)
        file.write_text(lesson(Example(text.format(stet="\n".join(sorted(lines))))), "utf-8")
        assert prove_folder(folder).findings == ()


def test_what_a_seal_reads_is_there() -> None:
    """Every row names rules or groups that there are, and parts that can be taken."""
    known = {*rules(), *GROUPS}
    assert set(READS) <= known
    assert {part for parts in READS.values() for part in parts} <= set(PARTS)
    assert set(PARTS) <= set(Read.__dataclass_fields__)
