"""A hammer-on, pull-off or trill over more frets than the hand spans.

Both fingers are on the string for a moment: the one that stays and the one that comes or goes. Measured in
millimetres, between the two fingers where the `lh` row gives them, else for the whole hand; open strings and
tapped notes need no reach.

Why it matters: beyond the reach of the hand the finger that should stay is dragged off, and the slur has no
second note. Forcing a stretch can hurt; a teacher or clinician knows better than a rule.

What to do: look at the frets; slide to the second note, strike it, or take it on the next string.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.limits import limit_name
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.wording import SLURS
from lickwright.instrument.fretboard import span
from lickwright.instrument.hand import FINGERS
from lickwright.model.address import Address
from lickwright.model.music import Sound, Tone
from lickwright.model.strike import Tapped
from lickwright.terms.signs import parse_sign
from lickwright.text import Span

TRILL = "trill"


def run(subject: Subject) -> Iterator[Finding]:
    """Measure every slur between fretted notes, then every trill."""
    for lead in subject.leads:
        before, after = lead.before, lead.after
        if lead.kind not in SLURS or isinstance(before.head, Tapped) or isinstance(after.head, Tapped):
            continue
        if before.fret and after.fret:
            name = _pair(before, after)
            yield from _measure(
                subject, SLURS[lead.kind], (before.fret, after.fret), name, lead.span, lead.address
            )
    for onset in subject.onsets:
        yield from _measure_trill(subject, onset.sound)


def _measure_trill(subject: Subject, sound: Sound) -> Iterator[Finding]:
    """Measure from the nearest fret held: on which of several notes the trill is, is not written."""
    read = [sign for entry in sound.signs if (sign := parse_sign(entry))]
    other = next((fret for sign, fret in read if sign.word == TRILL), None)
    frets = [tone.fret for tone in sound.tones if tone.fret and not isinstance(tone.head, Tapped)]
    if other is not None and frets:
        guitar = subject.piece.music.guitar
        nearest = min(frets, key=lambda fret: span(fret, other, guitar.scale_length, guitar.capo))
        yield from _measure(subject, TRILL, (nearest, other), "stretch", sound.span, sound.address)


def _pair(before: Tone, after: Tone) -> str:
    """The name of the limits of two fingers; of the whole hand where one of them is not said."""
    fingers = sorted({int(f) for f in (before.finger, after.finger) if f in FINGERS})
    return limit_name(*fingers) if len(fingers) > 1 else "stretch"


def _measure(
    subject: Subject, what: str, frets: tuple[int, int], limit: str, at: Span, address: Address
) -> Iterator[Finding]:
    guitar = subject.piece.music.guitar
    size = span(*frets, guitar.scale_length, guitar.capo)
    if not frets[1] or size <= subject.limits[f"{limit}-query"]:
        return
    severe = size > subject.limits[f"{limit}-error"]
    who = "a hand" if limit == "stretch" else "fingers {} and {}".format(*limit.split("-")[1:])
    reach = "can reach" if severe else f"reach{'es' if limit == 'stretch' else ''} easily"
    yield subject.report(
        RULE,
        f"a {what} between frets {frets[0]} and {frets[1]}, {size:.0f} mm apart: more than {who} {reach}",
        at,
        address,
        severity=Severity.ERROR if severe else Severity.QUERY,
        help="Slide to the second note, strike it, or take it on the next string",
    )


RULE = Rule(
    id="hands/slur-reach",
    title="A slur wider than the hand",
    severity=Severity.ERROR,
    source=Source("own threshold", "Fret geometry is exact; the reach of a hand in mm is our own figure"),
    good=(
        Example("D | 4:7 - p 4:5 - 4:2 - p 4:0 -"),
        Example("A | 1:9 - p 1:5 - 1:14 - p 1:9 -"),
        Example("A | 4:2 - - - - - - -\n  signs | trill4"),
        Example("A | 3:t14 - - - - - - -\n  signs | trill2"),
    ),
    bad=(
        Example("A | 4:9 - p 4:2 - 5:0 - - -", marks=("4:2",)),
        Example("E | 6:4 - h 6:7 - 6:0 - - -\n  lh | 1 2 0", marks=("6:7",)),
        Example("A | 4:2 - - - - - - -\n  signs | trill9", marks=("4:2",)),
    ),
    run=run,
)
