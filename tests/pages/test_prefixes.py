"""Short prefixes of ids: from the name alone, never two alike."""

from __future__ import annotations

import re

from lickwright.pages import prefixes
from lickwright.pages.prefixes import short_prefixes

NAMES = [f"lick-{number}" for number in range(4000)]


def test_a_prefix_comes_from_its_name():
    """Four letters that an id may hold; other names beside it and their order change nothing."""
    alone = short_prefixes(["porch-step"])
    assert re.fullmatch("[a-z2-7]{4}", alone["porch-step"])
    assert short_prefixes(["a", "porch-step", "b"])["porch-step"] == alone["porch-step"]
    assert short_prefixes(["b", "porch-step", "a"]) == short_prefixes(["a", "porch-step", "b"])


def test_names_that_would_be_alike_get_longer_prefixes(monkeypatch):
    """Of four thousand names some share four letters: those alone get more, and all are distinct."""
    found = short_prefixes(NAMES)
    assert len(set(found.values())) == len(NAMES)
    longer = [name for name in NAMES if len(found[name]) > 4]
    assert 0 < len(longer) < 60
    monkeypatch.setattr(prefixes, "SHORTEST", 1)
    assert len(set(short_prefixes(NAMES).values())) == len(NAMES)
