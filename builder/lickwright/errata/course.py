"""What the manifest says for the whole course, compared."""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.errata.errata import FieldChange, Kind
from lickwright.errata.fields import say_source, say_tempo, say_tuning
from lickwright.model.course import Course


def compare_courses(old: Course, new: Course) -> Iterator[FieldChange]:
    """Yield the lines of the manifest that differ, in its own order."""
    for (kind, field, before), (_, _, after) in zip(_lines(old), _lines(new), strict=True):
        if before != after:
            yield FieldChange(kind, field, before, after)


def _lines(course: Course) -> list[tuple[Kind, str, str]]:
    """The lines as ``kind, key, value``, said as the same field of a lick is."""
    settings = course.settings
    guitar = settings.guitar
    return [
        (Kind.DRAWING, "title", course.title),
        (Kind.DRAWING, "author", course.author),
        (Kind.DRAWING, "language", course.language),
        (Kind.DRAWING, "licence", course.licence),
        (Kind.DRAWING, "source", say_source(settings.source)),
        (Kind.CLAIMS, "style", settings.style),
        (Kind.CLAIMS, "level", settings.level),
        (Kind.MUSIC, "key", settings.key.display),
        (Kind.MUSIC, "feel", settings.feel),
        (Kind.MUSIC, "tempo", say_tempo(settings.tempo)),
        (Kind.MUSIC, "tuning", say_tuning(guitar)),
        (Kind.MUSIC, "capo", str(guitar.capo)),
        (Kind.HANDS, "frets", str(guitar.frets)),
        (Kind.HANDS, "scale length", f"{guitar.scale_length:g} mm"),
        (Kind.MUSIC, "sound", guitar.sound),
        (Kind.DRAWING, "hand", guitar.hand),
        (Kind.CLAIMS, "limits", ", ".join(f"{name} = {limit:g}" for name, limit in settings.limits)),
        (Kind.CLAIMS, "promises", ", ".join(f"{name} = {number}" for name, number in course.promises)),
    ]
