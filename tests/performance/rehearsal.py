"""Short licks in the lick language, made into music for the tests of performance."""

from collections.abc import Sequence
from fractions import Fraction

from lickwright.instrument.guitar import Guitar
from lickwright.model.bar import Bar, Margin, MarginChord, Voice
from lickwright.model.blocks import Lick
from lickwright.model.course import Settings
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.music import Music
from lickwright.model.timeline.faults import Faults
from lickwright.model.timeline.piece import resolve_lick
from lickwright.performance.event import Performance, StringEvent
from lickwright.performance.perform import perform
from lickwright.reading.collector import Collector
from lickwright.reading.lines import Line
from lickwright.reading.rows import read_row
from lickwright.reading.strikes import Hand
from lickwright.reading.voices import VoiceReader
from lickwright.text import Source
from lickwright.theory.chord import parse_chord
from lickwright.theory.key import parse_key


def write(
    *bars: str,
    lower: Sequence[str] = (),
    guitar: Guitar | None = None,
    margins: Sequence[Margin] = (),
    pickup: Fraction | None = None,
    **fields: object,
) -> Music:
    """Music of bars, each the slots of a line and, after further line breaks, its rows (``rh d u``).

    Args:
        bars: The upper voice.
        lower: The lower voice, by bar.
        guitar: What it is played on.
        margins: Repeats and meters, by bar.
        pickup: Length of bar 0.
        fields: Further fields of the lick.
    """
    guitar = guitar or Guitar()
    chord = MarginChord(parse_chord("A"))
    given = [*margins, *[Margin() for _ in bars[len(margins) :]]]
    if not given[0].chords:
        first = given[0]
        given[0] = Margin((chord,), first.meter, first.opens, first.endings, first.closes, first.times)
    upper, below = _voices(bars, guitar), _voices(lower, guitar)
    lick = Lick(
        "test",
        tuple(
            Bar(margin, voice, below[n] if n < len(below) else None)
            for n, (margin, voice) in enumerate(zip(given, upper, strict=True))
        ),
        pickup=pickup,
        **fields,
    )
    settings = Settings(parse_key("A major"), "straight", Tempo(120), guitar, Provenance("own"))
    faults = Faults("test")
    piece = resolve_lick(lick, {}, settings, faults)
    assert not list(faults), list(faults)
    return piece.music


def _voices(texts: Sequence[str], guitar: Guitar) -> list[Voice]:
    voices = []
    reader: VoiceReader | None = None
    for text in texts:
        slots, *rows = text.split("\n")
        source = Source("lick.md", text)
        found = Collector(source)
        if reader is None:
            reader = VoiceReader(Hand(found, guitar.strings))
        line = reader.read(Line(slots, 0))
        read = []
        for row in rows:
            kind, _, entries = row.strip().partition(" ")
            read.append(read_row(kind, Line(entries, 0), line.sounds, found))
        assert not found.findings, found.findings
        voices.append(Voice(tuple(line.slots), tuple(read)))
    return voices


def play(*bars: str, bpm: int = 120, **more: object) -> Performance:
    """Perform the bars; at 120 a slot of an eighth lasts a quarter of a second."""
    return perform(write(*bars, **more), Fraction(bpm))


def line(performance: Performance, string: int | None = None) -> list[StringEvent]:
    """The events, of one string if it is given."""
    return [event for event in performance.events if string in (None, event.string)]
