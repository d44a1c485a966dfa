"""Short prefixes for the ids of a page's scores.

A prefix comes from the name alone, so that another lick on the page leaves a score as it was made.
"""

from __future__ import annotations

import hashlib
from base64 import b32encode
from collections import Counter
from collections.abc import Iterable

SHORTEST = 4
"""Letters of base 32: twenty bits, enough for the pieces of a page but for one page in a thousand."""


def short_prefixes(names: Iterable[str]) -> dict[str, str]:
    """Return a prefix for each name: the start of its digest, longer where two would be alike."""
    digests = {name: b32encode(hashlib.sha256(name.encode()).digest()).decode().lower() for name in names}
    found: dict[str, str] = {}
    length = SHORTEST
    while left := [name for name in digests if name not in found]:
        shared = Counter(digests[name][:length] for name in left)
        found |= {name: digests[name][:length] for name in left if shared[digests[name][:length]] == 1}
        length *= 2
    return found
