"""A cache of files named by what they were made from.

An entry is ``ab/cdef…`` under the cache folder: one header line (digest and length of what follows), then
the bytes. It is written beside, read back, and moved into place in one step, so a kill leaves an entry
whole or not there. A sound entry has its modification time set to ``SEALED``: whatever touches the file
later changes the time, and only then is the digest counted again. The access time, set by hand at each use,
says which entries have been idle longest when the cache has grown past its limit.
"""

from __future__ import annotations

import hashlib
import os
import sys
import time
from contextlib import suppress
from pathlib import Path

SEALED = 315_619_200_000_000_000
"""Nanoseconds since 1970 of 1980-01-02, a whole even second: kept by every file system."""

LIMIT = 4 * 1024**3
"""Bytes that the cache may hold after a publish."""

_DIGEST = 64


def default_folder() -> Path:
    """Return the user's cache folder by the platform's convention.

    ``$XDG_CACHE_HOME/lickwright`` (XDG Base Directory Specification), else ``~/.cache/lickwright``; on macOS
    ``~/Library/Caches/lickwright``. A relative ``XDG_CACHE_HOME`` is ignored, as the specification demands.
    """
    named = os.environ.get("XDG_CACHE_HOME", "")
    if Path(named).is_absolute():
        return Path(named) / "lickwright"
    base = "Library/Caches" if sys.platform == "darwin" else ".cache"
    return Path.home() / base / "lickwright"


class Cache:
    """Bytes by key.

    Args:
        folder: Made when the first entry is put.

    A key is at least three hexadecimal digits. Reading never raises: an entry that is missing, damaged or
    unreadable is one that has to be made.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def path(self, key: str) -> Path:
        """Return where the entry of a key lies, or would lie."""
        return self.folder / key[:2] / key[2:]

    def get(self, key: str) -> bytes | None:
        """Return the bytes of a key, or None when they must be made; a damaged entry is thrown away."""
        path = self.path(key)
        try:
            with path.open("rb") as file:
                status = os.fstat(file.fileno())
                entry = file.read()
            body = _body(entry, trusted=status.st_mtime_ns == SEALED)
            if body is None:
                path.unlink()
            else:
                _seal(path)
        except OSError:
            return None
        return body

    def holds(self, key: str) -> bool:
        """Tell whether ``get`` would find the key, reading it only when its time or size has changed."""
        path = self.path(key)
        try:
            with path.open("rb") as file:
                status = os.fstat(file.fileno())
                header = file.readline(_DIGEST + 24)
        except OSError:
            return False
        if status.st_mtime_ns == SEALED and _length(header) == status.st_size - len(header):
            return True
        return self.get(key) is not None

    def put(self, key: str, body: bytes) -> None:
        """Keep the bytes of a key.

        Raises:
            OSError: When the disk refuses them, or gives back something else.
        """
        path = self.path(key)
        path.parent.mkdir(parents=True, exist_ok=True)
        beside = path.with_name(f"{path.name}.{os.getpid()}.part")
        try:
            beside.write_bytes(_header(body) + body)
            if _body(beside.read_bytes(), trusted=False) != body:
                raise OSError(f"{beside} does not hold what was written to it")
            _seal(beside)
            beside.replace(path)
        finally:
            with suppress(OSError):
                beside.unlink(missing_ok=True)

    def trim(self, limit: int = LIMIT) -> int:
        """Drop the entries idle longest until the rest fit into ``limit`` bytes; return how many went.

        What a killed process left half written goes with them.
        """
        dropped = 0
        entries: list[tuple[int, int, str]] = []
        for file in self.folder.glob("??/*"):
            with suppress(OSError):
                if file.suffix == ".part":
                    dropped += _drop_orphan(file)
                    continue
                status = file.stat()
                entries.append((status.st_atime_ns, status.st_size, str(file)))
        size = sum(entry[1] for entry in entries)
        for _, length, name in sorted(entries):
            if size <= limit:
                break
            with suppress(OSError):
                Path(name).unlink()
                dropped += 1
            size -= length
        return dropped


def _header(body: bytes) -> bytes:
    return f"{hashlib.sha256(body).hexdigest()} {len(body)}\n".encode()


def _length(header: bytes) -> int | None:
    count = header[_DIGEST + 1 : -1]
    return int(count) if header.endswith(b"\n") and count.isdigit() else None


def _body(entry: bytes, *, trusted: bool) -> bytes | None:
    header, newline, body = entry.partition(b"\n")
    if _length(header + newline) != len(body):
        return None
    return body if trusted or header + newline == _header(body) else None


def _seal(path: Path) -> None:
    with suppress(OSError):  # a cache on a read-only disk still serves
        os.utime(path, ns=(time.time_ns(), SEALED))


def _drop_orphan(part: Path) -> int:
    owner = part.suffixes[-2][1:] if len(part.suffixes) > 1 else ""
    if owner.isdigit() and _alive(int(owner)):
        return 0
    part.unlink()
    return 1


def _alive(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True
