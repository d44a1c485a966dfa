"""Chord symbols as text: every usual spelling read, the nearest right one suggested.

Conventions: a symbol is a capital letter, its accidental, a suffix, and perhaps a slash and a bass.
An accidental straight after the letter belongs to the root (``Ab5`` is A flat five). The house
style is the first spelling of the quality's row.
"""

from __future__ import annotations

import re
from difflib import get_close_matches
from functools import lru_cache
from typing import Literal, TypeAlias

from lickwright.theory.pitch import PitchClass
from lickwright.theory.quality import QUALITIES, Quality

Parts: TypeAlias = tuple[PitchClass, Quality, PitchClass | None]

LONGEST = 24
"""Longest symbol that is looked at, in characters."""

_SIGNS = str.maketrans({"♯": "#", "♭": "b", "△": "Δ", "°": "o", "º": "o", "Ø": "ø", "−": "-"})
_ROOT = re.compile(r"([A-G])(##|bb|#|b|x|)(.*)", re.DOTALL)
_NO_CHORD = frozenset({"N.C.", "N.C", "NC"})


def _plain(suffix: str) -> str:
    """One form for the ways of writing a suffix: signs, brackets, min and maj."""
    text = suffix.translate(_SIGNS)
    text = re.sub(r"\(([^()]+)\)", lambda inside: inside[1].replace(",", ""), text)
    text = re.sub(r"^(?:min|Min|MIN|mi|-)", "m", text)
    text = re.sub(r"^(m?)(?:maj|Maj|MAJ|ma|Ma|MA|M)", r"\1maj", text)
    text = re.sub(r"^(m?)Δ7?(?![0-9])", r"\1maj7", text)
    text = re.sub(r"^(m?)Δ", r"\1maj", text)
    text = re.sub(r"^ø7?", "m7b5", text)
    return re.sub(r"^o", "dim", text)


_BY_SUFFIX: dict[str, Quality] = {
    _plain(suffix): row for row in QUALITIES.values() for suffix in row.suffixes
}


def _split(text: str) -> Parts | None:
    text = text.translate(_SIGNS)
    found = _ROOT.fullmatch(text)
    if found is None:
        return None
    suffix, bass = found[3], None
    quality = _BY_SUFFIX.get(_plain(suffix))
    if quality is None and "/" in suffix:
        suffix, _, name = suffix.rpartition("/")
        quality, bass = _BY_SUFFIX.get(_plain(suffix)), PitchClass.parse(name)
        if bass is None:
            return None
    root = PitchClass.parse(found[1] + found[2])
    return None if quality is None or root is None else (root, quality, bass)


def read_symbol(text: str) -> Parts | Literal["N.C."] | None:
    """Root, quality and bass of a chord symbol, ``N.C.``, or ``None``. Never raises."""
    if len(text) > LONGEST:
        return None
    return "N.C." if text in _NO_CHORD else _split(text)


_WORDS = (("minor", "m"), ("major", "maj"), ("flat", "b"), ("sharp", "#"), ("dominant", ""))
_TYPED = (("7M$", "maj7"), (r"(?<=[0-9])-(?=5|9|13)", "b"), (r"(?<=[0-9])\+(?=5|9|11)", "#"))
_NEAR: dict[str, str] = {}
for _row in QUALITIES.values():
    for _suffix in _row.suffixes:
        if _suffix.casefold() not in _NEAR or _suffix.islower():  # m is minor, M only reads as major
            _NEAR[_suffix.casefold()] = _suffix


@lru_cache(maxsize=1024)
def _nearest(text: str) -> str | None:
    bare = re.sub(r"\s", "", text).translate(_SIGNS)
    if bare.casefold().strip(".").replace(".", "") in {"nc", "nochord"}:
        return "N.C."
    for word, sign in _WORDS:
        bare = re.sub(word, sign, bare, flags=re.IGNORECASE)
    for habit, sign in _TYPED:
        bare = re.sub(habit, sign, bare)
    head, slash, bass = bare.rpartition("/")
    if slash and re.fullmatch(r"[A-Ga-g][#b]?", bass):
        bare, bass = head, slash + bass[0].upper() + bass[1:]
    else:
        bass = ""
    bare = bare[:1].upper() + bare[1:]
    found = _ROOT.fullmatch(bare)
    if found is None:
        return None
    if _split(bare + bass) is not None:
        return bare + bass
    root, suffix = found[1] + found[2], found[3].casefold()
    near = [suffix] if suffix in _NEAR else get_close_matches(suffix, _NEAR, n=1, cutoff=0.6)
    return root + _NEAR[near[0]] + bass if near else None


def suggest_symbol(text: str) -> str | None:
    """The nearest symbol that reads, or ``None``. Never raises."""
    return _nearest(text) if len(text) <= LONGEST else None
