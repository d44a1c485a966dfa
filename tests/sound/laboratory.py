"""Instruments of measurement: Praat, by way of parselmouth, and ways to write short performances."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import parselmouth

from lickwright.performance.event import Attack, Performance, StringEvent

RATE = 44_100
STANDARD = (64.0, 59.0, 55.0, 50.0, 45.0, 40.0)
Samples = np.ndarray


def hertz(midi: float) -> float:
    """Equal temperament at 440 Hz."""
    return 440 * 2 ** ((midi - 69) / 12)


def strike(string: int, fret: float, start: float, end: float, **more: object) -> StringEvent:
    """A picked note of ordinary strength."""
    given = {"attack": Attack.PICK, "stroke": "down", "velocity": 0.7, "stop": float(fret)} | more
    return StringEvent(string, start, end, **given)


def stage(
    events: Sequence[StringEvent],
    length: float,
    instrument: str = "electric",
    *,
    tail: float = 0.0,
    opens: Sequence[float] = STANDARD,
) -> Performance:
    """A performance of these events."""
    ordered = tuple(sorted(events, key=lambda event: (event.start, event.string)))
    return Performance(ordered, length, tail, tuple(opens), instrument)


def isolate(samples: Samples, centre: float, share: float = 0.2) -> Samples:
    """Pass a Gaussian band round ``centre`` (Hz), +-``share`` of it wide, without delay."""
    spectrum = np.fft.rfft(samples.astype(float))
    axis = np.fft.rfftfreq(len(samples), 1 / RATE)
    return np.fft.irfft(spectrum * np.exp(-0.5 * ((axis - centre) / (share * centre)) ** 2), len(samples))


@dataclass(frozen=True)
class Praat:
    """Praat's pitch and intensity of the fundamental alone."""

    def track(self, samples: Samples, expected: float, band: float = 0.2) -> tuple[Samples, Samples]:
        """Times (s) and cents against ``expected`` (Hz) of the fundamental."""
        sound = parselmouth.Sound(isolate(samples, expected, band), RATE)
        pitch = sound.to_pitch_ac(
            time_step=0.005,
            pitch_floor=expected * 0.6,
            pitch_ceiling=expected * 1.7,
            very_accurate=True,
            silence_threshold=0.0,
            voicing_threshold=0.0,
        )
        found = pitch.selected_array["frequency"]
        heard = found > 0
        return pitch.xs()[heard], 1200 * np.log2(found[heard] / expected)

    def cents(self, samples: Samples, expected: float, first: float, last: float) -> float:
        """Mean deviation from ``expected`` between two moments, cents."""
        times, cents = self.track(samples, expected)
        inside = (times >= first) & (times <= last)
        assert inside.sum() >= 5, "nothing was heard"
        return float(np.mean(cents[inside]))

    def ring(self, samples: Samples, expected: float, first: float, last: float) -> float:
        """T60 of the fundamental from a straight line through Praat's intensity, seconds."""
        sound = parselmouth.Sound(isolate(samples, expected, 0.12), RATE)
        contour = sound.to_intensity(minimum_pitch=max(expected / 2, 30), time_step=0.02, subtract_mean=False)
        times, levels = contour.xs(), contour.values[0]
        inside = (times >= first) & (times <= last)
        return -60 / float(np.polyfit(times[inside], levels[inside], 1)[0])


def reference(pitch: float, stiffness: float, ring: float, seconds: float) -> Samples:
    """A tone of known pitch, stretch and decay, written out apart from the synthesiser."""
    time = np.arange(int(seconds * RATE)) / RATE
    tone = np.zeros_like(time)
    number = 1
    while number * pitch < 8000 and number <= 60:
        stretched = number * pitch * np.sqrt((1 + stiffness * number**2) / (1 + stiffness))
        decay = np.exp(-np.log(1000) * time / ring * (1 + 0.02 * number**2))
        tone += np.sin(2 * np.pi * stretched * time) * decay / number
        number += 1
    return tone
