"""Remarks on lines that go one way: walks by step, runs with a third here and there."""

from __future__ import annotations

from itertools import pairwise

from lickwright.analysis.commentary.held import leans, say_held
from lickwright.analysis.commentary.item import Item
from lickwright.analysis.commentary.words import list_words, name_of
from lickwright.analysis.role import Role
from lickwright.model.slots import JoinKind
from lickwright.theory.chord import Chord

SHORTEST = 3
"""Notes that make a walk."""
RUN = 6
"""Notes that make a run."""
LONG = 4
"""Notes of a walk that is not lost in a run."""
WIDEST = 4
"""Half steps between two notes of a run."""
_HOW = {JoinKind.HAMMER: "hammered", JoinKind.PULL: "pulled off", JoinKind.SLIDE: "slid"}
_RAISED = (9, 11)
"""Half steps above the tonic of a minor key: the sixth and seventh of the melodic minor going up."""


def run_of_singles(items: tuple[Item, ...], first: int) -> int:
    """Return the index after the single notes, joined, that begin at one."""
    last = first
    while last < len(items) and items[last].single and (last == first or items[last].joined):
        last += 1
    return last


def flows(items: tuple[Item, ...], index: int) -> bool:
    """Return whether there is a single note at an index, joined to the one before."""
    return index < len(items) and items[index].joined and items[index].single


def goal(items: tuple[Item, ...], first: int, last: int) -> str:
    """Return the note a figure ends on: ``the third``; over a new chord ``the third of D``."""
    end, coming = items[last], items[last].next_chord
    if end.role is Role.ANTICIPATION and coming is not None:
        return f"the {name_of(end.pitch, coming)} of {coming.display}, early"
    chord = end.top.chord
    known = end.over(items[first]) and not _in_mid_bar(items, first)
    return f"the {end.degree}" + (f" of {chord.display}" if isinstance(chord, Chord) and not known else "")


def _in_mid_bar(items: tuple[Item, ...], index: int) -> bool:
    """Whether the bar has begun with another chord."""
    bar = items[index].top.address.bar
    while index and items[index - 1].top.address.bar == bar:
        index -= 1
        if not items[index].over(items[index + 1]):
            return True
    return False


