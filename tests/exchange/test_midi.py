"""MIDI files as music21 reads their bytes, against the performance."""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from dataclasses import dataclass, field
from fractions import Fraction

import music21
import numpy as np
import pytest
from exchanged import file, order, pieces, read

from lickwright.exchange.midi.document import RANGE
from lickwright.exchange.midi.smf import TICKS
from lickwright.instrument.harmonics import SEMITONES
from lickwright.model.music import Piece
from lickwright.model.orders import Credits
from lickwright.model.timeline.tempi import quarters
from lickwright.performance.event import Attack, Performance
from lickwright.performance.perform import perform
from lickwright.sound.pitch import track_pitch

NAMES = sorted(pieces())
PORCH = """title: Porch step
key: F# minor
tempo: 100
feel: shuffle

|: A7 | 5:0 5:4 4:2 s 4:4 2:8b10r8 - 2:8pb10 - :|
D7 | 3:2 h 3:4 /4:4 4:2/ (4:0 5:4 5:3)/2 5:4~ 5:5
   low | 6:0 - - - 6:3 - - -
"""


@dataclass
class Read:
    """A file as read: by channel (ticks, note, velocity) and (ticks, wheel), and what stands at the head."""

    on: dict[int, list[tuple[int, int, int]]] = field(default_factory=lambda: defaultdict(list))
    off: dict[int, list[tuple[int, int]]] = field(default_factory=lambda: defaultdict(list))
    wheel: dict[int, list[tuple[int, int]]] = field(default_factory=lambda: defaultdict(list))
    control: dict[int, list[tuple[int, int]]] = field(default_factory=lambda: defaultdict(list))
    meta: list[tuple[str, int, bytes]] = field(default_factory=list)
    tracks: int = 0
    ticks: int = 0


def parse(text: bytes) -> Read:
    """Read a file by music21's reader of MIDI bytes."""
    midi = music21.midi.MidiFile()
    midi.readstr(text)
    assert midi.format == 1
    found = Read(tracks=len(midi.tracks), ticks=midi.ticksPerQuarterNote)
    for track in midi.tracks:
        at = 0
        for event in track.events:
            if event.isDeltaTime():
                at += event.time
                continue
            kind = event.type.name if event.type else ""
            channel = (event.channel or 1) - 1
            if kind == "NOTE_ON":
                found.on[channel].append((at, event.pitch, event.velocity))
            elif kind == "NOTE_OFF":
                found.off[channel].append((at, event.pitch))
            elif kind == "PITCH_BEND":
                low, high = event.parameter1, event.parameter2
                found.wheel[channel].append((at, low + 128 * high - 8192))
            elif kind == "CONTROLLER_CHANGE":
                found.control[channel].append((event.parameter1, event.parameter2))
            else:
                found.meta.append((kind, at, event.data if isinstance(event.data, bytes) else b""))
    for played in (*found.on.values(), *found.off.values()):
        played.sort()  # both voices may use a string, one after the other
    for moved in found.wheel.values():
        moved.sort(key=lambda wheel: wheel[0])
    return found


def performed(piece: Piece) -> tuple[Performance, float]:
    """The performance, and ticks a second."""
    bpm = quarters(order(piece, "midi").tempo, piece.music.bars[0].meter)
    return perform(piece.music, bpm), float(bpm) / 60 * TICKS


def misplayed(piece: Piece, text: bytes) -> list[str]:
    """Events of the performance that the file has not: within a tick, and some cents of what is sounded.

    A vibrato is let through within its depth: the synthesiser gathers it, the file does not.
    """
    performance, second = performed(piece)
    found = parse(text)
    wrong = []
    struck: dict[int, list[int]] = defaultdict(list)
    for event in performance.events:
        channel = event.string - 1
        ons = found.on[channel]
        tick = event.start * second
        bend = event.attack is Attack.BEND and struck[channel]
        if bend:
            base = ons[len(struck[channel]) - 1][1]
        else:
            number = len(struck[channel])
            struck[channel].append(number)
            if number >= len(ons) or abs(ons[number][0] - tick) > 1:
                wrong.append(f"{event.source} begins")
                continue
            base = ons[number][1]
        shaken = event.vibrato.depth / 100 if event.vibrato else 0.0
        ground = performance.opens[event.string - 1] + (SEMITONES[event.harmonic] if event.harmonic else 0)
        ticks = [at for at, _ in found.wheel[channel]]
        for moment in (0.0, 0.4, 0.75):
            since = moment * (event.end - event.start)
            place = bisect_right(ticks, tick + since * second + 1) - 1
            value = found.wheel[channel][place][1] if place >= 0 else 0
            heard = base + value / 8192 * RANGE
            # the wheel moves in steps of a hundredth of a second: what is due is what it was then
            late = [min(max(since - back, 0.006), event.end - event.start) for back in (-0.006, 0.006, 0.018)]
            due = list(ground + track_pitch([event], np.array(sorted(late)) + event.start) / 100)
            for glide in event.glides:
                if glide.at - 0.03 < since < glide.at + glide.seconds + 0.03:  # how it goes is the renderer's
                    due += [ground + glide.begin, ground + glide.end]
            if not min(due) - 0.06 - shaken <= heard <= max(due) + 0.06 + shaken:
                wrong.append(f"{event.source} sounds {heard:.2f}, not {due[0]:.2f}")
    if sum(map(len, struck.values())) != sum(map(len, found.on.values())):
        wrong.append("number of notes")
    return wrong


