"""Blocks without notation: tables of chords, open strings and the tuner, pictures of the neck."""

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
from lickwright.model.course import Course, Settings
from lickwright.model.timeline import Book
from lickwright.pages.counting import signs
from lickwright.pages.drawings import neck
from lickwright.pages.markdown import Body, Table
from lickwright.theory.key import Key
from lickwright.theory.spelling import spell

BARS_A_LINE = 4
_OPEN_LEGEND = (
    "A number alone is a degree of the scale: the string may ring. A blue note is struck knowingly; a string "
    "outside the key is left alone, or passed by."
)
_BLUE = {"b3": "♭3", "#4": "♭5", "b5": "♭5", "b7": "♭7"}


def block_body(block: Block, course: Course, music: Book) -> tuple[Body, ...]:
    """Return what a page shows of a block that has no notation (yet)."""
    settings = course.settings
    match block:
        case Progression():
            return (Body(table=progression_table(block, settings)),)
        case OpenStringsBlock(keys=keys):
            return (Body(table=open_strings_table(keys, settings)),)
        case TunerBlock():
            return (
                Body(table=tuner_table(settings.guitar)),
                Body(later="The tones themselves are not in this edition."),
            )
        case NeckBlock(show=show, of=of):
            drawn = neck(block, settings, music.piece(of) if of else None, course.language)
            what = f"“{of}”" if of else show[1] if show else "The neck"
            return (Body(picture=drawn) if drawn else _unread(what),)
        case Excerpt(of=name) | Lick(name=name) | Chorus(name=name) | ScaleBlock(name=name):
            return (_unread(f"“{name}”"),)


def _unread(what: str) -> Body:
    return Body(later=f"{what} could not be read; the proof says why.")


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


def open_strings_table(keys: tuple[Key, ...], settings: Settings) -> Table:
    """Return what each open string is in each key: a degree of the scale, a blue note, or outside.

    The strings are named as they sound, with the capo, in the key of the course.
    """
    guitar = settings.guitar
    opens = [guitar.open_midi(string) for string in range(1, guitar.strings + 1)]
    names = [spell(midi, settings.key, None, None, None).name.display for midi in opens]
    head = ("Key", *(f"string {number}, {name}" for number, name in enumerate(names, 1)), "in the scale")
    rows = tuple(
        (
            key.display,
            *(_open_string(key, midi) for midi in opens),
            f"{sum(midi % 12 in key.semitones for midi in opens)} of {len(opens)}",
        )
        for key in keys
    )
    capo = f", capo at {guitar.capo}" if guitar.capo else ""
    return Table(f"The open strings in the key{capo}", head, rows, headed=True, legend=_OPEN_LEGEND)


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
