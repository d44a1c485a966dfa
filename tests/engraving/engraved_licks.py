"""Licks in the lick language for the tests of engraving, read and resolved."""

from __future__ import annotations

from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.music import Music
from lickwright.model.timeline import resolve as resolve_course
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key

SETTINGS = Settings(parse_key("A major"), "straight", Tempo(120), Guitar(), Provenance("own"))


def read(text: str) -> Music:
    """Read a lick block's inside; a fault other than a note is a mistake of the test."""
    music, wrong = resolve(text)
    assert not wrong, wrong
    return music


def resolve(text: str) -> tuple[Music, list[str]]:
    """Read a lick block's inside; return the music as written and what is wrong with it."""
    lesson, found = read_lesson(Source("lessons/one.md", f"# One\n\n```lick test\n{text}```\n"), "one")
    book, faults = resolve_course(Course("Test", "us", SETTINGS, (Unit("Unit", (lesson,)),)))
    wrong = [finding.message for finding in (*found, *faults) if finding.severity.value != "note"]
    return book.pieces[0].music, wrong


PORCH = """title: Porch step
key: A major

A7 | 5:0 5:4 4:2 s 4:4  3:2 - 2:0 2:2
   rh    | d   u   d   *    u     d   u
   lh    | 0   3   1   1    1     0   1
D7 | 3:2 h 3:4 4:4 4:2  (4:0 5:4 5:3)/2 5:4 5:5
"""

TORTURE = """title: Every sign
key: A major
feel: shuffle

|: A7 D7 | 5:0 5:4 4:2 s 4:4 2:8b10r8 - 2:8b10~! -
   rh | d u d * u d
   lh | 0 3 1 1 4 4
Bbm7b5' | pos2[3:2 h 3:4 p 3:2] pos5[3:5 s! 3:7 g(4:2) 4:4] ring[2:3+3:4 -]
   rh | d * * d u d P
N.C. | mute[6:3 6:3 5:x 5:x] 1:<12> - 2:t15 p 2:12
1. | 2:12pb14 - 2:r12 1:10 3:12b14 3:r12 3:12~ - :|
   signs | * * ghost * * wide
2. E7/G# | (3:2 h 3:4 h 3:5)/2 (2:5 2:6 2:7 2:8 2:9)/2 /1:5\\' - 2:15b15.5 -
A | 6:3+5:2+4:0+3:0+2:0+1:3^ - 3:2 - 3:2 - 3:7 -
   signs | * tremolo trill4 swell+fermata
F#m7 Bm7 | ring[4:2 3:2 2:3 1:0 2:2+3:2 - - -
   rh | p i m a mi
   lh | 1 2 3 0 31
   low | 6:0 - - - 6:0 - - -
| - -] 1:5+2:5 - 4:x - . 5:h5
   signs | pinch scrape *
   low | 5:0 - . . 5:0 - - -
A | 1:12+2:15b17 - 2:14+3:14b16 - 3:14 h 3:16 g(5:x 4:x 3:x) 2:5 -
   signs | * * * * rit
A | 4:2<14> - 3:0nb2 - 4:7b9 - 4:b10 4:r7
| g(3:5) s 3:6 - \\2:8 - 2:8/ - 2:3+3:4 h 3:5
"""

EDGES = {
    "odd meters": """key: G major
meter: 7/8

G | 4:0 4:2 4:4 3:0 3:2 3:4 2:0
3/4 C | 2:1 - - - - -
5/8 D | 2:3 - - - -
6/8 G | 3:0 - 2:0 - 3:0 -
12/8 G | 3:0 - - - - - - - - - - -
2/2 G | 3:0 3:2 3:4 2:0 2:1 - 2:3 .
5/4 G | 3:0 - - - - - - - - -
""",
    "seven strings": """key: B minor
tuning: B1 E2 A2 D3 G3 B3 E4
capo: 1

Cm | 7:0 7:2 6:0 6:2 5:0 4:0 3:0 1:0
Cm | 7:x 7:3b5 7:<12> - 1:5+7:0 - . .
""",
    "four strings": """key: F major
tuning: E2 A2 D3 G3

F | 4:1 3:0 3:3 2:0 2:2 2:3 1:0 1:2
F | 1:2 - - - - - - -
""",
    "flats": """key: Gb major
tuning: Eb2 Ab2 Db3 Gb3 Bb3 Eb4

Gb | 6:3 5:0 5:2 5:3 5:5 4:2 4:4 3:0
Cb | 3:4 3:5 2:2 2:3 2:4 1:1 1:2 1:3
""",
    "pickup": """key: D major
pickup: 1/4

| 5:4 5:5
|: D | 4:0 4:2 4:4 3:0 3:2 3:4 2:2 2:3
1. A7 | 2:2 - 2:0 - 3:2 - :|
2. D | 3:2 - - - - - - -
""",
    "two voices": """key: A major

A | 1:5 - 1:4 1:2 2:5 - 2:2 -
   rh  | m m m m m
   lh  | 4 3 1 4 1
   low | 5:0 - 4:2 - 5:0 - 4:2 -
   rh  | p p p p
   lh  | 0 1 0 1
A | 1:5 - - - - - - -
   low | . . 4:2 - 5:0 . . .
A | . . . . . . . .
   low | 5:0 - - - - - - -
A | - - - - 1:5 - - -
""",
    "tuplets": """key: C major

C | (2:1 2:3 2:5)/2 (1:0 1:1 1:3 1:5 1:7)/4 (1:8 1:7)/2
C | (2:1 (2:3 2:5 2:6) 2:8)/4 (2:1 - 2:3)/2 (3:0 3:2 3:4)/2
C | (1:0 1:1 1:3 1:5 1:7 1:8 1:10)/4 (- 1:8 1:7)/2 . .
""",
    "ties and syncopations": """key: E major
step: 1/16

E | 6:0 - - 6:2 - - 6:4 - - - - - 5:0 - - -
E | - - - - - - 5:2 - - - - - - - - -
E | - . 5:4 - - - - - - - 4:1 - - . . .
""",
    "graces": """key: A minor

Am | g(2:3) 2:5 g(2:3 2:4) 2:5 g(3:5) 2:5 g(5:x 4:x 3:x) 2:12 g(3:5+2:5) 3:7+2:7 - . .
Am | 3:7 g(3:5) s 3:7 3:5 h 3:7 s 3:9 p 3:7 3:b8.5 3:r7
""",
    "over the line": """key: G major

G | 3:0 - - - - - - 3:2 h
G | 3:4 - - - - - - 3:5 s
G | 3:7 - - - - - 2:8b10 -
G | - - 2:r8 - - - 2:8b10 -
C | 2:r8 - - - pos5[mute[4:5 - 3:5~ -
C | - - 2:5 - 1:5]] - ring[3:5 - s!
G | 3:7/ - - - 4:0] - 2:8b10 -
G | 2:b11 - - - . . . .
""",
    "repeat three times": """key: G major

|: G | 3:0 3:2 3:4 2:0 2:1 2:3 2:5 2:7
| 3:0 - - - - - - - :| x3
2/4 G' | 3:0 3:2 3:4 2:0
""",
}  # fmt: skip

MUSIC: dict[str, Music] = {
    name: read(text) for name, text in {"porch": PORCH, "torture": TORTURE, **EDGES}.items()
}
