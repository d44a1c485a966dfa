"""A sound as ordered: its length, its bars, its bytes."""

from fractions import Fraction

from building_orders import sound

from lickwright.building.recording import record
from lickwright.sound.encode import decode
from lickwright.sound.tables import RATE


def test_a_recording_keeps_the_clock() -> None:
    """Two bars of 4/4 at 120 take 4 seconds; the stem decodes to exactly its stated length."""
    recorded = record(sound(120, bars=2))
    assert recorded.bars == ((1, 0.0, 2.0), (2, 2.0, 4.0))
    assert len(decode(recorded.mp3)) == round(recorded.seconds * RATE)
    assert recorded.seconds > 4


def test_the_same_order_gives_the_same_bytes() -> None:
    """Twice the same sound is twice the same file."""
    assert record(sound(300)) == record(sound(300))
    assert record(sound(300)).seconds > record(sound(301)).seconds
    assert sound(300).bpm == Fraction(300)
