"""What each string does through a piece: what leads where without a stroke, what sounds how long.

Conventions: times are quarters from the start of the music as written; repeats are not unfolded.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from lickwright.findings import Edit, Fix
from lickwright.model.address import Address
from lickwright.model.music import Music, MusicBar, Sound, Tone
from lickwright.model.place import NOWHERE
from lickwright.model.slots import JoinKind
from lickwright.text import Span


@dataclass(frozen=True, slots=True)
class Lead:
    """A tone reached from another on its string without a new stroke (after ``s!`` with one).

    Attributes:
        kind: How. ``before``, ``after``: the two tones.
        address: Of the sound reached.
        span: Of the tone reached.
        sign: Where the join is written; nowhere for that of a grace note.
    """

    kind: JoinKind
    before: Tone
    after: Tone
    address: Address
    span: Span
    sign: Span = NOWHERE

    def write(self, kind: JoinKind) -> Fix | None:
        """Return another join in the place of this one; None where its sign does not stand in the text."""
        if self.sign.text != self.kind.value:
            return None
        return Fix(f"write {kind.value}", (Edit(self.sign, kind.value),))


@dataclass(frozen=True, slots=True)
class Held:
    """A tone and how long its string sounds it, let ring counted in."""

    tone: Tone
    sound: Sound
    start: Fraction
    end: Fraction


def walk(music: Music, *, lower: bool) -> Iterator[tuple[MusicBar, Sound, Fraction]]:
    """Yield the sounds of a voice in the order written, each with its bar and its onset."""
    start = Fraction(0)
    for bar in music.bars:
        line = bar.lower if lower else bar.upper
        if line is not None:
            for sound in line.sounds:
                yield bar, sound, start + sound.onset
        start += bar.length


def list_leads(music: Music) -> tuple[Lead, ...]:
    """Return every hammer-on, pull-off and slide of the piece, grace notes among them."""
    voices = (False, True) if music.has_lower else (False,)
    return tuple(lead for lower in voices for lead in _leads(music, lower=lower))


def _leads(music: Music, *, lower: bool) -> Iterator[Lead]:
    strings: dict[int, Tone] = {}
    lines = (bar.lower if lower else bar.upper for bar in music.bars)
    for sound in (sound for line in lines if line is not None for sound in line.sounds):
        kind: JoinKind | None = None
        for grace in sound.grace:
            for tone in grace.tones:
                before = strings.get(tone.string)
                if kind is not None and before is not None:
                    yield Lead(kind, before, tone, sound.address, tone.span)
            strings.update((tone.string, tone) for tone in grace.tones)
            kind = grace.leads
        led = {t.string for t in sound.grace[-1].tones} if sound.grace and kind is not None else set()
        for tone in sound.tones:
            before = strings.get(tone.string)
            link = kind if tone.string in led else tone.link
            if link is not None and before is not None and not tone.tied:
                sign = NOWHERE if tone.string in led else sound.join_span
                yield Lead(link, before, tone, sound.address, tone.span, sign)
        strings.update((tone.string, tone) for tone in sound.tones)


_SLURS = {JoinKind.HAMMER: JoinKind.PULL, JoinKind.PULL: JoinKind.HAMMER}


def list_wrong_way(leads: Iterable[Lead], kind: JoinKind) -> Iterator[tuple[Lead, Fix | None]]:
    """Yield each hammer-on that falls, or pull-off that rises, with the other sign as its fix.

    A join leads all strings of a chord: where one of them goes the right way, no sign is right for all.
    """
    mine = [lead for lead in leads if lead.kind is kind]
    wrong = [lead for lead in mine if _goes_wrong(lead)]
    for lead in wrong:
        together = [other for other in mine if other.address == lead.address]
        yield lead, lead.write(_SLURS[kind]) if all(map(_goes_wrong, together)) else None


def _goes_wrong(lead: Lead) -> bool:
    before, after = lead.before.fret, lead.after.fret
    if before is None or after is None or before == after:
        return False
    return (after > before) is (lead.kind is JoinKind.PULL)


def overlap(music: Music) -> bool:
    """Whether two strings ever sound together: two voices, a chord or a let-ring bracket. Quick to ask."""
    return music.has_lower or any(
        sound.ring or len(sound.tones) > 1 for bar in music.bars for sound in bar.upper.sounds
    )


def list_held(music: Music) -> tuple[Held, ...]:
    """Return every pitched tone with the time its string sounds it, by its start.

    In a let-ring bracket a tone sounds until its string is used again or the bracket closes.
    """
    held: list[Held] = []
    for lower in (False, True) if music.has_lower else (False,):
        voice = [(sound, at, at + sound.duration) for _, sound, at in walk(music, lower=lower)]
        for index, (sound, at, end) in enumerate(voice):
            for tone in sound.tones:
                if tone.path:
                    rings = sound.ring or tone.rings_through
                    held.append(Held(tone, sound, at, _end(voice, index, tone) if rings else end))
    if music.has_lower:
        held.sort(key=lambda h: h.start)
    return tuple(held)


def _end(voice: list[tuple[Sound, Fraction, Fraction]], index: int, tone: Tone) -> Fraction:
    sound, _, end = voice[index]
    through = tone.rings_through
    for place in range(index + 1, len(voice)):  # not a slice: that would copy the rest for every tone
        later, _, until = voice[place]
        rings = through > 0 or (sound.ring and later.ring == sound.ring)
        if not rings or any(t.string == tone.string for t in later.tones):
            break
        end = max(end, until)
        through -= 1
    return end
