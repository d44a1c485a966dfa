"""The judgement of a picking hand that rules and prose share."""

from __future__ import annotations

from pathlib import Path

import pytest
from proofroom import MANIFEST

from lickwright.checks.strokes import list_against_swing, list_out_of_turn
from lickwright.model.music import Music
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course


def _read(folder: Path, row: str) -> Music:
    (folder / "lessons").mkdir()
    (folder / "course.toml").write_text(MANIFEST.format(style="country"), "utf-8")
    lick = f"# One\n\n```lick one\nA | 3:2 2:2 1:0 2:2 3:2 - 1:0 2:2\n  rh | {row}\n```\n"
    (folder / "lessons" / "example.md").write_text(lick, "utf-8")
    course, findings = read_course(folder)
    assert course is not None, findings
    return resolve(course)[0].pieces[0].music


@pytest.mark.parametrize(
    ("row", "out", "against"),
    [
        ("d u d u d u d", [], [6, 7]),  # turns about, against the swing after the quarter
        ("d u d u d d u", [], []),  # swings on through the quarter
        ("d u u d u d u", [3], [3, 4, 5]),
        ("d u d d d d u", [4], [4]),
        ("* * * * * * *", [], []),
    ],
)
def test_turns_or_swing(tmp_path: Path, row: str, out: list[int], against: list[int]) -> None:
    """Alternate picking is either of two ways, and the one that asks for less is held; pendulum is one."""
    music = _read(tmp_path, row)
    assert [slip.stroke.sound.address.sound for slip in list_out_of_turn(music)] == out
    told = [(slip.stroke.sound.address.sound or 0, slip.count) for slip in list_against_swing(music)]
    assert [place + k for place, count in told for k in range(count)] == against


def test_a_part_of_the_lick_is_judged_by_itself(tmp_path: Path) -> None:
    """The slip at the third stroke is none of the last three's."""
    music = _read(tmp_path, "d u u d u d u")
    addresses = [sound.address for sound in music.bars[0].upper.sounds]
    last, first = addresses[4:], addresses[:4]
    assert list_out_of_turn(music, within=last) == []
    slips = list_out_of_turn(music, within=first)
    assert [(slip.given, slip.wanted, slip.count) for slip in slips] == [("u", "d", 1)]
