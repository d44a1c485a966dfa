"""The blind player: reads a piece said in words and holds the music again.

Written from the words alone, without sight of the package that says them, and nothing is imported from it:
what the words leave out or leave open, this reader cannot give back.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Protocol

from headings import Heading, heading
from heard import HeardBar, HeardPiece, HeardSound, HeardTone, HeardVoice
from order_heard import order
from phrases import (
    BRACKET,
    JOINS,
    SIGNS,
    SLIDES_IN,
    SLIDES_OUT,
    STROKES,
    TRILL,
    TUPLET,
    MisheardError,
    length,
    ordinal,
    place,
)
from tones_heard import grace, tones


class SpokenBar(Protocol):
    """A bar in words: its number, its heading, and the voices with their names."""

    @property
    def number(self) -> int:
        """As counted in addresses."""

    @property
    def heading(self) -> str:
        """What is said at its head."""

    @property
    def voices(self) -> Sequence[tuple[str, str]]:
        """Name and line of each, upper first."""


def listen(bars: Iterable[SpokenBar]) -> HeardPiece:
    """Give back the music of a piece in words.

    Raises:
        MisheardError: When a word tells nothing, or contradicts what it stands by.
    """
    upper, lower = _Voice(), _Voice()
    heard: list[HeardBar] = []
    meter: tuple[int, int] | None = None
    ending: tuple[int, ...] = ()
    for bar in bars:
        head = heading(bar.heading, meter)
        meter = head.meter
        if head.number != bar.number:
            raise MisheardError(f"bar {bar.number} calls itself {head.number}")
        names = [name for name, _ in bar.voices]
        if names not in (["Upper voice", "Lower voice"], [""]):
            raise MisheardError(f"no such voices: {names}")
        lines = [line for _, line in bar.voices]
        top = upper.bar(lines[0], head)
        below = lower.bar(lines[1], head) if lines[1:] else None
        ending = head.endings or ending
        heard.append(_bar(head, top, below, ended=head.ending_closed or bool(ending and head.closes)))
        ending = () if heard[-1].ending_closed else ending
    rings = [upper.rings(), lower.rings()]
    told = tuple(
        replace(bar, upper=_ringing(bar.upper, rings[0]), lower=bar.lower and _ringing(bar.lower, rings[1]))
        for bar in heard
    )
    return HeardPiece(told, order(told))


def _bar(head: Heading, upper: HeardVoice, lower: HeardVoice | None, *, ended: bool) -> HeardBar:
    """A bar; the bracket of an ending is closed by the repeat sign, unsaid (common practice)."""
    return HeardBar(
        head.number,
        head.meter,
        head.meter_told,
        head.length,
        head.offset,
        head.chords,
        head.opens,
        head.closes,
        head.times,
        head.endings,
        ended,
        head.mark,
        head.position,
        upper,
        lower,
    )


def _ringing(voice: HeardVoice, rings: dict[int, dict[int, int]]) -> HeardVoice:
    sounds = tuple(
        replace(
            sound,
            tones=tuple(replace(t, rings_through=rings[id(sound)].get(t.string, 0)) for t in sound.tones),
        )
        for sound in voice.sounds
    )
    return replace(voice, sounds=sounds)


@dataclass
class _Voice:
    """What a listener keeps in mind of a voice from sentence to sentence."""

    sounding: dict[int, Fraction | None] = field(default_factory=dict)
    brackets: dict[str, int] = field(default_factory=lambda: {"let ring": 0, "palm mute": 0})
    open: set[str] = field(default_factory=set)
    position: int | None = None
    all: list[HeardSound] = field(default_factory=list)

    def bar(self, line: str, head: Heading) -> HeardVoice:
        """Read the sentences of a bar."""
        held = Fraction(0)
        sounds: list[HeardSound] = []
        rests: list[tuple[Fraction, Fraction]] = []
        tuplets: list[tuple[Fraction, int, int]] = []
        if not line.endswith("."):
            raise MisheardError(f"not ended: {line}")
        for sentence in line.removesuffix(".").split(". "):
            at, colon, said = sentence.partition(": ")
            if not colon:
                raise MisheardError(f"no place: {sentence}")
            onset = place(at, head.meter) - head.offset
            parts = said.split("; ")
            tuplets += [(onset, int(t[1]), int(t[2])) for t in map(TUPLET.fullmatch, parts) if t]
            parts = [part for part in parts if not TUPLET.fullmatch(part)]
            if parts[0] == "rest":
                rests.append((onset, _only_length(parts[1:], head.usual)))
                self.sounding.clear()
            elif parts[0] == "the sound before is held":
                if onset or sounds or rests:
                    raise MisheardError(f"held after the bar has begun: {sentence}")
                held = _only_length(parts[1:], head.usual)
            elif parts == ["still held"]:
                continue  # a group begins under it
            else:
                sounds.append(self.sound(onset, parts, head.usual))
                self.all.append(sounds[-1])
        return HeardVoice(held, tuple(sounds), tuple(rests), tuple(tuplets))

    def sound(self, onset: Fraction, parts: list[str], usual: Fraction | None) -> HeardSound:
        """Read the parts of a sound's sentence."""
        graces = [part for part in parts if part.startswith("grace note ")]
        said, *also = parts[len(graces) :] or [""]
        join, strings = None, said
        for phrase, letter in JOINS.items():
            if said.startswith(phrase):
                join, strings = letter, said.removeprefix(phrase)
        told = self.begun(tones(strings), join)
        once: dict[str, str] = {}
        signs: list[str] = []
        lasts = usual
        closing: set[str] = set()
        for part in also:
            trill, bracket, lasting = TRILL.fullmatch(part), BRACKET.fullmatch(part), length(part)
            if bracket:
                self.bracket(bracket[1], bracket[2], bracket[3], closing)
            elif trill or part in SIGNS:
                signs.append(f"trill{trill[1]}" if trill else SIGNS[part])
            else:
                key = "length" if lasting is not None else _key(part)
                if key in once:
                    raise MisheardError(f"told twice: {part}")
                once[key] = part
                lasts = lasting if lasting is not None else lasts
        if lasts is None:
            raise MisheardError(f"how long? {parts}")
        sound = HeardSound(
            onset,
            lasts,
            join,
            told,
            tuple(map(grace, graces)),
            SLIDES_IN.get(once.get("slide in", "")),
            SLIDES_OUT.get(once.get("slide out", "")),
            "accent" in once,
            "short" in once,
            "spread from low to high" in once,
            STROKES.get(once.get("stroke", "")),
            tuple(sorted(signs)),
            self.brackets["let ring"] if "let ring" in self.open else 0,
            self.brackets["palm mute"] if "palm mute" in self.open else 0,
            self.position,
        )
        self.open -= closing
        if "position" in closing:
            self.position = None
        return sound

    def bracket(self, kind: str, position: str | None, way: str, closing: set[str]) -> None:
        """Open a bracket, or note that it closes with this sound."""
        name = "position" if position else kind
        if way == "from":
            if name in self.open:
                raise MisheardError(f"begun twice: {kind}")
            self.open.add(name)
            if position:
                self.position = ordinal(position)
            else:
                self.brackets[kind] += 1
        elif name not in self.open or (position and self.position != ordinal(position)):
            raise MisheardError(f"ended, but not begun: {kind}")
        else:
            closing.add(name)

    def begun(self, told: tuple[HeardTone, ...], join: str | None) -> tuple[HeardTone, ...]:
        """Settle how each tone begins: a join leads on the strings that sound, others are struck."""
        if join is None and any(tone.begun == "tied" for tone in told):
            raise MisheardError(f"rings on from nothing: {told}")
        found = []
        for tone in told:
            begins = tone.bends[0].to if tone.bends and tone.bends[0].kind == "pre" else tone.fret
            begun = tone.begun
            if join and begun == "struck" and tone.string in self.sounding:
                same = join == "s!" and self.sounding[tone.string] == begins
                begun = "struck" if same else "shifted" if join == "s!" else "joined"
            found.append(replace(tone, begun="late" if tone.head == "late" else begun))
        if join is None:
            self.sounding.clear()
        for tone in told:
            self.sounding[tone.string] = (
                tone.bends[-1].to if tone.bends else None if tone.fret is None else Fraction(tone.fret)
            )
        return tuple(found)

    def rings(self) -> dict[int, dict[int, int]]:
        """Through how many joined sounds each string of each sound rings on, by the sound's identity."""
        found: dict[int, dict[int, int]] = {}
        for index, sound in enumerate(self.all):
            found[id(sound)] = counts = {}
            for tone in sound.tones:
                count = 0
                for later in self.all[index + 1 :]:
                    stroke = later.join is None and any(other.head != "late" for other in later.tones)
                    if stroke or tone.string in {other.string for other in later.tones}:
                        break
                    count += 1
                counts[tone.string] = count
        return found


def _only_length(parts: list[str], usual: Fraction | None) -> Fraction:
    told = length(parts[0]) if len(parts) == 1 else usual
    if told is None or len(parts) > 1:
        raise MisheardError(f"no length alone: {parts}")
    return told


def _key(part: str) -> str:
    for key, table in (("slide in", SLIDES_IN), ("slide out", SLIDES_OUT), ("stroke", STROKES)):
        if part in table:
            return key
    if part not in {"accent", "short", "spread from low to high"}:
        raise MisheardError(f"nothing told of a sound by: {part}")
    return part
