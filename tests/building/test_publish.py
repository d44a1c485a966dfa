"""A publish: what is made, what is kept, what stands when it goes wrong."""

import os
import shutil
import sys
from collections.abc import Callable
from fractions import Fraction
from functools import partial
from importlib import import_module
from importlib.resources import files
from pathlib import Path

import pytest

from lickwright.building import budget, results, swap
from lickwright.building.cache import Cache
from lickwright.building.failures import HANDBOOK, WARNING
from lickwright.building.pictures import read_pictures
from lickwright.building.progress import Step
from lickwright.building.proofing import proof_course
from lickwright.building.publish import Published, publish
from lickwright.building.workers import run
from lickwright.findings import Severity
from lickwright.model.orders import Recorded, SoundOrder
from lickwright.model.reduced import for_sound
from lickwright.pages import site
from lickwright.pages.edition import Edition
from lickwright.pages.page import Made, Page
from lickwright.pages.player_data import sound_path

Tree = dict[str, bytes]


def tree(folder: Path) -> Tree:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


@pytest.fixture
def course(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The course that ``start`` makes, without guide, proof room and legend: published in a second."""
    monkeypatch.setattr(site, "read_guide", lambda *_, **__: None)
    monkeypatch.setattr(site, "room_pages", lambda *_: ())
    monkeypatch.setattr(site, "legend_page", lambda _: Page("signs.html", (), lambda _: ""))
    with_a_lick = Path(str(files("lickwright.cli") / "new_course"))
    return Path(shutil.copytree(with_a_lick, tmp_path / "course"))


@pytest.fixture
def silent(course: Path, tmp_path: Path) -> Callable[[], Published]:
    """Publishes the course without sound, by a cache of its own."""
    return lambda: publish(course, tmp_path / "site", Cache(tmp_path / "cache"), sound=False)


def lesson(course: Path) -> Path:
    return course / "lessons" / "first-lick.md"


def test_a_site_with_sound(course: Path, tmp_path: Path) -> None:
    """A page, its theme and its sounds stand in the site; again, elsewhere, the bytes are the same."""
    steps: list[Step] = []
    first = publish(course, tmp_path / "site", Cache(tmp_path / "cache"), watch=steps.append)
    made = tree(tmp_path / "site")
    assert first.site
    assert first.kept == 0
    assert {"index.html", "lessons/first-lick.html", "proof.html", ".gitignore", swap.SEAL} <= set(made)
    assert any(name.startswith("theme/") for name in made)
    sounds = [name for name in made if name.startswith("sound/")]
    assert len(sounds) == 2  # at full and at reduced tempo
    assert all(Path(name).name in made["lessons/first-lick.html"].decode() for name in sounds)
    assert [step.name for step in steps if step.total and step.done == step.total][-1] == "front-gate"
    again = publish(course, tmp_path / "site", Cache(tmp_path / "cache"))
    assert (again.made, again.kept) == (0, first.made)
    assert tree(tmp_path / "site") == made
    other = publish(course, tmp_path / "elsewhere" / "site", Cache(tmp_path / "other-cache"))
    assert other.made == first.made
    assert tree(tmp_path / "elsewhere" / "site") == made


def test_sounds_of_the_shelf(course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """They are kept with it: a later publish makes no page of it and writes them, a silent one does not."""
    asked: list[bool] = []

    def beside(edition: Edition) -> tuple[Page, ...]:
        asked.append(edition.sound)
        text = (course / "lessons" / "first-lick.md").read_text(encoding="utf-8")
        (tmp_path / "other" / "lessons").mkdir(parents=True, exist_ok=True)
        shutil.copy(course / "course.toml", tmp_path / "other")
        (tmp_path / "other" / "lessons" / "first-lick.md").write_text(text.replace("5:0", "5:1"), "utf-8")
        proofed = proof_course(tmp_path / "other")
        assert proofed.book is not None
        piece = next(piece for piece in proofed.book.pieces if piece.kind == "lick")
        order = SoundOrder(for_sound(piece.music), Fraction(90))

        def render(made: Made) -> str:
            recorded = made(order) if edition.sound else None
            return sound_path(recorded) if isinstance(recorded, Recorded) else "silent"

        return (Page("proof-room/index.html", (order,) if edition.sound else (), render),)

    monkeypatch.setattr(site, "room_pages", beside)
    cache = Cache(tmp_path / "cache")
    assert publish(course, tmp_path / "site", cache).site
    first = tree(tmp_path / "site")
    assert first["proof-room/index.html"].decode() in first
    assert publish(course, tmp_path / "site", cache).made == 0
    assert tree(tmp_path / "site") == first
    assert publish(course, tmp_path / "silent", cache, sound=False).site
    assert asked == [True, False]
    assert not [name for name in tree(tmp_path / "silent") if name.startswith("sound/")]


def test_no_sound(silent: Callable[[], Published], tmp_path: Path) -> None:
    """Without sound there is no sound in the site, and no page asks for one."""
    assert silent().site
    made = tree(tmp_path / "site")
    assert not [name for name in made if name.startswith("sound/")]
    assert b"sound/" not in made["lessons/first-lick.html"]


def test_pictures_come_along(course: Path, silent: Callable[[], Published], tmp_path: Path) -> None:
    """A picture that a page shows is copied; one that leads out of pictures/ is an error, and is not."""
    (course / "pictures").mkdir()
    (course / "pictures" / "hand.png").write_bytes(b"picture")
    (tmp_path / "secret.png").write_bytes(b"secret")
    (course / "pictures" / "away.png").symlink_to(tmp_path / "secret.png")
    (course / "pictures" / "self.png").symlink_to(course / "pictures" / "self.png")
    (course / "pictures" / "loop").symlink_to(course)
    plain = lesson(course).read_text(encoding="utf-8")
    shown = [
        f"pictures/{name}" for name in ("hand.png", "away.png", "no.png", "self.png", "loop/course.toml")
    ]
    assert dict(read_pictures(shown, course)) == {shown[0]: b"picture"}
    lesson(course).write_text(f"{plain}\n![Away](../pictures/away.png)\n", encoding="utf-8")
    refused = silent()
    assert not refused.site
    assert [f.rule for f in refused.proofed.proof.findings] == ["course/missing-picture"]
    lesson(course).write_text(f"{plain}\n![Hand](../pictures/hand.png)\n", encoding="utf-8")
    assert silent().site
    pictures = {name: body for name, body in tree(tmp_path / "site").items() if name.startswith("pictures/")}
    assert pictures == {"pictures/hand.png": b"picture"}


def test_only_pictures_are_copied(course: Path) -> None:
    """Not the manifest through a link inside pictures/, not a file that is no picture; an SVG as it is."""
    names = ("up/course.toml", "notes.txt", "a.svg", "circle.png", "manifest.png", "inner")
    shown = [f"pictures/{name}" for name in names]
    folder = course / "pictures"
    (folder / "inner").mkdir(parents=True)
    (folder / "up").symlink_to(course)
    (folder / "circle.png").symlink_to("circle.png")
    (folder / "manifest.png").symlink_to("../course.toml")
    (folder / "notes.txt").write_text("mine")
    (folder / "a.svg").write_bytes(b"<svg/>")
    assert list(read_pictures(shown, course)) == [("pictures/a.svg", b"<svg/>")]


def test_a_warning_is_told_at_its_lick(
    silent: Callable[[], Published], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What the engraver had to say is a note that names the lick, each sentence once; the site stands."""
    assert silent().findings == ()
    monkeypatch.setattr(results, "run", partial(run, maker=import_module("building_makers").draw_and_warn))
    (tmp_path / "cache").rename(tmp_path / "old-cache")
    for _ in range(2):  # made, and kept
        published = silent()
        assert published.site
        (note,) = published.findings
        assert (note.rule, note.severity, note.lick) == (WARNING, Severity.NOTE, "front-gate")
        assert note.message.endswith("made with a warning: Could not place a slur")
        assert note.span.source.path == "lessons/first-lick.md"
    assert WARNING in HANDBOOK


def test_a_moved_lick_is_not_made_again(
    course: Path, silent: Callable[[], Published], tmp_path: Path
) -> None:
    """An empty line on top of every lesson leaves nothing to make and the same pages."""
    silent()
    made = tree(tmp_path / "site")
    lesson(course).write_text("\n" + lesson(course).read_text(encoding="utf-8"), encoding="utf-8")
    assert silent().made == 0
    assert tree(tmp_path / "site")["lessons/first-lick.html"] == made["lessons/first-lick.html"]


def test_only_the_changed_lick_is_made(course: Path, silent: Callable[[], Published], tmp_path: Path) -> None:
    """A second lick costs its own scores; a word of prose costs none."""
    both = silent().made
    text = lesson(course).read_text(encoding="utf-8")
    block = text[text.index("```lick") : text.index("```", text.index("```lick") + 3) + 3]
    other = block.replace("front-gate", "back-gate").replace("2:2 2:0", "2:2 - ").replace("1  1  0", "1  1")
    other = other.replace("A  C# B", "A  C#")
    lesson(course).write_text(f"{text}\n{other}\n", encoding="utf-8")
    published = silent()
    assert published.site, published
    assert (published.made, published.kept) == (both, both)
    assert b"back-gate" in tree(tmp_path / "site")["lessons/first-lick.html"]


def test_a_damaged_entry_is_made_anew(silent: Callable[[], Published], tmp_path: Path) -> None:
    """An entry of the cache that was cut is made again, and the site comes out the same."""
    silent()
    made = tree(tmp_path / "site")
    entry = next(path for path in sorted((tmp_path / "cache").glob("[0-9a-f][0-9a-f]/*")))
    entry.write_bytes(entry.read_bytes()[:-10])
    shutil.rmtree(tmp_path / "site")
    assert silent().made == 1
    assert tree(tmp_path / "site") == made


def test_an_error_leaves_the_last_site(course: Path, silent: Callable[[], Published], tmp_path: Path) -> None:
    """A bar that is too short stops the publish before anything is made or written."""
    silent()
    made = tree(tmp_path / "site")
    text = lesson(course).read_text(encoding="utf-8")
    lesson(course).write_text(text.replace("2:2 2:0", "2:2"), encoding="utf-8")
    published = silent()
    assert not published.site
    assert published.proofed.proof.errors
    assert tree(tmp_path / "site") == made


@pytest.mark.parametrize("name", ["abort", "raise"])
def test_a_lick_that_cannot_be_made_is_named(
    course: Path, tmp_path: Path, silent: Callable[[], Published], monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    """A renderer that takes its process down is an error at the lick; the last site stays."""
    silent()
    made = tree(tmp_path / "site")
    lesson(course).write_text(
        lesson(course).read_text(encoding="utf-8").replace("front-gate", name), encoding="utf-8"
    )
    maker = import_module("building_makers").draw_by_name
    monkeypatch.setattr(results, "run", partial(run, maker=maker))
    (tmp_path / "cache").rename(tmp_path / "old-cache")
    published = silent()
    assert not published.site
    assert tree(tmp_path / "site") == made
    assert [finding.lick for finding in published.findings] == [name]
    finding = published.findings[0]
    assert finding.severity is Severity.ERROR
    assert finding.span.source.path == "lessons/first-lick.md"
    expected = (
        ("building/worker-died", "SIGABRT") if name == "abort" else ("building/not-made", "no such glyph")
    )
    assert finding.rule == expected[0]
    assert expected[1] in finding.message


def killed_at(step: int, folder: Path, work: Callable[[], object]) -> bool:
    """Publish in a process that kills itself before its ``step``-th call about a file of the folder."""
    child = os.fork()
    if child == 0:
        left = step

        def count(event: str, arguments: tuple[object, ...]) -> None:
            nonlocal left
            concerned = event.startswith(("os.", "open")) and str(folder) in str(arguments[:1])
            if concerned or event == "ctypes.dlsym":
                left -= 1
                if left < 0:
                    os._exit(9)

        sys.addaudithook(count)
        try:
            work()
        finally:
            os._exit(0)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 9


def kill_everywhere(course: Path, published: Path, publishing: Callable[[], Published], stride: int) -> None:
    """Kill a publish at every ``stride``-th step; one of the two sites stands each time."""
    text = lesson(course).read_text(encoding="utf-8")
    old, new = text, text.replace("Play slowly", "Play softly")
    lesson(course).write_text(new, encoding="utf-8")
    publishing()
    after = tree(published)
    lesson(course).write_text(old, encoding="utf-8")
    publishing()
    before = tree(published)
    assert before != after
    step, seen = 0, set()
    lesson(course).write_text(new, encoding="utf-8")
    while killed_at(step, published.parent, publishing):
        standing = tree(published)
        assert standing in (before, after)
        if standing == after:
            seen.add(step)
            lesson(course).write_text(old, encoding="utf-8")
            publishing()
            lesson(course).write_text(new, encoding="utf-8")
        step += stride
    assert step > 20
    assert tree(published) == after
    publishing()
    assert [path.name for path in published.parent.iterdir() if path.name.startswith(".")] == []
    if stride == 1:
        assert seen


def test_a_kill_loses_nothing(course: Path, silent: Callable[[], Published], tmp_path: Path) -> None:
    """Killed at every thirtieth step, a publish leaves the old site whole or the new one."""
    kill_everywhere(course, tmp_path / "site", silent, stride=30)


@pytest.mark.slow
@pytest.mark.timeout(600)
def test_a_kill_at_every_step_loses_nothing(
    course: Path, silent: Callable[[], Published], tmp_path: Path
) -> None:
    """Killed at every single step, a publish leaves the old site whole or the new one."""
    kill_everywhere(course, tmp_path / "site", silent, stride=1)


def test_a_heavy_page_is_told(silent: Callable[[], Published], monkeypatch: pytest.MonkeyPatch) -> None:
    """Within the budget nothing is said; over it the page and what it weighs."""
    assert silent().heavy == ()
    monkeypatch.setattr(budget, "RAW", 1000)
    (heavy,) = silent().heavy
    assert heavy.path == "lessons/first-lick.html"
    assert f"{heavy.raw / 1000:.0f} kB, " in str(heavy)
