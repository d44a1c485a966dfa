"""The proof sheet in a folder of its own."""

import re
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from lickwright.building import sheet, swap
from lickwright.building.cache import Cache
from lickwright.building.proofing import Proofed, proof_course
from lickwright.building.renderers import make as make_result
from lickwright.building.results import Fulfilment
from lickwright.building.sheet import Sheet, make_sheet
from lickwright.building.workers import Failure
from lickwright.model.orders import ScoreOrder

MANIFEST = (
    '[course]\ntitle = "T"\nauthor = "A"\nkey = "A major"\n\n[[unit]]\ntitle = "U"\nlessons = ["one.md"]\n'
)
LESSON = "# One\n\n```lick one\nA | 5:1 - - - - - - -\n```\n"


@pytest.fixture
def proofed(tmp_path: Path) -> Proofed:
    """A course with an error."""
    (tmp_path / "course" / "lessons").mkdir(parents=True)
    (tmp_path / "course" / "course.toml").write_text(MANIFEST, encoding="utf-8")
    (tmp_path / "course" / "lessons" / "one.md").write_text(LESSON, encoding="utf-8")
    made = proof_course(tmp_path / "course")
    assert made.proof.errors == 1
    return made


def make(proofed: Proofed, tmp_path: Path, name: str = "sheet") -> Sheet:
    return make_sheet(proofed, tmp_path / "theme", tmp_path / name, Cache(tmp_path / "cache"))


def test_a_course_with_errors_has_its_sheet(proofed: Proofed, tmp_path: Path) -> None:
    """The bar is engraved and sounded; every link leads somewhere; a second one is made of what was kept."""
    first = make(proofed, tmp_path)
    folder = tmp_path / "sheet"
    html = (folder / "proof.html").read_text(encoding="utf-8")
    assert (first.made, first.kept, first.failures) == (
        4,
        0,
        (),
    )  # the bar as written and as mended, drawn and heard
    assert "<figure" in html
    assert 'href="handbook/harmony-unexplained.html"' in html
    for page in folder.rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        addresses = re.findall(r'(?:href|src|data-sound)="([^"#:]+)"', text)
        assert addresses
        assert [one for one in addresses if not (page.parent / one).is_file()] == []
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    again = make(proofed, tmp_path)
    assert (again.made, again.kept) == (0, 4)
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before


def test_a_published_site_is_left_alone(proofed: Proofed, tmp_path: Path) -> None:
    """A site, and a folder of the author's, stay as they are."""
    site = tmp_path / "site"
    (site / "lessons").mkdir(parents=True)
    (site / swap.SEAL).touch()
    with pytest.raises(swap.NotOursError, match="published site"):
        make(proofed, tmp_path, "site")
    with pytest.raises(swap.NotOursError):
        make(proofed, tmp_path, "course")
    assert (site / "lessons").is_dir()
    assert (tmp_path / "course" / "course.toml").is_file()


def test_what_cannot_be_made_is_left_out(
    proofed: Proofed, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A score that a renderer gives up on is missing from the sheet, which stands."""
    real = sheet.fulfil

    def lame(orders: Iterable[Any], *rest: Any) -> Fulfilment:
        done = real(orders, *rest)
        lost = [job for job in done.results._jobs.values() if isinstance(job.order, ScoreOrder)]
        return replace(done, failures=tuple(Failure(job, False, "no ink") for job in lost))

    monkeypatch.setattr(sheet, "fulfil", lame)
    made = make(proofed, tmp_path)
    assert [failure.detail for failure in made.failures] == ["no ink"] * 2
    html = (tmp_path / "sheet" / "proof.html").read_text(encoding="utf-8")
    assert "<figure" not in html
    assert "harmony/unexplained" in html


DUST = """# One

```lick dust
A | ((((((5:0 5:4) 4:2) 5:4) 4:2) 5:4) 4:2) 4:4 3:2 - 4:4 4:2 5:4 5:0
```

```lick one
A | 5:0 - 4:2 - 3:2 -
```
"""


@pytest.mark.usefixtures("proofed")
def test_music_that_no_note_value_can_write(tmp_path: Path) -> None:
    """Notes too short to be written have their finding and no bar; the other lick has its own."""
    (tmp_path / "course" / "lessons" / "one.md").write_text(DUST, encoding="utf-8")
    again = proof_course(tmp_path / "course")
    assert {f.rule for f in again.proof.findings if f.lick == "dust"} == {"rhythm/too-short"}
    with pytest.raises(ValueError, match="no note values"):
        make_result(ScoreOrder(again.book.piece("dust").music, "x"))
    made = make(again, tmp_path)
    assert made.failures == ()
    html = (tmp_path / "sheet" / "proof.html").read_text(encoding="utf-8")
    assert html.count("<figure") == 1
    assert "rhythm/too-short" in html


def test_without_a_manifest_there_is_no_sheet(tmp_path: Path) -> None:
    """What is no course gives no sheet, and no folder."""
    (tmp_path / "empty").mkdir()
    assert make(proof_course(tmp_path / "empty"), tmp_path) == Sheet()
    assert not (tmp_path / "sheet").exists()
