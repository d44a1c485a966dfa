"""The house in order: files that can be read at a glance, layers that hold, pages without inline style."""

import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path
from statistics import median

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "builder" / "lickwright"
CODE = sorted((ROOT / "builder").rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("*.py"))


def lines(file: Path) -> int:
    return len(file.read_text(encoding="utf-8").splitlines())


def lint_imports(root: Path) -> subprocess.CompletedProcess[str]:
    """Run import-linter in a checkout."""
    return subprocess.run(
        [Path(sys.executable).with_name("lint-imports"), "--no-cache"],
        check=False,
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": str(root / "builder")},
        cwd=root,
    )


def test_files_are_short() -> None:
    """Half of the code files have at most 150 lines, and no file has more than 500."""
    assert median(lines(file) for file in CODE) <= 150
    assert [str(file) for file in (*CODE, *TESTS) if lines(file) > 500] == []


def test_layers_hold() -> None:
    """Every contract of the layers is kept."""
    outcome = lint_imports(ROOT)
    assert outcome.returncode == 0, outcome.stdout
    assert " 0 broken" in outcome.stdout


@pytest.mark.parametrize(
    ("module", "line"),
    [
        ("model/course.py", "import music21"),
        ("pages/site.py", "import verovio"),
        ("model/canonical.py", "import lickwright.reading"),
        ("theory/pitch.py", "from multiprocessing import Pool"),
    ],
)
def test_a_broken_layer_is_found(tmp_path: Path, module: str, line: str) -> None:
    """The contracts notice an import that they forbid."""
    shutil.copytree(ROOT / "builder", tmp_path / "builder", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    with (tmp_path / "builder" / "lickwright" / module).open("a", encoding="utf-8") as file:
        file.write(f"\n{line}\n")
    outcome = lint_imports(tmp_path)
    assert outcome.returncode == 1
    assert "BROKEN" in outcome.stdout


def test_nothing_is_styled_in_place() -> None:
    """No template and no code writes a style attribute: the page's policy would not apply it."""
    markup = [
        file for file in CODE if file.relative_to(PACKAGE).parts[0] in {"pages", "engraving", "drawing"}
    ]
    files = [*markup, *(ROOT / "themes").rglob("*.html"), *(ROOT / "themes").rglob("*.js")]
    assert len(files) > len(markup)
    written = re.compile(r"""\bstyle=\\?["'{]""")
    assert [str(file) for file in files if written.search(file.read_text(encoding="utf-8"))] == []


@pytest.mark.parametrize(
    "script", ["builder/environment.sh", "builder/publish.sh", "tests/run.sh", ".ci/run"]
)
def test_scripts_can_be_read(script: str) -> None:
    """The set-up scripts are well-formed, for the shell that Debian calls ``sh`` or for bash."""
    shell = "bash" if script == ".ci/run" else "sh"
    subprocess.run([shell, "-n", ROOT / script], check=True)


@pytest.mark.parametrize(("lock", "extras"), [("builder", ()), ("tests", ("dev",))])
def test_the_lock_files_are_whole(lock: str, extras: tuple[str, ...]) -> None:
    """Every library that pyproject.toml asks for is locked with its digests, and no host is named."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    asked = [*project["project"]["dependencies"], *project["build-system"]["requires"]]
    asked += [one for extra in extras for one in project["project"]["optional-dependencies"][extra]]
    text = (ROOT / lock / "requirements.lock").read_text(encoding="utf-8")
    locked = set(re.findall(r"^([a-z0-9-]+)==\S+.*\\$", text, re.MULTILINE))
    assert {re.split(r"[<>=\[ ]", one)[0].lower().replace("_", "-") for one in asked} - locked == set()
    assert "://" not in text
