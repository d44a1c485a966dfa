"""Names that theory gives to chords and scales, as they are said: patterns of them, and their readers."""

from __future__ import annotations

import re

from lickwright.checks.claims.term import Movement, ScaleName, TermKind, Value
from lickwright.terms.bends import AMOUNT, read_amount
from lickwright.terms.movements import name_movement
from lickwright.terms.notes import NOTE, read_note
from lickwright.terms.numbers import CARDINALS, ORDINALS, read_number
from lickwright.theory.chord import Chord
from lickwright.theory.pitch import PitchClass
from lickwright.theory.quality import QUALITIES, Quality
from lickwright.theory.scale import SCALES

_NOTE = re.compile(rf"(?<![\w#♯♭]){NOTE}")
_NUMBER = re.compile(rf"(?i)\b(?:{'|'.join((*ORDINALS[1:], *CARDINALS[1:]))}|[0-9]+)(?:st|nd|rd|th)?\b")
_AMOUNT = re.compile(rf"(?i)\b{AMOUNT}\b")


def note_in(text: str) -> PitchClass | None:
    """Return the first note that a text names."""
    found = _NOTE.search(text)
    parts = read_note(found[0]) if found else None
    return None if parts is None else PitchClass(*parts)


def numbers_in(text: str) -> tuple[int, ...]:
    """Return the numbers of a text, in any of their forms."""
    words = (read_number(word) for word in _NUMBER.findall(text))
    return tuple(number for number in words if number is not None)


def read_movement(text: str) -> tuple[TermKind, Value] | None:
    """Read a technique with how far a bend goes."""
    name = name_movement(text)
    if name is None:
        return None
    amount = _AMOUNT.search(text) if "bend" in name else None
    return "technique", Movement(name, None if amount is None else read_amount(amount[0]))


# Chords


def _say(quality: Quality) -> set[str]:
    """The ways of saying a quality after its root: ``minor seven``, ``minor seventh``."""
    said = {quality.spoken, quality.title.replace(",", "")} - {"five", "major", "minor"}
    for words in tuple(said):
        head, _, last = words.rpartition(" ")
        for one, other in ((CARDINALS, ORDINALS), (ORDINALS, CARDINALS)):
            if last in one:
                said.add(f"{head} {other[one.index(last)]}".strip())
    return {words for words in said if not words.endswith("triad")}


_BY_WORDS: dict[str, Quality] = {}
for _quality in QUALITIES.values():
    for _words in _say(_quality):
        _BY_WORDS.setdefault(_words, _quality)
_BARE = {word for word in _BY_WORDS if word in CARDINALS or word in ORDINALS}
"""A number alone: ``D six`` is a chord, ``the sixth`` is none."""

_SPOKEN = sorted(set(_BY_WORDS) - _BARE, key=lambda words: (-len(words), words))
_CARDINALS = sorted(_BARE & set(CARDINALS))
CHORD_WORDS = (
    rf"(?:{'|'.join(re.sub('[ -]', '[ -]', w) for w in _SPOKEN)}"
    rf"|(?:{'|'.join(_CARDINALS)})(?= chord|[,.;:)]|$| (?:of|in|over|to|and|with|is|at|on)\b))"
)
"""Pattern of a quality in words, after the root."""


def read_chord_words(text: str) -> Chord | None:
    """Read ``D six-nine``, ``A minor seventh chord``; None when it is none."""
    found = _NOTE.match(text)
    root = note_in(text)
    if found is None or root is None:
        return None
    words = re.sub(r"[ -]chord$", "", text[found.end() :].lower()).strip(" -")
    even = re.sub(r"[ -]+", " ", words)
    for name, quality in _BY_WORDS.items():
        if name.replace("-", " ") == even:
            return Chord(root, quality)
    return None


_SUFFIXES = sorted(
    {
        s
        for q in QUALITIES.values()
        for s in q.suffixes
        if s and s not in {"o", "°", "+", "-", "mi", "ma", "M"}
    },
    key=lambda s: (-len(s), s),
)
_WRITTEN = (re.escape(s).replace("b", "[b♭]").replace(re.escape("#"), "[#♯]") for s in _SUFFIXES)
SYMBOL = rf"[A-G](?:[#♯]|b|♭)?(?:{'|'.join(_WRITTEN)})(?:/[A-G][#♯b♭]?)?(?![\w♯♭/])"
"""Pattern of a chord symbol with a suffix."""


# Scales

_KINDS = sorted(
    (k for k in SCALES if " " in k or k not in {"major", "minor", "blues"}), key=lambda k: (-len(k), k)
)
SCALE_WORDS = (
    rf"(?:(?:{'|'.join(k.replace(' ', '[ -]') for k in _KINDS)}|pentatonic)(?:[ -]scale)?"
    r"|(?:major|minor|blues)[ -]scale)(?![\w-])"
)
"""Pattern of a kind of scale, after its tonic or alone."""


def read_scale_words(text: str) -> ScaleName:
    """Read ``G major pentatonic``, ``the blues scale``; the kind as the table of scales names it."""
    found = _NOTE.match(text)
    kind = text[found.end() :] if found else text
    kind = re.sub(r"[ -]scale$", "", kind.casefold().strip()).replace("half-whole", "half_whole")
    kind = kind.replace("-", " ").replace("half_whole", "half-whole").strip()
    return ScaleName(note_in(text) if found else None, kind)
