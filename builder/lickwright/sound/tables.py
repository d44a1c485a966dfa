"""The two guitars as tables.

Source of every value in this file: our own, from memory of the acoustics literature and of the instruments;
none is fitted to a recording. The form of the laws (stiff-string stretching, decay rising with the square of
frequency) is common practice in string synthesis.
"""

from dataclasses import dataclass

import numpy as np

RATE = 44_100
"""Samples a second."""

CEILING = 0.5
"""Greatest true peak of a guitar stem, full scale = 1 (-6 dBTP). The rest up to -1 dBTP belongs to a band."""


@dataclass(frozen=True, slots=True)
class Material:
    """What one string is made of.

    Attributes:
        open: MIDI pitch of the open string.
        inharmonicity: B of the stretched partials ``k sqrt(1 + B k^2)``, open string.
        ring: T60 of the open string's fundamental, seconds.
        ring_5k: T60 at 5 kHz, seconds.
        wound: True when the core is wrapped.
    """

    open: float
    inharmonicity: float
    ring: float
    ring_5k: float
    wound: bool


@dataclass(frozen=True, slots=True)
class Band:
    """One second-order section of a tone: ``kind`` is high, low (pass; ``gain`` unused) or peak.

    Attributes:
        kind: ``high``, ``low``, ``peak``.
        hertz: Corner or centre.
        q: Quality; 0.707 is the flattest pass.
        gain: Decibels at the centre of a peak.
    """

    kind: str
    hertz: float
    q: float
    gain: float = 0.0


@dataclass(frozen=True, slots=True)
class Mode:
    """A resonance of the wooden body: hertz, quality, gain at its peak (1 = as loud as the direct sound)."""

    hertz: float
    q: float
    gain: float


@dataclass(frozen=True, slots=True)
class Guitar:
    """One instrument with its sound chain.

    Attributes:
        wound: Wound strings, lowest first.
        plain: Plain strings, lowest first.
        wound_below: Open MIDI pitch under which a string is taken to be wound.
        pick: Where pick and fingers touch, share of the open string from the bridge.
        pickup: Where the pickup stands, likewise; None: the bridge drives the body.
        tilt: Amplitudes fall as ``k ** -tilt`` on top of the excitation.
        highest: No partial is made above this, Hz.
        click: Level of the pick's noise.
        squeak: Level of finger noise in slides over wound strings.
        before: Tone before the drive.
        drive: Slope of the soft clipping, None when there is none.
        after: Tone after the drive.
        modes: Resonances of the body.
        wood: Level of the body's dense high resonances, root of their energy (1 = the direct sound).
        room: Level of the room's reverberation, likewise.
        gain: Fixed gain of the whole guitar: no file is levelled by itself.
    """

    wound: tuple[Material, ...]
    plain: tuple[Material, ...]
    wound_below: float
    pick: float
    pickup: float | None
    tilt: float
    highest: float
    click: float
    squeak: float
    before: tuple[Band, ...]
    drive: float | None
    after: tuple[Band, ...]
    modes: tuple[Mode, ...]
    wood: float
    room: float
    gain: float

    def material(self, pitch: float) -> Material:
        """String for an open pitch (MIDI): interpolated between the strings of its kind, held beyond."""
        wound = pitch < self.wound_below
        rows = self.wound if wound else self.plain
        opens = [row.open for row in rows]
        stiffness = np.interp(pitch, opens, [np.log(row.inharmonicity) for row in rows])
        return Material(
            pitch,
            float(np.exp(stiffness)),
            float(np.interp(pitch, opens, [row.ring for row in rows])),
            float(np.interp(pitch, opens, [row.ring_5k for row in rows])),
            wound,
        )


ELECTRIC = Guitar(
    wound=(
        Material(30, 2.2e-4, 10.0, 0.45, wound=True),
        Material(35, 1.7e-4, 9.5, 0.5, wound=True),
        Material(40, 1.2e-4, 9.0, 0.55, wound=True),
        Material(45, 7.0e-5, 8.5, 0.6, wound=True),
        Material(50, 4.5e-5, 8.0, 0.7, wound=True),
    ),
    plain=(
        Material(55, 1.3e-4, 7.0, 0.9, wound=False),
        Material(59, 5.5e-5, 6.0, 0.95, wound=False),
        Material(64, 2.5e-5, 5.0, 1.0, wound=False),
    ),
    wound_below=53,
    pick=0.13,
    pickup=0.16,
    tilt=0.15,
    highest=9_000,
    click=0.04,
    squeak=0.004,
    before=(Band("high", 70, 0.707), Band("low", 5200, 2.0)),
    drive=0.15,
    after=(
        Band("high", 60, 0.707),
        Band("peak", 2600, 0.9, 5),
        Band("peak", 400, 0.8, -3),
        Band("low", 5600, 0.8),
        Band("low", 7500, 0.6),
    ),
    modes=(),
    wood=0.0,
    room=0.10,
    gain=0.165,
)

ACOUSTIC = Guitar(
    wound=(
        Material(30, 1.9e-4, 5.6, 0.18, wound=True),
        Material(35, 1.4e-4, 5.3, 0.2, wound=True),
        Material(40, 1.0e-4, 5.0, 0.22, wound=True),
        Material(45, 7.0e-5, 4.5, 0.24, wound=True),
        Material(50, 4.0e-5, 4.0, 0.27, wound=True),
        Material(55, 3.0e-5, 3.4, 0.3, wound=True),
    ),
    plain=(
        Material(59, 7.0e-5, 2.8, 0.4, wound=False),
        Material(64, 3.5e-5, 2.2, 0.42, wound=False),
    ),
    wound_below=57,
    pick=0.16,
    pickup=None,
    tilt=0.35,
    highest=12_000,
    click=0.1,
    squeak=0.012,
    before=(),
    drive=None,
    after=(Band("high", 75, 0.707), Band("peak", 250, 0.8, -2), Band("peak", 4500, 0.7, 3)),
    modes=(
        Mode(101, 16, 1.0),
        Mode(193, 22, 1.3),
        Mode(236, 28, 0.8),
        Mode(390, 30, 0.8),
        Mode(515, 32, 0.7),
        Mode(690, 35, 0.6),
        Mode(920, 40, 0.5),
    ),
    wood=0.45,
    room=0.12,
    gain=0.165,
)

GUITARS = {"electric": ELECTRIC, "acoustic": ACOUSTIC}
