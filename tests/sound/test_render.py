"""Pitch, time and level of rendered notes, by Praat and by arithmetic."""

import hashlib
import os
import pickle
import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest
from laboratory import RATE, STANDARD, Praat, hertz, isolate, stage, strike

from lickwright.performance.event import Attack, Glide, Performance, Vibrato
from lickwright.sound.decay import ring
from lickwright.sound.render import count_samples, pluck, render
from lickwright.sound.tables import CEILING, GUITARS


@pytest.mark.parametrize("instrument", ["electric", "acoustic"])
def test_sustained_pitch_is_equal_temperament(praat: Praat, instrument: str) -> None:
    """Open, middle and last fret of the outer and a middle string: 1 cent raw, 2 after the chain."""
    for string, fret in ((6, 0), (6, 22), (4, 9), (3, 0), (1, 5), (1, 22)):
        performance = stage([strike(string, fret, 0, 1)], 1.0, instrument)
        expected = hertz(STANDARD[string - 1] + fret)
        assert abs(praat.cents(pluck(performance), expected, 0.25, 0.8)) < 1
        assert abs(praat.cents(render(performance), expected, 0.25, 0.8)) < 2


def test_other_tunings_and_numbers_of_strings(praat: Praat) -> None:
    """Four strings in fifths, seven and eight strings, each lowest and highest open string in tune."""
    for opens in ((76, 69, 62, 55), (64, 59, 55, 50, 45, 40, 35), (64, 59, 55, 50, 45, 40, 35, 30)):
        for string in (1, len(opens)):
            performance = stage([strike(string, 2, 0, 1)], 1.0, opens=opens)
            expected = hertz(opens[string - 1] + 2)
            assert abs(praat.cents(render(performance), expected, 0.25, 0.8)) < 2


BENT = {
    "bend": ({"curve": ((0.1, 0), (0.3, 200))}, 200),
    "quarter tone": ({"curve": ((0.1, 0), (0.3, 50))}, 50),
    "bend and release": ({"curve": ((0.0, 0), (0.15, 200), (0.3, 200), (0.45, 0))}, 0),
    "bent before": ({"curve": ((0.0, 300),)}, 300),
    "slide": ({"glides": (Glide(0.1, 0.1, 7, 9),)}, 200),
    "smooth slide down": ({"glides": (Glide(0.1, 0.2, 7, 3, smooth=True),)}, -400),
}


@pytest.mark.parametrize("name", BENT)
def test_bends_and_slides_arrive(praat: Praat, name: str) -> None:
    """The pitch after a bend or slide is within 2 cents of where it is written, raw and after the amp."""
    how, cents = BENT[name]
    performance = stage([strike(2, 7, 0, 1.2, **how)], 1.2)
    expected = hertz(59 + 7 + cents / 100)
    for samples in (pluck(performance), render(performance)):
        assert abs(praat.cents(samples[int(0.45 * RATE) :], expected, 0.15, 0.6)) < 2


def test_hammer_pull_and_slide_arrive(praat: Praat) -> None:
    """Legato notes sound where they are written, and begin in time."""
    for attack, first, second in (
        (Attack.HAMMER, 5, 7),
        (Attack.PULL, 7, 5),
        (Attack.PULL, 2, 0),
        (Attack.SLIDE, 5, 9),
    ):
        glides = (Glide(0.43, 0.07, first, second),) if attack is Attack.SLIDE else ()
        events = [
            strike(3, first, 0, 0.5, glides=glides),
            strike(3, second, 0.5, 1.3, attack=attack, stroke=None),
        ]
        samples = pluck(stage(events, 1.3))
        for fret, begin in ((first, 0.0), (second, 0.5)):
            part = samples[int(begin * RATE) : int((begin + 0.8) * RATE)]
            assert abs(praat.cents(part, hertz(55 + fret), 0.12, 0.38)) < 2


def test_a_bend_climbs_and_a_vibrato_swings_upwards(praat: Praat) -> None:
    """On the way a bend passes every pitch between; a vibrato keeps above the note and has its rate."""
    bent = pluck(stage([strike(2, 8, 0, 1, curve=((0.2, 0), (0.6, 200)))], 1.0))
    times, cents = praat.track(bent, hertz(68), 0.3)
    middle = cents[(times > 0.38) & (times < 0.42)]
    assert abs(np.mean(middle)) < 15  # half way up in half the time
    assert np.all(np.diff(cents[(times > 0.25) & (times < 0.55)]) > 0)
    shaken = pluck(stage([strike(2, 8, 0, 2, vibrato=Vibrato(5, 40, 0.1))], 2.0))
    times, cents = praat.track(shaken, hertz(67))
    swing = cents[(times > 0.5) & (times < 1.9)]
    assert swing.min() == pytest.approx(0, abs=4)
    assert swing.max() == pytest.approx(40, abs=4)
    centred = swing - swing.mean()
    assert np.sum(np.diff(np.sign(centred)) != 0) == pytest.approx(2 * 5 * 1.4, abs=1)


