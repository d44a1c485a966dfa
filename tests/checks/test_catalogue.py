"""Rules are found by walking; a file that is no rule says so by its name."""

from __future__ import annotations

from pathlib import Path

import pytest

import lickwright.checks
from lickwright.checks.catalogue import rules


def _plant(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, group: str, text: str) -> None:
    folder = tmp_path / group
    folder.mkdir()
    (folder / "__init__.py").write_text('"""Planted."""\n', "utf-8")
    (folder / "thing.py").write_text(text, "utf-8")
    monkeypatch.setattr(lickwright.checks, "__path__", [str(tmp_path)])


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
