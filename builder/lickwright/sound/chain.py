"""Pickup, amplifier, loudspeaker, body and room: the way from the strings to the microphone.

Everything linear is two long impulse responses, one before and one after the soft clipping, applied by
fast convolution a frame at a time (overlap-save), in place: no second copy of the sound is held. The
clipping runs at twice the rate, where the study found its aliasing under -80 dB at this drive.
"""

from functools import cache

import numpy as np
import numpy.typing as npt

from lickwright.sound.noise import colour
from lickwright.sound.tables import RATE, Band, Guitar

Samples = npt.NDArray[np.float32]
Spectrum = npt.NDArray[np.complex64]

_FRAME = 1 << 17  # samples of one transform
_CONTEXT = 1 << 15  # samples before it that the responses may reach back
_EDGE = 1 << 11  # samples at its end that the change of rate disturbs
_BIAS = 0.12  # the clipping is a little uneven, as a valve is
_ROOM = 0.35  # T60 of the room, seconds
_LAG, _LAG_TURN = 0.002, 1200.0  # seconds by which the lowest tones come later, Hz where it is half of that


def play(strings: Samples, guitar: Guitar) -> None:
    """Send the sum of the strings through the guitar's chain, in place.

    Args:
        strings: Samples, shape (n,); replaced by the sound before the microphone.
        guitar: The instrument.
    """
    before, after = _respond(guitar)
    step = _FRAME - _CONTEXT - _EDGE
    frame = np.zeros(_FRAME, np.float32)
    for first in range(0, len(strings), step):
        # the frame: what came before, still unchanged from the last frame; then what is new
        frame[:_CONTEXT] = frame[step : step + _CONTEXT] if first else 0
        fresh = strings[first : first + step + _EDGE]
        frame[_CONTEXT:] = 0
        frame[_CONTEXT : _CONTEXT + len(fresh)] = fresh
        spectrum = np.fft.rfft(frame)
        spectrum *= before
        if guitar.drive is not None:
            wave = np.fft.irfft(spectrum, 2 * _FRAME).astype(np.float32, copy=False)
            spectrum = np.fft.rfft(_clip(wave, guitar.drive))[: _FRAME // 2 + 1]
        spectrum *= after
        wet = np.fft.irfft(spectrum, _FRAME)[_CONTEXT : _CONTEXT + step]
        strings[first : first + step] = wet[: len(strings) - first]


def _clip(wave: Samples, drive: float) -> Samples:
    """Soft clipping with slope about 1; ``wave`` comes at half its level from the longer transform."""
    wave *= 2 * drive
    wave += _BIAS
    np.tanh(wave, out=wave)
    wave -= np.float32(np.tanh(_BIAS))
    wave *= 1 / (2 * drive)
    return wave


@cache
def _respond(guitar: Guitar) -> tuple[Spectrum, Spectrum]:
    """Spectra of the chain before and after the clipping."""
    after = _tone(guitar.after) * np.fft.rfft(_body(guitar), _FRAME) * np.fft.rfft(_room(guitar), _FRAME)
    before = _tone(guitar.before) * _disperse()
    return before.astype(np.complex64), (guitar.gain * after).astype(np.complex64)


def _disperse() -> npt.NDArray[np.complex128]:
    """All frequencies pass, the low ones up to 2 ms later.

    Partials that all begin in step make one sharp peak a period, 3 dB higher than need be; no instrument
    keeps them in step. The delay is ``_LAG / (1 + (f / _LAG_TURN)^2)``, and the phase its integral.
    """
    hertz = np.fft.rfftfreq(_FRAME, 1 / RATE)
    return np.asarray(np.exp(-2j * np.pi * _LAG * _LAG_TURN * np.arctan(hertz / _LAG_TURN)), np.complex128)


def _tone(bands: tuple[Band, ...]) -> npt.NDArray[np.complex128]:
    """Response of second-order sections (the usual bilinear formulas for equalisers, from memory)."""
    z: npt.NDArray[np.complex128] = np.exp(-2j * np.pi * np.arange(_FRAME // 2 + 1) / _FRAME)
    response = np.ones_like(z)
    for band in bands:
        turn = 2 * np.pi * band.hertz / RATE
        cosine, alpha = np.cos(turn), np.sin(turn) / 2 / band.q
        lift = 10 ** (band.gain / 40)
        if band.kind == "peak":
            top = (1 + alpha * lift, -2 * cosine, 1 - alpha * lift)
            bottom = (1 + alpha / lift, -2 * cosine, 1 - alpha / lift)
        else:
            side = 1 - cosine if band.kind == "low" else -1 - cosine
            top = (abs(side) / 2, side, abs(side) / 2)
            bottom = (1 + alpha, -2 * cosine, 1 - alpha)
        response *= (top[0] + top[1] * z + top[2] * z**2) / (bottom[0] + bottom[1] * z + bottom[2] * z**2)
    return np.asarray(response, np.complex128)


def _body(guitar: Guitar) -> npt.NDArray[np.float64]:
    """Impulse response of the wooden body; of an electric guitar: nothing added."""
    time = np.arange(round(0.2 * RATE)) / RATE
    body = np.zeros_like(time)
    body[0] = 1
    for mode in guitar.modes:
        decay = np.exp(-np.pi * mode.hertz / mode.q * time)
        # a decay of time constant T has the gain T / 2 at its frequency
        steep = 2 * np.pi * mode.hertz / mode.q / RATE
        body += mode.gain * steep * decay * np.sin(2 * np.pi * mode.hertz * time)
    if guitar.wood:
        grain = colour("wood", 0.2, 400, 5000) * np.exp(-time / 0.012)
        body += guitar.wood * grain / np.sqrt(np.sum(grain**2))
    return np.asarray(body, np.float64)


def _room(guitar: Guitar) -> npt.NDArray[np.float64]:
    """Impulse response of a small room round the direct sound: 8 ms of nothing, then a dark decay."""
    time = np.arange(round(1.1 * _ROOM * RATE)) / RATE
    tail = colour("room", 1.1 * _ROOM, 300, 3500) * np.exp(-np.log(1000) * time / _ROOM)
    tail[time < 0.008] = 0
    room = guitar.room * tail / np.sqrt(np.sum(tail**2))
    room[0] = 1
    return np.asarray(room, np.float64)
