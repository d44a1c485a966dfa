"""What stands before the music: staves, clefs, tuning, key and meter signatures, as MEI."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.tag import tag

if TYPE_CHECKING:
    from lickwright.engraving.staves import Staves
    from lickwright.instrument.guitar import Guitar
    from lickwright.model.music import Music
    from lickwright.theory.meter import Meter

TAB_SCALE = "80%"
"""Size of the tab against the staff, so that its lines stand 1.4 staff spaces apart."""
_LETTERS = ("c", "c", "d", "d", "e", "f", "f", "g", "g", "a", "a", "b")
_SHARP = (False, True, False, True, False, False, True, False, True, False, True, False)


def score_head(music: Music, staves: Staves) -> str:
    """Return the ``scoreDef`` at the beginning."""
    meter = music.bars[0].meter
    parts = []
    if staves.staff:
        clef = tag("clef", shape="G", line=2, dis=8, dis__place="below")
        signature = music.key.signature
        key = tag("keySig", sig=f"{abs(signature)}{'s' if signature > 0 else 'f'}" if signature else "0")
        parts.append(tag("staffDef", clef + key + _meter(meter), n=staves.staff, lines=5))
    if staves.tab:
        clef = tag("clef", shape="TAB", line=5)
        parts.append(
            tag(
                "staffDef",
                clef + _meter(meter, hidden=staves.staff is not None) + _tuning(music.guitar),
                n=staves.tab,
                lines=music.guitar.strings,
                notationtype="tab.guitar",
                scale=TAB_SCALE,
            )
        )
    return tag("scoreDef", _group(parts))


def meter_change(meter: Meter, staves: Staves) -> str:
    """Return the ``scoreDef`` between two bars of different meters."""
    parts = []
    if staves.staff:
        parts.append(tag("staffDef", _meter(meter), n=staves.staff))
    if staves.tab:
        parts.append(tag("staffDef", _meter(meter, hidden=staves.staff is not None), n=staves.tab))
    return tag("scoreDef", _group(parts))


def _group(parts: list[str]) -> str:
    both = len(parts) > 1
    return tag(
        "staffGrp", "".join(parts), bar__thru="true" if both else None, symbol="bracket" if both else None
    )


def _meter(meter: Meter, *, hidden: bool = False) -> str:
    return tag("meterSig", count=meter.count, unit=meter.unit, visible="false" if hidden else None)


def _tuning(guitar: Guitar) -> str:
    courses = []
    for string in range(1, guitar.strings + 1):
        octave, step = divmod(guitar.open_midi(string), 12)
        courses.append(
            tag("course", n=string, pname=_LETTERS[step], oct=octave - 1, accid="s" if _SHARP[step] else None)
        )
    return tag("tuning", "".join(courses))
