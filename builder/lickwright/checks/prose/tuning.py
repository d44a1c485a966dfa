"""A tuning that the words name and the guitar of the lick is not in.

``open G tuning`` wants open strings that are all notes of the G chord; ``drop D`` and ``standard`` are held
against their six strings. A capo changes nothing.

Why it matters: whoever tunes by the words plays every fretted note wrong.

What to do: mend the words, or the ``tuning`` of the lick or of the course.
"""

from __future__ import annotations

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.terms.tunings import read_tuning
from lickwright.theory.chord import Chord, parse_chord
from lickwright.theory.pitch import PitchClass


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Compare the open strings with those of the tuning that is named."""
    tuning = notes.subject.piece.music.guitar.tuning
    opens = [tuning.open(string).name for string in range(tuning.count, 0, -1)]
    named = read_tuning(str(claim.terms[0].value))
    if isinstance(named, str):
        chord = parse_chord(named)
        if not isinstance(chord, Chord):
            return Unresolved(f"{named} is no chord")
        same = all(name.semitone in chord.semitones for name in opens)
    elif named is None or len(named) != len(opens):
        return Unresolved("the tuning of a guitar of other strings has no such name")
    else:
        wanted = [PitchClass.parse(name) for name in named]
        same = [n.semitone for n in opens] == [n.semitone for n in wanted if n is not None]
    if same:
        return HELD
    real = " ".join(str(name) for name in opens)
    return Differs(
        f"the words say “{claim.terms[0].text}”, and the strings are tuned {real}",
        claim.terms[0],
        help=f"Write the name of the tuning {real}, or set the lick's tuning",
    )


_LICK = "```lick example\n{}A7 | 5:2 - - - 4:2 - - -\n```\n\n"

RULE = Rule(
    id="prose/tuning",
    title="A tuning that the words name and the guitar is not in",
    severity=Severity.ERROR,
    source=Source("common practice", "Tunings by name: the open strings from the lowest to the highest"),
    good=(
        Example(
            _LICK.format("tuning: D2 G2 D3 G3 B3 D4\nkey: A major\n\n")
            + "In open G tuning [it](lick:example) lies well."
        ),
    ),
    bad=(Example(_LICK.format("") + "In [open G tuning](lick:example).", ("open G tuning",)),),
    survey=tell("tuning", Severity.ERROR),
)
