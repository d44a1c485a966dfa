"""The performance as data: one event for each note that a string sounds.

Everything that makes or times sound reads these values: the synthesiser, the MIDI file, the highlight in the
page. Times are seconds from the start of the performance (the first beat of the pickup, or of bar 1).
"""

from dataclasses import dataclass
from enum import Enum
from typing import Literal

Stroke = Literal["down", "up"]
Instrument = Literal["electric", "acoustic"]


class Attack(Enum):
    """How a note begins. ``LEGATO`` below lists those that go on without a new stroke."""

    PICK = "pick"
    FINGER = "finger"  # thumb or finger of the picking hand
    HAMMER = "hammer"
    PULL = "pull"
    TAP = "tap"  # hammered on with the picking hand; may start a string from silence
    SLIDE = "slide"  # arrives by a slide, no new stroke
    BEND = "bend"  # a late bend or release: the sounding string goes on from where it is
    DEAD = "dead"  # struck with the string damped by the fretting hand: no pitch
    SCRAPE = "scrape"  # the pick's edge drawn along the winding: no pitch

    @property
    def legato(self) -> bool:
        """True when the string goes on sounding from the note before."""
        return self in LEGATO


LEGATO = frozenset({Attack.HAMMER, Attack.PULL, Attack.SLIDE, Attack.BEND})


@dataclass(frozen=True, slots=True)
class Vibrato:
    """A vibrato made by bending: it goes from the pitch upwards and back.

    Attributes:
        rate: Swings a second, Hz.
        depth: Height of a swing above the pitch, cents.
        delay: Seconds of plain note before it begins.
    """

    rate: float
    depth: float
    delay: float


@dataclass(frozen=True, slots=True)
class Glide:
    """One movement of the stopping finger along the string.

    Attributes:
        at: When it begins, seconds from the event's start.
        seconds: How long it takes, > 0.
        begin: Semitones above the open string where the finger leaves.
        end: Semitones above the open string where it arrives.
        smooth: False when each fret under way is heard, True for an unbroken glide.
    """

    at: float
    seconds: float
    begin: float
    end: float
    smooth: bool = False


@dataclass(frozen=True, slots=True)
class StringEvent:
    """One note on one string.

    Attributes:
        string: 1 = highest-sounding.
        start: Onset, seconds.
        end: When the sound is stopped, or the string used again, seconds; ``end > start``.
        attack: How it begins.
        stroke: Direction of the pick, None when there is none or it is not said.
        velocity: How hard, 0..1; 0.7 is an ordinary stroke.
        stop: Semitones above the open string at the start, capo included; after the glides the last
            glide's end.
        curve: Breakpoints (seconds from the start, cents relative to the stop) of bends and releases, times
            rising; the first value holds before the first point, the last one after the last, and between
            two the pitch moves as a smooth step. Empty: not bent.
        glides: Slides in the course of the event, in order of time.
        vibrato: None when the note is plain.
        harmonic: Which partial of the stopped string is left sounding (2 = the octave), or None.
        mute: Palm mute, 0 open to 1 tight.
        ring: True when the author lets it ring (``end`` has it already).
        swell: Seconds in which the volume is turned up from nothing; 0 when it is not.
        source: Address of the sound it belongs to: ``2.3``, ``low1.2``; a grace note has its sound's.
    """

    string: int
    start: float
    end: float
    attack: Attack
    stroke: Stroke | None
    velocity: float
    stop: float
    curve: tuple[tuple[float, float], ...] = ()
    glides: tuple[Glide, ...] = ()
    vibrato: Vibrato | None = None
    harmonic: int | None = None
    mute: float = 0.0
    ring: bool = False
    swell: float = 0.0
    source: str = ""

    @property
    def arrival(self) -> float:
        """Semitones above the open string at the end of the event, bends and vibrato apart."""
        return self.glides[-1].end if self.glides else self.stop


@dataclass(frozen=True, slots=True)
class Performance:
    """A piece of music as it is played at one tempo.

    Attributes:
        events: In order of start, then string.
        length: Seconds of all bars as played, pickup included.
        tail: Seconds kept after the last bar for what still rings.
        opens: MIDI pitch of each open string without capo, the highest string first.
        instrument: Which guitar.
        bars: Seconds at which each played bar begins, and last the end of the last one: loops are cut here.
        lights: (seconds, addresses) each time the set of sounding addresses changes, in order of time; the
            addresses in order of onset. Empty when nothing sounds.
    """

    events: tuple[StringEvent, ...]
    length: float
    tail: float
    opens: tuple[float, ...]
    instrument: Instrument
    bars: tuple[float, ...] = ()
    lights: tuple[tuple[float, tuple[str, ...]], ...] = ()
