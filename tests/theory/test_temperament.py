"""Equal temperament against published values."""

import music21
import pytest

from lickwright.theory.temperament import cents, hertz


def test_hertz_as_music21() -> None:
    """Every MIDI number has music21's frequency."""
    for midi in range(128):
        assert hertz(midi) == pytest.approx(music21.pitch.Pitch(midi=midi).frequency, rel=1e-9)


def test_other_reference_pitch() -> None:
    """The frequency follows the reference; half a step is the geometric middle."""
    assert hertz(69, 442.0) == 442.0
    assert hertz(69.5) ** 2 == pytest.approx(hertz(69) * hertz(70))


def test_cents() -> None:
    """An octave has 1200 cents, the just fifth 702 (acoustics, common values)."""
    assert cents(2) == 1200
    assert cents(3 / 2) == pytest.approx(701.955, abs=1e-3)
