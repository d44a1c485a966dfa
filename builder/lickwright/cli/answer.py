"""``lickwright answer``: the author's answers to the queries go into the lessons."""

from __future__ import annotations

from pathlib import Path

import click

from lickwright.cli.places import course_argument
from lickwright.cli.speech import say, show


@click.command
@click.argument("queries", metavar="FILE", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@course_argument
def answer(queries: Path, course: Path) -> int:
    """Put the answers of FILE, a list made by `proof --format queries`, into the COURSE (default: content).

    Exit status: 0 when every answer found its place, 1 when one did not or FILE is no such list.
    """
    from lickwright.building.answers import put_answers
    from lickwright.report.queries import check_list, read_answers
    from lickwright.text import Source

    try:
        text = queries.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        raise click.UsageError(f"{queries} is not UTF-8") from None
    lost = tuple(check_list(Source(queries.as_posix(), text)))
    if lost:
        show(lost)
    answers = read_answers(text)
    told = put_answers(course, answers)
    for one in told:
        music = f"{one.answer.lick} {one.answer.address}".strip() or one.answer.place
        say(f"{queries}:{one.answer.line}: {one.answer.rule}, {music}: {one.said}")
    say(f"{sum(one.done for one in told)} of {len(told)} answers put into the lessons")
    return int(bool(lost) or not all(one.done for one in told))
