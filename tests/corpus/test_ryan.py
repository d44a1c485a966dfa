"""Tunes of Ryan's Mammoth Collection (Boston: Elias Howe, 1883) out of music21's corpus, through the builder.

Each is set in the lick language and read back; music21's own reading is the witness
for bars, pitches and onsets as played.
"""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from corpus_setting import Tune, read_tune, set_tune

from lickwright.checks.proof import proof
from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.music import Piece
from lickwright.model.timeline import play, resolve
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key

TUNES = (
    "AmateurHornpipe",
    "BanjoReel",
    "BenButlersReel",
    "CalisthenicHornpipe",
    "ClearTheTrackHornpipe",
    "EclipseHornpipe",
    "GladiatorReel",
    "GlobeTrottersHornpipe",
    "HopJig",
    "IndysFavoriteReel",
    "KenmuresOnAndAwaJig",
    "LeatherTheWigJig",
    "MarquisOfBowmontReel",
    "NealGowsWifeStrathspey",
    "PantomimeReel",
    "RamblerFromClareJig",
    "RedLionHornpipe",
    "ScottishAmericanHighlandFling",
    "SpirvinsFancy",
    "SwallowTailJig",
    "TeetotalJig",
    "TelephoneReel",
    "UnfortunateRakeJig",
    "ViolettaHornpipe",
    "WhiteStarReel",
)
"""Reels, hornpipes, jigs; chosen for what they hold, and for repeat signs that fit together."""


def read(text: str) -> tuple[Piece, list[str]]:
    """Read, resolve and proof one lick; return it with its errors and queries."""
    key = parse_key("A major")
    assert key is not None
    settings = Settings(key, "straight", Tempo(96), Guitar(), Provenance("own"))
    lesson, reading = read_lesson(Source("lessons/tune.md", text), "tune")
    course = Course("Tunes", "us", settings, (Unit("Tunes", (lesson,)),))
    book, timeline = resolve(course)
    result = proof(course, book, (*reading, *timeline))
    piece = book.piece("tune")
    assert piece is not None, reading
    return piece, [f"{f.rule} {f.address}: {f.message}" for f in result.findings if f.severity.word != "note"]


@pytest.fixture(scope="module")
def tunes() -> dict[str, Tune]:
    """The tunes as music21 reads them."""
    return {name: read_tune(f"{name}.abc") for name in TUNES}


def heard(piece: Piece) -> list[tuple[Fraction, int]]:
    """Onsets and pitches as played."""
    return [(p.start, int(p.sound.tones[0].path[0])) for p in play(piece.music)]


@pytest.mark.parametrize("name", TUNES)
def test_a_tune_comes_out_as_music21_reads_it(tunes, name):
    """Bars, their lengths, pitches and onsets with the repeats played; and a clean proof."""
    tune = tunes[name]
    piece, found = read(set_tune(tune, Guitar()))
    assert found == []
    assert [bar.upper.filled for bar in piece.music.bars] == [bar.length for bar in tune.measures]
    assert heard(piece) == list(tune.played)


def test_the_tunes_have_what_makes_reading_hard(tunes):
    """Pickups, repeats, endings, triplets, grace notes, flat keys, minor, three meters."""
    texts = {name: set_tune(tune, Guitar()) for name, tune in tunes.items()}
    wanted = {
        "pickup": r"^pickup:",
        "repeat": r":\|$",
        "ending": r"^1\. ",
        "triplet": r"\)/\d",
        "grace": r"g\(",
        "flat key": r"^key: Bb major",
        "minor": r"^key: \w+ minor",
        "jig": r"^meter: 6/8",
        "slip jig": r"^meter: 9/8",
        "cut time": r"^meter: 2/2",
    }
    missing = {
        what
        for what, pattern in wanted.items()
        if not any(re.search(pattern, text, re.MULTILINE) for text in texts.values())
    }
    assert not missing


@pytest.mark.parametrize(
    ("slip", "with_what"),
    [
        (r"(\d:)(\d+)( \d:\d+.*)", lambda m: f"{m[1]}{int(m[2]) + 1}{m[3]}"),
        (r"(\d:\d+) - (\d:\d+) (.*)", lambda m: f"{m[2]} - {m[1]} {m[3]}"),
        (r"(\d:\d+) -( .*)", lambda m: f"{m[1]} .{m[2]}"),
    ],
    ids=["one fret", "two notes swapped", "a hold lost"],
)
def test_a_planted_slip_is_seen(tunes, slip, with_what):
    """The comparison, or the second witness, catches each."""
    tune = tunes["SwallowTailJig"]
    text = set_tune(tune, Guitar())
    head, body = text.split("\n\n", 1)
    slipped = head + "\n\n" + re.sub(slip, with_what, body, count=1)
    assert slipped != text
    piece, found = read(slipped)
    ends = [(p.start, p.end) for p in play(piece.music)]
    right, _ = read(text)
    assert found or heard(piece) != list(tune.played) or ends != [(p.start, p.end) for p in play(right.music)]
