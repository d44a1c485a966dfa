"""Errata as text and as JSON.

The JSON: ``{"old", "new", "course": [{"kind", "field", "old", "new", "licks"}], "progressions": [{"name",
"state", "old_name", "fields", "bars", "licks"}], "licks": [{"name", "state", "kind", "old_name", "fields":
[{"kind", "field", "old", "new"}], "bars": [{"kind", "old", "new", "details": [{"kind", "said", "old",
"new"}]}], "licks"}], "sentences": [{"lesson", "lick", "old", "new", "links": [{"words", "old", "new"}]}],
"lessons": [{"title", "put_in"}], "unread": [{"lick", "bar", "old", "new"}]}``; kinds are ``music``,
``hands``, ``claims`` and ``drawing``, bars are numbers and details addresses, null where there is none. A
``licks`` that holds names says where a change shows that was made in the manifest, in a progression or in
the lick that those vary. The ``links`` of a sentence whose words did not change are those that show other
notes. What is ``unread`` was not compared: a bar, or with null the whole lick, and in which editions.
"""

from __future__ import annotations

import json
from textwrap import wrap
from typing import TYPE_CHECKING, Any

from lickwright.errata import Kind
from lickwright.report.text import clean

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lickwright.errata import (
        BarChange,
        Detail,
        Errata,
        FieldChange,
        GridChange,
        LickChange,
        LinkChange,
        Unread,
    )

NAMED = 8
"""Licks named in a line of text; the JSON names them all."""
WIDTH = 100
"""Columns of a line that names licks."""
UNREAD_HEAD = "Not compared"
COURSE_HEAD = "The course"
PROGRESSIONS_HEAD = "Progressions"
HEADS = {
    Kind.MUSIC: "The music",
    Kind.HANDS: "The hands",
    Kind.CLAIMS: "The second witness",
    Kind.DRAWING: "Only the drawing",
}
"""Licks are listed by the gravest of their changes."""


def render_errata(errata: Errata) -> str:
    """Render errata as text, with a newline at the end."""
    lines = [clean(f"Errata: {errata.old}, to {errata.new}")]
    if errata.empty:
        return "\n".join((*lines, "", "Nothing has changed.")) + "\n"
    if errata.unread:
        lines += ["", UNREAD_HEAD, *(f"  {say_unread(each)}" for each in errata.unread)]
    for title, put_in in errata.lessons:
        lines += ["", f"The lesson {clean(title)} is {'put in' if put_in else 'taken out'}."]
    if errata.course:
        lines += ["", COURSE_HEAD]
        for line in errata.course:
            lines += [f"  {say_field(line.field)}", *_say_shown(line.licks, "    in ")]
    if errata.progressions:
        lines += ["", PROGRESSIONS_HEAD]
        for grid in errata.progressions:
            lines += [f"  {line}" for line in _say_change(grid, Kind.MUSIC)]
            lines += _say_shown(grid.licks, "    in ")
    for kind, head in HEADS.items():
        changed = errata.of_kind(kind)
        if changed:
            lines += ["", head]
            for change in changed:
                lines += [f"  {line}" for line in _say_change(change, kind)]
                lines += _say_shown(change.licks, "    also in ")
    if errata.sentences:
        lines += ["", "The words"]
        for sentence in errata.sentences:
            of = f", of {sentence.lick}" if sentence.lick else ""
            lines.append(f"  {clean(sentence.lesson)}{of}:")
            if sentence.links:
                lines.append(f"    says: {clean(sentence.new)}")
                lines += [f"    {clean(say_link(link))}" for link in sentence.links]
                continue
            lines += [f"    was: {clean(sentence.old)}"] if sentence.old else []
            lines += [f"    now: {clean(sentence.new)}" if sentence.new else "    taken out"]
    return "\n".join(lines) + "\n"


