"""A site that would come out as it stands: left alone, and nothing less than that."""

import shutil
from collections.abc import Callable, Iterator
from importlib.metadata import requires
from importlib.resources import files
from pathlib import Path

import pytest

from lickwright.building import renderers, shelf, swap
from lickwright.building.cache import Cache
from lickwright.building.publish import Published, publish
from lickwright.pages import site as site_of_pages

PICTURE = "pictures/hand.png"


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Path, Published]]:
    """The course that ``start`` makes, with a picture, published; guide and proof room are left out."""
    place = tmp_path_factory.mktemp("unchanged")
    folder = Path(shutil.copytree(str(files("lickwright.cli") / "new_course"), place / "course"))
    (folder / "pictures").mkdir()
    (folder / PICTURE).write_bytes(b"picture")
    lesson = folder / "lessons" / "first-lick.md"
    lesson.write_text(f"{lesson.read_text('utf-8')}\n![The hand](../{PICTURE})\n", encoding="utf-8")
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(site_of_pages, "read_guide", lambda *_, **__: None)
        patched.setattr(site_of_pages, "room_pages", lambda *_: ())
        yield place, publish(folder, place / "site", Cache(place / "cache"), sound=False)


@pytest.fixture
def place(first: tuple[Path, Published], tmp_path: Path) -> Path:
    """A copy of the folder with course, site and cache."""
    return Path(shutil.copytree(first[0], tmp_path / "place"))


def again(place: Path) -> Published:
    return publish(place / "course", place / "site", Cache(place / "cache"), sound=False)


def contents(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


def test_nothing_changed(first: tuple[Path, Published], place: Path) -> None:
    """The folder is the one that stood there, not another like it; the same is said of it."""
    before = (place / "site").stat().st_ino
    told, published = first[1], again(place)
    assert (place / "site").stat().st_ino == before
    assert (published.site, published.pages, published.made) == (True, told.pages, 0)
    assert published.kept == told.made > 0
    assert published.proofed.proof == told.proofed.proof


def _alter(site: Path) -> None:
    page = site / "index.html"
    page.write_bytes(page.read_bytes().replace(b"<", b" <", 1))


def _link(site: Path) -> None:
    page = site / "index.html"
    page.replace(site.parent / "index.html")
    page.symlink_to(site.parent / "index.html")


SPOILT: dict[str, Callable[[Path], object]] = {
    "a page altered": _alter,
    "a page gone": lambda site: (site / "lessons" / "first-lick.html").unlink(),
    "a picture gone": lambda site: (site / PICTURE).unlink(),
    "a file more": lambda site: (site / "mine.txt").write_text("mine"),
    "a link for a page": _link,
    "a mark altered": lambda site: (site / ".gitignore").write_text("*"),
    "a mark for a folder": lambda site: (site / swap.SEAL).write_text("other"),
    "all gone": shutil.rmtree,
}


@pytest.mark.parametrize("what", SPOILT)
def test_a_spoilt_site_is_written_again(place: Path, what: str) -> None:
    """Whatever is not as it was written is put right."""
    made = contents(place / "site")
    SPOILT[what](place / "site")
    assert again(place).made == 0
    assert contents(place / "site") == made
    assert not any(path.is_symlink() for path in (place / "site").rglob("*"))


def _in_lesson(course: Path) -> None:
    lesson = course / "lessons" / "first-lick.md"
    lesson.write_text(lesson.read_text("utf-8").replace("Play slowly", "Play softly"), encoding="utf-8")


def _in_manifest(course: Path) -> None:
    manifest = course / "course.toml"
    manifest.write_text(manifest.read_text("utf-8").replace('title = "', 'title = "New ', 1), "utf-8")


def _in_theme(course: Path) -> None:
    (course / "theme").mkdir()
    (course / "theme" / "page.css").write_text("p { color: red }", encoding="utf-8")


CHANGED: dict[str, tuple[Callable[[Path], object], str]] = {
    "a word": (_in_lesson, "lessons/first-lick.html"),
    "the title": (_in_manifest, "index.html"),
    "the theme": (_in_theme, "theme/page.css"),
    "a picture painted over": (lambda course: (course / PICTURE).write_bytes(b"other"), PICTURE),
}


@pytest.mark.parametrize("what", CHANGED)
def test_a_changed_course_is_written(place: Path, what: str) -> None:
    """What an author changes stands in the site, and what was before when it is changed back."""
    before = contents(place / "site")
    kept = Path(shutil.copytree(place / "course", place / "course-before"))
    change, path = CHANGED[what]
    change(place / "course")
    assert again(place).site
    assert contents(place / "site")[path] != before.get(path)
    shutil.rmtree(place / "course")
    kept.rename(place / "course")
    assert again(place).site
    assert contents(place / "site") == before


def test_sound_asked_for(place: Path) -> None:
    """A site without sound is not one with sound."""
    assert publish(place / "course", place / "site", Cache(place / "cache")).made == 2
    assert any(name.startswith("sound/") for name in contents(place / "site"))


def test_another_builder(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A changed line of the builder may show anywhere; so may another version of a library."""
    before = (place / "site").stat().st_ino
    monkeypatch.setattr(shelf, "builder_version", lambda: "a changed line")
    assert again(place).site
    assert (place / "site").stat().st_ino != before
    wanted = {line.split(">")[0] for line in requires("lickwright") or () if "extra ==" not in line}
    assert set(renderers.LIBRARIES) == wanted - {"click"}
    version = renderers.builder_version.__wrapped__()
    installed = renderers._installed
    monkeypatch.setattr(renderers, "_installed", lambda name: installed(name) + (name == "jinja2") * ".1")
    assert renderers.builder_version.__wrapped__() != version


def test_a_damaged_record(place: Path) -> None:
    """It is one that is not there."""
    made = contents(place / "site")
    (record,) = (place / "cache").glob("si/*")
    record.write_bytes(record.read_bytes()[:-2])
    assert again(place).site
    assert contents(place / "site") == made
