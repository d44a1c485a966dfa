"""A bend farther than the string will go.

Measured in half steps from the fret the finger holds to the pitch it is bent to. The upper half of the
strings gives more than the lower half; beside the nut or the capo every string is stiff. The first finger,
which has no other behind it, pushes less far. Bends behind the nut are left alone.

Why it matters: a bend that is asked for and cannot be reached is played flat, and forcing it hurts fingers
and strings. Lighter strings or a lower tuning may allow more than the limits here.

What to do: look at the fret the bend is to reach; take the note from a higher fret, or on a higher string.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.strike import BendKind
from lickwright.terms.bends import say_amount

STIFF = 2
"""The last fret, counted from nut or capo, at which every string is stiff."""


def run(subject: Subject) -> Iterator[Finding]:
    """Measure the farthest bend of every note."""
    limits, strings = subject.limits, subject.piece.music.guitar.strings
    for written in subject.tones:
        tone = written.tone
        targets = [bend.to for bend in tone.bends if bend.kind in (BendKind.UP, BendKind.PRE)]
        if not targets or not tone.fret:
            continue
        steps = max(targets) - tone.fret
        half = "high" if 2 * tone.string <= strings + 1 else "low"
        stiff = tone.fret <= STIFF
        easy = limits["bend-stiff-query"] if stiff else limits[f"bend-{half}-query"]
        alone = limits["bend-first-finger"] if tone.finger == "1" else steps
        if steps <= min(easy, limits[f"bend-{half}-query"], alone):
            continue
        severe = steps > limits[f"bend-{half}-error"]
        where = f"string {tone.string} at fret {tone.fret}" if stiff else f"string {tone.string}"
        if alone < steps <= min(easy, limits[f"bend-{half}-query"]):
            where = f"string {tone.string} by the first finger alone"
        yield subject.report(
            RULE,
            f"a bend of {say_amount(Fraction(steps))}: more than {where}"
            f" {'can be' if severe else 'is easily'} bent",
            tone.span,
            written.sound.address,
            severity=Severity.ERROR if severe else Severity.QUERY,
            help="Look at the fret it is bent to, or start from a higher fret",
        )


RULE = Rule(
    id="hands/bend-reach",
    title="A bend farther than the string will go",
    severity=Severity.ERROR,
    source=Source("own threshold", "Common practice of lead playing; the limits in half steps are our own"),
    good=(Example("A7 | 3:7b9 - 2:5 - 3:6 - 4:7 -"), Example("A7 | 2:8b10 - 2:5 - 3:6 - 4:7 -")),
    bad=(
        Example("A7 | 2:9b14 - 2:5 - 3:6 - 4:7 -", marks=("2:9b14",)),
        Example("A7 | 5:4b7 - 4:2 - 3:2 - 2:2 -", marks=("5:4b7",)),
        Example("A7 | 3:2b4 - 3:2 - 4:2 - 5:0 -", marks=("3:2b4",)),
        Example("A7 | 3:7b10 - 2:5 - 3:6 - 4:7 -\n  lh | 1 1 2 3", marks=("3:7b10",)),
    ),
    run=run,
)
