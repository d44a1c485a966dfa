"""All rules, found by walking the folders of this package."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from importlib import import_module
from pkgutil import iter_modules
from types import MappingProxyType

import lickwright.checks as package
from lickwright.checks.groups import GROUPS
from lickwright.checks.rule import Rule


@lru_cache(maxsize=1)
def rules() -> Mapping[str, Rule]:
    """Return every rule by its id, in alphabetical order.

    Raises:
        TypeError: When a rule file holds no ``RULE``: the module is named.
        ValueError: When a rule's id is not its folder and file name.
    """
    found: dict[str, Rule] = {}
    for group in sorted(name.replace("-", "_") for name in GROUPS):
        folder = import_module(f"{package.__name__}.{group}")
        for name in sorted(m.name for m in iter_modules(folder.__path__)):
            module = import_module(f"{folder.__name__}.{name}")
            rule = getattr(module, "RULE", None)
            if not isinstance(rule, Rule):
                raise TypeError(f"{module.__name__} holds no RULE")
            if rule.id != f"{group}/{name}".replace("_", "-"):
                raise ValueError(f"{module.__name__} holds the rule {rule.id}")
            found[rule.id] = rule
    return MappingProxyType(found)


def docstring(rule: Rule) -> str:
    """Return the docstring of a rule's file."""
    module = rule.id.replace("-", "_").replace("/", ".")
    return import_module(f"{package.__name__}.{module}").__doc__ or ""
