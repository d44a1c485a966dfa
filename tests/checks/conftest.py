"""Opens the proof room to the tests of rules."""

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from proofroom import Proofroom


@pytest.fixture
def room(tmp_path: Path) -> Proofroom:
    """A place to make courses in."""
    return Proofroom(tmp_path)
