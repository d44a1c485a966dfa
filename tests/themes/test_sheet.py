"""The style sheets and scripts as text: contrast, size, nothing from elsewhere."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from lickwright.pages.site import theme_files

PRESS = Path(__file__).parents[2] / "themes" / "press"
FILES = sorted((*PRESS.glob("*.css"), *PRESS.glob("*.js")))
TOKENS = (PRESS / "tokens.css").read_text(encoding="utf-8")
DAY = TOKENS[TOKENS.index(":root{") : TOKENS.index("@media")]
LAMP = re.search(r"\[data-light=lamp\]\{(.*?)\}\}", TOKENS, re.DOTALL)[1]
PAPER = re.search(r"@media print\{:root\{(.*?)\}\}", TOKENS, re.DOTALL)[1]
COMPUTER = re.search(r"\[data-light=day\]\)\{(.*?)\}\}", TOKENS, re.DOTALL)[1]
TEXT = ("ink", "soft", "second", "pencil", "blue")
Colour = tuple[float, float, float]


def colour(sheet: str, name: str) -> Colour:
    """Read an opaque colour token, 0 to 1 a channel."""
    digits = re.search(rf"--{name}:#([0-9a-f]{{6}}|[0-9a-f]{{3}})\b", sheet)[1]
    digits = digits if len(digits) == 6 else "".join(2 * digit for digit in digits)
    return tuple(int(digits[k : k + 2], 16) / 255 for k in (0, 2, 4))


def over(front: Colour, back: Colour, alpha: float) -> Colour:
    """Lay a see-through colour over another, in sRGB as a browser does."""
    return tuple(f * alpha + b * (1 - alpha) for f, b in zip(front, back, strict=True))


def contrast(one: Colour, other: Colour) -> float:
    """Contrast ratio after WCAG 2.2, section 1.4.3 (relative luminance of sRGB)."""

    def luminance(rgb: Colour) -> float:
        linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in rgb]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def grounds(sheet: str) -> dict[str, Colour]:
    """What text may stand on: paper, typed source, paper inside a loop."""
    lead = re.search(r"--lead:rgb\((\d+) (\d+) (\d+) / ([.\d]+)\)", sheet)
    paper = colour(sheet, "paper")
    if lead is None:  # nothing is shaded in print
        return {"paper": paper, "tint": colour(sheet, "tint")}
    shade = tuple(int(lead[k]) / 255 for k in (1, 2, 3))
    return {"paper": paper, "tint": colour(sheet, "tint"), "loop": over(shade, paper, float(lead[4]))}


def failures(sheet: str) -> list[str]:
    """Every colour that does not reach its contrast: 4.5 for text, 3 for marks."""
    ink, found = colour(sheet, "ink"), []
    opacity = float(re.search(r"stroke-opacity:([.\d]+)", (PRESS / "score.css").read_text())[1])
    for name, ground in grounds(sheet).items():
        found += [f"{t} on {name}" for t in TEXT if contrast(colour(sheet, t), ground) < 4.5]
        if contrast(colour(sheet, "edge"), ground) < 3:
            found.append(f"edge on {name}")
        if contrast(over(ink, ground, opacity), ground) < 3:
            found.append(f"staff lines on {name}")
        if contrast(colour(sheet, "paper"), ink) < 4.5:
            found.append(f"paper on ink, {name}")
    return found


@pytest.mark.parametrize("sheet", [DAY, LAMP, PAPER], ids=["day", "lamp", "print"])
def test_contrast(sheet):
    """Every token reaches its contrast on paper, on typed source and inside a loop."""
    assert failures(sheet) == []


def test_contrast_is_really_judged():
    """Black on white is 21 to 1 (WCAG's own figure); a paler soft ink is caught."""
    assert contrast((0, 0, 0), (1, 1, 1)) == pytest.approx(21)
    assert contrast((0, 0, 0), (0.4627, 0.4627, 0.4627)) == pytest.approx(4.6, abs=0.1)
    assert "soft on paper" in failures(DAY.replace("--soft:#4b5661", "--soft:#7b8691"))


SHOWN = re.compile(r"(?:^|[{;])(color|fill|stroke|background|border(?:-[a-z]+)*|outline):([^;}]+)")
PLAIN = {*TEXT, "paper"}
"""What text and signs are coloured by: judged above; paper stands on ink."""


def unjudged(sheet: str) -> list[str]:
    """Colours of text and drawings that are no judged token; forced colours are the system's own."""
    screen = re.sub(r"@media \(forced-colors:active\)\{(?:[^{}]*\{[^{}]*\})*[^{}]*\}", "", sheet)
    found = []
    for kind, value in SHOWN.findall(re.sub(r"/\*.*?\*/", "", screen, flags=re.DOTALL)):
        names = set(re.findall(r"var\(--([a-z-]+)\)", value))
        if kind in ("color", "fill", "stroke"):
            allowed = PLAIN | ({"edge"} if kind == "fill" else set())  # inlays, a graphic
            if names - allowed or (not names and value not in ("inherit", "currentColor", "none")):
                found.append(f"{kind}:{value}")
        elif re.search(r"#[0-9a-f]{3}|rgb\(|hsl\(", value):
            found.append(f"{kind}:{value}")
    return found


@pytest.mark.parametrize("file", ["page.css", "score.css", "proof.css", "print.css"])
def test_every_colour_is_judged(file):
    """Roles of notes, lines under them, signs: all take a token whose contrast is computed."""
    assert unjudged((PRESS / file).read_text(encoding="utf-8")) == []


def test_a_colour_of_its_own_is_told():
    """Planted faults: a role in a hue of its own, and one in the colour of hairlines."""
    sheet = (PRESS / "score.css").read_text(encoding="utf-8")
    assert unjudged(sheet.replace(".under{color:var(--second)}", ".under{color:#b00}")) == ["color:#b00"]
    assert unjudged(sheet + ".under .b{fill:var(--hair)}") == ["fill:var(--hair)"]


def test_lamp_is_the_same_both_ways():
    """Lamp looks alike whether the reader or the computer asks for it."""
    tokens = re.compile(r"(--[\w-]+):([^;}]+)")
    assert dict(tokens.findall(LAMP)) == dict(tokens.findall(COMPUTER))
    assert len(tokens.findall(LAMP)) >= 10


def test_the_theme_is_small():
    """Sheets and scripts together stay under 50 kB as they are shipped."""
    assert 10_000 < sum(len(data) for _, data in theme_files()) <= 50_000


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_nothing_comes_from_elsewhere(file):
    """No remote address, no import, no fetch, nothing run from text."""
    text = re.sub(r"http://www\.w3\.org/2000/svg", "", file.read_text(encoding="utf-8"))
    assert (
        re.findall(r"https?:|//[a-z]+\.|@import|\bfetch\(|XMLHttp|\beval\(|new Function|innerHTML", text)
        == []
    )


@pytest.mark.parametrize("file", sorted((PRESS / "templates").glob("*.html")), ids=lambda file: file.name)
def test_templates_hold_no_inline_code(file):
    """No style, script or handler stands in a template, and nothing is marked safe there."""
    text = file.read_text(encoding="utf-8")
    assert re.findall(r"<style|\sstyle=|\son\w+=|\|\s*safe|autoescape|javascript:", text) == []
    assert re.findall(r"<script(?! src=| type=\"application/json\")", text) == []
    assert re.findall(r"""(?:src|href)=["'](?:https?:)?//""", text) == []


def test_author_text_is_only_text(trial_page):
    """A tag in a lesson's title comes out as letters."""
    html = trial_page.read_text(encoding="utf-8")
    assert "Trial &lt;script&gt;</h1>" in html
    assert "Trial <script>" not in html
