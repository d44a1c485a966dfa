"""A small lesson page made with the press theme and notation drawn by hand, and ways to open it."""

from __future__ import annotations

import base64
import io
import json
import math
import shutil
import struct
import wave
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from types import SimpleNamespace

import pytest
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup
from playwright.sync_api import Browser, Page

THEME = Path(__file__).parents[2] / "themes" / "press"
SHEETS = ("tokens.css", "page.css", "score.css", "proof.css", "print.css")
SCRIPTS = ("time.js", "sound.js", "bars.js", "player.js", "views.js")
BAR = 0.25  # seconds; two notes a bar
BARS = 4


def environment() -> Environment:
    """Return the templates of the theme, strict about names they do not get."""
    return Environment(
        loader=FileSystemLoader(THEME / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def system(prefix: str, lick: str, bars: range) -> Markup:
    """Draw one system: five staff lines, four tab lines, two notes a bar on each."""
    width = 4000 * len(bars)
    parts = [f'<svg viewBox="0 0 {width} 3600" aria-hidden="true" focusable="false"><g class="system">']
    parts += [
        f'<g class="staff"><path d="M0 {y} L{width} {y}" stroke-width="13"/></g>'
        for y in (*range(600, 1400, 180), *range(2200, 3200, 270))
    ]
    for place, bar in enumerate(bars):
        for note in range(2):
            x, tone = 4000 * place + 900 + 1800 * note, f"{bar}.{note + 1}"
            parts.append(
                f'<g id="{prefix}{lick}-s{tone}" class="note"><g class="notehead">'
                f'<use href="#head" x="{x}" y="1140"/></g></g>'
                f'<g id="{prefix}{lick}-t{tone}" class="note"><text x="{x}" y="2830" text-anchor="middle">'
                f'<tspan font-size="330px">{2 + note}</tspan></text></g>'
            )
    parts.append("</g></svg>")
    return Markup("".join(parts))


def score(name: str, title: str, number: str) -> dict[str, object]:
    """Return what the templates want to know about a lick of four bars."""
    layouts = []
    for width, prefix, split in (("wide", "w-", 2), ("narrow", "n-", 1)):
        systems = []
        for first in range(0, BARS, split):
            bars = [
                {
                    "index": bar,
                    "x": round(100 * place / split, 2),
                    "w": round(100 / split, 2),
                    "label": f"Bar {bar + 1}, chord A7",
                    "name": f"bar {bar + 1}",
                    "chords": "A7",
                    "position": "II position",
                    "roles": [],
                    "low": [],
                }
                for place, bar in enumerate(range(first, first + split))
            ]
            systems.append({"svg": system(prefix, name, range(first, first + split)), "bars": bars})
        layouts.append({"width": width, "systems": systems})
    lights = [[k * BAR / 2, [f"{k // 2}.{k % 2 + 1}"]] for k in range(2 * BARS)]
    music = {
        "name": name,
        "prefix": f"{name}-",
        "beat": BAR / 2,
        "beats": 2,
        "pickup": 0,
        "written": BARS,
        "bars": [[k, k * BAR, (k + 1) * BAR] for k in range(BARS)],
        "tempi": [
            {"bpm": 120, "label": "120", "scale": 2, "file": f"sound/{name}-slow.js"},
            {"bpm": 240, "label": "240", "scale": 1, "file": f"sound/{name}-full.js"},
        ],
        "lights": [*lights, [BARS * BAR, []]],
    }
    return {
        "id": name,
        "title": title,
        "number": number,
        "level": 2,
        "turn": 1,
        "facts": "4 bars",
        "layouts": layouts,
        "playable": True,
        "bar_names": [str(k + 1) for k in range(BARS)],
        "music": {
            "tempi": [{"label": "120", "full": False}, {"label": "240", "full": True}],
            "json": Markup(json.dumps(music)),
        },
        "notes": [],
        "words": [{"heading": "Bar 1, A seven", "voices": [("", "Beat 1: string 2 fret 2.")]}],
        "why": ["Bar 1: arpeggio of A7."],
        "grips": [],
        "beside": {},
        "files": {"MIDI": "../music/porch.mid"},
        "prefix": f"{name}-",
    }


def tone(seconds: float) -> bytes:
    """Return a WAV file with a quiet 440 Hz tone."""
    rate, out = 44100, io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(rate)
        frames = (int(3000 * math.sin(2 * math.pi * 440 * k / rate)) for k in range(int(seconds * rate)))
        file.writeframes(b"".join(struct.pack("<h", frame) for frame in frames))
    return out.getvalue()


def write_site(folder: Path) -> Path:
    """Write the page, the theme and the sounds into a folder; return the page."""
    theme = folder / "theme"
    theme.mkdir()
    for name in (*SHEETS, "light.js", *SCRIPTS):
        shutil.copy(THEME / name, theme / name)
    (folder / "sound").mkdir()
    for lick in ("first", "second"):
        for speed, scale in (("full", 1), ("slow", 2)):
            data = base64.b64encode(tone(scale * BAR * BARS)).decode()
            key = f"{lick}-{speed}"
            (folder / "sound" / f"{key}.js").write_text(f'lickwright.sound("{key}", "{data}");\n')
    link = Markup(
        '<p>Listen for <a class="lick" href="#first" data-lick="first" data-span="0.25 0.75" '
        'data-notes="1.1">the third note</a>.</p>'
    )
    passage = {
        "kind": "passage",
        "heading": "Why it rings",
        "id": "",
        "asides": [Markup("<p><strong>Let ring.</strong> Leave the finger down.</p>")],
        "body": [{"html": link, "table": None, "picture": None, "later": ""}],
    }
    lesson = {
        "number": 1,
        "title": "Trial <script>",
        "deck": "A page for tests",
        "facts": "A major",
        "playable": True,
        "scored": True,
        "parts": [
            passage,
            {"kind": "practice", "score": score("first", "First lick", "1.1")},
            {"kind": "practice", "score": score("second", "Second lick", "1.2")},
        ],
        "before": None,
        "next": {"href": "x.html", "number": 2, "title": "Next"},
    }
    head = Markup('<g id="head"><ellipse rx="110" ry="80"/></g>')
    page = {
        "title": "Trial",
        "root": "",
        "sheets": SHEETS,
        "scripts": SCRIPTS,
        "glyphs": head,
        "is_start": False,
        "legend": "",
    }
    course = {
        "language": "en",
        "title": "Trial course",
        "edition": "1.0",
        "author": "A. Player",
        "licence": "CC-BY-4.0",
    }
    file = folder / "page.html"
    html = environment().get_template("lesson.html").render(page=page, course=course, lesson=lesson)
    file.write_text(html, encoding="utf-8")
    return file


@dataclass
class Desk:
    """A page of the trial course in the browser, and what went wrong on it.

    Attributes:
        requests: Addresses asked for.
        faults: Console messages of any kind, uncaught errors, violations of the page's policy.
    """

    page: Page
    requests: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)


@pytest.fixture(scope="session")
def trial_page(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the trial lesson, with its theme and its sounds, in a folder of its own."""
    return write_site(tmp_path_factory.mktemp("press"))


def open_desk(browser: Browser, file: Path, width: int = 1280, *, script: bool = True) -> Desk:
    """Open a page from disk, off line, and write down all it asks for and complains about."""
    context = browser.new_context(
        viewport={"width": width, "height": 900}, offline=True, java_script_enabled=script
    )
    page = context.new_page()
    desk = Desk(page)
    page.on("request", lambda request: desk.requests.append(request.url))
    page.on("console", lambda message: desk.faults.append(message.text))
    page.on("pageerror", lambda error: desk.faults.append(str(error)))
    if script:
        page.add_init_script(
            "window.violations = [];"
            "addEventListener('securitypolicyviolation',"
            " event => violations.push(event.violatedDirective + event.blockedURI))"
        )
    page.goto(file.as_uri())
    return desk


@pytest.fixture
def desk(chromium: Browser, trial_page: Path) -> Iterator[Desk]:
    """Open the trial lesson at 1280 px; when the test is done, nothing may have gone wrong on it."""
    opened = open_desk(chromium, trial_page)
    yield opened
    assert opened.page.evaluate("violations") == []
    assert opened.faults == []
    assert [url for url in opened.requests if not url.startswith(("file:", "data:", "blob:"))] == []
    opened.page.context.close()


@pytest.fixture(scope="session")
def press() -> SimpleNamespace:
    """Hand the ways to open a page to tests that need another width, or no script."""
    return SimpleNamespace(open_desk=open_desk)
