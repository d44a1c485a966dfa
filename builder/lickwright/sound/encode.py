"""Samples to MP3 and back. The only module that imports soundfile.

MP3 with a variable bit rate was chosen by measurement: exact length after decoding (the encoder's
delay stands in its tag), the same bytes each time, read by every browser. The writer of libsndfile 1.2.2
turns 16-bit integers in two channels into noise without an error: samples always go in as floats, and what
comes out is decoded and compared.
"""

import io
from collections.abc import Iterable, Iterator

import numpy as np
import numpy.typing as npt

from lickwright.sound.tables import RATE

Samples = npt.NDArray[np.float32]

_QUALITY = 0.4  # soundfile's compression level: about 70 kbit/s for one guitar
_BLOCK = 1 << 18  # samples decoded at a time
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
    fidelity = compare(samples, read_blocks(data))
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
    blocks = [block.copy() for block in read_blocks(data)]
    return np.concatenate(blocks) if blocks else np.zeros(0, np.float32)


def read_blocks(data: bytes) -> Iterator[Samples]:
    """Decode a mono file piece by piece.

    Raises:
        ValueError: The file has another rate or several channels.
    """
    import soundfile

    with soundfile.SoundFile(io.BytesIO(data)) as file:
        if file.samplerate != RATE or file.channels != 1:
            raise ValueError(f"{RATE} Hz, 1 channel expected, got {file.samplerate} Hz, {file.channels}")
        for block in file.blocks(_BLOCK, dtype="float32"):
            yield np.asarray(block, np.float32)


def compare(samples: Samples, blocks: Iterable[Samples]) -> float:
    """Signal over error in decibels.

    Args:
        samples: What went in.
        blocks: What came back, piece by piece.

    Returns:
        Infinite for silence kept silent, minus infinite for another length.
    """
    signal = error = 0.0
    done = 0
    for block in blocks:
        part = samples[done : done + len(block)].astype(np.float64)
        if len(part) < len(block):
            return -np.inf
        signal += float(np.sum(part**2))
        error += float(np.sum((part - block) ** 2))
        done += len(block)
    if done != len(samples):
        return -np.inf
    if signal < 1e-12 * len(samples):
        return np.inf if error <= 1e-8 * len(samples) else -np.inf
    return float(10 * np.log10(signal / max(error, 1e-30)))
