"""The swap: whatever is killed, wherever, one whole site stands."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from lickwright.building import swap
from lickwright.building.swap import BusyError, NotOursError, new_site

OLD = {"index.html": "old", "lessons/one.html": "old one", "sound/a.js": "old a"}
NEW = {"index.html": "new", "lessons/one.html": "new one", "theme/page.css": "new css"}


def write(site: Path, files: dict[str, str]) -> None:
    with swap.alone(site), new_site(site) as folder:
        for name, text in files.items():
            (folder / name).parent.mkdir(exist_ok=True)
            (folder / name).write_text(text, encoding="utf-8")


def read(site: Path) -> dict[str, str]:
    files = {
        path.relative_to(site).as_posix(): path.read_text(encoding="utf-8")
        for path in site.rglob("*")
        if path.is_file()
    }
    assert files.pop(".gitignore") == "*\n!.gitignore\n"
    files.pop(swap.SEAL)
    return files


@pytest.fixture(params=["one call", "two renames"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Both ways of putting the site in place."""
    if request.param == "two renames":
        monkeypatch.setattr(swap, "exchange", lambda *_: False)
    return request.param


@pytest.mark.usefixtures("way")
def test_a_site_replaces_a_site(tmp_path: Path) -> None:
    """The new site stands with exactly its files, and nothing is left beside it."""
    site = tmp_path / "site"
    write(site, OLD)
    assert read(site) == OLD
    write(site, NEW)
    assert read(site) == NEW
    assert [entry.name for entry in tmp_path.iterdir()] == ["site"]


def test_the_exchange_is_one_call_here(tmp_path: Path) -> None:
    """On Linux and macOS two folders change places in one call."""
    one, other = tmp_path / "one", tmp_path / "other"
    one.mkdir()
    other.mkdir()
    (one / "a").touch()
    assert swap.exchange(one, other)
    assert (other / "a").exists()
    assert not (one / "a").exists()
    with pytest.raises(FileNotFoundError):
        swap.exchange(one, tmp_path / "missing")


def killed_at(step: int, site: Path) -> bool:
    """Publish NEW in a process that kills itself before its ``step``-th call to the file system."""
    child = os.fork()
    if child == 0:
        left = step

        def count(event: str, _: tuple[object, ...]) -> None:
            nonlocal left
            if event.startswith(("os.", "open", "shutil.", "ctypes.dlsym")) and event != "os.listdir":
                left -= 1
                if left < 0:
                    os._exit(9)  # as SIGKILL: nothing is cleaned up

        sys.addaudithook(count)
        try:
            write(site, NEW)
        finally:
            os._exit(0)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 9


def test_a_kill_at_every_step_loses_nothing(tmp_path: Path, way: str) -> None:
    """Wherever it is killed, the old or the new site is whole; the next publish finds its way."""
    seen: set[str] = set()
    step = 0
    site = tmp_path / "site"
    while True:
        write(site, OLD)
        if not killed_at(step, site):
            break
        if way == "one call":
            assert read(site) in (OLD, NEW)
        with swap.alone(site):
            pass
        assert read(site) in (OLD, NEW)
        seen.add(read(site)["index.html"])
        if step % 3 == 0:
            write(site, NEW)
            assert read(site) == NEW
            assert [entry.name for entry in tmp_path.iterdir()] == ["site"]
        step += 1
    assert step > 20
    assert seen == {"old", "new"}
    assert read(site) == NEW


@pytest.mark.usefixtures("way")
@pytest.mark.parametrize("fault", [KeyboardInterrupt, OSError])
def test_an_exception_leaves_the_last_site(tmp_path: Path, fault: type[BaseException]) -> None:
    """When writing the new site fails, the old one stands and the half-written one is gone."""
    site = tmp_path / "site"
    write(site, OLD)
    with pytest.raises(fault), swap.alone(site), new_site(site) as folder:  # noqa: PT012
        (folder / "index.html").write_text("half")
        raise fault
    assert read(site) == OLD
    assert [entry.name for entry in tmp_path.iterdir()] == ["site"]


