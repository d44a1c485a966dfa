"""A harmonic touched where the string has no node.

Over the open string the nodes lie at frets 12, 7 and 19, 5 and 24, 4, 9 and 16, 3.2 and 2.7; over
a stopped string as many frets above the one that is held.

Why it matters: beside a node the string gives a thud instead of a tone.

What to do: touch the nearest node.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.findings import Edit, Fix
from lickwright.instrument.harmonics import NODES, node
from lickwright.model.strike import Harmonic
from lickwright.text import Span


def run(subject: Subject) -> Iterator[Finding]:
    """Look at every harmonic."""
    for written in subject.tones:
        head = written.tone.head
        if not isinstance(head, Harmonic) or node(head.touch, head.fret) is not None:
            continue
        away = min(abs(touch + head.fret - head.touch) for touch in NODES)
        nearest = sorted(t + head.fret for t in NODES if abs(t + head.fret - head.touch) == away)
        nodes = " and ".join(f"{float(touch):g}" for touch in nearest)
        over = f" with fret {head.fret} held" if head.fret else ""
        yield subject.report(
            RULE,
            f"no harmonic lies over fret {float(head.touch):g}{over}: the nearest"
            f" {'node is' if len(nearest) == 1 else 'nodes are'} {nodes}",
            written.tone.span,
            written.sound.address,
            help=f"Touch it over {nodes.replace('and', 'or')}",
            fix=_touch(written.tone.span, head.touch, nearest),
        )


def _touch(span: Span, touch: Fraction, nearest: Sequence[Fraction]) -> Fix | None:
    """The touch put over the nearest node, where one alone is the nearest."""
    typed, right = f"<{float(touch):g}>", f"<{float(nearest[0]):g}>"
    if len(nearest) > 1 or span.text.count(typed) != 1:
        return None
    text = span.text.replace(typed, right)
    return Fix(f"{text}: the nearest node", (Edit(span, text),))


RULE = Rule(
    id="hands/harmonic-node",
    title="A harmonic where no node lies",
    severity=Severity.ERROR,
    source=Source("published", "The overtone series: partial k has its nodes at k/j of the string"),
    good=(Example("A | 5:<12> - 4:<7> - 4:2<14> - - -"),),
    bad=(Example("A | 5:<12> - 4:<6> - 5:0 - - -", marks=("4:<6>",)),),
    run=run,
)