def _say_change(change: LickChange | GridChange, head: Kind) -> Iterator[str]:
    """Yield its lines; what is of another kind than the head it stands under says so."""
    renamed = change.before is not None and change.after is not None and change.before.name != change.name
    was = f", before {change.before.name}" if renamed and change.before else ""
    yield f"{change.name}{was}: {change.state}"
    for field in change.fields:
        yield f"  {say_field(field)}"
    for bar in change.bars:
        where = say_bar(bar)
        for detail in bar.details:
            yield f"  {where}, {clean(say_detail(detail, head))}"


def say_unread(unread: Unread) -> str:
    """Return ``bar 2 of walk could not be read (old, new)``."""
    where = unread.lick if unread.bar is None else f"bar {unread.bar} of {unread.lick}"
    editions = ", ".join(name for name, lost in (("old", unread.old), ("new", unread.new)) if lost)
    return f"{where} could not be read ({editions})"


def say_link(link: LinkChange) -> str:
    """Return ``“low E” links to walk@1.2, before to walk@1.1``."""
    return f"“{link.words}” links to {link.new}, before to {link.old}"


def say_detail(detail: Detail, head: Kind) -> str:
    """Return what is said of a change, with its kind where that is another than its head's."""
    return detail.said if detail.kind is head else f"{detail.said} ({detail.kind.value})"


def say_licks(licks: tuple[str, ...]) -> str:
    """Return ``walk, round``; of many the first, and how many more; none as nothing."""
    more = len(licks) - NAMED
    return ", ".join(licks[:NAMED]) + (f", and {more} more licks and choruses" if more > 0 else "")


def _say_shown(licks: tuple[str, ...], lead: str) -> list[str]:
    """Name the licks in which a change shows, in lines of a readable width."""
    return wrap(
        say_licks(licks),
        WIDTH,
        initial_indent=lead,
        subsequent_indent=" " * len(lead),
        break_on_hyphens=False,
    )


def say_field(field: FieldChange) -> str:
    """Return ``capo: 0 is now 2``."""
    return f"{field.field}: {clean(field.old) or 'not said'} is now {clean(field.new) or 'not said'}"


def say_bar(bar: BarChange) -> str:
    """Return ``bar 3``, or ``bar 3, before bar 2``."""
    if bar.new is None:
        return f"bar {bar.old} as it was"
    if bar.old is None or bar.old == bar.new:
        return f"bar {bar.new}"
    return f"bar {bar.new}, before bar {bar.old}"


def render_errata_json(errata: Errata) -> str:
    """Render errata as one JSON object with a newline at the end."""
    shape = {
        "old": errata.old,
        "new": errata.new,
        "course": [{**_shape_field(line.field), "licks": list(line.licks)} for line in errata.course],
        "progressions": [_shape(change) for change in errata.progressions],
        "licks": [{**_shape(change), "kind": change.kind.name.lower()} for change in errata.licks],
        "sentences": [
            {
                "lesson": s.lesson,
                "lick": s.lick,
                "old": s.old,
                "new": s.new,
                "links": [{"words": link.words, "old": link.old, "new": link.new} for link in s.links],
            }
            for s in errata.sentences
        ],
        "lessons": [{"title": title, "put_in": put_in} for title, put_in in errata.lessons],
        "unread": [
            {"lick": each.lick, "bar": each.bar, "old": each.old, "new": each.new} for each in errata.unread
        ],
    }
    return json.dumps(shape, indent=2) + "\n"


def _shape_field(field: FieldChange) -> dict[str, str]:
    return {"kind": field.kind.name.lower(), "field": field.field, "old": field.old, "new": field.new}


def _shape(change: LickChange | GridChange) -> dict[str, Any]:
    return {
        "name": change.name,
        "state": change.state,
        "old_name": change.before.name if change.before else None,
        "fields": [_shape_field(field) for field in change.fields],
        "bars": [
            {
                "kind": bar.kind.name.lower(),
                "old": bar.old,
                "new": bar.new,
                "details": [
                    {
                        "kind": d.kind.name.lower(),
                        "said": d.said,
                        "old": str(d.old) if d.old else None,
                        "new": str(d.new) if d.new else None,
                    }
                    for d in bar.details
                ],
            }
            for bar in change.bars
        ],
        "licks": list(change.licks),
    }
