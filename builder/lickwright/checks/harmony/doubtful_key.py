"""A key that the music does not bear out.

By their length less than seven in ten notes lie in the key, nearly all of them lie in the key of the last
chord, and that is another.

Why it matters: key signature, spelling, degrees and every judgement about chromatic notes go by the key.

What to do: write the key the lick is in.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.survey import Survey
from lickwright.model.course import Course
from lickwright.text import Span
from lickwright.theory.chord import Chord
from lickwright.theory.key import Key

FEWEST = 6
"""Notes."""


def run(survey: Survey) -> Iterator[Finding]:
    """Weigh every lick in the key that is stated for it."""
    for name, subject in survey.subjects.items():
        other = _other(subject)
        span = None if other is None else _stated(survey.course, subject)
        if other is not None and span is not None:
            message = (
                f"the notes are those of {other.display}, which is the last chord's, and the key given is"
                f" {subject.piece.music.key.display}"
            )
            yield Finding(RULE.id, RULE.severity, message, span, help=f"Write key: {other.name}", lick=name)


def _stated(course: Course, subject: Subject) -> Span | None:
    """Where the key of a lick is given: by itself, by its progression, or for the course."""
    lick = course.licks.get(subject.piece.name)
    if lick is None:
        return None
    if lick.key is not None:
        return lick.place_of("key")
    grid = course.progressions.get(subject.piece.over)
    stated = (grid is not None and grid.key is not None) or "course.key" in dict(course.places)
    return lick.span if stated else None


def _other(subject: Subject) -> Key | None:
    """The key of the last chord, where the notes lie in it and not in the one given."""
    music = subject.piece.music
    last = next((c.symbol for bar in reversed(music.bars) for c in reversed(bar.chords)), None)
    if subject.piece.kind != "lick" or not isinstance(last, Chord) or len(subject.roles) < FEWEST:
        return None
    other = Key(last.root, music.key.mode)
    if last.root.semitone == music.key.tonic.semitone or not -7 <= other.signature <= 7:
        return None
    if _share(subject, music.key) >= subject.limits["key-own"]:
        return None
    return other if _share(subject, other) >= subject.limits["key-other"] else None


def _share(subject: Subject, key: Key) -> float:
    """Share of the notes' time in a key, in minor with the raised sixth and seventh."""
    semitones = key.working_semitones
    lengths = [(float(r.length), r.pitch % 12 in semitones) for r in subject.roles]
    total = sum(length for length, _ in lengths)
    return sum(length for length, inside in lengths if inside) / total if total else 1.0


RULE = Rule(
    id="harmony/doubtful-key",
    title="A key that the music does not bear out",
    severity=Severity.QUERY,
    source=Source("own threshold", "Shares of the notes' time in either key"),
    good=(Example("key: F major\n\nF | 4:3 - 3:2 - 3:3 - 2:1 -\nBb | 3:3 - 2:3 - 3:3 - - -"),),
    bad=(
        Example(
            "key: B major\n\nC7 | 3:5 - 3:3 - 3:0 - 4:2 -\nF | 3:3 - 3:2 - 4:3 - 2:1 -",
            marks=("B major",),
        ),
    ),
    survey=run,
)
