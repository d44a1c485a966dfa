"""Canonical bytes of a value: the same for equal values, places left out.

The bytes are what cache keys are made of. A field that is not compared (a place)
is not written either.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Hashable
from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from fractions import Fraction
from functools import lru_cache
from operator import attrgetter
from typing import Any, cast


@lru_cache(maxsize=256)
def _reader(kind: type[Any]) -> tuple[str, Callable[[Any], tuple[Any, ...]]] | None:
    """The name of a dataclass and what reads its compared fields; None for another type."""
    if not is_dataclass(kind):
        return None
    names = tuple(f.name for f in fields(kind) if f.compare)
    if len(names) > 1:
        return kind.__name__, attrgetter(*names)
    return kind.__name__, lambda value: tuple(getattr(value, name) for name in names)


def canonical(value: object) -> bytes:
    """Return bytes that are equal exactly when the values are.

    Takes frozen dataclasses, enums, fractions, numbers, strings, bytes, None, and
    tuples or frozensets of them.

    Raises:
        TypeError: For any other type: a value that has no canonical form must not
            reach a cache key.
    """
    parts: list[str] = []
    _write(value, parts)
    return "".join(parts).encode()


def digest(value: object) -> str:
    """Return the SHA-256 of the canonical bytes, in hexadecimal."""
    return hashlib.sha256(canonical(value)).hexdigest()


def lasting_digest(value: object) -> str:
    """Return a SHA-256 that stays the same when a class is given a further field with a default.

    For marks that authors keep in their text; fields are written by name, those at their default left out.

    Raises:
        TypeError: As ``canonical`` does.
    """
    parts: list[str] = []
    _write(value, parts, lasting=True)
    return hashlib.sha256("".join(parts).encode()).hexdigest()


_NO_DEFAULT = object()


@lru_cache(maxsize=256)
def _defaults(kind: type[Any]) -> tuple[tuple[str, object], ...]:
    return tuple(
        (f.name, _NO_DEFAULT if f.default is MISSING else f.default) for f in fields(kind) if f.compare
    )


_PLAIN = frozenset({type(None), bool, int, float, str, bytes})


def _write(value: Any, out: list[str], *, lasting: bool = False) -> None:
    kind = type(value)
    if kind in _PLAIN:
        out.append(f"{value!r};")
    elif kind is Fraction:
        out.append(f"{value.numerator}/{value.denominator};")
    elif kind is tuple:
        out.append("(")
        for item in value:
            _write(item, out, lasting=lasting)
        out.append(")")
    elif (reader := _reader(cast("Hashable", kind))) is not None:
        name, read = reader
        out.append(f"{name}<")
        if lasting:
            _write_lasting(value, out)
        else:
            for held in read(value):
                if type(held) in _PLAIN:  # most fields are: written here, without a call for each
                    out.append(f"{held!r};")
                else:
                    _write(held, out)
        out.append(">")
    elif isinstance(value, Enum):
        out.append(f"{kind.__name__}.{value.name};")
    elif kind is frozenset:
        out.append("{" + "".join(sorted(canonical(item).decode() for item in value)) + "}")
    else:
        raise TypeError(f"{kind.__name__} has no canonical form")


def _write_lasting(value: Any, out: list[str]) -> None:
    for name, default in _defaults(cast("Hashable", type(value))):
        held = getattr(value, name)
        if default is _NO_DEFAULT or (held is not default and held != default):
            out.append(f"{name}=")
            _write(held, out, lasting=True)
