"""Lets the tests of analysis import their scores, and the settings of the corpus."""

import sys
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parent), str(Path(__file__).parents[1] / "corpus")]
