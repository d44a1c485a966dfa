"""A site that stands as a publish would write it again is left standing.

What a publish wrote is recorded in the cache, under a key of all that it was made from: the builder and its
libraries, the theme, the text of every file of the course, and what was found in it. Under the same key the
same bytes would be written; so when every file in the place of the site is still what was written there,
nothing is left to do.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from pathlib import Path

from lickwright.building.budget import Weight
from lickwright.building.cache import Cache
from lickwright.building.pictures import read_pictures
from lickwright.building.proofing import Proofed
from lickwright.building.shelf import shelf_key
from lickwright.building.swap import MARKS
from lickwright.model.canonical import digest


@dataclass(frozen=True, slots=True)
class Record:
    """What a publish wrote and told.

    Attributes:
        files: Digest of every file by its path in the site.
        pictures: What the pages show of the course's pictures, by path in the site.
        weights: Of the lesson pages.
        warnings: Lick and sentence: what the engraver said.
        pages: Files of text. ``orders``: scores and sounds that were made for them or found.
    """

    files: Mapping[str, str]
    pictures: tuple[str, ...]
    weights: tuple[Weight, ...]
    warnings: tuple[tuple[str, str], ...]
    pages: int
    orders: int


def site_key(proofed: Proofed, theme: Mapping[str, str | bytes], *, sound: bool) -> str:
    """Return the cache key of the record of a site.

    Args:
        proofed: A course that can be published; its findings tell what was looked up beside its text.
        theme: Templates and assets by name.
        sound: Whether the site has sound.
    """
    assert proofed.course is not None
    lessons = (*proofed.course.lessons, *proofed.course.drafts)
    counted = hashlib.sha256(shelf_key(proofed.course, theme, sound=sound).encode())
    counted.update(digest(tuple(lesson.source for lesson in lessons)).encode())
    for finding in proofed.proof.findings:
        counted.update(repr((finding.sort_key, finding)).encode())
    return f"site-{counted.hexdigest()}"


def digest_of(body: bytes) -> str:
    """Return the digest by which a file is known again."""
    return hashlib.sha256(body).hexdigest()


def keep_record(cache: Cache, key: str, record: Record) -> None:
    """Put the record of a site into the cache."""
    cache.put(key, json.dumps(asdict(record)).encode())


def kept_record(cache: Cache, key: str) -> Record | None:
    """Return the record, or None when it is not there or damaged."""
    body = cache.get(key)
    if body is None:
        return None
    held = json.loads(body)
    return Record(
        files=held["files"],
        pictures=tuple(held["pictures"]),
        weights=tuple(
            Weight(**{**weight, "largest": tuple((name, size) for name, size in weight["largest"])})
            for weight in held["weights"]
        ),
        warnings=tuple((lick, sentence) for lick, sentence in held["warnings"]),
        pages=held["pages"],
        orders=held["orders"],
    )


def stands(record: Record, site: Path, course: Path) -> bool:
    """Tell whether the files of a site are those of the record, no more and no fewer.

    Args:
        record: Of what a publish would write.
        site: Where it would stand.
        course: The course's folder: a picture may have been painted over.
    """
    painted = {path: digest_of(body) for path, body in read_pictures(record.pictures, course)}
    shown = {path: record.files[path] for path in record.pictures if path in record.files}
    marks = {name: digest_of(text.encode()) for name, text in MARKS.items()}
    try:
        return painted == shown and _digests(site) == {**record.files, **marks}
    except OSError:
        return False


def _digests(site: Path) -> dict[str, str]:
    """Digest by path of everything in a folder; a link is no file that a publish wrote."""
    return {
        path.relative_to(site).as_posix(): "" if path.is_symlink() else digest_of(path.read_bytes())
        for path in site.rglob("*")
        if path.is_symlink() or not path.is_dir()
    }
