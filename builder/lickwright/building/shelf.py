"""The editor's shelf kept between publishes: it changes with the builder, not with a course.

A whole shelf is one cache entry. Its key is what the pages are made of: our own source, the
theme as read, and what of the course stands on every page (title, author, edition, licence).
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import replace

from lickwright.building.cache import Cache
from lickwright.building.renderers import builder_version
from lickwright.model.canonical import digest
from lickwright.model.course import Course

Shelf = Mapping[str, str]
"""Text of every page of the shelf, and of every sound of its pages, by its path in the site."""


def shelf_key(course: Course, theme: Mapping[str, str | bytes], *, sound: bool = True) -> str:
    """Return the cache key of the shelf beside a course.

    Args:
        course: Only what every page shows of it counts.
        theme: Templates and assets by name.
        sound: Whether the shelf has its sounds.
    """
    counted = hashlib.sha256(f"{builder_version()} {sound}".encode())
    counted.update(digest(replace(course, units=(), promises=(), places=())).encode())
    for name in sorted(theme):
        body = theme[name]
        counted.update(f"\n{name}\n".encode())
        counted.update(body.encode() if isinstance(body, str) else body)
    return f"shelf-{counted.hexdigest()}"


def keep_shelf(cache_: Cache, key: str, shelf: Shelf) -> None:
    """Put a finished shelf into the cache."""
    cache_.put(key, json.dumps(dict(shelf), ensure_ascii=False).encode())


def kept_shelf(cache_: Cache, key: str) -> Shelf | None:
    """Return the shelf, or None when it is not there or damaged."""
    body = cache_.get(key)
    return None if body is None else json.loads(body)
