"""A lick that ends on a note that leans: the fourth of a major chord, the flat sixth of a minor one.

Tones and colours of the last chord are ends, its sixth, ninth and major seventh among them, and the flat
seventh and the blue third where the style has them. So is anything in a lick with ``ending: open``, a
turnaround that is meant to hang. A chorus is asked about its own last note. An end of less than a beat and
off the beat is only noted. A last note that nothing explains is ``harmony/unexplained``.

Why it matters: a student plays the last note longest, and hears by it whether the lick is over.

What to do: end on a tone of the chord, or write ``ending: open``.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.analysis.role import Role
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.wording import degree_name, degree_of, note_name


def run(subject: Subject) -> Iterator[Finding]:
    """Look at the last note of the upper line."""
    piece, analysis = subject.piece, subject.analysis
    if not piece.closed or not analysis.lines.melodic or not analysis.lines.melodic[0]:
        return
    note, role = analysis.lines.melodic[0][-1], analysis.roles[0][-1]
    over = analysis.setting.changes[note.chord]
    bar = note.sound.address.bar
    if role is not Role.WEAK or note.curl or bar in subject.outside or over.relation[note.pitch % 12] != "a":
        return
    weighty = note.weight >= 2 or note.end - note.start >= analysis.lines.beat
    key = piece.music.key
    yield subject.report(
        RULE,
        f"the last note, {note_name(note.pitch, key, over.symbol)}, is the"
        f" {degree_name(degree_of(note.pitch, over.symbol, key))} of {over.symbol.display}",
        note.sound.tones[note.tone].span,
        note.sound.address,
        severity=Severity.QUERY if weighty else Severity.NOTE,
        help="End on a tone of the chord, or write ending: open",
    )


RULE = Rule(
    id="harmony/ending",
    title="A lick that ends on a note that leans",
    severity=Severity.QUERY,
    source=Source("common practice", "Closes of harmony teaching (Kostka and Payne, from memory)"),
    good=(
        Example("key: D major\n\nD | 4:0 - 4:4 - 3:2 - 2:0 -"),
        Example("key: D major\n\nD | 4:0 - 4:4 - 3:2 - 2:2 -"),
        Example("key: D major\nending: open\n\nD | 4:0 - 4:4 - 3:2 - 3:0 -"),
    ),
    bad=(
        Example("key: D major\n\nD | 4:0 - 4:4 - 3:2 - 3:0 -", marks=("3:0",)),
        Example("key: D major\n\nD | 4:0 - 4:4 - 3:2 4:4 - 3:0", marks=("3:0",)),
    ),
    run=run,
    one_note=True,
)
