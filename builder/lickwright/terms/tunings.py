"""Tunings by name: ``standard``, ``drop D``, ``open G``, ``DADGAD``.

References: common practice.
"""

from __future__ import annotations

import re

from lickwright.terms.notes import NOTE

STANDARD = ("E", "A", "D", "G", "B", "E")
"""The strings from the lowest to the highest."""
SPELLED: dict[str, tuple[str, ...]] = {
    "standard": STANDARD,
    "dadgad": ("D", "A", "D", "G", "A", "D"),
    "double drop d": ("D", "A", "D", "G", "B", "D"),
}
"""Tunings that go by one name."""

TUNING = (
    rf"(?:(?:open {NOTE}(?: (?:major|minor))?|standard|(?:double )?drop(?:ped)? {NOTE}|DADGAD)[ -]tuning\b"
    rf"|in (?:double )?drop(?:ped)? {NOTE}(?![ -](?:major|minor|tuning)\b)"
    rf"|tuned (?:to|in) (?:open {NOTE}(?: (?:major|minor))?|(?:double )?drop(?:ped)? {NOTE}|DADGAD)|DADGAD\b)"
)
"""Pattern of a tuning; notes are capitals."""

_NAME = re.compile(r"(?:[ -]tuning$|^(?:tuned )?(?:to|in) )")
_DROP = re.compile(r"drop(?:ped)? ([A-G].*)")
_OPEN = re.compile(rf"open ({NOTE})( minor)?")


def read_tuning(text: str) -> tuple[str, ...] | str | None:
    """Read a tuning that the pattern has found.

    Returns:
        The notes of its six strings, lowest first, or the chord that its open strings give.

    >>> read_tuning("drop D tuning"), read_tuning("open G tuning"), read_tuning("open D minor tuning")
    (('D', 'A', 'D', 'G', 'B', 'E'), 'G', 'Dm')
    """
    name = _NAME.sub("", text)
    if name.casefold() in SPELLED:
        return SPELLED[name.casefold()]
    if found := _DROP.fullmatch(name):
        return (found[1], *STANDARD[1:])
    if found := _OPEN.match(name):
        return f"{found[1]}{'m' if found[2] else ''}"
    return None
