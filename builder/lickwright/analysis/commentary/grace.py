"""Grace notes that lead by half step, said beside the note they lean on."""

from __future__ import annotations

from lickwright.analysis.commentary.item import Item


def say_grace(taken: tuple[Item, ...]) -> str:
    """Return ``, a grace note a half step below the third``, or nothing."""
    said: list[str] = []
    for item in taken:
        grace = item.note.sound.grace
        if item.top.turn or not grace:
            continue
        for tone in grace[-1].tones:
            if not tone.path:
                continue
            led = [role for role in item.roles if abs(role.pitch - tone.path[-1]) == 1]
            if led:
                side = "below" if tone.path[-1] < led[0].pitch else "above"
                said.append(f", a grace note a half step {side} the {item.name(led[0])}")
    return "".join(dict.fromkeys(said))