def test_harmonics_sound_their_partial(praat: Praat) -> None:
    """Over fret 12 the octave, over 7 the twelfth, and nothing of the fundamental."""
    for partial in (2, 3):
        samples = pluck(stage([strike(4, 0, 0, 1, harmonic=partial)], 1.0))
        assert abs(praat.cents(samples, hertz(50) * partial, 0.2, 0.8)) < 1
        spectrum = np.abs(np.fft.rfft(samples * np.hanning(len(samples))))
        low = spectrum[round(hertz(50)) - 3 : round(hertz(50)) + 4].max()
        assert low < 1e-3 * spectrum.max()


@pytest.mark.parametrize("instrument", ["electric", "acoustic"])
def test_decay_follows_its_table(praat: Praat, instrument: str) -> None:
    """T60 of every open string's fundamental is its table's within a tenth."""
    for string, pitch in enumerate(STANDARD, 1):
        asked = float(ring(GUITARS[instrument].material(pitch), np.array(0.0)))
        samples = pluck(stage([strike(string, 0, 0, 4)], 4.0, instrument))
        found = praat.ring(samples, hertz(pitch), 0.1 * asked, min(0.7 * asked, 3.8))
        assert found == pytest.approx(asked, rel=0.1), (string, found, asked)


def test_onsets_stand_where_they_are_written() -> None:
    """The first sample of each struck note is within 2 ms of its time, to the very sample in fact."""
    for start in (0.0, 0.123456, 1.0):
        samples = pluck(stage([strike(1, 3, start, start + 0.5)], 2.0))
        first = np.flatnonzero(np.abs(samples) > 1e-4)[0]
        assert abs(first / RATE - start) < 0.002


def test_slow_version_has_the_same_pitch_and_the_exact_length(praat: Praat) -> None:
    """At 55 per cent of the tempo the note is as high, and the length is right to the sample."""
    for factor in (1.0, 1 / 0.55):
        performance = stage([strike(2, 5, 0.2 * factor, 0.9 * factor)], 1.1 * factor, tail=0.3)
        samples = render(performance)
        assert len(samples) == round((1.1 * factor + 0.3) * RATE) == count_samples(performance)
        assert samples.dtype == np.float32
        start = int(0.2 * factor * RATE)
        assert abs(praat.cents(samples[start : start + int(0.65 * RATE)], hertz(64), 0.2, 0.5)) < 2


def level(samples: np.ndarray, first: float, last: float) -> float:
    """Root mean square between two moments."""
    return float(np.sqrt(np.mean(samples[int(first * RATE) : int(last * RATE)].astype(float) ** 2)))


def test_what_the_hands_do_is_heard() -> None:
    """A pull is softer than a stroke, up than down, less force than more; a mute is shorter."""
    second = [strike(3, 7, 0, 0.4), strike(3, 5, 0.4, 1.0)]
    pulled = [second[0], replace(second[1], attack=Attack.PULL, stroke=None)]
    loud, soft = (level(render(stage(events, 1.0)), 0.42, 0.6) for events in (second, pulled))
    assert 0.1 * loud < soft < 0.8 * loud
    one = strike(3, 5, 0, 1)
    plain = render(stage([one], 1.0))
    assert level(render(stage([replace(one, stroke="up")], 1.0)), 0, 0.3) < level(plain, 0, 0.3)
    assert level(render(stage([replace(one, velocity=0.95)], 1.0)), 0, 0.3) > level(plain, 0, 0.3)
    assert level(render(stage([replace(one, mute=1.0)], 1.0)), 0.4, 0.6) < 0.1 * level(plain, 0.4, 0.6)
    dead = render(stage([replace(one, attack=Attack.DEAD)], 1.0))
    assert level(dead, 0, 0.03) > 0.1 * level(plain, 0, 0.03)
    assert level(dead, 0.3, 0.5) < 0.02 * level(plain, 0.3, 0.5)


def test_an_open_string_rings_on_under_the_next_note(praat: Praat) -> None:
    """While string 2 plays, an open string 3 that was let ring is still there; a damped one is not."""
    ringing = render(stage([strike(3, 0, 0, 1.5, ring=True), strike(2, 5, 0.5, 1.5)], 1.5))
    damped = render(stage([strike(3, 0, 0, 0.5), strike(2, 5, 0.5, 1.5)], 1.5))
    kept, gone = (level(isolate(x, hertz(55), 0.04), 0.7, 1.2) for x in (ringing, damped))
    assert kept > 30 * gone
    assert abs(praat.cents(ringing[int(0.6 * RATE) :], hertz(55), 0.1, 0.6)) < 2


