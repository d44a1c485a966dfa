"""Lets the tests of sound import their laboratory, and tries its witness before it is believed."""

import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE), str(HERE.parent / "performance")]

from laboratory import Praat, hertz, reference  # noqa: E402 - the line above makes it known


@pytest.fixture(scope="session")
def praat() -> Praat:
    """The outside witness, tried on tones of known pitch and decay."""
    witness = Praat()
    for pitch, stiffness in ((hertz(40), 1.2e-4), (hertz(64), 2.5e-5), (hertz(86), 2e-4)):
        tone = reference(pitch, stiffness, 4.0, 1.2)
        assert abs(witness.cents(tone, pitch, 0.2, 0.9)) < 0.2
        # a tone that is two cents off must be seen to be
        assert witness.cents(tone, pitch * 2 ** (2 / 1200), 0.2, 0.9) == pytest.approx(-2, abs=0.2)
        fading = reference(pitch, stiffness, 2.0, 2)
        assert witness.ring(fading, pitch, 0.2, 1.5) == pytest.approx(2 / 1.02, rel=0.02)
    return witness
