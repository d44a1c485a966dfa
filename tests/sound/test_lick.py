"""A lick from its author's text to samples: pitch and onset of every note, lengths, lights."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from laboratory import RATE, STANDARD, Praat, hertz
from rehearsal import write

from lickwright.instrument.guitar import Guitar
from lickwright.performance.perform import TAIL, perform
from lickwright.sound.encode import decode, encode_mp3
from lickwright.sound.render import pluck, render

BARS = (
    "5:0 5:4 4:2 s 4:4 3:2 - 2:0 2:2",
    "3:2 h 3:4 4:4 4:2 (4:0 5:4 5:3)/2 5:4 5:5",
    "1:5 - - - 2:10b12 - - -",
)


@pytest.mark.parametrize("instrument", ["electric", "acoustic"])
@pytest.mark.parametrize("bpm", [140, 77])
def test_every_note_is_in_tune_at_full_and_at_reduced_tempo(praat: Praat, instrument: str, bpm: int) -> None:
    """Each note, amp or body and room counted in, within 5 cents of its written pitch; bends at their top."""
    performance = perform(write(*BARS, guitar=Guitar(sound=instrument)), Fraction(bpm))
    samples = render(performance)
    assert len(samples) == round((12 * 60 / bpm + TAIL) * RATE)
    errors = []
    for event in performance.events:
        top = event.curve[-1][1] if event.curve else 0
        begin = event.start + (event.curve[-1][0] if event.curve else 0) + 0.05
        end = min(event.end, event.start + 1.2) - (0.1 if event.glides else 0)
        if end - begin < 0.13:
            continue
        expected = hertz(STANDARD[event.string - 1] + event.stop + top / 100)
        piece = samples[round(begin * RATE) : round(end * RATE)]
        errors.append(praat.cents(piece, expected, 0.04, end - begin - 0.04))
    assert len(errors) >= (9 if bpm == 140 else 16)
    assert np.max(np.abs(errors)) < 5
    assert abs(np.median(errors)) < 1


def test_every_onset_is_where_it_is_written() -> None:
    """Rendered alone, each struck note's first sample is within 2 ms of its place in quarters."""
    music = write(*BARS, feel="shuffle")
    performance = perform(music, Fraction(140))
    struck = [event for event in performance.events if not event.attack.legato]
    assert len(struck) > 12
    for event in struck:
        alone = pluck(replace(performance, events=(event,)))
        first = np.flatnonzero(np.abs(alone) > 1e-4)[0]
        assert abs(first / RATE - event.start) < 0.002


def test_the_encoded_file_has_the_stated_length() -> None:
    """Decoded, the stem is as long as bars and tail, and the last light goes out with the last bar."""
    performance = perform(write(*BARS), Fraction(111))
    samples = render(performance)
    decoded = decode(encode_mp3(samples))
    assert len(decoded) == len(samples) == round((performance.length + performance.tail) * RATE)
    assert performance.lights[-1] == (performance.length, ())
    # something is heard in every bar, and nothing is cut at the end
    for first, last in pairwise(performance.bars):
        assert np.abs(decoded[round(first * RATE) : round(last * RATE)]).max() > 0.02
    assert np.abs(decoded[-100:]).max() < 1e-3
