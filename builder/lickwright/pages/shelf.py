"""The editor's shelf: the pages beside the proof sheet, and how they name each other."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from lickwright.pages.links import file_name, relative

PROOF = "proof.html"
HANDBOOK = "handbook/index.html"
GUIDE = "guide/index.html"
ROOM = "proof-room/index.html"


@dataclass(frozen=True, slots=True)
class ShelfEntry:
    """One page on the shelf as another page links to it."""

    title: str
    href: str
    here: bool


def rule_path(rule: str) -> str:
    """Return where the page of a rule stands."""
    return f"handbook/{file_name(rule)}.html"


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a page of contents; an empty field is not printed."""

    title: str
    href: str
    number: str = ""
    fact: str = ""
    typed: str = ""
    deck: Markup = Markup("")


@dataclass(frozen=True, slots=True)
class Group:
    """A side-head with its lines."""

    title: str
    entries: tuple[Entry, ...]


def shelf(page: str, *, guide: bool) -> tuple[ShelfEntry, ...]:
    """Return the shelf as a page shows it.

    Args:
        page: The path of the page that shows it.
        guide: Whether the author's guide stands on it, and the proof room.
    """
    entries = [("Proof sheet", PROOF), ("Handbook of rules", HANDBOOK)]
    entries += [("Author’s guide", GUIDE), ("The proof room", ROOM)] if guide else []
    return tuple(ShelfEntry(title, relative(path, page), path == page) for title, path in entries)
