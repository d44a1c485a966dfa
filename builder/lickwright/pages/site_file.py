"""A file that stands beside the pages, brought as a classic script: a page from disk may fetch nothing.

Its name is the digest of what it brings, so that equal content is one file, whichever pages ask for it.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass

FOLDER = "views"


@dataclass(frozen=True, slots=True)
class SiteFile:
    """Content by its name.

    Attributes:
        key: 16 hexadecimal digits.
        body: The script, which hands its content to ``lickwright.view``.
    """

    key: str
    body: bytes

    @property
    def path(self) -> str:
        """Where it stands in the site."""
        return f"{FOLDER}/{self.key}.js"


def script_of(value: object) -> SiteFile:
    """Return the file that brings a value: JSON, which any script may hold as it is (ECMAScript 2019)."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    key = hashlib.sha256(text.encode()).hexdigest()[:16]
    return SiteFile(key, f'lickwright.view("{key}",{text});\n'.encode())
