"""The cache: whole entries or none, damage noticed, the idle dropped first."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from lickwright.building.cache import SEALED, Cache, default_folder

KEY = "ab" + "c" * 62
BODY = b"one\ntwo\n" * 100


@pytest.fixture
def cache(tmp_path: Path) -> Cache:
    return Cache(tmp_path / "cache")


def test_what_was_put_comes_back(cache: Cache) -> None:
    """Bytes come back as they were, an empty entry and one with line ends too."""
    for key, body in ((KEY, BODY), ("00aa", b""), ("00ab", b"\n\n")):
        assert cache.get(key) is None
        assert not cache.holds(key)
        cache.put(key, body)
        assert cache.holds(key)
        assert cache.get(key) == body


@pytest.mark.parametrize(
    "damage",
    [
        lambda entry: entry[:-1],
        lambda entry: entry + b"x",
        lambda _: b"",
        lambda entry: bytes(len(entry)),
        lambda entry: entry[:80] + bytes([entry[80] ^ 1]) + entry[81:],
        lambda entry: b"0" * 64 + entry[64:],
        lambda entry: entry.replace(b"\n", b" "),
    ],
)
@pytest.mark.parametrize("asked", ["get", "holds"])
def test_damage_is_noticed(cache: Cache, damage, asked: str) -> None:
    """A cut, longer, emptied, zeroed or altered entry is none, is thrown away and can be put anew."""
    cache.put(KEY, BODY)
    path = cache.path(KEY)
    path.write_bytes(damage(path.read_bytes()))
    assert not getattr(cache, asked)(KEY)
    assert not path.exists()
    cache.put(KEY, BODY)
    assert cache.get(KEY) == BODY


def test_a_copied_cache_is_checked_once(cache: Cache) -> None:
    """An entry whose time changed and whose bytes did not is kept and sealed again."""
    cache.put(KEY, BODY)
    path = cache.path(KEY)
    assert path.stat().st_mtime_ns == SEALED
    os.utime(path)
    assert path.stat().st_mtime_ns != SEALED
    assert cache.holds(KEY)
    assert path.stat().st_mtime_ns == SEALED


def test_the_idle_go_first(cache: Cache) -> None:
    """Past the limit the entries used longest ago are dropped, and no others."""
    for number, key in enumerate(("aa01", "aa02", "aa03", "aa04")):
        cache.put(key, bytes(1000))
        os.utime(cache.path(key), ns=(number + 1, SEALED))
    cache.get("aa01")
    assert cache.trim(limit=2 * 1066 + 10) == 2
    assert [key for key in ("aa01", "aa02", "aa03", "aa04") if cache.holds(key)] == ["aa01", "aa04"]
    assert cache.trim() == 0


def test_half_written_entries_of_the_dead_are_dropped(cache: Cache) -> None:
    """What a killed process left is removed; what a living one is writing stays."""
    dead = subprocess.Popen([sys.executable, "-c", ""])
    dead.wait()
    cache.put(KEY, BODY)
    left = cache.path(KEY).with_name(f"cc.{dead.pid}.part")
    left.write_bytes(b"x")
    live = cache.path(KEY).with_name(f"cc.{os.getpid()}.part")
    live.write_bytes(b"x")
    assert cache.trim() == 1
    assert not left.exists()
    assert live.exists()


def test_a_disk_that_keeps_something_else_is_noticed(cache: Cache, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is read back after writing must be what was written."""
    write = Path.write_bytes
    monkeypatch.setattr(Path, "write_bytes", lambda path, data: write(path, data[:-1]))
    with pytest.raises(OSError, match="does not hold"):
        cache.put(KEY, BODY)
    assert not list(cache.folder.glob("*/*"))


def test_the_folder_follows_the_platform(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """XDG_CACHE_HOME counts when it is absolute, else the convention of the system."""
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "x"))
    assert default_folder() == tmp_path / "x" / "lickwright"
    monkeypatch.setenv("XDG_CACHE_HOME", "relative")
    assert default_folder() == tmp_path / ".cache" / "lickwright"
    monkeypatch.delenv("XDG_CACHE_HOME")
    monkeypatch.setattr(sys, "platform", "darwin")
    assert default_folder() == tmp_path / "Library" / "Caches" / "lickwright"
