"""Techniques as a sentence claims them of certain notes: only words that can mean nothing else there.

The table of techniques lists every word by which prose may speak of one; a word such as ``ring``,
``pair`` or ``roll`` says too little to be held against notes, and is left out here.

Conventions: names are those of the table of techniques, and two kinds of bend more; every inflection is
listed; a hyphen or a blank stands for either, and for none.
"""

from __future__ import annotations

import re

# name | forms
_TABLE = """
hammer-on | hammer-on, hammer-ons, hammer, hammers, hammered, hammering, hammered on, hammers on
pull-off | pull-off, pull-offs, pulls off, pulled off, pulling off
slide | slide, slides, slid, sliding, glissando
shift slide | shift slide, shift slides
unison bend | unison bend, unison bends
oblique bend | oblique bend, oblique bends
bend | bend, bends, bent, bending, curl, curls, curled
pre-bend | pre-bend, pre-bends, pre-bent, pre-bending
release | release, releases, released, releasing
behind-the-nut bend | behind the nut
vibrato | vibrato
harmonic | harmonic, harmonics, flageolet
stopped harmonic | stopped harmonic, artificial harmonic, touched harmonic, stopped harmonics
pinch harmonic | pinch harmonic, pinch harmonics
tapping | tapped, tapping
palm mute | palm mute, palm mutes, palm-muted, palm muting
dead note | dead note, dead notes, muffled note, muffled notes
rake | rake, rakes, raked
grace note | grace note, grace notes
double stop | double stop, double stops, double-stopped
tremolo | tremolo
trill | trill, trills, trilled
swell | volume swell, volume swells
scrape | pick scrape
ghost note | ghost note, ghost notes, ghosted
"""


def _even(form: str) -> str:
    return re.sub(r"[-\s]+", "", form).casefold()


def _rows() -> dict[str, str]:
    forms: dict[str, str] = {}
    for row in _TABLE.strip().splitlines():
        name, cells = (cell.strip() for cell in row.split("|"))
        forms.update((form.strip(), name) for form in cells.split(","))
    return forms


MOVEMENTS: dict[str, str] = _rows()
"""Forms to the name."""
_BY_FORM = {_even(form): name for form, name in MOVEMENTS.items()}
_LISTED = sorted(MOVEMENTS, key=lambda form: (-len(form), form))
_ANY = "|".join(re.sub(r"\\?[- ]", r"[ -]?", re.escape(form)) for form in _LISTED)

MOVEMENT = rf"(?:{_ANY})(?!\w)"
"""Pattern of a technique."""
_MOVEMENT = re.compile(rf"\b{MOVEMENT}", re.IGNORECASE)


def name_movement(text: str) -> str | None:
    """Return the name of the first technique of a text: ``pull-off`` for ``pulls off``.

    >>> name_movement("pulls off"), name_movement("a unison bend"), name_movement("a boat")
    ('pull-off', 'unison bend', None)
    """
    found = _MOVEMENT.search(text)
    return None if found is None else _BY_FORM.get(_even(found[0]))
