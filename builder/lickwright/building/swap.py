"""Puts a finished folder in the place of the published one, whole, in one step.

Linux and macOS exchange two folders in one system call. Where there is none (another system, a file system
that refuses), two renames do it, and a marker beside them lets the next publish finish what a kill cut off.
Everything lies beside the site, so that it is on the same file system:

    .site.next    the new site while it is written, then the old one until it is gone
    .site.past    the old site between the two renames
    .site.swap    the marker: the new site is complete
    .site.lock    an empty folder, held by the process that publishes there
"""

from __future__ import annotations

import ctypes
import errno
import os
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

SEAL = ".lickwright"
"""A file of every site we published; a folder that is not empty and has none is not ours to replace."""

_SEAL_TEXT = "A site published by lickwright. The next publish replaces this whole folder.\n"
_IGNORE = ".gitignore"
_IGNORE_SITE = "*\n!.gitignore\n"
_IGNORE_ALL = "*\n"

MARKS = {SEAL: _SEAL_TEXT, _IGNORE: _IGNORE_SITE}
"""Files that stand in every published site beside its own, by name."""

_AT_CWD = -100 if sys.platform.startswith("linux") else -2
_EXCHANGE = 2  # RENAME_EXCHANGE of <linux/fs.h> and RENAME_SWAP of <sys/stdio.h>
_REFUSED = {errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP, errno.EPERM}


class NotOursError(OSError):
    """The folder to publish into holds something that no publish put there."""


class BusyError(OSError):
    """Another publish into the same place is under way."""


@dataclass(frozen=True, slots=True)
class Berth:
    """The place of a site and what may lie beside it while it is replaced."""

    site: Path
    next: Path
    past: Path
    marker: Path
    lock: Path


def berth(folder: Path) -> Berth:
    """Return the place of a site; a link is followed, so that the link itself stays.

    Raises:
        NotOursError: Links lead in a circle, or to the root of the disk: there is no place for a site.
    """
    try:
        site = folder.resolve()
    except (RuntimeError, OSError):
        raise NotOursError(f"{folder} is a link that leads in a circle") from None
    if not site.name or site.is_symlink():  # later versions of resolve leave a circle as it is
        reason = "is a link that leads in a circle" if site.name else "is the root of the disk"
        raise NotOursError(f"{folder} {reason}; a site wants a folder of its own")
    beside = (site.with_name(f".{site.name}.{end}") for end in ("next", "past", "swap", "lock"))
    return Berth(site, *beside)


@contextmanager
def alone(folder: Path) -> Iterator[None]:
    """Hold the place of a site against other publishes, from before the work to its end.

    What a killed publish left undone is finished first, so that the place holds a whole site or none.

    Raises:
        NotOursError: ``folder`` is a file, or holds something that no publish put there.
        BusyError: Another process is publishing there; said at once.
        OSError: The disk refuses.
    """
    place = berth(folder)
    check_ours(place.site)
    place.site.parent.mkdir(parents=True, exist_ok=True)
    with _locked(place):
        finish(place)
        yield


@contextmanager
def new_site(folder: Path) -> Iterator[Path]:
    """Give an empty folder to write a site into; swap it in when the block ends without an exception.

    Whatever happens, the site that was published before stays whole until the new one is.

    Args:
        folder: Where the site is to stand; held with ``alone`` by the caller.

    Raises:
        OSError: The disk refuses.
    """
    place = berth(folder)
    check_ours(place.site)
    _remove(place.next)
    place.next.mkdir()
    # What is left after a kill must not show in the author's version control.
    (place.next / _IGNORE).write_text(_IGNORE_ALL, encoding="utf-8")
    try:
        yield place.next
        for name, text in MARKS.items():
            (place.next / name).write_text(text, encoding="utf-8")
        _swap(place)
    finally:
        _remove(place.next)
        finish(place)


def check_ours(site: Path) -> None:
    """Check that the folder is missing, empty but for its ``.gitignore``, or was published by us.

    Raises:
        NotOursError: It is none of these.
    """
    if site.is_dir():
        names = {entry.name for entry in site.iterdir()}
        if SEAL in names or names <= {_IGNORE}:
            return
        raise NotOursError(f"{site.name} holds files that no publish put there")
    if site.exists():
        raise NotOursError(f"{site.name} is a file, not a folder")


def finish(place: Berth) -> None:
    """Complete a swap by two renames that was cut off, or go back to the old site; drop its remains."""
    if place.marker.exists() and place.next.exists():
        _rename_twice(place)
    elif place.past.exists() and not place.site.exists():
        place.past.rename(place.site)
    place.marker.unlink(missing_ok=True)
    _remove(place.past)


def _swap(place: Berth) -> None:
    if not place.site.exists():
        place.next.rename(place.site)
    elif not exchange(place.next, place.site):
        place.marker.touch()
        _rename_twice(place)


def _rename_twice(place: Berth) -> None:
    """Put the new site in place in two steps, of which the first may be done already."""
    if place.site.exists():
        _remove(place.past)
        place.site.rename(place.past)
    place.next.rename(place.site)


def exchange(one: Path, other: Path) -> bool:
    """Exchange two folders in one step; return False where the system or file system cannot.

    Raises:
        OSError: It can, and refused these two.
    """
    paths = os.fsencode(one), os.fsencode(other)
    library = ctypes.CDLL(None, use_errno=True)
    try:
        if sys.platform == "darwin":
            status = library.renamex_np(*paths, ctypes.c_uint(_EXCHANGE))
        else:
            status = library.renameat2(_AT_CWD, paths[0], _AT_CWD, paths[1], ctypes.c_uint(_EXCHANGE))
    except AttributeError:  # a C library without it
        return False
    if status == 0:
        return True
    code = ctypes.get_errno()
    if code in _REFUSED:
        return False
    raise OSError(code, os.strerror(code), str(other))


@contextmanager
def _locked(place: Berth) -> Iterator[None]:
    """Hold the lock of a site; the system lets go of it when the process ends, killed or not."""
    try:
        import fcntl
    except ImportError:
        yield
        return
    while True:
        place.lock.mkdir(exist_ok=True)
        with suppress(FileNotFoundError):
            # Left by a kill, it must not show in the author's version control either.
            (place.lock / _IGNORE).write_text(_IGNORE_ALL, encoding="utf-8")
            handle = os.open(place.lock, os.O_RDONLY)
            try:
                fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except BlockingIOError:
                os.close(handle)
                raise BusyError(f"another publish into {place.site.name} is at work") from None
            except OSError:
                break  # a file system without locks
            if _is_at(handle, place.lock):
                break
            os.close(handle)  # who held it has just put it away
    try:
        yield
    finally:
        with suppress(OSError):  # somebody who looks for it at this moment keeps it
            (place.lock / _IGNORE).unlink()
            place.lock.rmdir()  # while it is held: who opened it meanwhile looks again
        os.close(handle)


def _is_at(handle: int, path: Path) -> bool:
    try:
        return os.path.samestat(os.fstat(handle), path.stat())
    except OSError:
        return False


def _remove(folder: Path) -> None:
    if not folder.exists():
        return
    # First this: half removed, it would show in the author's version control.
    (folder / _IGNORE).write_text(_IGNORE_ALL, encoding="utf-8")
    for entry in folder.iterdir():
        if entry.name == _IGNORE:
            continue
        if entry.is_dir() and not entry.is_symlink():
            shutil.rmtree(entry)
        else:
            entry.unlink()
    shutil.rmtree(folder)
