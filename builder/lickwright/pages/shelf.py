"""The editor's shelf: the pages beside the proof sheet, and how they name each other."""

from __future__ import annotations

from dataclasses import dataclass

from lickwright.pages.links import file_name, relative

PROOF = "proof.html"
HANDBOOK = "handbook/index.html"


@dataclass(frozen=True, slots=True)
class ShelfEntry:
    """One page on the shelf as another page links to it."""

    title: str
    href: str
    here: bool


def rule_path(rule: str) -> str:
    """Return where the page of a rule stands."""
    return f"handbook/{file_name(rule)}.html"


def shelf(page: str, guide: tuple[tuple[str, str], ...]) -> tuple[ShelfEntry, ...]:
    """Return the shelf as a page shows it.

    Args:
        page: The path of the page that shows it.
        guide: Title and path of every page of the author's guide.
    """
    entries = (("Proof sheet", PROOF), ("Handbook of rules", HANDBOOK), *guide)
    return tuple(ShelfEntry(title, relative(path, page), path == page) for title, path in entries)
