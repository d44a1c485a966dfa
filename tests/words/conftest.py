"""Lets the tests of words import the modules of this folder."""

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parent))