def brightness(samples: np.ndarray, moment: float) -> float:
    """Energy above 8 kHz in 3 ms round a moment, dB."""
    spectrum = np.fft.rfft(samples.astype(float))
    spectrum[: int(8000 * len(samples) / RATE)] = 0
    high = np.fft.irfft(spectrum, len(samples))
    centre = round(moment * RATE)
    part = high[centre - round(0.0015 * RATE) : centre + round(0.0015 * RATE)]
    return 10 * np.log10(np.sum(part**2) + 1e-12)


def test_a_cut_off_does_not_click() -> None:
    """Where a finger damps a string there is no more above 8 kHz than if it rang on."""
    for instrument in ("electric", "acoustic"):
        for string in (1, 3, 6):
            cut = render(stage([strike(string, 3, 0, 0.5)], 1.0, instrument))
            whole = render(stage([strike(string, 3, 0, 1.0)], 1.0, instrument))
            broken = whole.copy()
            broken[round(0.5 * RATE) :] = 0
            for moment in (0.499, 0.5, 0.503, 0.51, 0.55):
                assert brightness(cut, moment) <= brightness(whole, moment) + 3
            assert brightness(broken, 0.5) > brightness(whole, 0.5) + 3


def test_peaks_stay_under_the_ceiling() -> None:
    """Six strings struck hard, over and over: no peak, between the samples either, passes the ceiling."""
    frets = (0, 2, 2, 2, 0, 0)
    events = [
        strike(string, fret, beat * 0.25, beat * 0.25 + 0.25, velocity=1.0)
        for beat in range(6)
        for string, fret in enumerate(frets, 1)
    ]
    for instrument in ("electric", "acoustic"):
        samples = render(stage(events, 1.5, instrument))
        spectrum = np.fft.rfft(samples.astype(float))
        finer = np.fft.irfft(spectrum, 4 * len(samples)) * 4
        assert 0.5 * CEILING < np.abs(finer).max() <= CEILING


def test_silence_and_edges() -> None:
    """No event, an event at the very end, one that outlasts the file: right length, finite samples."""
    assert np.abs(render(stage([], 0.5))).max() < 1e-7
    for events in ([strike(1, 0, 0.9999, 1.5)], [strike(1, 22, 0.5, 9)], [strike(6, 0, 1.2, 1.3)]):
        samples = render(stage(events, 1.0))
        assert len(samples) == RATE
        assert np.isfinite(samples).all()


PASSAGE = stage(
    [
        strike(5, 0, 0.0, 0.2),
        strike(3, 2, 0.2, 0.4, glides=(Glide(0.1, 0.1, 2, 4),)),
        strike(3, 4, 0.4, 0.6, attack=Attack.SLIDE, stroke=None),
        strike(2, 8, 0.6, 1.2, curve=((0.0, 0), (0.1, 200)), vibrato=Vibrato(5.5, 30, 0.2)),
        strike(4, 2, 0.6, 0.9, attack=Attack.FINGER, stroke=None),
        strike(4, 2, 0.9, 1.2, attack=Attack.DEAD),
    ],
    1.2,
)

AGAIN = """
import hashlib, pickle, sys
from lickwright.sound.render import render
print(hashlib.sha256(render(pickle.load(sys.stdin.buffer)).tobytes()).hexdigest())
"""


def test_same_bytes_in_another_process_and_with_other_threads() -> None:
    """The samples are the same to the bit in a second process, however many threads it may use."""
    here = hashlib.sha256(render(PASSAGE).tobytes()).hexdigest()
    path = os.pathsep.join(entry for entry in sys.path if entry)
    for threads in ("1", "4"):
        environment = os.environ | {"PYTHONPATH": path, "OPENBLAS_NUM_THREADS": threads}
        there = subprocess.run(
            [sys.executable, "-c", AGAIN],
            input=pickle.dumps(PASSAGE),
            env=environment,
            capture_output=True,
            check=True,
        )
        assert there.stdout.decode().strip() == here


def test_neighbours_do_not_change_a_note() -> None:
    """Strings alone, a passage is the sum of its strings: what else is played changes nothing."""
    parts = np.zeros(count_samples(PASSAGE))
    for string in range(1, 7):
        own = tuple(event for event in PASSAGE.events if event.string == string)
        parts += pluck(Performance(own, PASSAGE.length, PASSAGE.tail, PASSAGE.opens, PASSAGE.instrument))
    assert np.abs(parts - pluck(PASSAGE)).max() < 1e-5
