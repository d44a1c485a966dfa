"""Which renderer makes which order, and what its version follows."""

from importlib.metadata import version
from importlib.resources import files
from pathlib import Path
from typing import get_args

import pytest

from lickwright.building import renderers
from lickwright.building.renderers import RENDERERS, Renderer, version_of
from lickwright.model.orders import Order


def test_every_kind_of_order_has_a_renderer() -> None:
    """The table names a renderer for each kind, its sources and libraries exist."""
    assert set(RENDERERS) == set(get_args(Order))
    for renderer in RENDERERS.values():
        module, _, function = renderer.function.partition(":")
        code = files("lickwright") / f"{module.replace('.', '/')}.py"
        assert f"def {function}(" in code.read_text(encoding="utf-8")
        assert all(version(library) for library in renderer.libraries)
        assert all(
            (files("lickwright") / source).is_file() or renderer.sources for source in renderer.sources
        )


def test_a_changed_line_is_another_version(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The version follows the text of the sources, of a file or of a folder, and of nothing else."""
    (tmp_path / "part" / "inner").mkdir(parents=True)
    one, other, beside = tmp_path / "part" / "inner" / "a.py", tmp_path / "b.py", tmp_path / "c.py"
    for file in (one, other, beside):
        file.write_text("1")
    monkeypatch.setattr(renderers, "files", lambda _: tmp_path)
    renderer = Renderer(
        "score", "notation", "m:f", RENDERERS[get_args(Order)[0]].unpack, ("part", "b.py"), ()
    )
    count = version_of.__wrapped__
    first = count(renderer)
    beside.write_text("2")
    assert count(renderer) == first
    one.write_text("2")
    second = count(renderer)
    other.write_text("2")
    assert len({first, second, count(renderer)}) == 3


def test_a_library_is_in_the_version(monkeypatch: pytest.MonkeyPatch) -> None:
    """Another version of a library makes another version of its renderer only."""
    score, sound = RENDERERS.values()
    count = version_of.__wrapped__
    before = count(score), count(sound)
    installed = renderers._installed
    monkeypatch.setattr(
        renderers, "_installed", lambda name: "next" if name == "verovio" else installed(name)
    )
    assert count(score) != before[0]
    assert count(sound) == before[1]
