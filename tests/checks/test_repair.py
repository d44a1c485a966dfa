"""The one-fret repair is offered where it helps, and not where it does not."""

from __future__ import annotations

import pytest
from proofroom import Proofroom, only


@pytest.mark.parametrize(
    ("lick", "words"),
    [
        ("A | 2:3 - - - 3:2 - - -", "one fret lower is the third"),
        (
            "key: D major\n\nD | 4:0 - 3:2 - 2:3 - 3:2 -\n  | 4:3 - - - - - - -",
            "one fret higher is the third",
        ),
        ("A7 | 2:5 - 3:6 - 3:7b8 - - -", "bent one half step higher is the fifth"),
        ("key: G major\n\nEm | 4:2 - 4:6 - 2:0 - - -", "one fret lower is the minor third"),
    ],
)
def test_the_repair_says_what_it_would_be(room: Proofroom, lick: str, words: str) -> None:
    """The nearest fret that makes the note one of the chord, named by its degree."""
    assert only(room.prove(lick)).message.endswith(f"; {words}")


def test_the_repair_is_an_edit_that_clears_the_finding(room: Proofroom) -> None:
    """The fix taken over as it stands leaves nothing to find."""
    lick = "A | 5:0 - 5:4 - 4:2 - 3:3 -\n | 2:2 - - - 3:2 - - -"
    finding = only(room.prove(lick))
    assert finding.fix is not None
    (edit,) = finding.fix.edits
    text = edit.span.source.text
    mended = text[: edit.span.start] + edit.text + text[edit.span.end :]
    assert room.prove(mended).findings == ()


def test_a_bend_is_not_rewritten(room: Proofroom) -> None:
    """Where a bend misses, the words say how far; the author decides which fret it starts from."""
    assert only(room.prove("A7 | 2:5 - 3:6 - 3:7b8 - - -")).fix is None
