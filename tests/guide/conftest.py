"""The guide, read and proofed once; lets the tests import the module of this folder."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.append(str(Path(__file__).parent))

from guide_examples import GUIDE

from lickwright.building.proofing import Proofed, proof_course


@pytest.fixture(scope="session")
def guide() -> Proofed:
    """The author's guide as a course, with its proof."""
    return proof_course(GUIDE)
