"""Results as bytes and back: what lies in a cache entry.

JSON for what is text and numbers; a sound is one JSON line and then the encoded stem as it is; a file of an
exchange format is itself. Reading an entry runs nothing that is written in it.
"""

from __future__ import annotations

import json
from typing import Any

from lickwright.model.orders import BarBox, Engraved, Exchanged, Recorded, Result, System


def pack(result: Result) -> bytes:
    """Return the bytes of a result, the same for equal results."""
    if isinstance(result, Exchanged):
        return result.content
    if isinstance(result, Engraved):
        return _json(
            {
                "systems": [
                    {
                        "svg": system.svg,
                        "bars": [[box.number, box.left, box.right] for box in system.bars],
                        "width": system.width,
                        "height": system.height,
                    }
                    for system in result.systems
                ],
                "glyphs": result.glyphs,
                "warnings": result.warnings,
            }
        )
    head = {"seconds": result.seconds, "bars": result.bars, "lights": result.lights}
    return _json(head) + b"\n" + result.mp3


def unpack_score(body: bytes) -> Engraved:
    """Return the score that ``pack`` made bytes of."""
    data: dict[str, Any] = json.loads(body)
    return Engraved(
        systems=tuple(
            System(
                svg=system["svg"],
                bars=tuple(BarBox(number, left, right) for number, left, right in system["bars"]),
                width=system["width"],
                height=system["height"],
            )
            for system in data["systems"]
        ),
        glyphs=data["glyphs"],
        warnings=tuple(data["warnings"]),
    )


def unpack_sound(body: bytes) -> Recorded:
    """Return the sound that ``pack`` made bytes of."""
    head, _, mp3 = body.partition(b"\n")
    data: dict[str, Any] = json.loads(head)
    return Recorded(
        mp3=mp3,
        seconds=data["seconds"],
        bars=tuple((number, start, end) for number, start, end in data["bars"]),
        lights=tuple((seconds, tuple(sounding)) for seconds, sounding in data["lights"]),
    )


def unpack_file(body: bytes) -> Exchanged:
    """Return the file that ``pack`` made bytes of."""
    return Exchanged(body)


def _json(value: Any) -> bytes:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode()
