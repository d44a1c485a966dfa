"""Why a note fits, in half a sentence: what a student reads beside it."""

from __future__ import annotations

from lickwright.analysis.commentary.item import Item
from lickwright.analysis.commentary.words import name_of, name_step
from lickwright.analysis.role import Role

_PLAIN = {
    Role.NO_CHORD: "no chord to fit",
    Role.SUSPENSION: "held over from the chord before, gives way down by step",
    Role.RETARDATION: "held over from the chord before, gives way up by step",
    Role.ENCLOSURE: "stands on one side of the note it leads to",
    Role.PASSING: "on its way from one note to the next",
    Role.NEIGHBOUR: "beside a note that comes again",
    Role.APPROACH: "leads into a note beside it",
    Role.APPOGGIATURA: "leans on the note it gives way to",
    Role.RESOLVED: "a colour that a note beside it resolves",
    Role.ESCAPE: "steps away from a chord tone and leaps back",
    Role.CAMBIATA: "steps on, skips a third and turns back",
    Role.ANTICIPATION: "a note of the chord that is coming",
    Role.DRONE: "keeps sounding while the rest moves",
    Role.PATTERN: "belongs to a cell that is moved as a whole",
    Role.PARALLEL: "moves with the note struck with it",
    Role.UNEXPLAINED: "neither in the chord nor led to it",
}


def say_why(items: tuple[Item, ...], index: int, number: int) -> str:
    """Return why a note fits.

    Args:
        items: Of the voice.
        index: Of the sound.
        number: Which of its notes, the highest first.
    """
    item = items[index]
    role = item.roles[number]
    name, chord = item.name(role), role.chord.display
    match role.role:
        case Role.CHORD_TONE:
            return f"the {name} of {chord}"
        case Role.TENSION:
            return f"the {name}, a colour that {chord} carries"
        case Role.SCALE_TONE:
            return f"the {name}, of the key, and nothing in {chord} rubs against it"
        case Role.WEAK:
            return f"the {name}, of the key, and soon gone"
        case Role.BLUE:
            return f"the {item.blue(role)}, a colour of the blues"
        case Role.ANTICIPATION if item.next_chord is not None:
            return f"the {name_of(role.pitch, item.next_chord)} of {item.next_chord.display}, early"
        case Role.PASSING | Role.NEIGHBOUR | Role.APPROACH | Role.APPOGGIATURA | Role.RESOLVED:
            return _led(items, index, number)
        case _:
            return _PLAIN[role.role]


def _led(items: tuple[Item, ...], index: int, number: int) -> str:
    role = items[index].roles[number]
    after = items[index + 1] if index + 1 < len(items) else None
    if after is None or not after.joined:
        return _PLAIN[role.role]
    to = after.roles[-1] if number and number == len(items[index].roles) - 1 else after.roles[0]
    move = to.pitch - role.pitch
    name = after.name(to)
    if not 1 <= abs(move) <= 2:
        return _PLAIN[role.role]
    verb = "rises" if move > 0 else "falls"
    return f"{verb} a {name_step(move)} to the {name}"
