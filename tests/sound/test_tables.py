"""Strings of any tuning from the tables; nothing slow is imported to sound them."""

import os
import subprocess
import sys
from itertools import pairwise

import numpy as np
import pytest

from lickwright.sound.tables import GUITARS


@pytest.mark.parametrize("instrument", GUITARS)
def test_strings_between_the_tables_lie_between(instrument: str) -> None:
    """The rows come back exactly; a string between two of its kind lies between; beyond, it holds."""
    guitar = GUITARS[instrument]
    for kind in (guitar.wound, guitar.plain):
        for row in kind:
            found = guitar.material(row.open)
            assert found.ring == row.ring
            assert found.inharmonicity == pytest.approx(row.inharmonicity)
            assert found.wound is row.wound
        for low, high in pairwise(kind):
            between = guitar.material((low.open + high.open) / 2)
            assert min(low.ring, high.ring) < between.ring < max(low.ring, high.ring)
            assert min(low.ring_5k, high.ring_5k) < between.ring_5k < max(low.ring_5k, high.ring_5k)
    assert guitar.material(20).ring == guitar.wound[0].ring
    assert guitar.material(76).ring == guitar.plain[-1].ring


@pytest.mark.parametrize("instrument", GUITARS)
def test_wound_and_plain_agree_with_common_sets(instrument: str) -> None:
    """Common practice: an electric set has a plain third string, a steel acoustic set a wound one."""
    guitar = GUITARS[instrument]
    kinds = [guitar.material(pitch).wound for pitch in (64, 59, 55, 50, 45, 40)]
    assert kinds == [False, False, instrument == "acoustic", True, True, True]
    # dropped tunings do not change a string's kind
    assert guitar.material(38).wound
    assert not guitar.material(57).wound


def test_rates_are_possible() -> None:
    """No partial decays slower than its fundamental at any pitch of four to eight strings."""
    for guitar in GUITARS.values():
        for pitch in np.arange(28, 77, 0.5):
            material = guitar.material(float(pitch))
            assert 0 < material.ring_5k < material.ring
            assert 0 < material.inharmonicity < 1e-3


def test_sounding_imports_neither_scipy_nor_the_encoder() -> None:
    """The import costs of a worker are numpy's alone; soundfile comes when something is encoded."""
    code = (
        "import sys; import lickwright.sound.render, lickwright.sound.encode, lickwright.performance.perform;"
        "print([name for name in ('scipy', 'soundfile', 'music21', 'verovio') if name in sys.modules])"
    )
    path = os.pathsep.join(entry for entry in sys.path if entry)
    run = subprocess.run(
        [sys.executable, "-c", code], env=os.environ | {"PYTHONPATH": path}, capture_output=True, check=True
    )
    assert run.stdout.decode().strip() == "[]"
