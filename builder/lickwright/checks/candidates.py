"""What a note may have been meant to be: the slips of a finger that types, the likeliest first.

One and two frets up and down, the digits of a fret or string and fret exchanged, the same fret on the strings
beside, an octave, and the same note on another string; of a bend, its target a half step either way; what the
names row gives, where it lies under the hand.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from statistics import median

from lickwright.checks.subject import Subject
from lickwright.checks.wording import count_word
from lickwright.instrument.fingering import place
from lickwright.model.music import Sound, Tone
from lickwright.model.strike import Fretted, Hammered, Tapped
from lickwright.theory.pitch import PitchClass


@dataclass(frozen=True, slots=True)
class Candidate:
    """A note to be tried in the place of another.

    Attributes:
        tone: The note. ``how``: ``one fret higher``.
        text: As an author writes it, ``4:4~``; empty where the author must see to it.
    """

    tone: Tone
    how: str
    text: str


Place = tuple[int, int, str]
"""String, fret, and how it differs from what is written."""


def list_frets_beside(subject: Subject, sound: Sound) -> list[int]:
    """Frets of the sounds before and after, in the same voice."""
    voice = [w.sound for w in subject.tones if w.sound.address.lower == sound.address.lower]
    at = next((k for k, other in enumerate(voice) if other is sound), 0)
    beside = [other for other in voice[max(0, at - 3) : at + 4] if other is not sound]
    return [tone.fret for other in beside for tone in other.tones if tone.fret is not None]


def list_candidates(
    subject: Subject, sound: Sound, index: int, *, reached: bool = False
) -> Iterator[Candidate]:
    """Yield what is worth trying for a tone, the likeliest slip first.

    Args:
        subject: Its piece.
        sound: Where it is.
        index: Of the tone in it.
        reached: Whether it is only where the note lies that is in doubt: then the same note, its octave and
            a slipped digit are tried, and none that would be another note beside it.
    """
    tone = sound.tones[index]
    if tone.tied or tone.fret is None or not isinstance(tone.head, Fretted | Tapped | Hammered):
        return
    if tone.bends:
        yield from () if reached else _bent(tone)
        return
    used = {other.string for k, other in enumerate(sound.tones) if k != index}
    partners = _partners(subject, tone)
    at = tone.string, tone.fret
    slips = (
        (*_digits(*at), *_octaves(*at))
        if reached
        else (*_steps(*at), *_digits(*at), *_beside(*at), *_octaves(*at))
    )
    for string, fret, how in (*slips, *_same_note(subject, sound, tone)):
        if string in used or fret in partners or (partners and string != tone.string):
            continue
        guitar = subject.piece.music.guitar
        if guitar.has_string(string) and guitar.has_fret(fret):
            yield Candidate(_put(subject, tone, string, fret), how, _text(tone, string, fret))


def list_named(subject: Subject, sound: Sound, index: int) -> Iterator[Candidate]:
    """Yield where the note that the names row gives lies under the hand, on other strings too."""
    tone, guitar = sound.tones[index], subject.piece.music.guitar
    said = PitchClass.parse(tone.name or "")
    beside = [fret for fret in list_frets_beside(subject, sound) if fret]
    if said is None or not beside or tone.tied or not isinstance(tone.head, Fretted) or tone.bends:
        return
    used = {other.string for k, other in enumerate(sound.tones) if k != index}
    if _partners(subject, tone):
        return
    heard = int(tone.path[0])
    for string in sorted(range(1, guitar.strings + 1), key=lambda s: abs(s - tone.string)):
        for fret in range(max(1, min(beside) - 1), max(beside) + 2):
            midi = guitar.midi(string, fret)
            if string in used or midi % 12 != said.semitone or abs(midi - heard) > 7:
                continue
            if guitar.has_fret(fret) and (string, fret) != (tone.string, tone.fret):
                how = f"string {string}, fret {fret},"
                yield Candidate(_put(subject, tone, string, fret), how, _text(tone, string, fret))


def _steps(string: int, fret: int) -> Iterator[Place]:
    for frets in (1, -1, 2, -2):
        plural = "s" if abs(frets) > 1 else ""
        yield (
            string,
            fret + frets,
            f"{count_word(abs(frets))} fret{plural} {'higher' if frets > 0 else 'lower'}",
        )


def _digits(string: int, fret: int) -> Iterator[Place]:
    if fret > 9 and fret % 10 != fret // 10:
        yield string, fret % 10, f"fret {fret % 10}, a digit fewer,"
    if fret % 10 and (turned := int(str(fret)[::-1])) != fret:
        yield string, turned, f"fret {turned}, its digits exchanged,"
    if fret != string:
        yield fret, string, f"string {fret}, fret {string}, the two exchanged,"


def _beside(string: int, fret: int) -> Iterator[Place]:
    for beside in (string - 1, string + 1):
        yield beside, fret, f"the same fret on string {beside}"


def _octaves(string: int, fret: int) -> Iterator[Place]:
    for octave in (12, -12):
        yield string, fret + octave, f"twelve frets {'higher' if octave > 0 else 'lower'}"


def _same_note(subject: Subject, sound: Sound, tone: Tone) -> Iterator[Place]:
    """Where else the note lies, nearest to the notes around it first."""
    places = place(int(tone.path[0]), subject.piece.music.guitar) if tone.path else ()
    near = [fret for fret in list_frets_beside(subject, sound) if fret]
    for string, fret in sorted(places, key=lambda each: abs(each[1] - median(near or [each[1]]))):
        if fret and string != tone.string:
            yield string, fret, f"the same note on string {string}"


def _bent(tone: Tone) -> Iterator[Candidate]:
    """The highest target of a bend a half step further or less far."""
    top = max(bend.to for bend in tone.bends)
    for steps in (1, -1):
        bends = tuple(replace(b, to=b.to + steps) if b.to == top else b for b in tone.bends)
        if tone.fret is None or any(bend.to < tone.fret for bend in bends):
            continue
        before = len(tone.path) - len(tone.bends)  # the fretted pitch, but where it is bent beforehand
        moved = (p + steps if b.to == top else p for b, p in zip(tone.bends, tone.path[before:], strict=True))
        how = f"bent one half step {'higher' if steps > 0 else 'lower'}"
        path = (*tone.path[:before], *moved)
        yield Candidate(replace(tone, bends=bends, path=path), how, _bent_text(tone, top, steps))


def _bent_text(tone: Tone, top: Fraction, steps: int) -> str:
    """The note as written, its highest target moved; nothing where it stands otherwise in the text."""
    text, at = tone.span.text, 0
    for bend in tone.bends:
        typed = f"{bend.kind.value}{float(bend.to):g}"
        at = text.find(typed, at)
        if at < 0:
            return ""
        put = f"{bend.kind.value}{float(bend.to + steps):g}" if bend.to == top else typed
        text, at = text[:at] + put + text[at + len(typed) :], at + len(put)
    return text


def _put(subject: Subject, tone: Tone, string: int, fret: int) -> Tone:
    guitar = subject.piece.music.guitar
    pitch = type(tone.path[0])(guitar.midi(string, fret))
    head = replace(tone.head, fret=fret) if isinstance(tone.head, Fretted | Tapped | Hammered) else tone.head
    return replace(tone, string=string, fret=fret, head=head, path=(pitch,))


def _text(tone: Tone, string: int, fret: int) -> str:
    """The note as written, string and fret exchanged; nothing where it stands otherwise in the text."""
    letter = {Tapped: "t", Hammered: "h"}.get(type(tone.head), "")
    start = f"{tone.string}:{letter}{tone.fret}"
    rest = tone.span.text.removeprefix(start)
    if not tone.span.text.startswith(start) or rest[:1].isdigit():
        return ""
    return f"{string}:{letter}{fret}{rest}"


def _partners(subject: Subject, tone: Tone) -> frozenset[int | None]:
    """Frets that the tone is led from or leads to without a stroke: it stays on the string, and moves."""
    before = {lead.before.fret for lead in subject.leads if lead.after is tone}
    return frozenset(before | {lead.after.fret for lead in subject.leads if lead.before is tone})
