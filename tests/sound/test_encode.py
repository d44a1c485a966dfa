"""MP3: the length, the sound and the bytes come back; what libsndfile spoils is caught."""

import io

import numpy as np
import pytest
import soundfile
from laboratory import RATE, stage, strike

from lickwright.performance.event import Attack
from lickwright.sound import encode
from lickwright.sound.encode import compare, decode, encode_mp3, write_mp3
from lickwright.sound.render import render


@pytest.fixture(scope="module")
def passage() -> np.ndarray:
    """Two seconds of guitar whose length is no multiple of a frame."""
    events = [strike(string, 2, 0.3 * n, 0.3 * n + 0.6) for n, string in enumerate((5, 4, 3, 2, 1))]
    return render(stage(events, 2.0, tail=0.0123))


def test_what_is_decoded_is_what_went_in(passage: np.ndarray) -> None:
    """Exact length, error over 20 dB under the sound, the same bytes twice, 96 kbit/s at most."""
    data = encode_mp3(passage)
    back = decode(data)
    assert len(back) == len(passage)
    assert compare(passage, [back]) > 20
    assert data == encode_mp3(passage)
    assert len(data) * 8 / (len(passage) / RATE) < 96_000


def test_integers_are_refused_and_what_they_become_is_caught(
    passage: np.ndarray, monkeypatch: pytest.MonkeyPatch
) -> None:
    """16-bit input never reaches the writer; the noise libsndfile makes of it would be seen."""
    whole = np.round(passage * 32767).astype(np.int16)
    with pytest.raises(TypeError):
        write_mp3(whole)
    file = io.BytesIO()
    soundfile.write(file, np.stack([whole, whole], 1), RATE, format="MP3", subtype="MPEG_LAYER_III")
    garbage = soundfile.read(io.BytesIO(file.getvalue()), dtype="float32")[0][:, 0]
    if compare(passage, [garbage]) > 20:  # a libsndfile that is mended: plant another fault
        garbage = passage[::-1].copy()
    spoiled = write_mp3(garbage)
    monkeypatch.setattr(encode, "write_mp3", lambda _samples: spoiled)
    with pytest.raises(ArithmeticError):
        encode_mp3(passage)


def test_noise_alone_is_let_out() -> None:
    """Dead notes and scrapes, the hardest for an encoder, are no garbage."""
    events = [strike(4, 5, 0.15 * n, 0.15 * n + 0.1, attack=Attack.DEAD) for n in range(6)]
    events += [strike(6, 5, 1.0, 1.6, attack=Attack.SCRAPE, stroke=None)]
    for instrument in ("electric", "acoustic"):
        samples = render(stage(events, 1.7, instrument))
        assert compare(samples, [decode(encode_mp3(samples))]) > 6


def test_comparison_sees_shift_and_length(passage: np.ndarray) -> None:
    """One sample late is another sound, one sample short is none."""
    assert compare(passage, [np.roll(passage, 400)]) < 20
    assert compare(passage, [passage[:-1]]) == -np.inf
    assert compare(passage, [passage[:999], passage[999:]]) > 200


def test_silence_is_encoded_as_silence() -> None:
    """A stem of rests is a file too."""
    silent = np.zeros(RATE, np.float32)
    assert not np.abs(decode(encode_mp3(silent))).max() > 1e-4
