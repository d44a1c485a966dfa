"""What the workers could not make, as findings that name the lick."""

from __future__ import annotations

from collections.abc import Iterable

from lickwright.building.renderers import renderer_of
from lickwright.building.workers import Failure
from lickwright.findings import Finding, Severity
from lickwright.model.course import Course
from lickwright.model.place import NOWHERE
from lickwright.text import Span

DIED = "building/worker-died"
NOT_MADE = "building/not-made"
HELP = (
    "This is a fault of the builder; please report it with the lick. Everything else has been made and kept"
)


def findings_of(failures: Iterable[Failure], course: Course) -> tuple[Finding, ...]:
    """Return one finding for each lick and kind of work that failed."""
    found: dict[tuple[str, str, bool], Finding] = {}
    for failure in failures:
        lick, work = failure.job.order.for_lick, renderer_of(failure.job.order).work
        reason = f"the process that made it ended with {failure.detail}" if failure.died else failure.detail
        finding = Finding(
            rule=DIED if failure.died else NOT_MADE,
            severity=Severity.ERROR,
            message=f"The {work} of {lick} could not be made: {reason}",
            span=_place(lick, course),
            help=HELP,
            lick=lick,
        )
        found.setdefault((lick, work, failure.died), finding)
    return tuple(sorted(found.values(), key=lambda finding: finding.sort_key))


def _place(lick: str, course: Course) -> Span:
    for named in (course.licks, course.choruses):
        if lick in named:
            return named[lick].span
    return course.manifest.span(0, 0) if course.manifest.text else NOWHERE
