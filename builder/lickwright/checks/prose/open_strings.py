"""Open strings that are said to belong to a key, and one does not.

``every open string belongs to B major`` is held against the tuning of the lick, capo counted in; strings that
the words leave out (``all but G``) are left out.

Why it matters: the student lets the string ring, and it clashes.

What to do: name the strings that do not belong.
"""

from __future__ import annotations

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_list
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.theory.key import Key, parse_key
from lickwright.theory.pitch import PitchClass


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Look for open strings outside the key."""
    value = claim.terms[1].value
    key = value if isinstance(value, Key) else parse_key(f"{value} major")
    if key is None:
        return Unresolved(f"{claim.terms[1].text} is no key")
    left_out = {t.value.semitone for t in claim.terms[2:] if isinstance(t.value, PitchClass)}
    guitar = notes.subject.piece.music.guitar
    outside = []
    for string in range(guitar.strings, 0, -1):
        sounding = guitar.open_midi(string) % 12
        if sounding not in key.semitones and sounding not in left_out:
            outside.append(guitar.tuning.open(string).name.spoken)
    if not outside:
        return HELD
    names = list(dict.fromkeys(outside))
    plural = "does" if len(names) == 1 else "do"
    return Differs(
        f"the words say that every open string belongs to {key.display}; {say_list(names)} {plural} not",
        help=f"Write “every open string but {say_list(names)}”, or name another key",
    )


RULE = Rule(
    id="prose/open-strings",
    title="Open strings that are said to belong to a key, and one does not",
    severity=Severity.ERROR,
    source=Source("common practice", "The open strings of the tuning against the notes of the key"),
    good=(
        Example(
            "```lick example\nkey: D major\n\nD | 4:0 - 4:4 - 3:2 - 4:4 -\n```\n\n"
            "Every open string belongs to D major, so [let them ring](lick:example)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nkey: B major\n\nB | 5:2 - - - 4:4 - - -\n```\n\n"
            "Every open string belongs to B major, so [let it ring](lick:example).",
            ("open string belongs to B major",),
        ),
    ),
    survey=tell("open-strings", Severity.ERROR),
)
