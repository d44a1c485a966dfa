"""Which renderer makes which order, and what its version follows."""

import ast
from collections.abc import Iterator
from dataclasses import replace
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


PACKAGE = Path(str(files("lickwright")))


def runtime_imports(tree: ast.AST) -> Iterator[str]:
    """Yield what a module imports when it runs, inside functions too; not what only types are read from."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING":
            continue
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield from (f"{node.module}.{alias.name}" for alias in node.names)
        else:
            yield from runtime_imports(node)


def file_of(name: str) -> Path | None:
    """Return the file of a module of ours, or of the module that a name is imported from."""
    parts = name.split(".")
    if parts[0] != "lickwright":
        return None
    for depth in (len(parts), len(parts) - 1):
        path = PACKAGE.joinpath(*parts[1:depth])
        for file in (path.with_suffix(".py"), path / "__init__.py"):
            if depth > 1 and file.is_file():
                return file
    raise AssertionError(name)


def read_by(renderer: Renderer) -> set[str]:
    """Return every file of ours that a renderer rests on, relative to the package."""
    waiting = [PACKAGE / f"{renderer.function.partition(':')[0].replace('.', '/')}.py"]
    found: set[Path] = set()
    while waiting:
        file = waiting.pop()
        if file in found:
            continue
        found.add(file)
        tree = ast.parse(file.read_text(encoding="utf-8"))
        waiting += [inner for name in runtime_imports(tree) if (inner := file_of(name)) is not None]
    return {file.relative_to(PACKAGE).as_posix() for file in found}


def uncounted(renderer: Renderer) -> set[str]:
    return {
        file
        for file in read_by(renderer)
        if not any(file == source or file.startswith(f"{source}/") for source in renderer.sources)
    }


def test_all_that_a_renderer_imports_is_in_its_version() -> None:
    """No module that a renderer rests on is missing from its sources: a stale score would stay in use."""
    for renderer in RENDERERS.values():
        assert len(read_by(renderer)) > 20
        assert uncounted(renderer) == set()


def test_a_source_left_out_is_found() -> None:
    """Without the spelling, or without the performance, the check above fails."""
    score, sound, _ = RENDERERS.values()
    for renderer, source in ((score, "analysis/naming.py"), (sound, "performance"), (score, "theory")):
        without = replace(renderer, sources=tuple(s for s in renderer.sources if s != source))
        assert any(file.startswith(source) for file in uncounted(without))
    assert not any("classifier" in file for file in read_by(score))


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
    score, sound, _ = RENDERERS.values()
    count = version_of.__wrapped__
    before = count(score), count(sound)
    installed = renderers._installed
    monkeypatch.setattr(
        renderers, "_installed", lambda name: "next" if name == "verovio" else installed(name)
    )
    assert count(score) != before[0]
    assert count(sound) == before[1]
