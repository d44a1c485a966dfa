"""Which forms of the language a course uses: names for what an author can write, found in the model."""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.model.address import AddressRange
from lickwright.model.bar import Bar, Margin, Voice
from lickwright.model.blocks import Block, Chorus, Excerpt, Lick, NeckBlock, Progression
from lickwright.model.course import Course
from lickwright.model.fields import Over
from lickwright.model.slots import Grace, Group, Join, Opening, Slot
from lickwright.model.strike import Bend, Harmonic, Late, Note, Strike
from lickwright.theory.chord import NO_CHORD


def list_forms(course: Course) -> set[str]:
    """Return the forms that the lessons of a course use, such as ``join s!`` or ``row degrees``."""
    forms: set[str] = set()
    for block in course.blocks:
        forms.update(_of_block(block))
    for lesson in course.lessons:
        forms.update(f"link {_of_range(link.at)}" for link in lesson.links)
    return forms


def _of_block(block: Block) -> Iterator[str]:
    kind = type(block).__name__
    yield f"block {kind}"
    yield from (f"field {kind} {name}" for name, _ in block.places)
    match block:
        case Lick():
            yield from _of_lick(block)
        case Progression():
            for cell in block.cells:
                yield from (f"cell {form}" for form in _of_margin(cell))
        case Chorus():
            for part in block.parts:
                yield "chorus rest" if not part.lick else f"chorus times {part.times > 1}"
        case Excerpt():
            yield f"excerpt {_of_range(block.show)}"
        case NeckBlock():
            yield f"neck {block.show[0] if block.show else 'of'}"
            yield f"neck labels {block.labels}"
            yield f"neck frets {block.frets is not None} strings {block.strings is not None}"


def _of_range(at: AddressRange | None) -> str:
    if at is None:
        return "whole"
    lower = "low " if at.first.lower else ""
    pickup = "pickup " if at.first.bar == 0 else ""
    number = "one" if at.first == at.last else "many"
    return f"{lower}{pickup}{'bars' if at.whole_bars else 'sounds'} {number}"


def _of_lick(lick: Lick) -> Iterator[str]:
    for words in (lick.feel, lick.ending, lick.source and lick.source.kind):
        if words:
            yield f"word {words}"
    if lick.picking:
        yield f"picking {lick.picking.style} {lick.picking.first}"
    yield from (f"claim {claim.kind}" for claim in lick.claims)
    yield from (f"position {claim.bars is not None}" for claim in lick.position)
    yield from (f"tempo {tempo.beat}" for tempo in (lick.tempo, lick.slow) if tempo)
    if lick.over:
        yield _of_over(lick.over)
    yield from (f"stet {stet.address is not None} {stet.seal != ''}" for stet in lick.stets)
    yield from (f"change {type(change.to).__name__}" for change in lick.changes)
    for bar in lick.bars:
        yield from _of_bar(bar)


def _of_over(over: Over) -> str:
    if over.progression:
        return f"over progression {'bars' if over.bars else 'all'}"
    return f"over chords {'one' if len(over.chords) == 1 else 'many'}"


def _of_margin(margin: Margin) -> Iterator[str]:
    signs = {
        "meter": margin.meter is not None,
        "|:": margin.opens,
        ":|": margin.closes,
        "x": margin.times is not None,
        "ending": len(margin.endings) == 1,
        "ending of two times": len(margin.endings) > 1,
        "empty": not margin.chords,
        "chord": len(margin.chords) == 1,
        "chords": len(margin.chords) > 1,
        "@": any(chord.beat is not None for chord in margin.chords),
        "@&": any(chord.half for chord in margin.chords),
        "stop": any(chord.stop for chord in margin.chords),
        "N.C.": any(chord.symbol == NO_CHORD for chord in margin.chords),
    }
    yield from (f"margin {sign}" for sign, stands in signs.items() if stands)


def _of_bar(bar: Bar) -> Iterator[str]:
    yield from _of_margin(bar.margin)
    yield from _of_voice(bar.upper, "")
    if bar.lower is not None:
        yield "row low"
        yield from _of_voice(bar.lower, "low ")
    if bar.upper.slots and isinstance(bar.upper.slots[-1], Join):
        yield "join over the bar line"


def _of_voice(voice: Voice, which: str) -> Iterator[str]:
    for row in voice.rows:
        yield f"{which}row {row.kind}"
        for entry in row.entries:
            yield f"{which}row {row.kind} {'chord' if len(entry.values) > 1 else 'one'}"
            if None in entry.values:
                yield f"row {row.kind} *{' in a chord' if len(entry.values) > 1 else ''}"
            if row.kind in ("rh", "lh", "signs"):
                yield from (
                    f"{row.kind} {value.rstrip('0123456789') or value}" for value in entry.values if value
                )
    yield from _of_slots(voice.slots, "")


def _of_slots(slots: tuple[Slot, ...], inside: str) -> Iterator[str]:
    for slot in slots:
        yield f"{inside}{type(slot).__name__}"
        match slot:
            case Strike():
                yield from _of_strike(slot)
            case Group():
                yield f"group /{'N' if slot.shares > 1 else '1'}"
                yield from _of_slots(slot.members, "in a group ")
            case Join():
                yield f"join {slot.kind.value}"
            case Opening():
                fret = "" if slot.fret is None else " open" if slot.fret == 0 else " fret"
                yield f"bracket {slot.kind.value}{fret}"
            case Grace():
                yield f"grace {'one' if len(slot.strikes) == 1 else 'many'}"
                for strike in slot.strikes:
                    yield from (f"grace {form}" for form in _of_strike(strike))


def _of_strike(strike: Strike) -> Iterator[str]:
    signs = {
        "chord": len(strike.notes) > 1,
        "slide in": strike.slide_in,
        "slide out": strike.slide_out,
        "accent": strike.accent,
        "short": strike.short,
        "spread": strike.spread,
        "shape": strike.shape,
    }
    for sign, stands in signs.items():
        if stands:
            yield f"{sign} {stands.value}" if sign.startswith("slide") else sign
    for note in strike.notes:
        yield from _of_note(note, alone=len(strike.notes) == 1)


def _of_note(note: Note, *, alone: bool) -> Iterator[str]:
    yield f"head {type(note.head).__name__}"
    if note.vibrato:
        yield "vibrato"
    match note.head:
        case Late(bend):
            yield f"late {bend.kind.value}"
        case Harmonic(fret, touch):
            yield f"harmonic {'stopped' if fret else 'open'}"
            if touch.denominator > 1:
                yield "harmonic between frets"
    kinds = " ".join(_kind(bend) for bend in note.bends)
    if kinds:
        yield f"bend {kinds}"
        if not alone:
            yield "bend in a chord"


def _kind(bend: Bend) -> str:
    return f"{bend.kind.value}{'.5' if bend.to.denominator > 1 else ''}"
