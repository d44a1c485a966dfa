"""Equal temperament against published values."""

from collections.abc import Callable

import music21
import pytest

from lickwright.theory.temperament import cents, hertz


def _in_tune(midi: float, sounding: float) -> bool:
    """Whether a frequency is music21's for a note, to a part in a thousand million."""
    return bool(sounding == pytest.approx(music21.pitch.Pitch(midi=midi).frequency, rel=1e-9))


def test_hertz_as_music21() -> None:
    """Every MIDI number has music21's frequency."""
    assert all(_in_tune(midi, hertz(midi)) for midi in range(128))


@pytest.mark.parametrize(
    "tuned",
    [
        pytest.param(lambda midi: hertz(midi + 0.001), id="a tenth of a cent sharp"),
        pytest.param(lambda midi: hertz(midi, 440.001), id="another A"),
        pytest.param(lambda midi: hertz(midi + 1), id="numbers one off"),
        pytest.param(
            lambda midi: 440 * (3 / 2) ** ((midi - 69) * 7 % 12) / 2 ** ((midi - 69) * 7 // 12),
            id="by pure fifths",
        ),
    ],
)
def test_another_tuning_is_heard(tuned: Callable[[int], float]) -> None:
    """What is out of tune by a tenth of a cent is no note of music21's."""
    assert not all(_in_tune(midi, tuned(midi)) for midi in range(60, 72))


def test_other_reference_pitch() -> None:
    """The frequency follows the reference; half a step is the geometric middle."""
    assert hertz(69, 442.0) == 442.0
    assert hertz(69.5) ** 2 == pytest.approx(hertz(69) * hertz(70))


def test_cents() -> None:
    """An octave has 1200 cents, the just fifth 702 (acoustics, common values)."""
    assert cents(2) == 1200
    assert cents(3 / 2) == pytest.approx(701.955, abs=1e-3)
