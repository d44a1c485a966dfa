"""Puts a finished folder in the place of the published one, whole, in one step.

Linux and macOS exchange two folders in one system call. Where there is none (another system, a file system
that refuses), two renames do it, and a marker beside them lets the next publish finish what a kill cut off.
Everything lies beside the site, so that it is on the same file system:

    .site.next    the new site while it is written, then the old one until it is gone
    .site.past    the old site between the two renames
    .site.swap    the marker: the new site is complete
"""

from __future__ import annotations

import ctypes
import errno
import os
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

SEAL = ".lickwright"
"""A file of every site we published; a folder that is not empty and has none is not ours to replace."""

_SEAL_TEXT = "A site published by lickwright. The next publish replaces this whole folder.\n"
_IGNORE = ".gitignore"
_IGNORE_SITE = "*\n!.gitignore\n"
_IGNORE_ALL = "*\n"

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


def berth(folder: Path) -> Berth:
    """Return the place of a site; a link is followed, so that the link itself stays."""
    site = folder.resolve()
    beside = {end: site.with_name(f".{site.name}.{end}") for end in ("next", "past", "swap")}
    return Berth(site, beside["next"], beside["past"], beside["swap"])


@contextmanager
def new_site(folder: Path) -> Iterator[Path]:
    """Give an empty folder to write a site into; swap it in when the block ends without an exception.

    Whatever happens, the site that was published before stays whole until the new one is.

    Args:
        folder: Where the site is to stand; its parents are made.

    Raises:
        NotOursError: ``folder`` is a file, or holds something that no publish put there.
        BusyError: Another process is publishing there.
        OSError: The disk refuses.
    """
    place = berth(folder)
    check_ours(place.site)
    place.site.parent.mkdir(parents=True, exist_ok=True)
    with _alone(place.site.parent):
        finish(place)
        _remove(place.next)
        place.next.mkdir()
        # What is left after a kill must not show in the author's version control.
        (place.next / _IGNORE).write_text(_IGNORE_ALL, encoding="utf-8")
        try:
            yield place.next
            (place.next / SEAL).write_text(_SEAL_TEXT, encoding="utf-8")
            (place.next / _IGNORE).write_text(_IGNORE_SITE, encoding="utf-8")
            _swap(place)
        finally:
            _remove(place.next)
            finish(place)


def restore(folder: Path) -> None:
    """Finish what a killed publish left undone, so that the place holds a whole site again."""
    place = berth(folder)
    if place.marker.exists() or place.past.exists():
        with _alone(place.site.parent):
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
def _alone(parent: Path) -> Iterator[None]:
    """Hold a lock on the folder around the site; the system lets go of it when the process ends."""
    try:
        import fcntl
    except ImportError:
        yield
        return
    handle = os.open(parent, os.O_RDONLY)
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise BusyError(f"another publish is at work in {parent.name}") from None
        except OSError:
            pass  # a file system without locks
        yield
    finally:
        os.close(handle)


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
