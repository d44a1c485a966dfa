"""Rules are found by walking; a file that is no rule says so by its name."""

from __future__ import annotations

from pathlib import Path

import pytest

import lickwright.checks
import lickwright.checks.hands.range
from lickwright.checks.catalogue import rules
from lickwright.checks.groups import GROUPS


def _plant(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, group: str, text: str) -> None:
    folder = tmp_path / group
    folder.mkdir()
    (folder / "__init__.py").write_text('"""Planted."""\n', "utf-8")
    (folder / "thing.py").write_text(text, "utf-8")
    monkeypatch.setattr(lickwright.checks, "__path__", [str(tmp_path)])
    monkeypatch.setattr("lickwright.checks.catalogue.GROUPS", {group: "Planted"})


def test_a_file_without_a_rule_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The message holds the module."""
    _plant(tmp_path, monkeypatch, "planted_one", "X = 1\n")
    with pytest.raises(TypeError, match=r"planted_one\.thing holds no RULE"):
        rules.__wrapped__()


def test_a_rule_under_another_name_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A rule's id is its folder and file."""
    _plant(tmp_path, monkeypatch, "planted_two", "from lickwright.checks.hands.range import RULE\n")
    with pytest.raises(ValueError, match=r"planted_two\.thing holds the rule hands/range"):
        rules.__wrapped__()


def test_rules_come_in_the_order_of_their_names() -> None:
    """The order does not hang on the file system."""
    assert list(rules()) == sorted(rules(), key=lambda name: name.replace("-", "_"))


def test_no_folder_of_rules_is_forgotten() -> None:
    """Every folder with a file that holds a rule is a group of the handbook."""
    package = Path(lickwright.checks.__file__).parent
    holding = {
        file.parent.name for file in package.glob("*/*.py") if "\nRULE = Rule(" in file.read_text("utf-8")
    }
    assert holding == {name.replace("-", "_") for name in GROUPS}
