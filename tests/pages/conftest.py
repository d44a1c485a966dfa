"""A small course made of values, resolved by the timeline, and makers that stand in for the workers."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from playwright.sync_api import Page as Opened

from lickwright.building.proofing import proof_course
from lickwright.building.renderers import make
from lickwright.checks.stets import Standing
from lickwright.findings import Edit, Finding, Fix, Label, Severity
from lickwright.instrument.guitar import Guitar
from lickwright.model.address import AddressRange
from lickwright.model.bar import Bar, Entry, Margin, MarginChord, Row, Voice
from lickwright.model.blocks import Excerpt, Lick, NeckBlock, OpenStringsBlock, Progression, TunerBlock
from lickwright.model.course import Course, Lesson, Placed, Settings, Unit
from lickwright.model.fields import PositionClaim, Provenance, Stet, Tempo
from lickwright.model.orders import (
    BarBox,
    Engraved,
    Exchanged,
    ExchangeOrder,
    Order,
    Recorded,
    Result,
    ScoreOrder,
    System,
)
from lickwright.model.strike import Fretted, Note, Strike
from lickwright.model.timeline import resolve
from lickwright.pages.edition import Edition
from lickwright.pages.page import Page
from lickwright.pages.player_data import sound_path, sound_script
from lickwright.pages.site import theme_files
from lickwright.pages.theme import read_theme
from lickwright.text import Source
from lickwright.theory.chord import parse_chord
from lickwright.theory.key import parse_key

STEP = """# Porch *steps* & {{ 7 * 7 }}

*Two bars, and <b>no</b> more.*

Before the first side-head.

## Why it walks