def test_a_second_rename_that_fails_goes_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the new site cannot be moved in after the old one was moved out, the old one comes back."""
    monkeypatch.setattr(swap, "exchange", lambda *_: False)
    site = tmp_path / "site"
    write(site, OLD)
    rename = Path.rename

    def refuse(path: Path, target: Path) -> Path:
        if path.name == ".site.next":
            raise OSError("no")
        return rename(path, target)

    monkeypatch.setattr(Path, "rename", refuse)
    with pytest.raises(OSError, match="no"):
        write(site, NEW)
    assert read(site) == OLD
    assert [entry.name for entry in tmp_path.iterdir()] == ["site"]


@pytest.mark.parametrize("files", [["letter.txt"], ["letter.txt", ".gitignore"]])
def test_what_is_not_ours_is_not_replaced(tmp_path: Path, files: list[str]) -> None:
    """A folder that holds anything no publish put there is refused and left as it is."""
    site = tmp_path / "site"
    site.mkdir()
    for name in files:
        (site / name).touch()
    with pytest.raises(NotOursError):
        write(site, NEW)
    assert sorted(entry.name for entry in site.iterdir()) == sorted(files)
    with pytest.raises(NotOursError):
        write(site / "letter.txt", NEW)


def test_a_fresh_clone_is_replaced(tmp_path: Path) -> None:
    """A folder with nothing but the .gitignore of a clone takes a site; so does a link to one."""
    (tmp_path / "real").mkdir()
    (tmp_path / "real" / ".gitignore").write_text("*\n!.gitignore\n")
    (tmp_path / "site").symlink_to("real")
    write(tmp_path / "site", NEW)
    assert (tmp_path / "site").is_symlink()
    assert read(tmp_path / "site") == NEW


def test_two_publishes_do_not_meet(tmp_path: Path) -> None:
    """A second publish into the same place is told so before its work; the first one ends well."""
    site = tmp_path / "site"
    with swap.alone(site):
        with pytest.raises(BusyError, match="another publish into site is at work"), swap.alone(site):
            pass
        with new_site(site) as folder:
            (folder / "index.html").write_text("first")
    assert read(site) == {"index.html": "first"}
    assert [entry.name for entry in tmp_path.iterdir()] == ["site"]


def test_publishes_side_by_side_do_not_mind(tmp_path: Path) -> None:
    """While one site is held, the one beside it can be published."""
    with swap.alone(tmp_path / "a"):
        write(tmp_path / "b", NEW)
    assert read(tmp_path / "b") == NEW


def test_a_lock_put_away_meanwhile_is_looked_for_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Who opened the lock just before its holder put it away does not hold a lock that nobody sees."""
    import fcntl

    flock, place = fcntl.flock, swap.berth(tmp_path / "site")
    taken: list[int] = []

    def late(handle: int, how: int) -> None:
        if not taken:
            (place.lock / ".gitignore").unlink()
            place.lock.rmdir()
        taken.append(handle)
        flock(handle, how)

    monkeypatch.setattr(fcntl, "flock", late)
    with swap.alone(tmp_path / "site"):
        assert place.lock.is_dir()
    assert len(taken) == 2


def test_a_place_that_can_hold_no_site(tmp_path: Path) -> None:
    """The root of the disk and a circle of links are refused in a sentence."""
    (tmp_path / "one").symlink_to("other")
    (tmp_path / "other").symlink_to("one")
    with pytest.raises(NotOursError, match="root of the disk"), swap.alone(Path("/")):
        pass
    with pytest.raises(NotOursError, match="leads in a circle"), swap.alone(tmp_path / "one"):
        pass


def test_remains_of_a_kill_do_not_show_in_git(tmp_path: Path) -> None:
    """A half-written site beside the real one is ignored by the author's version control."""
    subprocess.run(["git", "init", "-q", tmp_path], check=True)
    child = os.fork()
    if child == 0:
        with swap.alone(tmp_path / "site"), new_site(tmp_path / "site") as folder:
            (folder / "index.html").write_text("half")
            os.kill(os.getpid(), signal.SIGKILL)
    os.waitpid(child, 0)
    assert (tmp_path / ".site.next" / "index.html").exists()
    status = subprocess.run(["git", "-C", tmp_path, "status", "--porcelain"], check=True, capture_output=True)
    assert status.stdout == b""
