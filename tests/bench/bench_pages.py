"""What the lesson pages weigh against their budget, and what the fullest consists of.

    python tests/bench/bench_pages.py [COURSE]

COURSE defaults to ``content``. Prints the tables that stand in ``RESULTS.md``, the same on every machine.
"""

from __future__ import annotations

import re
import sys
import tempfile
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).parents[2]
SHOWN = 12
_TAG = re.compile(r"</?([a-z][a-z0-9]*)([^>]*)>")


def main() -> None:
    """Publish, weigh, print."""
    sys.path.insert(0, str(ROOT / "builder"))
    from lickwright.building.budget import ELEMENTS, PACKED, RAW, weigh
    from lickwright.building.cache import Cache, default_folder
    from lickwright.building.publish import publish

    course = Path(sys.argv[1]) if sys.argv[1:] else ROOT / "content"
    with tempfile.TemporaryDirectory() as name:
        site = Path(name) / "site"
        published = publish(course, site, Cache(default_folder()))
        assert published.site, published
        pages = {
            f"lessons/{file.name}": file.read_bytes() for file in sorted((site / "lessons").glob("*.html"))
        }
    weights = sorted((weigh(path, body) for path, body in pages.items()), key=lambda w: -w.raw)
    print("\n## Lesson pages\n\n| page | bytes | packed | elements |\n| --- | ---: | ---: | ---: |")
    for weight in weights:
        over = " (over)" if weight.over else ""
        print(f"| {weight.path}{over} | {weight.raw:,} | {weight.packed:,} | {weight.elements:,} |")
    print(f"| budget | {RAW:,} | {PACKED:,} | {ELEMENTS:,} |")
    fullest = weights[0].path
    print(f"\nWhat {fullest} consists of:\n\n| part | bytes | number |\n| --- | ---: | ---: |")
    for part, size, number in parts_of(pages[fullest].decode())[:SHOWN]:
        print(f"| {part} | {size:,} | {number:,} |")


def parts_of(html: str) -> list[tuple[str, int, int]]:
    """Return the parts of a page, the heaviest first: what it is, its bytes, how many there are.

    Elements of one name and one set of attributes are one part; so are the player's data, and the words.
    """
    sizes: Counter[str] = Counter()
    numbers: Counter[str] = Counter()

    def count(part: str, text: str) -> None:
        sizes[part] += len(text.encode())
        numbers[part] += 1

    def data(found: re.Match[str]) -> str:
        count("the player's data", found[0])
        return ""

    rest = re.sub(r"<script type.*?</script>", data, html, flags=re.DOTALL)
    for tag in _TAG.finditer(rest):
        attributes = " ".join(sorted(re.findall(r' ([a-z:-]+)="', tag[2])))
        count(f"{tag[1]} {attributes}".strip() if tag[0][1] != "/" else f"end of {tag[1]}", tag[0])
    count("words", re.sub(r"<[^>]*>", "", rest))
    return [(part, size, numbers[part]) for part, size in sizes.most_common()]


if __name__ == "__main__":
    main()