Listen to [the open E](lick:step@1.2), then [all of it](lick:step), then [bar 2](lick:step@2).
[Another page](lick:far@1.1), [nowhere](lick:nowhere@1.1), [elsewhere](https://example.org/x),
[the next lesson](far.md), [a script](javascript:alert(1)), [a file](../../secret.txt).

> **Let ring.** Leave the finger down.

![A hand](../pictures/hand.png) ![Not ours](https://example.org/x.png)

<script>alert(1)</script>

```lick step
porch
```

```excerpt
of: step
show: bars 2
```

- First this

  ```progression porch
  A | D7
  ```

```neck
show: A7 chord tones
```

```open-strings
keys: A
```

```tuner
```

```text
<plain> {{ code }}
```
"""
FAR = """# Far

```lick far
```
"""


def strike(*notes: str) -> Strike:
    """``4:2`` as a value."""
    made = tuple(Note(int(n.split(":")[0]), Fretted(int(n.split(":")[1]))) for n in notes)
    return Strike(made)


def bar(chord: str, slots: list[str], fingers: str = "") -> Bar:
    """A bar of eighths."""
    margin = Margin((MarginChord(parse_chord(chord)),) if chord else ())
    rows = (Row("lh", tuple(Entry(tuple(finger)) for finger in fingers.split())),) if fingers else ()
    return Bar(margin, Voice(tuple(strike(*slot.split("+")) for slot in slots), rows))


def fence(source: Source, words: str) -> int:
    """The 0-based line on which a fence opens."""
    return next(k for k, line in enumerate(source.text.split("\n")) if line.strip() == f"```{words}")


@pytest.fixture(scope="session")
def course() -> Course:
    """Two lessons and a draft; capo 2, so heads print both keys."""
    step_source, far_source = Source("lessons/step.md", STEP), Source("lessons/far.md", FAR)
    here = step_source.span(STEP.index("porch\n```"), STEP.index("porch\n```") + 5)
    step = Lick(
        name="step",
        title="Porch step <i>",
        key=parse_key("B major"),
        bars=(
            bar("B7", ["5:0", "1:0", "4:2", "4:4", "3:2", "2:0", "2:2", "2:3"], "0 0 1 3 1 0 1 2"),
            bar("E7", ["3:2", "4:4", "4:2", "4:0", "5:4", "5:3", "5:2", "4:0+3:2"]),
        ),
        tempo=Tempo(120),
        slow=Tempo(60),
        position=(PositionClaim(2),),
        source=Provenance("traditional", "a printed book, 1883"),
        stets=(Stet("harmony/unexplained", "the clash is the point"),),
        span=here,
    )
    far = Lick(name="far", bars=(bar("A", ["5:0"] * 8),), span=far_source.span(8, 20))
    blocks = (
        Placed(fence(step_source, "lick step"), step),
        Placed(fence(step_source, "excerpt"), Excerpt("step", AddressRange.parse("2"), span=here)),
        Placed(
            fence(step_source, "progression porch"),
            Progression("porch", tuple(Margin((MarginChord(parse_chord(c)),)) for c in ("A", "D7"))),
        ),
        Placed(fence(step_source, "neck"), NeckBlock(show=("chord", "A7"))),
        Placed(fence(step_source, "open-strings"), OpenStringsBlock((parse_key("C major"),))),
        Placed(fence(step_source, "tuner"), TunerBlock()),
    )
    lessons = (
        Lesson("step", "Porch steps & {{ 7 * 7 }}", step_source, blocks),
        Lesson("far", "Far", far_source, (Placed(fence(far_source, "lick far"), far),)),
    )
    settings = Settings(
        parse_key("A major"), "straight", Tempo(100), replace(Guitar(), capo=2), Provenance("own")
    )
    draft = Lesson("later", "Later", Source("lessons/later.md", "# Later\n"), draft=True)
    return Course(
        title="Saturday <script>",
        author="A. & B. Player",
        settings=settings,
        units=(Unit("Before the boat", lessons, (draft,)),),
        edition="1.0",
        licence="CC-BY-4.0",
    )


@pytest.fixture(scope="session")
def edition(course: Course) -> Edition:
    """The course with an error, a query that a fix mends, and a finding let stand."""
    book, faults = resolve(course)
    assert faults == ()
    step = course.lessons[0].source
    span = step.span(STEP.index("porch\n```"), STEP.index("porch\n```") + 5)
    query = Finding(
        "harmony/unexplained",
        Severity.QUERY,
        "G natural over A: <not> in the chord",
        span,
        labels=(Label(span, "the chord stands here"),),
        help="one fret higher is the third",
        fix=Fix("fret 3", (Edit(span, "stoop"),)),
        lick="step",
        address="1.3",
    )
    error = Finding(
        "building/not-made", Severity.ERROR, "The notation of far could not be made", step.span(0, 3)
    )
    standing = Standing(query, Stet("harmony/unexplained", "the clash is the point"), "a41f")
    return Edition(course, book, read_theme(), (error, query), (standing,))


def made(order: Order) -> Result | None:
    """Stand in for the workers: boxes for notation, a word for a file, silence of the right length."""
    music = order.music
    if isinstance(order, ScoreOrder):
        split = 2 if order.width == "wide" else 1
        systems = []
        for first in range(0, len(music.bars), split):
            bars = music.bars[first : first + split]
            boxes = tuple(BarBox(b.number, k / len(bars), (k + 1) / len(bars)) for k, b in enumerate(bars))
            name = f"{order.width[0]}-{order.prefix}-{first}"
            svg = f'<svg viewBox="0 0 9 9" data-bars="{len(bars)}" id="{name}"></svg>'
            systems.append(System(svg, boxes, 9.0, 9.0))
        return Engraved(tuple(systems), '<g id="g-E0A4"><path d="M0 0"/></g>')
    if isinstance(order, ExchangeOrder):
        return Exchanged(b"file")
    quarter = Fraction(60) / order.bpm
    bars, lights, at = [], [], Fraction(0)
    for index in music.order:
        written = music.bars[index]
        bars.append((written.number, float(at), float(at + written.length * quarter)))
        lights += [(float(at + s.time * quarter), (str(s.address),)) for s in written.upper.sounds]
        at += written.length * quarter
    return Recorded(b"silence", float(at), tuple(bars), (*lights, (float(at), ())))


@pytest.fixture(scope="session", name="made")
def _made():
    return made


SLIPS = {
    "course.toml": """[course]
title = "Slips"
author = "A. Player"
key = "A major"
tempo = 96

[[unit]]
title = "All"
lessons = ["second.md", "first.md"]
""",
    "proofed.toml": '[first]\nby = "An editor"\nmark = "000000000000"\n',
    "lessons/first.md": """# First

```lick plank
A | 5:0 - - 5:2  5:4 - 4:2 -
   names | A B C# E
A | 4:4 - 4:2 5:4  5:1 - - -
   names | F# E C# A
D | 4:0 - - 4:4  3:2 - 4:4
```

[A downstroke](lick:plank@1.1) begins it.
""",
    "lessons/second.md": """# Second

```lick reach
stet: harmony/unexplained 1.1 "the clash is the point"

A | 5:1 - - -  4:2 - - -
A | 5:0 - - -  3:25 - - -
```

```lick again
vary: reach
2.2: 4:1
```
""",
}
"""Slips of several kinds, and a lesson whose signature is out of date; the later lesson stands first."""


@pytest.fixture(scope="session")
def slips(tmp_path_factory) -> Edition:
    """A course with slips, as read and proofed from its text."""
    folder = tmp_path_factory.mktemp("slips")
    (folder / "lessons").mkdir()
    for name, text in SLIPS.items():
        (folder / name).write_text(text, encoding="utf-8")
    proofed = proof_course(folder)
    return Edition(proofed.course, proofed.book, read_theme(), proofed.proof.findings, proofed.proof.standing)


@pytest.fixture(scope="session")
def on_disk(tmp_path_factory) -> Callable[[Page], Path]:
    """Return what makes a page whole, engraved and sounded, in a folder of its own with its theme."""

    def write(page: Page) -> Path:
        site = tmp_path_factory.mktemp("site")
        made = {id(order): make(order) for order in page.orders}
        files = {page.path: page.render(lambda order: made[id(order)]).encode(), **dict(theme_files())}
        files |= page.files(lambda order: made[id(order)])
        files |= {sound_path(r): sound_script(r) for r in made.values() if isinstance(r, Recorded)}
        for path, body in files.items():
            (site / path).parent.mkdir(exist_ok=True)
            (site / path).write_bytes(body)
        return site / page.path

    return write


@pytest.fixture
def off_line(chromium: Browser) -> Iterator[Callable[..., Opened]]:
    """Return what opens a file off line; when the test is done nothing may have gone wrong on it.

    What is ``forgiven`` may stand in the console.
    """
    faults, requests, pages = [], [], []

    def show(file: Path, forgiven: tuple[str, ...] = ()) -> Opened:
        opened = chromium.new_context(viewport={"width": 1280, "height": 900}, offline=True).new_page()
        opened.on("console", lambda m: any(word in m.text for word in forgiven) or faults.append(m.text))
        opened.on("pageerror", lambda error: faults.append(str(error)))
        opened.on("request", lambda request: requests.append(request.url))
        opened.add_init_script(
            "window.violations = [];"
            "addEventListener('securitypolicyviolation', event => violations.push(event.violatedDirective))"
        )
        opened.goto(file.as_uri())
        pages.append(opened)
        return opened

    yield show
    assert [page.evaluate("violations") for page in pages] == [[] for _ in pages]
    assert faults == []
    assert [url for url in requests if not url.startswith(("file:", "data:"))] == []
    for page in pages:
        page.context.close()
