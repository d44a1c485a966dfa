"""A second, small course, on another guitar: dropped D, a capo, an acoustic sound, bars of 3, 6 and 12.

It guards against a builder that knows one tuning, one meter and a neck without a capo.
"""

from __future__ import annotations

import shutil
from fractions import Fraction
from pathlib import Path

import pytest

from lickwright.building.proofing import proof_course
from lickwright.findings import Severity
from lickwright.model.timeline import play, resolve
from lickwright.reading.course import read_course

COURSE = Path(__file__).parents[1] / "courses" / "low-water"


def test_the_course_proofs_clean() -> None:
    """No error and no query."""
    found = [finding for finding in proof_course(COURSE).proof.findings if finding.severity != Severity.NOTE]
    assert found == []


@pytest.mark.parametrize(
    ("lick", "first", "length"),
    [
        # Worked out by hand from the tuning: MIDI numbers of the first sounds, length in quarters.
        ("mud-steps", [[38, 45, 50], [38], [38], [38], [40], [42]], Fraction(16)),
        ("sandbar-jig", [[57], [62], [57], [62], [64], [65]], Fraction(24)),
        ("turn-of-the-tide", [[47], [59], [63], [66], [69], [66]], Fraction(24)),
        ("lock-gate-higher", [[70], [42], [54]], Fraction(12)),
    ],
)
def test_the_guitar_sounds_as_it_is_strung(lick: str, first: list[list[int]], length: Fraction) -> None:
    """The sixth string sounds D2, a capo lifts every string, and compound bars have their length."""
    course, _ = read_course(COURSE)
    assert course is not None
    book, _ = resolve(course)
    piece = book.piece(lick)
    assert piece is not None
    sounds = play(piece.music)
    heard = [[int(tone.path[0]) for tone in sound.sound.tones] for sound in sounds[: len(first)]]
    assert heard == first
    pickup = Fraction(1, 2) if lick == "sandbar-jig" else Fraction(0)
    assert max(sound.end for sound in sounds) <= length + pickup


@pytest.mark.parametrize(
    ("lesson", "right", "planted", "rule"),
    [
        pytest.param(
            "the-sixth-string-down",
            "low   | 6:5 - 4:0 -  6:5 - 4:0 -",
            "low   | 6:3 - 4:0 -  6:3 - 4:0 -",
            "witness/names",
            id="G where it lies in standard tuning",
        ),
        pytest.param(
            "the-sixth-string-down",
            "G5 | 6:5+5:5+4:5! -",
            "G5 | 6:5+5:7+4:5! -",
            "witness/names",
            id="the fifth where it lies in standard tuning",
        ),
        pytest.param(
            "a-jig-for-the-sandbar",
            "| 2:3 - 3:2  2:3 1:0 1:1",
            "| 2:3 - 3:2  2:3 1:0",
            "rhythm/bar-length",
            id="five eighths in a bar of six",
        ),
        pytest.param(
            "a-jig-for-the-sandbar",
            "| 1:3 1:0 2:1  3:0 2:1 1:0",
            "| 1:3 1:0 2:1  3:2 2:1 1:0",
            "witness/names",
            id="A for G, inside the mode",
        ),
        pytest.param(
            "the-tide-table",
            "names | E  B D G#  E D  B",
            "names | D  A C F#  D C  A",
            "witness/moved-bar",
            id="the names of the shapes, as if there were no capo",
        ),
        pytest.param(
            "the-tide-table",
            "B7 | 5:0 - -  3:2 2:2 1:0  1:3 - 1:0",
            "B7 | 5:0 - -  3:2 2:3 1:0  1:3 - 1:0",
            "witness/names",
            id="one fret too high under the capo",
        ),
        pytest.param(
            "the-tide-table",
            "capo: 2\nposition: open\nending: open",
            "capo: 3\nposition: open\nending: open",
            "witness/capo",
            id="a capo that the names of its lick contradict",
        ),
        pytest.param(
            "the-tide-table",
            "E7 B7 | 4:0 - -  . . .  5:0",
            "E7 B7 | 4:0 - -  . .  5:0",
            "rhythm/bar-length",
            id="eleven eighths in a bar of twelve",
        ),
    ],
)
def test_a_planted_slip_is_found(tmp_path: Path, lesson: str, right: str, planted: str, rule: str) -> None:
    """A slip that only this tuning, meter or capo makes a slip is reported by its rule."""
    folder = shutil.copytree(COURSE, tmp_path / "course")
    page = folder / "lessons" / f"{lesson}.md"
    text = page.read_text(encoding="utf-8")
    assert right in text
    page.write_text(text.replace(right, planted, 1), encoding="utf-8")
    assert rule in {finding.rule for finding in proof_course(folder).proof.findings}
