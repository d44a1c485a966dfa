"""CPU time and memory of a publish by stage: cold, nothing changed, one lick changed.

    python tests/bench/bench_publish.py [COURSE] [--licks N]

COURSE defaults to ``content``. With ``--licks`` the course is written out again and again under further names
until it holds that many licks. Prints the tables that stand in ``RESULTS.md``.
"""

from __future__ import annotations

import json
import os
import re
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
MEBI = 1024 * 1024


def main() -> None:
    """Measure the three kinds of publish, each in a process of its own, and print them."""
    arguments = sys.argv[1:]
    if arguments[:1] == ["--one"]:
        print(json.dumps(measure(*map(Path, arguments[1:]))))
        return
    licks = int(arguments.pop(arguments.index("--licks") + 1)) if "--licks" in arguments else 0
    named = [argument for argument in arguments if argument != "--licks"]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        shutil.copytree(named[0] if named else ROOT / "content", folder / "course")
        multiply(folder / "course", licks)
        runs = {"cold": one(folder), "nothing changed": one(folder)}
        edit(folder / "course")
        runs["one lick changed"] = one(folder)
        runs["without sound, cold"] = one(folder, "silent")
        report(runs)


def one(folder: Path, *silent: str) -> dict[str, object]:
    """Publish in a process of its own."""
    cache = folder / ("silent-cache" if silent else "cache")
    paths = (folder / "course", folder / "site", cache)
    command = [sys.executable, __file__, "--one", *map(str, paths), *silent]
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "builder")}
    outcome = subprocess.run(command, check=True, stdout=subprocess.PIPE, env=environment)
    measured: dict[str, object] = json.loads(outcome.stdout)
    return measured


def measure(course: Path, site: Path, cache: Path, silent: Path | None = None) -> dict[str, object]:
    """Publish, and return what each stage took.

    Returns:
        ``stages``: (name, seconds of CPU of this process, of its workers, wall clock); ``peak`` and
        ``worker_peak`` in MiB; ``made``, ``kept``, ``pages``, ``licks``.
    """
    from lickwright.building.cache import Cache
    from lickwright.building.progress import Step
    from lickwright.building.publish import publish

    stages: list[list[object]] = []
    before = _clocks()

    def mark(name: str) -> None:
        nonlocal before
        now = _clocks()
        stages.append([name, *(late - early for late, early in zip(now, before, strict=True))])
        before = now

    works = ["start"]

    def watch(step: Step) -> None:
        if step.work != works[-1]:
            mark(works[-1])
            works.append(step.work)

    published = publish(course, site, Cache(cache), sound=silent is None, watch=watch)
    mark(works[-1])
    assert published.site, published
    return {
        "stages": stages,
        "peak": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024 / MEBI,
        "worker_peak": resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss * 1024 / MEBI,
        "made": published.made,
        "kept": published.kept,
        "pages": published.pages,
        "licks": len(published.proofed.course.licks if published.proofed.course else ()),
    }


def _clocks() -> tuple[float, float, float]:
    own = resource.getrusage(resource.RUSAGE_SELF)
    workers = resource.getrusage(resource.RUSAGE_CHILDREN)
    return own.ru_utime + own.ru_stime, workers.ru_utime + workers.ru_stime, time.perf_counter()


def multiply(course: Path, licks: int) -> None:
    """Write the lessons out under further names until there are enough licks."""
    manifest = course / "course.toml"
    lessons = sorted((course / "lessons").glob("*.md"))
    texts = {path.stem: path.read_text(encoding="utf-8") for path in lessons}
    each = sum(len(re.findall(r"^```lick ", text, re.MULTILINE)) for text in texts.values())
    names: list[str] = []
    for copy in range(1, -(-licks // each) if licks else 1):
        for stem, text in texts.items():
            names.append(f"{stem}-{copy}.md")
            (course / "lessons" / names[-1]).write_text(_again(text, copy), encoding="utf-8")
    if names:
        text = manifest.read_text(encoding="utf-8").partition("[promises]")[0]
        manifest.write_text(
            text + f'\n[[unit]]\ntitle = "Again"\nlessons = {json.dumps(names)}\n', encoding="utf-8"
        )


def _again(lesson: str, copy: int) -> str:
    """Return a lesson with its blocks named anew, and faster: equal music would be made once."""
    blocks = re.findall(r"^```(?:lick|progression|chorus|scale) (\S+)", lesson, re.MULTILINE)
    for block in sorted(set(blocks), key=len, reverse=True):
        lesson = re.sub(rf"(?<![\w-]){block}(?![\w-])", f"{block}-{copy}", lesson)
    return re.sub(
        r"^(tempo: *)(\d+)$", lambda field: f"{field[1]}{int(field[2]) + copy}", lesson, flags=re.MULTILINE
    )


def edit(course: Path) -> None:
    """End the first held note of a lick one step earlier: another bar to engrave, another sound."""
    for path in sorted((course / "lessons").glob("*.md")):
        text = path.read_text(encoding="utf-8")
        head, fence, rest = text.partition("```lick ")
        if fence and re.search(r"- -$", rest, re.MULTILINE):
            shorter = re.sub(r"- -$", "- .", rest, count=1, flags=re.MULTILINE)
            path.write_text(head + fence + shorter, encoding="utf-8")
            return
    raise LookupError("no lick to change")


def report(runs: dict[str, dict[str, object]]) -> None:
    """Print the tables."""
    for name, run in runs.items():
        print(f"\n## {name[0].upper()}{name[1:]}: {run['licks']} licks, {run['pages']} pages, ", end="")
        print(f"{run['made']} scores and sounds made, {run['kept']} kept\n")
        print("| stage | CPU s | workers' CPU s | wall s |\n| --- | ---: | ---: | ---: |")
        total = [0.0, 0.0, 0.0]
        for stage, *times in run["stages"]:  # type: ignore[attr-defined]
            print(f"| {stage} | {times[0]:.2f} | {times[1]:.2f} | {times[2]:.2f} |")
            total = [before + more for before, more in zip(total, times, strict=True)]
        print(f"| together | {total[0]:.2f} | {total[1]:.2f} | {total[2]:.2f} |\n")
        print(f"Peak memory: {run['peak']:.0f} MiB, the largest worker {run['worker_peak']:.0f} MiB.")


if __name__ == "__main__":
    main()
