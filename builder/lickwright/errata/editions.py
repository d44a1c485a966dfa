"""Two editions of a course side by side: which licks, lessons and sentences are not as they were."""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import SequenceMatcher

from lickwright.errata.bars import compare_bars
from lickwright.errata.course import compare_courses
from lickwright.errata.errata import Errata, LickChange, SentenceChange
from lickwright.errata.fields import compare_fields
from lickwright.errata.progressions import compare_progressions
from lickwright.errata.renamed import find_renamed
from lickwright.errata.shared import settle
from lickwright.model.course import Course, Lesson
from lickwright.model.music import Piece
from lickwright.model.timeline import Book
from lickwright.terms.numbers import CARDINAL, read_number

_NUMBER = re.compile(rf"(?i)(?<![\w-]){CARDINAL}(?![\w-])")


def compare(old: Course, old_book: Book, new: Course, new_book: Book) -> Errata:
    """Compare two editions of a course.

    Args:
        old: As read.
        old_book: The same, resolved.
        new: The later edition.
        new_book: The same, resolved.
    """
    settled = settle(
        compare_courses(old, new),
        compare_progressions(old_book.grids, new_book.grids),
        tuple(_compare_licks(_whole(old_book), _whole(new_book))),
    )
    return Errata(
        _name_edition(old, "old"),
        _name_edition(new, "new"),
        settled.course,
        settled.progressions,
        settled.licks,
        tuple(_compare_sentences(old, new)),
        _compare_lessons(old, new),
    )


def _name_edition(course: Course, otherwise: str) -> str:
    return f"{course.title}, edition {course.edition}" if course.edition else f"{course.title}, {otherwise}"


def _whole(book: Book) -> dict[str, Piece]:
    """Licks and choruses by name; an excerpt changes with its lick."""
    return {piece.name: piece for piece in reversed(book.pieces) if piece.kind != "excerpt"}


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


def _compare_sentences(old: Course, new: Course) -> Iterator[SentenceChange]:
    before = {lesson.name: lesson for lesson in old.lessons}
    for lesson in new.lessons:
        if lesson.name not in before:
            continue
        one, two = _sentences(before[lesson.name]), _sentences(lesson)
        texts = [_alike(text) for _, text in one], [_alike(text) for _, text in two]
        matcher = SequenceMatcher(None, *texts, autojunk=False)
        for kind, i1, i2, j1, j2 in matcher.get_opcodes():
            if kind == "equal":
                continue
            was, now = one[i1:i2], two[j1:j2]
            for k in range(max(len(was), len(now))):
                then, later = (was[k] if k < len(was) else ("", "")), (now[k] if k < len(now) else ("", ""))
                yield SentenceChange(lesson.title, later[0] or then[0], then[1], later[1])


def _alike(sentence: str) -> str:
    """A sentence without the choice between ``three`` and ``3``: the words say the same."""
    return _NUMBER.sub(lambda word: str(read_number(word[0])), sentence)


def _sentences(lesson: Lesson) -> list[tuple[str, str]]:
    """The sentences of a lesson that link to notes, each once, with the lick they speak of first."""
    found: list[tuple[str, str]] = []
    for link in lesson.links:
        said = " ".join(link.sentence.split())
        if not found or found[-1][1] != said:
            found.append((link.target, said))
    return found
