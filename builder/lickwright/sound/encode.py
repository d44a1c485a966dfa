"""Samples to MP3 and back. The only module that imports soundfile.

MP3 with a variable bit rate was chosen by measurement: exact length after decoding (the encoder's
delay stands in its tag), the same bytes each time, read by every browser. The writer of libsndfile 1.2.2
turns 16-bit integers in two channels into noise without an error: samples always go in as floats, and what
comes out is decoded and compared.
"""

import io

import numpy as np
import numpy.typing as npt

from lickwright.sound.tables import RATE

Samples = npt.NDArray[np.float32]

_QUALITY = 0.4  # soundfile's compression level: about 70 kbit/s for one guitar
_LEAST = 3.0  # decibels of signal over error; notes lie over 20, dead notes alone near 10, garbage under 0


def encode_mp3(samples: Samples) -> bytes:
    """Encode mono samples (full scale 1, 44,100 Hz) as MP3.

    Args:
        samples: Floats; other types raise TypeError.

    Returns:
        The file. It decodes to exactly as many samples.

    Raises:
        ArithmeticError: The decoded file is not the sound that went in.
    """
    data = write_mp3(samples)
    fidelity = compare(samples, decode(data))
    if fidelity < _LEAST:
        raise ArithmeticError(f"the MP3 writer returned a different sound: {fidelity:.1f} dB")
    return data


def write_mp3(samples: Samples) -> bytes:
    """Encode without checking."""
    import soundfile

    if samples.dtype not in (np.float32, np.float64):
        raise TypeError(f"floats expected, got {samples.dtype}")
    file = io.BytesIO()
    soundfile.write(
        file,
        samples,
        RATE,
        format="MP3",
        subtype="MPEG_LAYER_III",
        compression_level=_QUALITY,
        bitrate_mode="VARIABLE",
    )
    return file.getvalue()


def decode(data: bytes) -> Samples:
    """Decode a mono file to float samples, shape (n,)."""
    import soundfile

    samples, rate = soundfile.read(io.BytesIO(data), dtype="float32")
    if rate != RATE or samples.ndim != 1:
        raise ValueError(f"{RATE} Hz and one channel expected, got {rate} Hz, shape {samples.shape}")
    return np.asarray(samples, np.float32)


def compare(samples: Samples, decoded: Samples) -> float:
    """Signal over error, decibels; infinite for silence kept silent, minus infinite for another length."""
    if len(samples) != len(decoded):
        return -np.inf
    signal = float(np.sum(np.square(samples, dtype=np.float64)))
    error = float(np.sum(np.square(samples.astype(np.float64) - decoded)))
    if signal < 1e-12 * len(samples):
        return np.inf if error <= 1e-8 * len(samples) else -np.inf
    return float(10 * np.log10(signal / max(error, 1e-30)))
