"""All signs in one picture: what the engraver can do, at a glance.

    python tests/engraving/contact_sheet.py

draws the bars of ``samples/signs.md`` with Chromium into ``samples/contact-sheet.png``. The test of the
pictures renders the same page and compares.
"""

from __future__ import annotations

import re
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).parents[2] / "builder")]

from engraved_licks import read

from lickwright.engraving.engrave import engrave
from lickwright.model.orders import Engraved, ScoreOrder

if TYPE_CHECKING:
    from playwright.sync_api import Browser

FOLDER = Path(__file__).parent / "samples"
PICTURE = FOLDER / "contact-sheet.png"
THEME = Path(__file__).parents[2] / "themes" / "press"
WIDTH = 1180
_STYLE = """
body{margin:16px;background:#fff;color:#111;font:15px "Liberation Serif",serif}
h2{font-size:18px;font-weight:400;margin:14px 0 6px;border-top:1px solid #111}
.sheet{display:flex;flex-wrap:wrap;gap:10px 14px}
figure{margin:0;width:180px}
figcaption{font-style:italic;border-top:1px solid #bbb}
.score svg{width:330px;max-width:none}
.crop{width:180px;overflow:hidden}
"""


@dataclass(frozen=True, slots=True)
class Sample:
    """One sign: its family, its name, the bar that shows it."""

    family: str
    name: str
    bar: str

    def engraved(self) -> Engraved:
        """The bar, engraved on both staves."""
        prefix = re.sub(r"[^a-z]+", "-", self.name)
        return engrave(ScoreOrder(read(self.bar), prefix, "narrow"))


def samples() -> list[Sample]:
    r"""Read the table: ``name | chord | bar``, then perhaps ``; signs``, ``/ rh`` or ``\ lh``."""
    found, family = [], ""
    for line in (FOLDER / "signs.md").read_text(encoding="utf-8").splitlines():
        if line.startswith("## "):
            family = line.removeprefix("## ")
        elif " | " in line:
            name, chord, bar = line.split(" | ", 2)
            rows = ""
            for mark, row in (("; ", "signs"), ("/ ", "rh"), ("\\ ", "lh")):
                bar, cut, entries = bar.partition(f" {mark}")
                rows += f"   {row} | {entries}\n" if cut else ""
            found.append(Sample(family, name, f"key: C major\nmeter: 2/4\n\n{chord} | {bar}\n{rows}"))
    return found


def sheet(scores: list[tuple[Sample, Engraved]]) -> str:
    """The page."""
    style = "".join((THEME / name).read_text(encoding="utf-8") for name in ("tokens.css", "score.css"))
    body, family = [], ""
    for sample, made in scores:
        if sample.family != family:
            body.append(f"{'</div>' if family else ''}<h2>{sample.family}</h2><div class='sheet'>")
            family = sample.family
        drawn = "".join(system.svg for system in made.systems)
        glyphs = f'<svg width="0" height="0" style="position:absolute"><defs>{made.glyphs}</defs></svg>'
        body.append(
            f"<figure><div class='crop'>{glyphs}<div class='score'>{drawn}</div></div>"
            f"<figcaption>{sample.name}</figcaption></figure>"
        )
    return f"<!doctype html><meta charset=utf-8><style>{style}{_STYLE}</style>{''.join(body)}</div>"


def photograph(browser: Browser, html: str) -> bytes:
    """The page as a PNG."""
    page = browser.new_page(viewport={"width": WIDTH, "height": 600}, color_scheme="light")
    try:
        page.set_content(html)
        return page.screenshot(full_page=True)
    finally:
        page.close()


def main() -> None:
    """Draw the sheet."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path="/usr/bin/chromium", args=["--no-sandbox"])
        PICTURE.write_bytes(photograph(browser, sheet([(s, s.engraved()) for s in samples()])))
        browser.close()
    sys.stdout.write(f"{PICTURE}\n")


if __name__ == "__main__":
    main()
