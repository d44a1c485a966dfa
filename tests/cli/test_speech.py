"""What an author wrote cannot steer a terminal."""

import pytest

from lickwright.cli.speech import harmless
from lickwright.report.text import clean


@pytest.mark.parametrize(
    "code", ["\x1b[2J", "\x1b]0;title\x07", "\r", "\x08", "\x9b31m", "\u202e", "\u2066", "\x00"]
)
def test_terminal_codes_are_shown_not_sent(code: str) -> None:
    """Control and direction signs are replaced, the words around them stay."""
    shown = harmless(f"bar {code} two")
    assert code[0] not in shown
    assert shown == clean(f"bar {code} two")
    assert shown.startswith("bar ")
    assert shown.endswith(" two")


@pytest.mark.parametrize("text", ["plain", "B♭ over D♯°, “so”", "two\nlines", "日本語", "e\u0301"])
def test_words_are_left_alone(text: str) -> None:
    """Signs of music, other scripts and line ends come out as they are."""
    assert harmless(text) == text
