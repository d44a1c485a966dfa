"""How sure it is that words are wrong: an error stops the course, a query asks its author.

A name, a string or a fret that is said in so many words of certain sounds, and that nothing in the sentence
explains, is an error. What leaves something to the reader stays a query: a link to bars or to a whole lick, a
noun that is left out (``B at the fourth``), the letter of a chord, talk of shapes, of a capo or of how a note
is written.
"""

from __future__ import annotations

import re

from lickwright.checks.claims.claim import Claim
from lickwright.checks.claims.pointed import Pointed
from lickwright.findings import Severity
from lickwright.theory.pitch import PitchClass

_EXPLAINS = re.compile(
    r"(?i)\b(?:called|calls?|sounds|sounding|written|printed|spelled|shapes?|fingered|capo|transposed?|tuned"
    r"|looks? like|think of|instead|as if|imagine|used to|harmonic|octave|quarter[ -]tone)\b"
)


def weigh(claim: Claim, notes: Pointed) -> Severity:
    """Return the severity of words that differ from the notes.

    Args:
        claim: A note, a string or a fret.
        notes: Of its link.
    """
    at = notes.at
    vague = at is None or (at.whole_bars and len(claim.terms) < 2)
    return Severity.QUERY if vague or _EXPLAINS.search(claim.link.sentence) else Severity.ERROR


def weigh_name(claim: Claim, notes: Pointed, name: PitchClass) -> Severity:
    """The same of a note: its letter may name a chord, an open string, or a shape under a capo."""
    guitar = notes.subject.piece.music.guitar
    strings = {tone.string for heard in notes.heard for tone in heard.sound.tones}
    chord = len(claim.terms) == 1 and any(c.root.semitone == name.semitone for c in notes.around)
    opens = any(guitar.open_midi(string) % 12 == name.semitone for string in strings)
    shape = guitar.capo and any(
        (int(p) - guitar.capo) % 12 == name.semitone for _, tone in notes.tones for p in tone.path
    )
    return Severity.QUERY if chord or shape or (opens and not notes.single) else weigh(claim, notes)
