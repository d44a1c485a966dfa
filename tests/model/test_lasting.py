"""Marks that authors keep in their text outlive a change of our classes."""

from __future__ import annotations

from dataclasses import dataclass

from lickwright.model.canonical import lasting_digest


def test_a_lasting_mark_survives_a_further_field() -> None:
    """A class that is given a field with a default keeps its marks; a value in it changes them."""

    @dataclass(frozen=True)
    class Before:
        a: int
        b: str = ""

    @dataclass(frozen=True)
    class After:
        a: int
        b: str = ""
        c: tuple[int, ...] = ()

    After.__name__ = After.__qualname__ = "Before"
    assert lasting_digest((Before(1, "x"),)) == lasting_digest((After(1, "x"),))
    assert lasting_digest(Before(1)) != lasting_digest(Before(2)) != lasting_digest(Before(2, "x"))
    assert lasting_digest(After(1, "x")) != lasting_digest(After(1, "x", (2,)))
