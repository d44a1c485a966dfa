"""A key that the music does not bear out.

By their length less than seven in ten notes lie in the key, nearly all of them lie in the key of the last
chord, and that is another. Or the mode is another: of all licks that have the key from one place a single
degree is foreign to it, three times and more, nowhere as the key has it, in notes or chords, and one at
least is not explained: B natural throughout in D minor is D dorian.

Why it matters: key signature, spelling, degrees and every judgement about chromatic notes go by the key.

What to do: write the key the lick is in.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.survey import Survey
from lickwright.checks.wording import say_name
from lickwright.findings import Edit, Fix
from lickwright.model.course import Course
from lickwright.text import Span
from lickwright.theory.chord import Chord
from lickwright.theory.key import MODES, Key
from lickwright.theory.pitch import PitchClass

FEWEST = 6
"""Notes."""
THROUGHOUT = 3
"""Notes of a degree that make another mode of the key (own threshold)."""


def run(survey: Survey) -> Iterator[Finding]:
    """Weigh every lick in the key that is stated for it, then those that share the place where it is."""
    alike: dict[tuple[Span, Key], list[Subject]] = {}
    for subject in survey.subjects.values():
        source = _source(survey.course, subject)
        if source is not None:
            alike.setdefault((source, subject.piece.music.key), []).append(subject)
        other = _other(subject)
        span = None if other is None else _stated(survey.course, subject)
        if other is not None and span is not None:
            yield _finding(subject, span, other, "which is the last chord's, and")
    for (span, key), subjects in alike.items():
        for other, note in _modes(key):
            if _is_mode(subjects, key, other):
                throughout = f"{say_name(note)} throughout,"
                yield from (_finding(subject, span, other, f"{throughout} and") for subject in subjects)


def _finding(subject: Subject, span: Span, other: Key, why: str) -> Finding:
    key = subject.piece.music.key
    message = f"the notes are those of {other.display}, {why} the key given is {key.display}"
    fix = Fix(f"write {other.name}", (Edit(span, other.name),)) if span.text == key.name else None
    hint = f"Write key: {other.name}"
    return Finding(RULE.id, RULE.severity, message, span, help=hint, fix=fix, lick=subject.piece.name)


def _modes(key: Key) -> Iterator[tuple[Key, PitchClass]]:
    """The modes on the tonic with one degree otherwise, each with that note."""
    seen = {key.semitones}
    for mode in MODES:
        other = Key(key.tonic, mode)
        foreign = other.semitones - key.semitones
        if len(foreign) == 1 and other.semitones not in seen and -7 <= other.signature <= 7:
            seen.add(other.semitones)
            yield other, next(note for note in other.scale if note.semitone in foreign)


def _is_mode(subjects: Sequence[Subject], key: Key, other: Key) -> bool:
    """Whether the note of the other mode sounds again and again, its neighbour in the key nowhere."""
    (foreign,), (own,) = other.semitones - key.semitones, key.semitones - other.semitones
    sounding = [role.pitch % 12 for subject in subjects for role in subject.roles]
    if sounding.count(foreign) < THROUGHOUT or own in sounding:
        return False
    if any(own in _tones(subject) for subject in subjects):
        return False
    asked = {(s.piece.name, f.address) for s in subjects for f in s.found if f.rule == "harmony/unexplained"}
    return any(
        (subject.piece.name, str(role.address)) in asked and role.pitch % 12 == foreign
        for subject in subjects
        for role in subject.roles
    )


def _tones(subject: Subject) -> set[int]:
    """The pitch classes of its chords."""
    chords = (at.symbol for bar in subject.piece.music.bars for at in bar.chords)
    return {(c.root.semitone + t) % 12 for c in chords if isinstance(c, Chord) for t in c.quality.tones}


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


def _source(course: Course, subject: Subject) -> Span | None:
    """The place that a lick has its key from: its own field, its progression's, or the course's."""
    lick, grid = course.licks.get(subject.piece.name), course.progressions.get(subject.piece.over)
    if lick is not None and lick.key is not None:
        return lick.place_of("key")
    if grid is not None and grid.key is not None:
        return dict(grid.places).get("key", grid.span)
    return dict(course.places).get("course.key")


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
        Example(
            "key: D minor\n\nDm | 3:2 - 3:0 - 3:2 - 2:0 -\nC | 2:1 - 2:0 - 3:0 - 3:2 -\n"
            "Dm | 3:2 - 2:0 2:1 2:0 - 3:2 -",
            marks=("D minor",),
        ),
    ),
    survey=run,
)
