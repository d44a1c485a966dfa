"""The music as a fix would leave it."""

from dataclasses import replace

import pytest

from lickwright.findings import Edit, Fix
from lickwright.model.address import Address
from lickwright.pages.edition import Edition
from lickwright.pages.mending import apply_edits, mend_piece
from lickwright.text import Source


def found(edition: Edition, rule: str):
    return next(finding for finding in edition.findings if finding.rule == rule)


def test_a_fret_is_mended(slips: Edition) -> None:
    """The fix of a slip puts the note there that the names row says; the other bars are as they were."""
    finding = found(slips, "witness/names")
    mended = mend_piece(slips.course, finding, slips.findings)
    written = slips.music.piece("plank")
    assert [int(tone.path[0]) for tone in written.music.sound(Address(2, 4)).tones] == [46]
    assert [int(tone.path[0]) for tone in mended.music.sound(Address(2, 4)).tones] == [45]
    assert [bar for bar in mended.music.bars if bar.number != 2] == [
        bar for bar in written.music.bars if bar.number != 2
    ]


def test_a_change_of_a_variation_is_mended(slips: Edition) -> None:
    """A fix in a variation is read against the lick it varies."""
    mended = mend_piece(slips.course, found(slips, "harmony/unexplained"), slips.findings)
    assert [tone.fret for tone in mended.music.sound(Address(2, 2)).tones] == [2]
    assert [tone.fret for tone in mended.music.sound(Address(1, 1)).tones] == [1]


@pytest.mark.parametrize("text", ["5:", "9:0", "5:0 5:0"])
def test_what_does_not_resolve_is_not_shown(slips: Edition, text: str) -> None:
    """A fix that brings an error of its own is left to its typed line."""
    finding = found(slips, "witness/names")
    bad = replace(finding, fix=Fix("", (Edit(finding.span, text),)))
    assert mend_piece(slips.course, bad, slips.findings) is None


def test_nothing_to_mend(slips: Edition) -> None:
    """No fix, a fix in the manifest, a fix in two files at once: nothing is mended."""
    finding = found(slips, "rhythm/bar-length")
    assert mend_piece(slips.course, finding) is None
    manifest = Edit(slips.course.manifest.span(0, 1), "x")
    assert mend_piece(slips.course, replace(finding, fix=Fix("", (manifest,)))) is None
    both = Fix("", (manifest, Edit(finding.span, "4:4 -")))
    assert mend_piece(slips.course, replace(finding, fix=both)) is None


def test_edits() -> None:
    """Edits go in at their places, in any order; those that overlap are refused."""
    source = Source("a", "one two three")
    two, three = Edit(source.span(4, 7), "2"), Edit(source.span(8, 13), "3")
    assert apply_edits(source.text, (three, two)) == "one 2 3"
    assert apply_edits(source.text, (Edit(source.span(3, 3), ","),)) == "one, two three"
    assert apply_edits(source.text, (two, Edit(source.span(5, 9), "x"))) is None
    assert apply_edits("one", (three,)) is None
