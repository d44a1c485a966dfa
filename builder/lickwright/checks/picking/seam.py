"""Two strokes the same way at a seam, with no time for the hand to come back.

The last stroke before a repeat goes back and the first after it, in a lick that claims alternate picking;
the last stroke of one lick of a chorus and the first of the next, where both claim it. With a beat or more
between them the hand comes back by itself, and nothing is said; nor where the row gives no stroke.

Why it matters: alternate picking that is right in each lick stumbles where they meet.

What to do: begin the second the other way up, or leave a beat.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strokes import NAMES, PickStroke, list_runs
from lickwright.checks.subject import Subject
from lickwright.checks.survey import Survey
from lickwright.findings import Label
from lickwright.model.music import Music, Piece
from lickwright.model.timeline import Book

BETWEEN = "seam-beats"


def run(subject: Subject) -> Iterator[Finding]:
    """Look at the bars from which a repeat goes back."""
    music = subject.piece.music
    if music.picking.style != "alternate" or subject.piece.kind == "chorus":
        return
    back = {(one, next_) for one, next_ in pairwise(music.order) if next_ <= one}
    if not back:
        return
    strokes = _by_bar(music)
    for one, next_ in sorted(back):
        last, first = _last(strokes, music, one), _first(strokes, music, next_)
        if last is None or first is None:
            continue
        gap = music.bars[one].length - last.sound.onset + first.sound.onset
        if _is_same(last, first, gap, subject.limits[BETWEEN]):
            yield subject.report(
                RULE,
                f"the repeat goes back from {NAMES[last.given or 'd']} to {NAMES[first.given or 'd']}:"
                " the lick claims alternate picking",
                last.span,
                last.sound.address,
                labels=(Label(first.span, "the first stroke of the repeat"),),
            )


def survey(survey: Survey) -> Iterator[Finding]:
    """Look at the seams of every chorus."""
    for chorus in survey.course.choruses.values():
        piece = survey.book.piece(chorus.name)
        if piece is not None and piece.kind == "chorus" and _alternates(piece, survey.book):
            yield from _check_chorus(piece, survey.book, survey.limits[BETWEEN])


def _alternates(piece: Piece, book: Book) -> bool:
    return any(_claims(section.lick, book) for section in piece.sections)


def _claims(lick: str, book: Book) -> bool:
    piece = book.piece(lick)
    return piece is not None and piece.music.picking.style == "alternate"


def _check_chorus(piece: Piece, book: Book, beats: float) -> Iterator[Finding]:
    strokes = [stroke for run in list_runs(piece.music) for stroke in run]
    told: set[tuple[str, str]] = set()
    for one, other in pairwise(piece.sections):
        names = one.lick, other.lick
        if names in told or not all(_claims(name, book) for name in names):
            continue
        before = [stroke for stroke in strokes if stroke.bar.number < other.first]
        after = next((stroke for stroke in strokes if stroke.bar.number >= other.first), None)
        if before and after is not None and _is_same(before[-1], after, after.at - before[-1].at, beats):
            told.add(names)
            yield Finding(
                RULE.id,
                RULE.severity,
                f"“{one.lick}” ends with {NAMES[before[-1].given or 'd']} and “{other.lick}” begins with"
                " one, with no beat between: both claim alternate picking",
                piece.span,
                (Label(before[-1].span, one.lick), Label(after.span, other.lick)),
                "",
                None,
                piece.name,
                str(after.sound.address),
            )


def _is_same(last: PickStroke, first: PickStroke, gap: Fraction, beats: float) -> bool:
    near = gap < min(last.bar.meter.beat, Fraction(1)) * Fraction(beats)
    return near and last.given is not None and last.given == first.given


def _by_bar(music: Music) -> dict[int, list[PickStroke]]:
    by_bar: dict[int, list[PickStroke]] = {}
    for strokes in list_runs(music):
        for stroke in strokes:
            by_bar.setdefault(stroke.bar.number, []).append(stroke)
    return by_bar


def _last(strokes: dict[int, list[PickStroke]], music: Music, index: int) -> PickStroke | None:
    found = strokes.get(music.bars[index].number)
    return found[-1] if found else None


def _first(strokes: dict[int, list[PickStroke]], music: Music, index: int) -> PickStroke | None:
    found = strokes.get(music.bars[index].number)
    return found[0] if found else None


_TWO = (
    "```progression porch\nkey: A major\n\nA | A\n```\n\n"
    "```lick one\nover: porch bar 1\npicking: alternate, down first\n\n"
    "| 5:0 5:4 4:2 4:4 3:2 - 4:2 5:4\n  rh | d u d u d u d\n```\n\n"
    "```lick two\nover: porch bar 1\npicking: alternate, {} first\n\n"
    "| 3:2 4:4 4:2 5:4 5:0 - - -\n  rh | {}\n```\n\n"
    "```chorus first\nover: porch\nlicks: one two\n```"
)
_ROUND = "picking: alternate\n\nA |: 5:0 5:4 4:2 4:4 3:2 - 4:2 5:4 :|\n  rh | {}"

RULE = Rule(
    id="picking/seam",
    title="Two strokes the same way at a seam",
    severity=Severity.NOTE,
    source=Source("own threshold", "Less than a beat for the hand to come back"),
    good=(
        Example(_TWO.format("up", "u d u d u")),
        Example("picking: alternate\n\nA |: 5:0 5:4 4:2 - 3:2 - - - :|\n  rh | d u d u"),
    ),
    bad=(
        Example(_TWO.format("down", "d u d u d"), ("```chorus first",)),
        Example(_ROUND.format("d u d u d u d"), ("d",)),
    ),
    run=run,
    survey=survey,
)
