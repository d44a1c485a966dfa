"""Note names as an author types them: ``B flat``, ``B-flat``, ``Bb``, ``B♭``; letters are capitals."""

from __future__ import annotations

import re

from lickwright.terms.accidentals import READINGS, WORDS

_SPOKEN: dict[str, int] = {**{word: alter for alter, word in WORDS.items() if word}, "natural": 0}
_WORDS = "|".join(sorted((word.replace(" ", "[ -]") for word in _SPOKEN), key=len, reverse=True))

NOTE = rf"[A-G](?:[ -](?:{_WORDS})(?!\w)|[#♯♭♮𝄪𝄫]{{1,2}}|bb?(?!\w))?(?![\w#♯♭♮’']|-[a-z])"
"""Pattern of a note name; that no letter stands before it is for the caller to see to."""

_PARTS = re.compile(r"([A-G])[ -]?(.*)", re.DOTALL)


def read_note(text: str) -> tuple[str, int] | None:
    """Read a name: its letter, and half steps by which the accidental moves it.

    >>> [read_note(name) for name in ("B flat", "F-sharp", "E♭", "Bb", "C natural", "H")]
    [('B', -1), ('F', 1), ('E', -1), ('B', -1), ('C', 0), None]
    """
    found = _PARTS.fullmatch(text)
    if found is None:
        return None
    sign = found[2].replace("-", " ")
    alter = _SPOKEN.get(sign, READINGS.get(sign))
    return None if alter is None else (found[1], alter)
