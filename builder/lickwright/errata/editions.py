"""Two editions of a course side by side: which licks, lessons and sentences are not as they were."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace

from lickwright.errata.bars import compare_bars
from lickwright.errata.course import compare_courses
from lickwright.errata.errata import Errata, LickChange, Unread
from lickwright.errata.fields import compare_fields
from lickwright.errata.progressions import compare_progressions
from lickwright.errata.renamed import find_renamed
from lickwright.errata.sentences import compare_sentences
from lickwright.errata.shared import settle
from lickwright.model.course import Course
from lickwright.model.music import Piece
from lickwright.model.timeline import Book

Broken = Mapping[str, frozenset[int]]
"""Bars of a lick or chorus that could not be read whole, by its name."""


def compare(
    old: Course, old_book: Book, new: Course, new_book: Book, broken: tuple[Broken, Broken] = ({}, {})
) -> Errata:
    """Compare two editions of a course.

    Args:
        old: As read.
        old_book: The same, resolved.
        new: The later edition.
        new_book: The same, resolved.
        broken: What of either could not be read: it is told so, and not compared.
    """
    before, after = _whole(old_book), _whole(new_book)
    unread = tuple(_list_unread((old, new), (before, after), broken))
    left = {(each.lick, each.bar) for each in unread}
    licks = (_leave_unread(change, left, broken) for change in _compare_licks(before, after))
    settled = settle(
        compare_courses(old, new),
        compare_progressions(old_book.grids, new_book.grids),
        tuple(change for change in licks if change is not None),
    )
    return Errata(
        _name_edition(old, "old"),
        _name_edition(new, "new"),
        settled.course,
        settled.progressions,
        settled.licks,
        tuple(compare_sentences(old, new, before, after)),
        _compare_lessons(old, new),
        unread,
    )


def _name_edition(course: Course, otherwise: str) -> str:
    return f"{course.title}, edition {course.edition}" if course.edition else f"{course.title}, {otherwise}"


def _whole(book: Book) -> dict[str, Piece]:
    """Licks and choruses by name; an excerpt changes with its lick."""
    return {piece.name: piece for piece in reversed(book.pieces) if piece.kind != "excerpt"}


def _list_unread(
    courses: tuple[Course, Course], pieces: tuple[dict[str, Piece], ...], broken: tuple[Broken, Broken]
) -> Iterator[Unread]:
    """Yield the licks that could not be made at all, and the bars of the others that could not be read.

    A chorus and a variation have the bars of their licks, and are told of there.
    """
    lost = [
        {name for name in (*course.licks, *course.choruses) if name not in made}
        for course, made in zip(courses, pieces, strict=True)
    ]
    for name in sorted(lost[0] | lost[1]):
        yield Unread(name, None, name in lost[0], name in lost[1])
    own: list[set[tuple[str, int]]] = []
    for made, unread in zip(pieces, broken, strict=True):
        own.append(
            {
                (name, bar)
                for name, bars in unread.items()
                if name in made and made[name].kind == "lick"
                for bar in bars - unread.get(made[name].of, frozenset())
            }
        )
    for name, bar in sorted(own[0] | own[1]):
        yield Unread(name, bar, (name, bar) in own[0], (name, bar) in own[1])


def _leave_unread(
    change: LickChange, unread: Collection[tuple[str, int | None]], broken: tuple[Broken, Broken]
) -> LickChange | None:
    """Return a change without what could not be read in either edition; None where nothing is left of it."""
    if (change.name, None) in unread:
        return None
    was = broken[0].get(change.before.name if change.before else change.name, frozenset())
    now = broken[1].get(change.name, frozenset())
    bars = tuple(bar for bar in change.bars if bar.old not in was and bar.new not in now)
    if change.state == "changed" and not bars and not change.fields:
        return None
    return replace(change, bars=bars)


def _compare_licks(old: dict[str, Piece], new: dict[str, Piece]) -> Iterator[LickChange]:
    gone = [name for name in reversed(old) if name not in new]
    renamed = find_renamed(old, new, lambda piece: piece.music)
    order = list(reversed(new))
    for name in sorted(order, key=lambda name: new[name].kind == "chorus"):
        after = new[name]
        before = old.get(name) or renamed.get(name)
        if before is None:
            yield LickChange(name, None, after)
            continue
        fields = tuple(compare_fields(before, after))
        bars = compare_bars(before.music, after.music)
        if fields or bars or before.name != name:
            yield LickChange(name, before, after, fields, bars)
    taken = {piece.name for piece in renamed.values()}
    for name in gone:
        if name not in taken:
            yield LickChange(name, old[name], None)


def _compare_lessons(old: Course, new: Course) -> tuple[tuple[str, bool], ...]:
    before, after = ({lesson.name: lesson.title for lesson in course.lessons} for course in (old, new))
    put_in = [(title, True) for name, title in after.items() if name not in before]
    taken_out = [(title, False) for name, title in before.items() if name not in after]
    return (*put_in, *taken_out)
