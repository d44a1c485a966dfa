"""Blocks shown as plain tables or one sentence: grids of chords, open strings, tuner, scale, neck."""

from __future__ import annotations

from lickwright.instrument.guitar import Guitar
from lickwright.model.bar import Margin, MarginChord
from lickwright.model.blocks import (
    Block,
    Chorus,
    Excerpt,
    Lick,
    NeckBlock,
    OpenStringsBlock,
    Progression,
    ScaleBlock,
    TunerBlock,
    title_of,
)
from lickwright.model.course import Settings
from lickwright.pages.counting import signs
from lickwright.pages.markdown import Body, Table
from lickwright.theory.key import Key

BARS_A_LINE = 4
_BLUE = {"b3": "♭3", "#4": "♭5", "b5": "♭5", "b7": "♭7"}


def block_body(block: Block, settings: Settings) -> tuple[Body, ...]:
    """Return what a page shows of a block that has no notation (yet)."""
    match block:
        case Progression():
            return (Body(table=progression_table(block, settings)),)
        case OpenStringsBlock(keys=keys):
            return (Body(table=open_strings_table(keys, settings.guitar)),)
        case TunerBlock():
            return (
                Body(table=tuner_table(settings.guitar)),
                Body(later="The tones themselves are not in this edition."),
            )
        case ScaleBlock(scale=scale):
            return (Body(later=f"{scale}: its fingering is not drawn in this edition."),)
        case NeckBlock(show=show, of=of):
            what = f"“{of}” on the neck" if of else show[1] + " on the neck" if show else "The neck"
            return (Body(later=f"{what}: the picture is not drawn in this edition."),)
        case Excerpt(of=of) | Lick(name=of) | Chorus(name=of):
            return (Body(later=f"“{of}” could not be read; the proof says why."),)


def progression_table(block: Progression, settings: Settings) -> Table:
    """Return the grid of a progression, four bars a line; a cell without a chord keeps the last one."""
    cells: list[str] = []
    last: MarginChord | None = None
    for cell in block.cells:
        kept = "" if last is None else last.symbol.display + (" (silent)" if last.stop else "")
        cells.append(_cell(cell, " ".join(map(_chord, cell.chords)) or kept))
        last = cell.chords[-1] if cell.chords else last
    while len(cells) % BARS_A_LINE and len(cells) > BARS_A_LINE:
        cells.append("")
    rows = tuple(tuple(cells[k : k + BARS_A_LINE]) for k in range(0, len(cells), BARS_A_LINE))
    title = block.title or title_of(block.name)
    facts = [title, (block.key or settings.key).display, *([str(block.meter)] if block.meter else [])]
    facts += [block.feel or settings.feel, f"at {(block.tempo or settings.tempo).bpm}"]
    return Table(" · ".join(facts), (), rows)


def _chord(chord: MarginChord) -> str:
    """A chord of a grid: ``D7``, ``A7 (on 3)``, ``A7 (on the and of 4)``, ``Em (stop)``."""
    beat = "" if chord.beat is None else f"on {'the and of ' if chord.half else ''}{chord.beat}"
    said = " ".join(filter(None, ("stop" if chord.stop else "", beat)))
    return f"{chord.symbol.display} ({said})" if said else chord.symbol.display


def _cell(cell: Margin, chord: str) -> str:
    before = "|: " if cell.opens else ""
    before += ", ".join(f"{number}." for number in cell.endings) + " " if cell.endings else ""
    before += f"{cell.meter} " if cell.meter else ""
    after = " :|" + (f" x{cell.times}" if cell.times else "") if cell.closes else ""
    return f"{before}{chord}{after}"


def open_strings_table(keys: tuple[Key, ...], guitar: Guitar) -> Table:
    """Return what each open string is in each key: a degree of the scale, a blue note, or outside."""
    strings = range(1, guitar.strings + 1)
    head = ("Key", *(f"string {s}" for s in strings))
    rows = tuple(
        (key.display, *(_open_string(key, guitar.open_midi(string)) for string in strings)) for key in keys
    )
    return Table("The open strings in the key", head, rows)


def _open_string(key: Key, midi: int) -> str:
    note, degree = midi % 12, key.degree_of(midi)
    if note in key.semitones:
        return signs(degree)
    return f"{_BLUE[degree]}, blue note" if degree in _BLUE else "outside"


def tuner_table(guitar: Guitar) -> Table:
    """Return the open strings with their frequencies, without a capo."""
    tuning = guitar.tuning
    rows = tuple(
        (str(string), tuning.open(string).display, f"{tuning.open(string).hertz():.1f} Hz")
        for string in range(1, tuning.count + 1)
    )
    return Table("Tuning", ("String", "Note", "Frequency"), rows)
