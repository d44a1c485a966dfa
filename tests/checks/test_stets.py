"""Stet: what stands, what is stale, what has nothing to stand for."""

from __future__ import annotations

from proofroom import Proofroom, only, told

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
