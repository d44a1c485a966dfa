"""Music and orders for the tests of building; what they hold does not matter to it."""

from dataclasses import replace
from fractions import Fraction

from lickwright.instrument.guitar import Guitar
from lickwright.model.music import ChordAt, Line, Music, MusicBar
from lickwright.model.orders import ScoreOrder, SoundOrder
from lickwright.text import Source, Span
from lickwright.theory.chord import parse_chord
from lickwright.theory.key import parse_key
from lickwright.theory.meter import Meter

HERE = Span(Source("lessons/a.md", "some text"), 0, 4)


def music(bars: int = 1, *, span: Span = HERE) -> Music:
    """Return that many empty bars in A major."""
    key, chord = parse_key("A major"), parse_chord("A7")
    assert key is not None
    assert chord is not None
    bar = MusicBar(
        number=1,
        meter=Meter(4, 4),
        meter_shown=True,
        length=Fraction(4),
        chords=(ChordAt(Fraction(0), chord, span=span),),
        upper=Line((), (), Fraction(0)),
        span=span,
    )
    return Music(
        key, Guitar(), tuple(replace(bar, number=n + 1) for n in range(bars)), order=tuple(range(bars))
    )


def score(prefix: str, *, span: Span = HERE, lick: str = "") -> ScoreOrder:
    """Return an order for a score of one bar."""
    return ScoreOrder(music(span=span), prefix, for_lick=lick or prefix)


def sound(bpm: int, bars: int = 1) -> SoundOrder:
    """Return an order for a sound of that many bars."""
    return SoundOrder(music(bars), Fraction(bpm), for_lick=f"{bars}-at-{bpm}")
