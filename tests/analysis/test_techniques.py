"""The techniques of a piece."""

from __future__ import annotations

import pytest
from scores import read_piece

from lickwright.analysis.techniques import list_techniques
from lickwright.model.address import Address
from lickwright.terms.techniques import NAMES


@pytest.mark.parametrize(
    ("text", "used"),
    [
        ("A | 5:0 - 4:2 - 3:2 - - -", []),
        ("A | 4:2 h 4:4 p 4:2 s 4:4 - s! 4:2 - - -", ["hammer-on", "pull-off", "slide", "shift slide"]),
        ("A | /4:4 - 4:2\\ - 3:2~ - - -", ["slide", "vibrato"]),
        ("A | 3:7b9 - 3:7pb9r7 - 3:7 - 3:b9 -", ["bend", "pre-bend", "release"]),
        ("A | 3:0nb2 - 5:<12> - 4:2<14> - 2:t12 -",
         ["behind-the-nut bend", "harmonic", "stopped harmonic", "tapping"]),
        ("A | ring[3:2 2:2] mute[5:0 5:0] 4:x - 2:h5 -", ["hammer-on", "let ring", "palm mute", "dead note"]),
        ("A | g(5:x 4:x 3:x) 2:5 - g(2:3) 2:5 - 3:2+2:2 - 4:2+3:2+2:2^ -",
         ["hammer-on", "rake", "grace note", "double stop", "chord", "spread chord"]),
        ("A | 3:2 - 3:2 - 3:2 - 3:x -\n  signs | tremolo trill4 wide+ghost scrape",
         ["vibrato", "dead note", "tremolo", "trill", "scrape", "ghost note"]),
        ("picking: hybrid\nclaims: forward roll\n\nA | 4:2 3:2 2:2 - 4:2 - - -\n  low | 6:0 - - - - - - -",
         ["hybrid picking", "forward roll", "two voices"]),
    ],
)  # fmt: skip
def test_what_is_played_is_named(text: str, used: list[str]) -> None:
    """Every sign of the language that is a technique counts, in the order of the table."""
    found = list(list_techniques(read_piece(text)))
    assert found == sorted(used, key=NAMES.index)


def test_the_first_place_counts() -> None:
    """A technique is told where it first comes."""
    use = list_techniques(read_piece("A | 4:2 - 3:2 h 3:4 2:2 h 2:3 - -"))["hammer-on"]
    assert (use.address, use.span.text) == (Address(1, 3), "3:4")
