"""Every block as text, fence and all."""

from __future__ import annotations

from typing import TYPE_CHECKING

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
)
from lickwright.reading.printing import fields
from lickwright.reading.printing.bars import print_closing, print_margin
from lickwright.reading.printing.lick import print_lick

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.model.bar import Margin

_CELLS_A_LINE = 4


def print_block(block: Block) -> str:
    """Return a block from fence to fence, with a newline at the end."""
    head, body = _print(block)
    return f"```{head}\n{body}\n```\n" if body else f"```{head}\n```\n"


def _print(block: Block) -> tuple[str, str]:
    match block:
        case Lick():
            return f"lick {block.name}", print_lick(block)
        case Progression():
            return f"progression {block.name}", _print_progression(block)
        case Chorus():
            return f"chorus {block.name}", _print_chorus(block)
        case Excerpt():
            return "excerpt", _print_excerpt(block)
        case ScaleBlock():
            return f"scale {block.name}", _print_scale(block)
        case NeckBlock():
            return "neck", _print_neck(block)
        case OpenStringsBlock():
            return "open-strings", _lines(("keys", ", ".join(key.name for key in block.keys)))
        case TunerBlock():
            return "tuner", ""


def _lines(*pairs: tuple[str, str | None]) -> str:
    return "\n".join(fields.print_field(name, value) for name, value in pairs if value)


def _print_progression(block: Progression) -> str:
    written = _lines(
        ("title", block.title),
        ("key", fields.say(block.key, str)),
        ("meter", fields.say(block.meter, str)),
        ("feel", block.feel),
        ("tempo", fields.say(block.tempo, fields.print_tempo)),
        *(("stet", fields.print_stet(stet)) for stet in block.stets),
    )
    return "\n\n".join(part for part in (written, print_cells(block.cells)) if part)


def print_cells(cells: Iterable[Margin]) -> str:
    """Return a chord grid: four cells a line, a new line after a closed repeat."""
    lines: list[list[str]] = [[]]
    for cell in cells:
        line = lines[-1]
        line.append("|: " if cell.opens else "| ")
        text = print_margin(cell)
        line.append(f"{text} " if text else "")
        if cell.closes:
            line.append(print_closing(cell))
            lines.append([])
        elif len(line) >= 2 * _CELLS_A_LINE:
            line.append("|")
            lines.append([])
    if lines[-1]:
        lines[-1].append("|")
    return "\n".join("".join(line) for line in lines if line)


def _print_chorus(block: Chorus) -> str:
    parts = []
    for part in block.parts:
        if part.lick:
            parts.append(f"{part.lick} x{part.times}" if part.times > 1 else part.lick)
        else:
            parts.append(f"rest {part.times}")
    return _lines(
        ("title", block.title),
        ("over", fields.say(block.over, fields.print_over)),
        ("licks", "  ".join(parts)),
        ("slow", fields.say(block.slow, fields.print_tempo)),
        *(("stet", fields.print_stet(stet)) for stet in block.stets),
    )


def _print_excerpt(block: Excerpt) -> str:
    show = block.show
    whole = show is not None and show.whole_bars
    shown = None if show is None else fields.print_bar_range(show) if whole else str(show)
    return _lines(("of", block.of), ("show", shown))


def _print_scale(block: ScaleBlock) -> str:
    path = None
    if block.start is not None and block.stop is not None:
        path = f"{block.start[0]}:{block.start[1]} to {block.stop[0]}:{block.stop[1]}"
    return _lines(
        ("title", block.title),
        ("scale", block.scale),
        ("from", path),
        ("position", fields.say(block.position, str)),
        ("notes a string", fields.say(block.notes_a_string, str)),
        ("open strings", "wherever diatonic" if block.open_strings else None),
        ("tempo", fields.say(block.tempo, fields.print_tempo)),
        *(("stet", fields.print_stet(stet)) for stet in block.stets),
    )


def _print_neck(block: NeckBlock) -> str:
    if block.show is None:
        bars = f" {fields.print_bar_range(block.bars)}" if block.bars is not None else ""
        return _lines(("of", f"{block.of}{bars}"))
    kind, what = block.show
    shown = {"chord": f"{what} chord tones", "notes": f"notes {what}"}.get(kind, what)
    if block.frets is not None:
        shown += f", frets {block.frets[0]}-{block.frets[1]}"
    if block.strings is not None:
        shown += f", strings {block.strings[0]}-{block.strings[1]}"
    if block.labels is not None:
        shown += f", {block.labels}"
    return _lines(("show", shown))