def say_walk(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Three notes or more by step one way: along the scale, or with half steps out of it.

    The last may be the bass of a chord that follows, or lead on: held over, or slurred to the next.
    """
    last = _walk_on(items, first)
    if last - first + 1 >= SHORTEST - 1 and (bass := _bass(items, first, last)):
        return last - first + 1, f"{_kind(items, first, last)} to {bass}"
    if last - first + 1 >= SHORTEST and (slurred := _slurred(items, first, last)):
        text = f"{_kind(items, first, last)} to the {items[last].degree}, {slurred}"
        return last - first + 2, text
    while last > first and not _may_end(items, last):
        last -= 1
    if last - first + 1 < SHORTEST or not _apart(items, first, last):
        return None
    text = f"{_kind(items, first, last)} to {goal(items, first, last)}"
    held = say_held(items, last)
    return (last - first + 1, text) if held is None else (last - first + 2, f"{text}, {held}")


def say_chromatic_walk(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A walk whose second note is chromatic."""
    second = items[first + 1] if first + 1 < len(items) else None
    return say_walk(items, first) if second is not None and second.top.chromatic else None


def say_run(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Six notes or more one way, most of them by step, a third now and then: a cascade."""
    last = first
    while flows(items, last + 1) and _plays_on(items[last + 1]):
        move = items[last + 1].pitch - items[last].pitch
        if not 1 <= abs(move) <= WIDEST or (last > first and (move > 0) != _rises(items, first)):
            break
        last += 1
    while last > first and items[last].role is not Role.CHORD_TONE:
        last -= 1
    row = items[first : last + 1]
    steps = sum(abs(b.pitch - a.pitch) <= 2 for a, b in pairwise(row))
    if len(row) < RUN or 2 * steps < len(row) or not _apart(items, first, last) or not _plays_on(row[0]):
        return None
    if steps == len(row) - 1 or _begins_with_walk(items, first):
        return None
    foreign = list(dict.fromkeys(item.degree for item in row if item.top.chromatic))
    passing = f", the {list_words(foreign)} in passing" if foreign else ""
    return len(row), f"runs {_way(items, first)} to {goal(items, first, last)}{passing}"


def _plays_on(item: Item) -> bool:
    return _explained(item) and not item.bend and not item.note.curl


def _begins_with_walk(items: tuple[Item, ...], first: int) -> bool:
    """Whether a walk that comes to rest on a chord tone is the better word for its beginning."""
    walk = say_walk(items, first)
    return walk is not None and walk[0] >= LONG and items[first + walk[0] - 1].role is Role.CHORD_TONE


def _walk_on(items: tuple[Item, ...], first: int) -> int:
    """The index of the last note that goes on by step the same way."""
    last = first
    if not items[first].single or not _plays_on(items[first]):
        return first
    while flows(items, last + 1) and _plays_on(items[last + 1]):
        move = items[last + 1].pitch - items[last].pitch
        if not 1 <= abs(move) <= 2 or (last > first and (move > 0) != _rises(items, first)):
            break
        if leans(items, last + 1) or (last > first and say_held(items, last) is not None):
            break
        last += 1
    return last


def _explained(item: Item) -> bool:
    return item.role not in (Role.UNEXPLAINED, Role.NO_CHORD)


def _may_end(items: tuple[Item, ...], last: int) -> bool:
    """Whether a walk may end on a note: one at rest, and no neighbour that turns back at once."""
    item = items[last]
    if not item.at_rest:
        return False
    after = items[last + 1] if last + 1 < len(items) else None
    if item.role is not Role.TENSION or after is None or not after.joined:
        return True
    return after.pitch != items[last - 1].pitch


def _bass(items: tuple[Item, ...], first: int, last: int) -> str:
    """The lowest note of a chord that the walk arrives on with its next step."""
    chord = items[last + 1] if last + 1 < len(items) else None
    if chord is None or chord.single or not chord.joined or not _apart(items, first, last):
        return ""
    step = chord.roles[-1].pitch - items[last].pitch
    before = items[last].pitch - items[last - 1].pitch if last > first else 0
    if last == first or not 1 <= abs(step) <= 2 or (step > 0) != (before > 0):
        return ""
    if chord.roles[-1].role is not Role.CHORD_TONE:
        return ""
    of = "" if chord.over(items[first]) else f" of {chord.top.chord.display}"
    return f"the {chord.name(chord.roles[-1])}{of}"


def _slurred(items: tuple[Item, ...], first: int, last: int) -> str:
    """``hammered into the third`` where the last note leads on by a half step."""
    after = items[last + 1] if last + 1 < len(items) else None
    if after is None or not after.joined or not after.single or after.role is not Role.CHORD_TONE:
        return ""
    link = after.note.sound.tones[after.note.tone].link
    if link not in _HOW or abs(after.pitch - items[last].pitch) != 1 or items[last].role is Role.CHORD_TONE:
        return ""
    return f"{_HOW[link]} into {goal(items, first, last + 1)}"


def _kind(items: tuple[Item, ...], first: int, last: int) -> str:
    """How it walks: ``walks up the scale``, ``chromatic walk down``."""
    row, way = items[first : last + 1], _way(items, first)
    moves = [abs(b.pitch - a.pitch) for a, b in pairwise(row)]
    chromatic = any(item.top.chromatic for item in row[:-1])
    if all(move == 1 for move in moves):
        chromatic = chromatic or any(item.top.chromatic for item in row)
        return f"chromatic walk {way}" if chromatic else f"half steps {way}"
    if chromatic and any(a == b == 1 for a, b in pairwise(moves)):
        return f"walks {way} with half steps"
    if any(item.role is Role.BLUE or item.top.chromatic for item in row):
        return f"walks {way}"
    key = row[0].key
    degrees = {(item.pitch - key.tonic.semitone) % 12 for item in row}
    if way == "up" and key.working_semitones != key.semitones and degrees >= {*_RAISED}:
        return "walks up the melodic minor"
    return f"walks {way} the scale"


def _way(items: tuple[Item, ...], first: int) -> str:
    return "up" if _rises(items, first) else "down"


def _rises(items: tuple[Item, ...], first: int) -> bool:
    return items[first + 1].pitch > items[first].pitch


def _apart(items: tuple[Item, ...], first: int, last: int) -> bool:
    """Whether some note of it is no chord tone: else it is part of an arpeggio."""
    return any(item.role is not Role.CHORD_TONE for item in items[first : last + 1])
