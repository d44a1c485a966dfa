"""Two licks that are said to be alike, and differ by something else than what is said.

``[this] is the same as [that] except one note``, ``[this] is [that] moved up two frets``: the notes of the
two links are laid side by side, sound by sound.

Why it matters: the student plays the second from the memory of the first.

What to do: say all that differs, or mend the notes.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.moved import read_move
from lickwright.checks.claims.pointed import Heard, Pointed
from lickwright.checks.claims.saying import say_place
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.terms.numbers import CARDINAL, read_number

_EXCEPT = re.compile(
    rf"(?i)\b(?:except|but|save|apart from)(?: for)?(?: the| that)? ?({CARDINAL}|an?|last|first)?\b"
)


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Lay the notes of both links side by side, moved as the words say."""
    (other, *exceptions), link = notes.others, claim.others[0]
    one, two = notes.voices[0], other.voices[0]
    tail = re.split(r"[.;]", link.passage.text[link.end :])[0]
    moved = _moves(tail)
    if moved is None:
        return Unresolved("how far it is moved is not clear")
    if exceptions and len(one) == len(two):
        return _but(claim, [a for a, b in zip(one, two, strict=True) if not _alike(a, b, moved)], exceptions)
    allowed = _allowed(tail)
    if len(one) != len(two):
        message = f"{say_place(notes)} has {len(one)} sounds, and {say_place(other)} has {len(two)}"
        return (
            Unresolved(message)
            if allowed is None
            else Differs(message, claim.terms[0], "Link stretches of one length, or say what is left out")
        )
    unlike = [a for a, b in zip(one, two, strict=True) if not _alike(a, b, moved)]
    if allowed is None:
        return HELD if len(unlike) * 2 <= len(one) else Unresolved("what differs is not counted")
    if len(unlike) == allowed:
        return HELD
    places = ", ".join(str(heard.sound.address) for heard in unlike[:6]) or "none"
    expected = "no sound" if not allowed else "one sound" if allowed == 1 else f"{allowed} sounds"
    return Differs(
        f"by the words {expected} differs, and these do: {places}",
        claim.terms[0],
        "Say how many sounds differ, or how far it is moved; else mend the notes",
    )


def _but(claim: Claim, unlike: list[Heard], exceptions: Sequence[Pointed]) -> Verdict:
    """Hold what differs against the sounds that further links leave out: ``except [C]``."""
    left_out = {heard.sound.address for each in exceptions for heard in each.heard}
    differing = {heard.sound.address for heard in unlike}
    if differing == left_out:
        return HELD
    said = ", ".join(map(str, sorted(left_out)[:6]))
    places = ", ".join(map(str, sorted(differing)[:6])) or "none"
    return Differs(
        f"by the words {said} differs, and these do: {places}",
        claim.terms[0],
        help="Name and link every sound that differs, or mend the notes",
    )


def _alike(one: Heard, two: Heard, moved: tuple[str, tuple[int, ...]]) -> bool:
    how, sizes = moved
    if how == "frets":
        first = {(t.string, t.fret) for t in one.sound.tones}
        return any(first == {(t.string, (t.fret or 0) + size) for t in two.sound.tones} for size in sizes)
    pitches = sorted(tone.path for tone in one.tones)
    return any(
        pitches == sorted(tuple(p + Fraction(size) for p in tone.path) for tone in two.tones)
        for size in sizes
    )


def _moves(text: str) -> tuple[str, tuple[int, ...]] | None:
    """How the second is moved to give the first: by frets on its strings, or by half steps."""
    if (move := read_move(text)) is not None:
        return move.by, move.sizes
    return None if re.search(r"(?i)\bmove[ds]?\b", text) else ("pitch", (0,))


def _allowed(text: str) -> int | None:
    """How many sounds may differ; None where the words leave it open."""
    found = _EXCEPT.search(text)
    if found is None:
        return 0
    word = (found[1] or "").casefold()
    return 1 if word in ("a", "an", "last", "first") else read_number(word) if word else None


RULE = Rule(
    id="prose/same-as",
    title="Two licks that are said to be alike, and differ otherwise",
    severity=Severity.QUERY,
    source=Source("common practice", "A shape is moved as a whole"),
    good=(
        Example(
            "```lick model\nA | 4:7 3:6 2:5 3:6 1:5 - 2:5 -\n```\n\n"
            "```lick example\nkey: B major\n\nB | 4:9 3:8 2:7 3:8 1:7 - 2:7 -\n```\n\n"
            "[This one](lick:example) is [the model](lick:model) moved up two frets."
        ),
    ),
    bad=(
        Example(
            "```lick model\nA | 4:7 3:6 2:5 3:6 1:5 - 2:5 -\n```\n\n"
            "```lick example\nkey: B major\n\nB | 4:9 3:8 2:7 3:8 2:7 - 2:7 -\n```\n\n"
            "[This one](lick:example) is [the model](lick:model) moved up two frets.",
            ("is",),
        ),
    ),
    survey=tell("same-as", Severity.QUERY),
)
