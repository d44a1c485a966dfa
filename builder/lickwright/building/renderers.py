"""Which renderer makes which kind of order, and what a result depends on besides the order.

A renderer is named, not imported: Verovio, numpy and the encoder are loaded in the worker that needs them.
The version of a renderer is the digest of the source it is made of and the versions of the libraries that
it draws or sounds with, so a changed line makes anew whatever it could have changed, and nobody has to
remember to count a number up.
"""

from __future__ import annotations

import hashlib
import platform
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from importlib.metadata import PackageNotFoundError, version
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from lickwright.building.packing import unpack_file, unpack_score, unpack_sound
from lickwright.model.orders import ExchangeOrder, Order, Result, ScoreOrder, SoundOrder

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


@dataclass(frozen=True, slots=True)
class Renderer:
    """One kind of order and who makes it.

    Attributes:
        kind: ``score``, ``sound`` or ``exchange``; begins the cache key.
        work: What is made, in the words of a finding ("the notation of porch-step").
        function: ``module:function`` of the package, from order to result.
        unpack: From the bytes of a cache entry to the result.
        sources: Packages and files of ours whose text decides what comes out: all that ``function``
            imports, as the tests check. The ``__init__`` of a package that one module is used of decides
            nothing.
        libraries: Distributions whose version does.
    """

    kind: str
    work: str
    function: str
    unpack: Callable[[bytes], Result]
    sources: tuple[str, ...]
    libraries: tuple[str, ...]


_MUSIC = ("text", "terms", "theory", "instrument", "model", "building/packing.py")

RENDERERS: dict[type[Any], Renderer] = {
    ScoreOrder: Renderer(
        kind="score",
        work="notation",
        function="engraving.compact:engrave_compact",
        unpack=unpack_score,
        sources=(*_MUSIC, "findings", "analysis/naming.py", "analysis/notation", "engraving"),
        libraries=("verovio", "lxml"),
    ),
    SoundOrder: Renderer(
        kind="sound",
        work="sound",
        function="building.recording:record",
        unpack=unpack_sound,
        sources=(*_MUSIC, "performance", "sound", "building/recording.py"),
        libraries=("numpy", "soundfile"),
    ),
    ExchangeOrder: Renderer(
        kind="exchange",
        work="files for other programs",
        function="exchange.exchange:exchange",
        unpack=unpack_file,
        sources=(*_MUSIC, "findings", "analysis/naming.py", "analysis/notation", "performance", "exchange"),
        libraries=("lxml",),
    ),
}

LIBRARIES = ("jinja2", "lxml", "markdown-it-py", "numpy", "rcssmin", "rjsmin", "soundfile", "verovio")
"""Distributions whose version may show in a site."""


def renderer_of(order: Order) -> Renderer:
    """Return who makes an order."""
    return RENDERERS[type(order)]


def make(order: Order) -> Result:
    """Make an order here and now, loading its renderer."""
    module, _, name = renderer_of(order).function.partition(":")
    result: Result = getattr(import_module(f"lickwright.{module}"), name)(order)
    return result


@cache
def version_of(renderer: Renderer) -> str:
    """Return the digest of a renderer's own source, its libraries and the Python that runs them."""
    return _count(renderer.sources, renderer.libraries)


@cache
def builder_version() -> str:
    """Return the digest of our whole source and of all that it runs by: any line of it may show on a page."""
    return _count(("",), LIBRARIES)


def _count(sources: Iterable[str], libraries: Iterable[str]) -> str:
    counted = hashlib.sha256(".".join(platform.python_version_tuple()[:2]).encode())
    for library in libraries:
        counted.update(f"\n{library} {_installed(library)}".encode())
    for source in sources:
        for file in sources_of(files("lickwright") / source):
            counted.update(file.read_bytes())
    return counted.hexdigest()


def _installed(library: str) -> str:
    try:
        return version(library)
    except PackageNotFoundError:
        return "none"


def sources_of(source: Traversable) -> list[Traversable]:
    """Return a file, or all files of a folder in a fixed order, compiled ones left out."""
    if not source.is_dir():
        return [source]
    entries = sorted(source.iterdir(), key=lambda entry: entry.name)
    return [file for entry in entries if entry.name != "__pycache__" for file in sources_of(entry)]
