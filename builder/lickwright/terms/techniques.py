"""What hands do on a guitar, by name, with the words by which prose speaks of it.

Conventions: names and forms are lower case; a hyphen or a blank in a form stands for either, and for
none. A form is a whole word, so every inflection is listed.

References: common practice of the trade.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache


@dataclass(frozen=True, slots=True)
class Technique:
    """A technique.

    Attributes:
        name: Its name in the singular: ``pull-off``.
        forms: Words that speak of it and of little else, inflections among them.
        loose: Words that may speak of it, and of a river or a bell as well.
    """

    name: str
    forms: tuple[str, ...]
    loose: tuple[str, ...] = ()


# name | forms | forms that mean other things as well
_TABLE = """
hammer-on | hammer, hammers, hammered, hammering, hammer-on, hammer-ons |
pull-off | pull-off, pull-offs, pull off, pulls off, pulled off, pulling off, pull it off |
slide | slide, slides, sliding, glissando | slid
shift slide | shift slide, shift slides, slide struck at both ends | struck at both ends
bend | bend, bends, bent, bending, push the string | curl, curls, curled
pre-bend | pre-bend, pre-bends, pre-bent, pre-bending, bent before, bend before |
release | bend and release, let down, lets down, letting down | release, releases, released, releasing
behind-the-nut bend | behind-the-nut bend | behind the nut
vibrato | vibrato | shake, shakes, shaken
harmonic | harmonic, harmonics, flageolet | chime, chimes
stopped harmonic | stopped harmonic, stopped harmonics, artificial harmonic, artificial harmonics, \
octave harmonic, octave harmonics, harp harmonic, harp harmonics | touched harmonic, harp-style
pinch harmonic | pinch harmonic, pinch harmonics | pinch, pinched, squeal, squeals
tapping | tapping, tapped | tap, taps
let ring | let ring, lets ring, ring on | ring, rings, rang, ringing, sustain
palm mute | palm mute, palm mutes, palm-muted, palm muting | mute, muted, muting, heel of the hand, \
side of the hand
dead note | dead note, dead notes, muted note, muted notes, muted string, muted strings | dead string, \
dead strings, muffled, click, clicks, chuck, chucks, scratch, scratches
rake | rake, rakes, raked, raking |
grace note | grace note, grace notes | grace
double stop | double stop, double stops, double-stopped | two strings at once, two notes at once, \
two at a time, two strings, two notes, sounded together, struck together, pair, pairs, sixths, thirds, \
tenths, octaves
chord | chord, chords, strum, strums, strummed, strumming, triad, triads |
spread chord | spread chord, rolled chord, rolled chords, arpeggiated | spread
tremolo | tremolo |
trill | trill, trills, trilled, trilling |
swell | volume swell, volume swells, volume knob, volume pedal | swell, swells, swelled
scrape | pick scrape, pick scrapes | scrape, scrapes, scraped
ghost note | ghost note, ghost notes, ghosted | ghost
alternate picking | alternate picking | alternate, alternates, alternating, down and up in turn
pendulum picking | pendulum picking | pendulum
economy picking | economy picking, sweep picking | economy, sweep, sweeps, sweeping
hybrid picking | hybrid picking | hybrid, pick and finger, pick and fingers, middle finger
fingerpicking | fingerpicking, fingerpicked, fingerstyle | with the fingers, thumb
forward roll | forward roll, forward rolls | roll, rolls, rolled, rolling
backward roll | backward roll, backward rolls | roll backwards, rolls backwards, reverse roll
cascade | cascade, cascades, cascading |
two voices | two voices, second voice, lower voice | bass line, thumb
"""


def _read_row(row: str) -> Technique:
    name, forms, loose = (cell.strip() for cell in row.split("|"))
    return Technique(name, _read_forms(forms), _read_forms(loose))


def _read_forms(cell: str) -> tuple[str, ...]:
    return tuple(form.strip() for form in cell.split(",") if form.strip())


TECHNIQUES: tuple[Technique, ...] = tuple(map(_read_row, _TABLE.strip().splitlines()))
"""All techniques, in the order in which tables list them."""

NAMES: tuple[str, ...] = tuple(technique.name for technique in TECHNIQUES)


@lru_cache(maxsize=2)
def _spoken(loose: bool) -> dict[str, frozenset[str]]:
    """The techniques that each form speaks of."""
    spoken: dict[str, set[str]] = {}
    for technique in TECHNIQUES:
        for form in technique.forms + (technique.loose if loose else ()):
            spoken.setdefault(_even(form), set()).add(technique.name)
    return {form: frozenset(names) for form, names in spoken.items()}


@lru_cache(maxsize=1)
def _pattern() -> re.Pattern[str]:
    forms = {form for technique in TECHNIQUES for form in (*technique.forms, *technique.loose)}
    listed = sorted(forms, key=lambda form: (-len(form), form))
    by_letter: dict[str, list[str]] = {}
    for form in listed:
        rest = re.sub(r"\\?[- ]", r"[-\\s]*", re.escape(form[1:]))
        by_letter.setdefault(form[0].lower(), []).append(rest)
    parts = (f"{letter}(?:{'|'.join(rest)})" for letter, rest in by_letter.items())
    return re.compile(rf"\b(?:{'|'.join(parts)})\b")


@lru_cache(maxsize=4)
def _words(text: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(_pattern().findall(text.lower())))


def _even(form: str) -> str:
    return re.sub(r"[-\s]+", "", form).lower()


def list_spoken(text: str, *, loose: bool = True) -> frozenset[str]:
    """Return the names of the techniques that a text speaks of.

    The longest form at a place counts: ``palm-muted`` is no dead note. What is a kind of something
    speaks of that as well: a pre-bend of bends.

    Args:
        text: Prose.
        loose: Whether words count that mean other things as well.
    """
    spoken = _spoken(loose)
    found: set[str] = set()
    for word in _words(text):
        found |= spoken.get(_even(word), frozenset())
    for name in tuple(found):
        found.update(KINDS_OF.get(name, ()))
    return frozenset(found)


KINDS_OF: dict[str, tuple[str, ...]] = {
    "pre-bend": ("bend",),
    "behind-the-nut bend": ("bend",),
    "shift slide": ("slide",),
    "stopped harmonic": ("harmonic",),
    "pinch harmonic": ("harmonic",),
}
"""What a technique is a kind of: who speaks of the one speaks of the other."""