@pytest.mark.parametrize("name", NAMES)
def test_the_file_is_the_performance(name: str) -> None:
    """Every note of every piece begins, and sounds along its bends and slides, as it is performed."""
    assert not misplayed(pieces()[name], file(pieces()[name], "midi"))


def test_written_notes_are_at_their_beats() -> None:
    """Plain eighths are 480 ticks apart, the second of a shuffle at two thirds; repeats are unfolded."""
    plain = parse(file(read("key: A major\n\n|: A | 5:0 5:2 5:4 5:5 5:0 5:2 5:4 5:5 :|\n"), "midi"))
    assert [tick for tick, _, _ in plain.on[4]] == [480 * k for k in range(16)]
    assert [pitch for _, pitch, _ in plain.on[4]] == [45, 47, 49, 50] * 4
    swung = parse(file(read("key: A major\nfeel: shuffle\n\nA | 5:0 5:2 5:4 5:5 5:0 5:2 5:4 5:5\n"), "midi"))
    assert [tick for tick, _, _ in swung.on[4]][:4] == [0, 640, 960, 1600]


@pytest.mark.parametrize("change", ["note", "tick", "wheel", "missing"])
def test_a_wrong_event_is_caught(change: str) -> None:
    """Another pitch, a later note, a bend left out, a note left out are noticed."""
    piece = read(PORCH)
    text = file(piece, "midi")
    assert not misplayed(piece, text)
    found = parse(text)
    first = found.on[4][0]
    sound = bytes((0x94, first[1], first[2]))
    if change == "note":
        planted = text.replace(sound, bytes((0x94, first[1] + 1, first[2])))
    elif change == "tick":
        planted = text.replace(b"\x00" + sound, b"\x05" + sound, 1)
    elif change == "wheel":
        top = max(value for _, value in found.wheel[1])
        place = top + 8192
        planted = text.replace(bytes((0xE1, place & 0x7F, place >> 7)), bytes((0xE1, 0, 64)))
    else:
        planted = text.replace(sound, bytes((0x84, first[1], 64)), 1)
    assert planted != text
    assert misplayed(piece, planted)


def test_the_wheel_reaches_as_far_as_it_says() -> None:
    """Registered parameter 0 sets the range of every string's channel before its first note."""
    found = parse(file(read(PORCH), "midi"))
    assert set(found.on) <= set(found.control)
    for channel in found.on:
        assert found.control[channel][:4] == [(101, 0), (100, 0), (6, RANGE), (38, 0)]


def test_the_head() -> None:
    """Format 1, a track for each voice, tempo, meter, key, title and rights."""
    text = file(read(PORCH), "midi", Credits("Porch step ♭", "The Band", "CC-BY-4.0"))
    found = parse(text)
    assert (found.tracks, found.ticks) == (3, TICKS)
    meta = {kind: data for kind, _, data in reversed(found.meta)}
    assert meta["SET_TEMPO"] == (600_000).to_bytes(3, "big")
    assert meta["TIME_SIGNATURE"][:2] == bytes((4, 2))
    assert meta["KEY_SIGNATURE"] == bytes((3, 1))
    assert meta["SEQUENCE_TRACK_NAME"].decode() == "Porch step ♭"
    assert b"The Band, CC-BY-4.0" in text


def test_meters_stand_at_their_bars() -> None:
    """A pickup and a change of meter are said where they are."""
    bars = "| 5:0 5:2\nA | 5:0 5:2 5:4 5:5 5:0 5:2 5:4 5:5\n2/4 A | 5:0 5:2 5:4 5:5\n"
    lick = f"key: A major\npickup: 1/4\n\n{bars}"
    found = parse(file(read(lick), "midi"))
    meters = [(at, data[0], data[1]) for kind, at, data in found.meta if kind == "TIME_SIGNATURE"]
    assert meters == [(0, 1, 2), (960, 4, 2), (4800, 2, 2)]


def test_a_string_is_never_struck_before_it_ends() -> None:
    """Each note ends before the next of its channel begins."""
    for name in NAMES[:60]:
        found = parse(file(pieces()[name], "midi"))
        for channel, ons in found.on.items():
            assert len(found.off[channel]) == len(ons)
            for (end, _), (start, _, _) in zip(found.off[channel], ons[1:], strict=False):
                assert end <= start, name


def test_ticks_are_exact() -> None:
    """A triplet is 320 ticks, whatever the tempo."""
    text = file(read("key: A major\ntempo: 97\n\nA | (5:0 5:2 5:4)/2 5:0 - 5:0 - 5:0 -\n"), "midi")
    assert [tick for tick, _, _ in parse(text).on[4]][:4] == [0, 320, 640, 960]
    assert Fraction(TICKS, 3).denominator == 1
