"""What the practice player must know of a piece: bars, tempi and lights, as JSON in the page.

Seconds are those of the full tempo, from the start of the sound file. A tone is named by its id in
the engraving without what stands before it: the layout, the score and the staff.
"""

from __future__ import annotations

import hashlib
import json
from base64 import b64encode
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from markupsafe import Markup

from lickwright.analysis.notation.ids import local_id
from lickwright.model.address import AddressRange
from lickwright.model.music import Music, Sound
from lickwright.model.orders import Recorded
from lickwright.pages.facts import meter_of

GRACE = 0.07
"""Seconds by which a grace note begins before its sound, as it is performed."""


@dataclass(frozen=True, slots=True)
class Version:
    """One tempo of a piece that can be heard.

    Attributes:
        label: As the student chooses it, ``92``.
        bpm: Quarters a minute.
        path: Of its sound in the site.
        full: Whether it is the piece's own tempo.
        bars: Of the sound, see ``Recorded``; ``lights`` too.
    """

    label: str
    bpm: Fraction
    path: str
    full: bool
    bars: tuple[tuple[int, float, float], ...]
    lights: tuple[tuple[float, tuple[str, ...]], ...]


def sound_key(recorded: Recorded) -> str:
    """Return the name of a sound file without its ending: equal sounds are one file."""
    return hashlib.sha256(recorded.mp3).hexdigest()[:16]


def sound_path(recorded: Recorded) -> str:
    """Return where a sound stands in the site."""
    return f"sound/{sound_key(recorded)}.js"


def sound_script(recorded: Recorded) -> bytes:
    """Return a sound as the classic script that brings it: a page from disk may fetch nothing."""
    return b'lickwright.sound("%s","%s");\n' % (sound_key(recorded).encode(), b64encode(recorded.mp3))


def tone_names(sound: Sound) -> list[str]:
    """Return what the ids of all tones of a sound end with, on the staff and on the tab: ``2-3u1``."""
    return [local_id(sound.address, k + 1) for k in range(len(sound.tones))]


def notes_in(music: Music, at: AddressRange | None) -> list[str]:
    """Return the names of the tones that a link points at; None means all."""
    sounds = sounds_in(music, at)
    return [name for sound in sounds for name in tone_names(sound)]


def sounds_in(music: Music, at: AddressRange | None) -> list[Sound]:
    """Return the sounds of a range, both ends included; without a number of sound a bar's all."""
    voices = [sound for bar in music.bars for line in bar.lines for sound in line.sounds]
    if at is None:
        return voices
    low = at.first.lower
    first = (at.first.bar, at.first.sound or 0)
    last = (at.last.bar, at.last.sound or 10_000)
    return [
        sound
        for sound in voices
        if first <= (sound.address.bar, sound.address.sound or 0) <= last
        and (at.whole_bars or sound.address.lower == low)
    ]


def seconds_of(music: Music, full: Version, at: AddressRange | None) -> tuple[float, float]:
    """Return when a range begins and ends: where the music runs straight through it, as first it does."""
    bars = full.bars
    numbers = [number for number, _, _ in bars]
    if at is not None:  # the pass that runs straight on from the first bar to the last
        wanted = list(range(at.first.bar, at.last.bar + 1))
        passes = [k for k in range(len(bars)) if numbers[k : k + len(wanted)] == wanted]
        bars = bars[passes[0] : passes[0] + len(wanted)] if passes else bars
    elif bars:
        return 0.0, round(bars[-1][2], 5)
    start: dict[int, float] = {}
    for number, begins, _ in bars:
        start.setdefault(number, begins)
    if at is None or at.whole_bars:
        chosen = [bar for bar in bars if at and at.first.bar <= bar[0] <= at.last.bar]
        return (round(chosen[0][1], 5), round(chosen[-1][2], 5)) if chosen else (0.0, 0.0)
    quarter = float(60 / full.bpm)
    sounds = sounds_in(music, at)
    begin = min((start[s.address.bar] + float(s.time) * quarter for s in sounds), default=0.0)
    end = max((start[s.address.bar] + float(s.time + s.duration) * quarter for s in sounds), default=0.0)
    graced = min(sounds, key=lambda s: start[s.address.bar] + float(s.time) * quarter).grace if sounds else ()
    return round(max(0.0, begin - GRACE * len(graced)), 5), round(end, 5)


def written_bars(music: Music, version: Version) -> list[tuple[float, float]]:
    """Return start and end of each written bar, the first time it is played."""
    first: dict[int, tuple[float, float]] = {}
    for number, start, end in version.bars:
        first.setdefault(number, (round(start, 5), round(end, 5)))
    return [first.get(bar.number, (0.0, 0.0)) for bar in music.bars]


def played_bars(music: Music, version: Version) -> list[tuple[float, ...]]:
    """Return the bars as played: index, start, end, and where grace notes lead in their seconds."""
    played = []
    for index, (_, start, end) in zip(music.order, version.bars, strict=False):
        lines = music.bars[index].lines
        graces = max((len(s.grace) for line in lines for s in line.sounds if s.onset == 0), default=0)
        lead = (_exact(GRACE * graces, 3),) if graces and start > 0 else ()
        played.append((index, _exact(start, 5), _exact(end, 5), *lead))
    return played


def _exact(seconds: float, places: int) -> float:
    """Round; a whole number is written without its point."""
    rounded = round(seconds, places)
    return int(rounded) if rounded == int(rounded) else rounded


def player_data(name: str, music: Music, prefix: str, versions: Sequence[Version], root: str) -> Markup:
    """Return the JSON of a piece for the page's player.

    Args:
        name: The piece's name, by which links in the prose find the player.
        music: Its notes.
        prefix: The prefix of its score orders.
        versions: Its tempi, slowest first; one of them full.
        root: From the page to the site's root, empty or ``../``.
    """
    full = next(version for version in versions if version.full)
    meter = meter_of(music)
    bars = written_bars(music, full)
    names = {
        str(sound.address): tone_names(sound)
        for bar in music.bars
        for line in bar.lines
        for sound in line.sounds
    }
    lights = [
        [_exact(seconds, 3), [name for address in sounding for name in names.get(address, [])]]
        for seconds, sounding in full.lights
    ]
    pickup = bars[0][1] - bars[0][0] if music.bars[0].offset else 0.0
    return embed(
        {
            "name": name,
            "prefix": f"{prefix}-",
            "beat": round(float(meter.beat * 60 / full.bpm), 6),
            "beats": meter.beats,
            "pickup": round(pickup, 5),
            "written": len(bars),
            "bars": played_bars(music, full),
            "tempi": [
                {
                    "bpm": float(version.bpm),
                    "label": version.label,
                    "scale": float(full.bpm / version.bpm),
                    "file": root + version.path,
                }
                for version in versions
            ],
            "lights": lights,
        }
    )


def embed(value: object) -> Markup:
    """Return JSON that may stand in a script element: no sign in it can end the element."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    for sign in "<>&":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return Markup(text)  # noqa: S704 - the signs that could leave the element are written as escapes
