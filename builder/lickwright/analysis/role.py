"""What a note does over its chord: the role, and the note's place in the harmony.

References: figures of embellishment after common harmony teaching (Kostka and Payne, from memory;
the embellishing tones of Open Music Theory); approach notes and enclosures as jazz pedagogy names them.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from lickwright.model.address import Address
from lickwright.theory.chord import ChordSymbol


class Role(Enum):
    """What explains a note; the value is the word that is printed for it."""

    NO_CHORD = "no chord"
    """Over N.C.: not judged."""
    CHORD_TONE = "chord tone"
    ANTICIPATION = "anticipation"
    SUSPENSION = "suspension"
    RETARDATION = "retardation"
    TENSION = "tension"
    SCALE_TONE = "scale tone"
    PASSING = "passing note"
    NEIGHBOUR = "neighbour note"
    APPROACH = "approach note"
    APPOGGIATURA = "appoggiatura"
    ENCLOSURE = "enclosure"
    RESOLVED = "resolved tension"
    BLUE = "blue note"
    ESCAPE = "escape tone"
    CAMBIATA = "cambiata"
    DRONE = "drone"
    PATTERN = "pattern"
    PARALLEL = "parallel motion"
    WEAK = "scale tone in passing"
    UNEXPLAINED = "unexplained"

    @property
    def explained(self) -> bool:
        """True for every role but ``UNEXPLAINED``."""
        return self is not Role.UNEXPLAINED


@dataclass(frozen=True, slots=True)
class RoleOf:
    """One note of a line with its role. A bend that is let down again gives two.

    Attributes:
        address: The sound.
        tone: Index into the sound's tones.
        turn: 0, then 1, 2 … for the further pitches of a bend and release.
        pitch: MIDI number that harmony judges: a bend's target; a curl's fretted note.
        role: What explains it.
        degree: Over the root of the chord, as the note is spelled: ``b3``, ``#4`` rising, ``b5`` falling;
            over N.C. over the key's tonic.
        weight: Metric weight, 4 = bar line to 0 = finer than the off-beat.
        chord: The chord in force.
        length: How long it is held, in quarters.
        chromatic: Outside the key's scale and no chord tone.
        disconnected: Chromatic, and half steps do not lead it: ``tier`` is 1.
        tier: What a proof asks of it: 0 unexplained, 1 disconnected, 2 loose, None nothing.
        interval: Half steps above the chord's root, 0 to 11; over N.C. above the tonic.
        resolved: Of a conditional tension: whether it passes, or one of the next two notes is at rest
            a step away. None for any other note.
        ends_phrase: Whether nothing follows in its line within a beat.
        passes: Its role each time it is played; several where repeats take it in again.
    """

    address: Address
    tone: int
    turn: int
    pitch: int
    role: Role
    degree: str
    weight: int
    chord: ChordSymbol
    length: Fraction
    chromatic: bool = False
    disconnected: bool = False
    tier: int | None = None
    interval: int = 0
    resolved: bool | None = None
    ends_phrase: bool = False
    passes: tuple[Role, ...] = ()
