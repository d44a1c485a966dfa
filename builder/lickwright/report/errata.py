"""Errata as text and as JSON.

The JSON: ``{"old", "new", "licks": [{"name", "state", "kind", "old_name", "fields": [{"kind", "field", "old",
"new"}], "bars": [{"kind", "old", "new", "details": [{"kind", "said", "old", "new"}]}]}], "sentences":
[{"lesson", "lick", "old", "new"}], "lessons": [{"title", "put_in"}]}``; kinds are ``music``, ``hands``,
``claims`` and ``drawing``, bars are numbers and details addresses, null where there is none.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from lickwright.errata import Kind
from lickwright.report.text import clean

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lickwright.errata import BarChange, Errata, LickChange

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
    for title, put_in in errata.lessons:
        lines += ["", f"The lesson {clean(title)} is {'put in' if put_in else 'taken out'}."]
    for kind, head in HEADS.items():
        changed = errata.of_kind(kind)
        if changed:
            lines += ["", head]
            for change in changed:
                lines += [f"  {line}" for line in _say_lick(change)]
    if errata.sentences:
        lines += ["", "The words"]
        for sentence in errata.sentences:
            lines.append(f"  {clean(sentence.lesson)}, of {sentence.lick}:")
            lines += [f"    was: {clean(sentence.old)}"] if sentence.old else []
            lines += [f"    now: {clean(sentence.new)}" if sentence.new else "    taken out"]
    return "\n".join(lines) + "\n"


def _say_lick(change: LickChange) -> Iterator[str]:
    renamed = change.before is not None and change.after is not None and change.before.name != change.name
    was = f", before {change.before.name}" if renamed and change.before else ""
    yield f"{change.name}{was}: {change.state}"
    for field in change.fields:
        yield f"  {field.field}: {clean(field.old) or 'not said'} is now {clean(field.new) or 'not said'}"
    for bar in change.bars:
        where = say_bar(bar)
        for detail in bar.details:
            mark = "" if detail.kind is bar.kind else f" ({detail.kind.name.lower()})"
            yield f"  {where}, {clean(detail.said)}{mark}"


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
        "licks": [_shape(change) for change in errata.licks],
        "sentences": [
            {"lesson": s.lesson, "lick": s.lick, "old": s.old, "new": s.new} for s in errata.sentences
        ],
        "lessons": [{"title": title, "put_in": put_in} for title, put_in in errata.lessons],
    }
    return json.dumps(shape, indent=2) + "\n"


def _shape(change: LickChange) -> dict[str, Any]:
    return {
        "name": change.name,
        "state": change.state,
        "kind": change.kind.name.lower(),
        "old_name": change.before.name if change.before else None,
        "fields": [
            {"kind": f.kind.name.lower(), "field": f.field, "old": f.old, "new": f.new} for f in change.fields
        ],
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
    }
