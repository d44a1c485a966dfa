"""One voice a string."""

from laboratory import stage, strike

from lickwright.performance.event import Attack
from lickwright.sound.life import part_lives


def test_a_stroke_begins_a_life_and_legato_goes_on_in_it() -> None:
    """Stroke, hammer, pull are one life; the next stroke on the string cuts it off."""
    events = [
        strike(3, 5, 0.0, 0.2),
        strike(3, 7, 0.2, 0.4, attack=Attack.HAMMER),
        strike(3, 5, 0.4, 0.6, attack=Attack.PULL),
        strike(3, 4, 0.6, 0.8),
        strike(2, 4, 0.1, 0.8),
    ]
    lives = part_lives(stage(events, 1.0))
    assert [[e.start for e in life.events] for life in lives] == [[0.1], [0.0, 0.2, 0.4], [0.6]]
    assert [life.struck for life in lives] == [False, True, False]
    assert [life.open for life in lives] == [59.0, 55.0, 55.0]


def test_legato_after_silence_begins_a_life() -> None:
    """A hammer from nowhere, or after the note before was damped, has nothing to go on from."""
    events = [
        strike(3, 5, 0.0, 0.2, attack=Attack.HAMMER),
        strike(3, 7, 0.5, 0.8, attack=Attack.HAMMER),
    ]
    assert len(part_lives(stage(events, 1.0))) == 2
