"""What the workers could not make, and what a renderer had to say, as findings that name the lick."""

from __future__ import annotations

from collections.abc import Iterable

from lickwright.building.renderers import renderer_of
from lickwright.building.workers import Failure
from lickwright.findings import Finding, Severity
from lickwright.model.course import Course
from lickwright.model.place import NOWHERE
from lickwright.model.timeline import Book
from lickwright.report.queries import NO_QUERY
from lickwright.text import Span

DIED = "building/worker-died"
NOT_MADE = "building/not-made"
WARNING = "building/engraver-warning"
HELP = (
    "This is a fault of the builder; please report it with the lick. Everything else has been made and kept"
)

_DIED = """\
Notation and sound are made in processes of their own. One of them was ended while it made this lick, by a
fault in a library or because the machine ran out of memory. The other licks were made and are kept; the site
was not replaced. Change the lick a little, or leave it out, to find what brings the fault about."""

_NOT_MADE = """\
The builder met something in this lick that it cannot draw or sound. That is a fault of the builder: every
lick that proofs without errors can be made. The other licks were made and are kept; the site was not
replaced."""

_WARNING = """\
The notation library drew this lick and had something to say about it. The score stands in the site: look at
it, and when a sign is missing or out of place please report the sentence with the lick."""

_NO_QUERY = """\
A list of queries that came back has something in it that cannot be put to a finding: it is another file, or
the line above an answer, with the rule and the place, has been lost. An answer is one line behind its arrow.
The answers that can be read are put into the lessons all the same."""

HANDBOOK = {
    DIED: ("A renderer took its process down", _DIED),
    NOT_MADE: ("A renderer could not make a lick", _NOT_MADE),
    WARNING: ("The notation library has a warning", _WARNING),
    NO_QUERY: ("Answers without their queries", _NO_QUERY),
}
"""Title and page of each finding."""


def findings_of(failures: Iterable[Failure], course: Course, book: Book) -> tuple[Finding, ...]:
    """Return one finding for each lick and kind of work that failed."""
    found: dict[tuple[str, str, bool], Finding] = {}
    for failure in failures:
        lick, work = failure.job.order.for_lick, renderer_of(failure.job.order).work
        reason = f"the process that made it ended with {failure.detail}" if failure.died else failure.detail
        finding = Finding(
            rule=DIED if failure.died else NOT_MADE,
            severity=Severity.ERROR,
            message=f"The {work} of {lick} could not be made: {reason}",
            span=_place(lick, course, book),
            help=HELP,
            lick=lick,
        )
        found.setdefault((lick, work, failure.died), finding)
    return tuple(sorted(found.values(), key=lambda finding: finding.sort_key))


def notes_of(warnings: Iterable[tuple[str, str]], course: Course, book: Book) -> tuple[Finding, ...]:
    """Return a note for each lick and sentence that the engraver said over it."""
    notes = (
        Finding(
            rule=WARNING,
            severity=Severity.NOTE,
            message=f"The notation of {lick} was made with a warning: {sentence}",
            span=_place(lick, course, book),
            help="Look at the score; if it is not as it should be, please report the sentence with the lick",
            lick=lick,
        )
        for lick, sentence in warnings
    )
    return tuple(sorted(notes, key=lambda finding: finding.sort_key))


def _place(lick: str, course: Course, book: Book) -> Span:
    """Where the author wrote it; an excerpt is known to the book alone, for it has no name in the course."""
    piece = book.piece(lick)
    if piece is not None:
        return piece.span
    return course.manifest.span(0, 0) if course.manifest.text else NOWHERE
