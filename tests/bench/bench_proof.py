"""What proofing costs: courses read, resolved and proofed in memory.

Run by hand: ``python tests/bench/bench_proof.py [--licks N]``. First courses as they are written, with their
words, the best of some times; then many licks without words, the correct phrases of the proof room
joined two by two. Prints, judges nothing.
"""

import argparse
import re
import resource
import sys
import time
from pathlib import Path

TESTS = Path(__file__).parent.parent
sys.path[:0] = [str(TESTS.parent / "builder")]

from lickwright.building.proofing import no_garbage_looked_for  # noqa: E402
from lickwright.checks import proof  # noqa: E402
from lickwright.checks.catalogue import rules  # noqa: E402
from lickwright.instrument.guitar import Guitar  # noqa: E402
from lickwright.model.course import Course, Settings, Unit  # noqa: E402
from lickwright.model.fields import Provenance, Tempo  # noqa: E402
from lickwright.model.timeline import resolve  # noqa: E402
from lickwright.reading.course import read_course  # noqa: E402
from lickwright.reading.lesson import read_lesson  # noqa: E402
from lickwright.text import Source  # noqa: E402
from lickwright.theory.key import parse_key  # noqa: E402

A_LESSON = 25
"""Licks."""
WRITTEN = (TESTS.parent / "content", TESTS / "courses" / "low-water", TESTS / "courses" / "every-sign")
TIMES = 5


def main() -> None:
    """Print the cost of a lick by stage: of written courses, then at half the size and at full size."""
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--licks", type=int, default=5000)
    count = arguments.parse_args().licks
    start = time.process_time()
    rules()
    print(f"rules loaded in {time.process_time() - start:.2f} s")
    for folder in WRITTEN:
        _report_written(folder)
    for size in (count // 2, count):
        with no_garbage_looked_for():
            _report(size)
    print(f"memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


def _report(count: int) -> None:
    key = parse_key("A major")
    if key is None:
        return
    settings = Settings(key, "straight", Tempo(120), Guitar(), Provenance("own"))
    texts = list(_lessons(count))
    marks = [time.process_time()]
    read = [read_lesson(Source(f"lessons/{n}.md", text), str(n)) for n, text in enumerate(texts)]
    course = Course("Bench", "us", settings, (Unit("Unit", tuple(lesson for lesson, _ in read)),))
    marks.append(time.process_time())
    book, found = resolve(course)
    marks.append(time.process_time())
    done = proof(course, book, (*(f for _, each in read for f in each), *found))
    marks.append(time.process_time())
    sounds = sum(len(line.sounds) for p in book.pieces for bar in p.music.bars for line in bar.lines)
    total = marks[-1] - marks[0]
    print(f"{count} licks of {sounds / count:.0f} sounds: {total:.1f} s; ms a lick: {_stages(marks, count)}")
    print(f"  {done.errors} errors, {done.queries} queries, {done.notes} notes")


def _report_written(folder: Path) -> None:
    """Print the cost of a course, by its licks (variations are licks of their own)."""
    best: list[float] = []
    for _ in range(TIMES):
        with no_garbage_looked_for():
            marks = [time.process_time()]
            course, findings = read_course(folder)
            if course is None:
                return
            marks.append(time.process_time())
            book, found = resolve(course)
            marks.append(time.process_time())
            done = proof(course, book, (*findings, *found))
            marks.append(time.process_time())
        if not best or marks[-1] - marks[0] < best[-1] - best[0]:
            best = marks
    licks = [piece for piece in book.pieces if piece.kind == "lick"]
    sounds = sum(len(line.sounds) for p in licks for bar in p.music.bars for line in bar.lines)
    words = sum(len(lesson.source.text.split()) for unit in course.units for lesson in unit.lessons)
    print(
        f"{folder.name}: {len(licks)} licks of {sounds / len(licks):.0f} sounds, {words} words and slots;"
        f" {best[-1] - best[0]:.2f} s, {1000 * (best[-1] - best[0]) / len(licks):.2f} ms a lick:"
        f" {_stages(best, len(licks))}"
    )
    print(f"  {done.errors} errors, {done.queries} queries, {done.notes} notes")


def _stages(marks: list[float], licks: int) -> str:
    stages = zip(("read", "resolve", "proof"), marks, marks[1:], strict=False)
    return ", ".join(f"{name} {1000 * (end - begin) / licks:.2f}" for name, begin, end in stages)


def _lessons(count: int) -> list[str]:
    text = (TESTS / "checks" / "phrases" / "correct.md").read_text("utf-8")
    bodies = re.findall(r"^```lick \S+\n(.*?)^```$", text, re.DOTALL | re.MULTILINE)
    licks = []
    for number in range(count):
        one, two = bodies[number % len(bodies)], bodies[(number * 7 + 3) % len(bodies)]
        bars = re.sub(r"^[a-z]+:.*\n", "", two, flags=re.MULTILINE).lstrip("\n")
        alone = any(f"{field}:" in one + two for field in ("meter", "step", "claims"))
        same = not alone and bars.splitlines()[0].split("|")[0].strip()
        body = one + bars if same else one
        licks.append(f"```lick lick-{number}\n{body}```\n")
    return ["\n".join(licks[first : first + A_LESSON]) for first in range(0, count, A_LESSON)]


if __name__ == "__main__":
    main()
