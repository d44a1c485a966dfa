"""Files for other programs: one of each format beside every lick, linked under it."""

from pathlib import Path

import pytest
from lxml import html

from lickwright.building.cache import Cache
from lickwright.building.publish import publish
from lickwright.model.reduced import for_exchange
from lickwright.pages.exchange_files import FORMATS

COURSE = """[course]
title = "Ferry"
author = "A & B"
licence = "CC-BY-4.0"
key = "A major"
[[unit]]
title = "One"
lessons = ["one.md"]
"""
LESSON = """# One

```lick porch
title: Porch <step>
key: A major

A | 5:0 5:2 5:4 4:2  4:4 3:2 - -
   lh    | 0 1 3 1 3 1
   names | A B C# E F# A
```

```excerpt
of: porch
show: 1.1-1.3
```
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("course")
    (folder / "lessons").mkdir()
    (folder / "course.toml").write_text(COURSE)
    (folder / "lessons" / "one.md").write_text(LESSON)
    result = publish(folder, folder / "site", Cache(folder / "cache"), sound=False)
    assert result.site, result.proofed.proof.findings
    return folder / "site"


@pytest.mark.slow  # a whole course is published for it
def test_every_lick_is_offered_in_every_format(site: Path) -> None:
    """The links under a lick lead to its files; an excerpt has none of its own."""
    page = html.parse(site / "lessons" / "one.html")
    links = page.xpath("//p[contains(@class, 'files')]/a")
    assert [link.text for link in links] == [name for name, _ in FORMATS.values()]
    assert all(link.get("download") is not None for link in links)
    files = [(site / "lessons" / link.get("href")).resolve() for link in links]
    assert [file.name for file in files] == ["porch.musicxml", "porch.mid", "porch.mei"]
    assert sorted((site / "music").iterdir()) == sorted(files)
    assert [file.read_bytes()[:4] for file in files] == [b"<?xm", b"MThd", b"<?xm"]
    assert len(page.xpath("//section[contains(@class, 'practice')]")) == 2


@pytest.mark.slow  # a whole course is published for it
def test_the_files_say_whose_they_are(site: Path) -> None:
    """Title, author and licence stand in each."""
    for file in (site / "music").iterdir():
        text = file.read_bytes().decode(errors="replace").replace("&lt;", "<").replace("&gt;", ">")
        assert all(said in text.replace("&amp;", "&") for said in ("Porch <step>", "A & B", "CC-BY-4.0"))


def test_what_an_order_leaves_out_is_not_in_the_file() -> None:
    """Written from the whole music and from what an order holds of it, the files are the same bytes."""
    from dataclasses import replace

    from lickwright.exchange.exchange import exchange
    from lickwright.model.timeline import resolve
    from lickwright.pages.exchange_files import plan_files
    from lickwright.reading.course import read_course

    course, _ = read_course(Path(__file__).parents[1] / "courses" / "every-sign")
    assert course is not None
    book, _ = resolve(course)
    orders = [(piece, order) for piece in book.pieces for order in plan_files(piece, course)]
    assert len(orders) > 60
    for piece, order in orders:
        assert order.music == for_exchange(piece.music, order.format)
        assert exchange(order) == exchange(replace(order, music=piece.music)), piece.name
    assert any(order.music != piece.music for piece, order in orders)
