"""The house in order: files that can be read at a glance, layers that hold, pages without inline style."""

import ast
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
        ("words/sounds.py", "import lickwright.reading.course"),
        ("errata/errata.py", "import lickwright.reading.course"),
        ("theory/pitch.py", "from multiprocessing import Pool"),
        ("pages/site.py", "import lickwright.engraving.engrave"),
        ("newcomer/__init__.py", "import lickwright.cli"),
    ],
)
def test_a_broken_layer_is_found(tmp_path: Path, module: str, line: str) -> None:
    """The contracts notice an import that they forbid."""
    shutil.copytree(ROOT / "builder", tmp_path / "builder", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    changed = tmp_path / "builder" / "lickwright" / module
    changed.parent.mkdir(exist_ok=True)
    with changed.open("a", encoding="utf-8") as file:
        file.write(f"\n{line}\n")
    outcome = lint_imports(tmp_path)
    assert outcome.returncode == 1
    assert "BROKEN" in outcome.stdout


WRITING = {"write_text", "write_bytes", "mkdir", "makedirs", "touch", "unlink", "rmdir", "rmtree", "rename"}
WRITING |= {"symlink_to", "hardlink_to", "mkstemp", "mkdtemp", "copyfile", "copytree"}
OF_OS = {"replace", "remove", "copy", "copy2", "move", "rename"}
"""Names that are about files only in ``os`` and ``shutil``."""


def writing(code: str) -> list[int]:
    """Return the lines of a module that write to the disk."""
    found = []
    for node in ast.walk(ast.parse(code)):
        if not isinstance(node, ast.Call):
            continue
        call = ast.unparse(node.func)
        owner, _, name = call.rpartition(".")
        said = [*node.args, *(word.value for word in node.keywords if word.arg == "mode")]
        modes = [one.value for one in said if isinstance(one, ast.Constant) and isinstance(one.value, str)]
        opens = name in {"open", "fdopen"} and any(
            set(mode) & set("wax+") and len(mode) < 4 for mode in modes
        )
        if opens or name in WRITING or (owner in {"os", "shutil"} and name in OF_OS):
            found.append(node.lineno)
    return found


def test_below_the_building_nothing_writes() -> None:
    """Only the commands and the building write files (a nameless one holds what Verovio prints)."""
    upper = {"cli", "building"}
    lower = [file for file in CODE if file.relative_to(PACKAGE).parts[0] not in upper]
    assert len(lower) > 200
    assert {str(file): found for file in lower if (found := writing(file.read_text("utf-8")))} == {}
    assert writing((PACKAGE / "building" / "swap.py").read_text("utf-8"))


@pytest.mark.parametrize(
    "line",
    [
        "open(name, 'w')",
        "path.open(mode='ab')",
        "path.write_text('x')",
        "path.parent.mkdir()",
        "os.replace(a, b)",
        "shutil.move(a, b)",
    ],
)
def test_a_writing_line_is_found(line: str) -> None:
    """The scan above sees the usual ways to write, and takes no reading and no other ``replace`` for one."""
    assert writing(f"a = 1\n{line}\n") == [2]
    assert writing("path.open('rb')\ntext.replace('w', 'a')\nreplace(note, tones=())\nmoment.move(0)") == []


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
