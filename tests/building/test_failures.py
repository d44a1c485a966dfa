"""What could not be made, told at the place where the author wrote it."""

from pathlib import Path

import pytest

from lickwright.building.failures import findings_of
from lickwright.building.plan import Job
from lickwright.building.proofing import proof_course
from lickwright.building.workers import Failure
from lickwright.model.orders import ScoreOrder

LESSON = """# One

```lick porch
A | 5:0 5:4 4:2 4:4 3:2 - 2:0 2:2
```

```excerpt
of: porch
show: 1.2-1.4
```
"""


@pytest.mark.parametrize(("which", "line"), [(0, 3), (1, 7), (None, 1)])
def test_a_failure_stands_at_its_block(tmp_path: Path, which: int | None, line: int) -> None:
    """A lick and an excerpt are named where their fence opens; what has no place, at the manifest."""
    (tmp_path / "lessons").mkdir()
    (tmp_path / "lessons" / "one.md").write_text(LESSON, encoding="utf-8")
    (tmp_path / "course.toml").write_text(
        '[course]\ntitle = "T"\nauthor = "us"\n\n[[unit]]\ntitle = "U"\nlessons = ["one.md"]\n',
        encoding="utf-8",
    )
    proofed = proof_course(tmp_path)
    assert proofed.course is not None
    assert proofed.book is not None
    assert [piece.kind for piece in proofed.book.pieces] == ["lick", "excerpt"]
    music = proofed.book.pieces[0].music
    name = "nobody" if which is None else proofed.book.pieces[which].name
    failure = Failure(Job("k", ScoreOrder(music, "x", for_lick=name)), False, "no such glyph")
    (finding,) = findings_of([failure], proofed.course, proofed.book)
    assert finding.span.source.path == ("course.toml" if which is None else "lessons/one.md")
    assert finding.span.source.line_column(finding.span.start)[0] == line
