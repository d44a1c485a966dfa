"""Figures of the sound: pitch and decay on every string and fret by Praat, and what a second of it costs.

Run by hand: ``python tests/bench/bench_sound.py [--every FRETS]``; about a minute. Prints, judges nothing.
"""

import argparse
import resource
import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

TESTS = Path(__file__).parent.parent
sys.path[:0] = [str(TESTS / "sound"), str(TESTS.parent / "builder")]

from laboratory import RATE, STANDARD, Praat, hertz, reference, stage, strike  # noqa: E402

from lickwright.performance.event import Attack, Glide, Performance, Vibrato  # noqa: E402
from lickwright.sound.chain import play  # noqa: E402
from lickwright.sound.decay import ring  # noqa: E402
from lickwright.sound.encode import compare, encode_mp3, read_blocks, write_mp3  # noqa: E402
from lickwright.sound.limit import limit  # noqa: E402
from lickwright.sound.render import pluck, render  # noqa: E402
from lickwright.sound.tables import GUITARS  # noqa: E402


def main() -> None:
    """Print all figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--every", type=int, default=1, help="measure every n-th fret")
    every = parser.parse_args().every
    witness = Praat()
    report_witness(witness)
    for instrument in GUITARS:
        report_pitch(witness, instrument, every)
        report_decay(witness, instrument)
        report_movements(witness, instrument)
    report_cost()


def report_witness(witness: Praat) -> None:
    """The tool's own error on tones of known pitch, with the stretch of the guitar's strings."""
    worst = 0.0
    for midi, stiffness in ((40, 1.2e-4), (55, 1.3e-4), (64, 2.5e-5), (86, 3.2e-4)):
        tone = reference(hertz(midi), stiffness, 4.0, 1.2)
        worst = max(worst, abs(witness.cents(tone, hertz(midi), 0.2, 0.9)))
    print(f"Praat on reference tones: worst {worst:.4f} cent")


def report_pitch(witness: Praat, instrument: str, every: int) -> None:
    """Sustained pitch of every string and fret."""
    for name, make in (("strings", pluck), ("chain", render)):
        worst, where = 0.0, ""
        for string, pitch in enumerate(STANDARD, 1):
            for fret in range(0, 25, every):
                samples = make(stage([strike(string, fret, 0, 1)], 1.0, instrument))
                error = witness.cents(samples, hertz(pitch + fret), 0.2, 0.8)
                if abs(error) >= abs(worst):
                    worst, where = error, f"string {string} fret {fret}"
        print(f"{instrument} {name}: sustained f1 0.2-0.8 s, worst {worst:+.3f} cent ({where})")


def report_decay(witness: Praat, instrument: str) -> None:
    """T60 of the fundamental against its table."""
    parts = []
    for string, pitch in enumerate(STANDARD, 1):
        for fret in (0, 12):
            asked = float(ring(GUITARS[instrument].material(pitch), np.array(float(fret))))
            seconds = min(asked, 5)
            samples = pluck(stage([strike(string, fret, 0, seconds)], seconds, instrument))
            found = witness.ring(samples, hertz(pitch + fret), 0.1 * asked, 0.95 * seconds)
            parts.append(found / asked)
    print(f"{instrument}: T60 measured / asked, {min(parts):.3f} to {max(parts):.3f} (12 notes)")


def report_movements(witness: Praat, instrument: str) -> None:
    """End points of bends, slides and joins, through the whole chain."""
    worst: dict[str, float] = {}
    for string, pitch in enumerate(STANDARD, 1):
        bent = [strike(string, 9, 0, 1.2, curve=((0.1, 0), (0.3, 200)))]
        slid = [strike(string, 5, 0, 1.2, glides=(Glide(0.2, 0.12, 5, 9),))]
        pulled = [strike(string, 7, 0, 0.4), strike(string, 5, 0.4, 1.2, attack=Attack.PULL, stroke=None)]
        hammered = [strike(string, 5, 0, 0.4), strike(string, 7, 0.4, 1.2, attack=Attack.HAMMER, stroke=None)]
        for name, events, goal in (
            ("bend", bent, 11),
            ("slide", slid, 9),
            ("pull", pulled, 5),
            ("hammer", hammered, 7),
        ):
            samples = render(stage(events, 1.2, instrument))[int(0.45 * RATE) :]
            error = witness.cents(samples, hertz(pitch + goal), 0.15, 0.6)
            worst[name] = max(worst.get(name, 0.0), abs(error))
    print(f"{instrument} end points, worst:", ", ".join(f"{name} {c:.3f} cent" for name, c in worst.items()))


def _line() -> Performance:
    frets = [(5, 0), (5, 4), (4, 2), (4, 4), (3, 2), (3, 0), (2, 0), (2, 2)]
    events = [strike(s, f, n * 0.178, (n + 1) * 0.178) for n, (s, f) in enumerate(frets * 8)]
    return stage(events, 64 * 0.178, tail=1.0)


def _chords() -> Performance:
    shape = list(enumerate((0, 2, 2, 2, 0, 0), 1))
    events = [strike(s, f, n * 0.5, n * 0.5 + 0.48) for n in range(24) for s, f in shape]
    return stage(events, 12.0, tail=1.0)


def _bends() -> Performance:
    shaken = Vibrato(5.2, 40, 0.2)
    events = [strike(2, 8, n * 1.0, n + 1.0, curve=((0, 0), (0.2, 200)), vibrato=shaken) for n in range(12)]
    return stage(events, 12.0, tail=1.0)


def _spent(work: Callable[[], object]) -> float:
    best = 1e9
    for _ in range(3):
        start = time.process_time()
        work()
        best = min(best, time.process_time() - start)
    return best


def report_cost() -> None:
    """Seconds of sound a CPU second makes, stage by stage, and the memory of it all."""
    for name, performance in (("line", _line()), ("chords", _chords()), ("bends", _bends())):
        strings = pluck(performance)
        guitar = GUITARS[performance.instrument]
        samples = render(performance)
        data = encode_mp3(samples)
        seconds = len(samples) / RATE
        costs = {
            "strings": _spent(lambda performance=performance: pluck(performance)),
            "chain": _spent(lambda strings=strings, guitar=guitar: play(strings.copy(), guitar)),
            "limiter": _spent(lambda samples=samples: limit(samples.copy())),
            "encoder": _spent(lambda samples=samples: write_mp3(samples)),
            "check": _spent(lambda samples=samples, data=data: compare(samples, read_blocks(data))),
        }
        whole = seconds / sum(costs.values())
        stages = ", ".join(f"{stage_} x{seconds / cost:.0f}" for stage_, cost in costs.items())
        raw = seconds / (costs["strings"] + costs["chain"] + costs["limiter"])
        print(
            f"{name}: {stages}; without the encoder x{raw:.0f}, whole x{whole:.0f}; "
            f"{len(data) * 8 / seconds / 1000:.0f} kbit/s, {compare(samples, read_blocks(data)):.1f} dB"
        )
    print(f"memory: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


if __name__ == "__main__":
    main()
