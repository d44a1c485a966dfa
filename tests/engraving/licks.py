"""Music for the tests of engraving, built from its values without the reader or the timeline."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction

from lickwright.instrument.guitar import Guitar
from lickwright.instrument.tuning import parse_tuning
from lickwright.model.address import Address
from lickwright.model.music import ChordAt, Element, GraceNote, Line, Music, MusicBar, Sound, Tone, Tuplet, Value
from lickwright.model.slots import JoinKind
from lickwright.model.strike import Bend, BendKind, Dead, Fretted, Hammered, Harmonic, Late, Tapped
from lickwright.theory.chord import parse_chord
from lickwright.theory.key import parse_key
from lickwright.theory.meter import parse_meter

Q = Fraction


@dataclass(frozen=True)
class N:
    """A sound of a test: its length in quarters, its notes, and fields of ``Sound`` and ``Tone``.

    Notes are ``string:fret`` joined by ``+``; the fret may be ``x``, ``t12``, ``h5``, ``<12>``,
    ``2<14>``, with bends ``15b17r15``, late ones ``b17`` and ``r15``, and ``~``.
    """

    length: Fraction | int | str
    notes: str
    join: str = ""
    grace: tuple[str, ...] = ()
    more: dict = field(default_factory=dict)


@dataclass(frozen=True)
class R:
    """A rest."""

    length: Fraction | int | str


@dataclass(frozen=True)
class H:
    """The last sound, held."""

    length: Fraction | int | str


@dataclass(frozen=True)
class T:
    """A tuplet."""

    number: int
    normal: int
    members: tuple


class _Voice:
    def __init__(self, guitar: Guitar, lower: bool) -> None:
        self.guitar, self.lower = guitar, lower
        self.sounds: list[Sound] = []
        self.strings: dict[int, tuple[int, Fraction]] = {}

    def line(self, number: int, items: list) -> Line:
        self.bar, self.count, self.begun = number, 0, len(self.sounds)
        elements, filled = self._fill(items, Fraction(0), Fraction(1))
        return Line(tuple(elements), tuple(self.sounds[self.begun :]), filled)

    def _fill(self, items, onset, scale) -> tuple[list[Element], Fraction]:
        made: list[Element] = []
        for item in items:
            if isinstance(item, T):
                start = onset
                inner, onset = self._fill(item.members, onset, scale * Fraction(item.normal, item.number))
                made.append(Tuplet(item.number, item.normal, start, onset - start, tuple(inner)))
                continue
            length = Fraction(item.length) * scale
            address, tied = None, isinstance(item, H)
            if isinstance(item, N):
                self.count += 1
                address = Address(self.bar, self.count, self.lower)
                self._sound(item, address, onset, length)
            elif tied:
                last = self.sounds[-1]
                address = last.address
                self.sounds[-1] = replace(last, duration=last.duration + length)
                tied = True
            made.append(Value(onset, length, onset, onset + length, address, tied))
            onset += length
        return made, onset

    def _sound(self, item: N, address: Address, onset: Fraction, length: Fraction) -> None:
        join = JoinKind(item.join) if item.join else None
        grace = tuple(GraceNote(self._tones(text, None), JoinKind.HAMMER if i == len(item.grace) - 1 and "x" not in text else None) for i, text in enumerate(item.grace))
        before = self.sounds[-1].tones if self.sounds and join else ()
        tones = self._tones(item.notes, join, {t.string for t in before})
        more = dict(item.more)
        tone_more = more.pop("tone", {})
        tones = tuple(replace(tone, **tone_more) for tone in tones)
        late = all(isinstance(t.head, Late) for t in tones)
        if (join or late) and self.sounds:
            used = {t.string for t in tones}
            last = self.sounds[-1]
            self.sounds[-1] = replace(
                last, tones=tuple(replace(t, rings_through=int(t.string not in used)) for t in last.tones)
            )
        self.sounds.append(Sound(address, onset, length, onset, tones, join, grace, **more))

    def _tones(self, notes: str, join: JoinKind | None, linked: set[int] = frozenset()) -> tuple[Tone, ...]:
        return tuple(self._tone(text, join, linked) for text in notes.split("+"))

    def _tone(self, text: str, join: JoinKind | None, linked: set[int]) -> Tone:
        string_text, _, rest = text.partition(":")
        string = int(string_text)
        vibrato = rest.endswith("~")
        rest = rest.rstrip("~")
        open_ = self.guitar.open_midi(string)
        link = join if string in linked else None
        common = {"vibrato": vibrato, "link": link, "struck": link in (None, JoinKind.SHIFT)}
        if rest == "x":
            return Tone(string, Dead(), None, ())
        if rest.startswith(("b", "r")):
            kind, to = BendKind(rest[0]), Fraction(rest[1:])
            fret, now = self.strings[string]
            self.strings[string] = (fret, Fraction(open_) + to)
            bend = Bend(kind, to)
            return Tone(string, Late(bend), fret, (now, open_ + to), struck=False, bends=(bend,))
        if rest.startswith("t"):
            return Tone(string, Tapped(int(rest[1:])), int(rest[1:]), (Q(open_ + int(rest[1:])),), **common)
        if rest.startswith("h"):
            return Tone(string, Hammered(int(rest[1:])), int(rest[1:]), (Q(open_ + int(rest[1:])),), vibrato=vibrato)
        if "<" in rest:
            fret = int(rest.partition("<")[0] or 0)
            touch = Fraction(rest.partition("<")[2][:-1])
            up = {12: 12, 7: 19, 5: 24}.get(int(touch) - fret, 12)
            return Tone(string, Harmonic(fret, touch), fret, (Q(open_ + fret + up),), **common)
        fret_text, bends, at = "", [], 0
        while at < len(rest) and rest[at].isdigit():
            fret_text, at = fret_text + rest[at], at + 1
        while at < len(rest):
            sign = next(s for s in ("pb", "nb", "b", "r") if rest.startswith(s, at))
            at += len(sign)
            to = ""
            while at < len(rest) and rest[at] in "0123456789.":
                to, at = to + rest[at], at + 1
            bends.append(Bend(BendKind(sign), Fraction(to)))
        fret = int(fret_text)
        path = (Q(open_ + fret), *(open_ + bend.to for bend in bends))
        path = path[1:] if bends and bends[0].kind is BendKind.PRE else path
        self.strings[string] = (fret, path[-1])
        return Tone(string, Fretted(fret), fret, path, bends=tuple(bends), **common)


def music(
    bars: list[list],
    *,
    low: dict[int, list] | None = None,
    key: str = "A major",
    meter: str = "4/4",
    chords: dict[int, str] | None = None,
    tuning: str = "E2 A2 D3 G3 B3 E4",
    capo: int = 0,
    pickup: bool = False,
    meters: dict[int, str] | None = None,
    more: dict[int, dict] | None = None,
    swung: bool = False,
) -> Music:
    """Build music; bars are lists of ``N R H T``, numbered from 1 (0 with a pickup)."""
    guitar = Guitar(parse_tuning(tuning), capo)
    upper, lower = _Voice(guitar, False), _Voice(guitar, True)
    made = []
    force = parse_meter(meter)
    lines = []
    for index, items in enumerate(bars):
        number = index if pickup else index + 1
        top = upper.line(number, items)
        bottom = lower.line(number, low[number]) if low and number in low else None
        changed = bool(meters and number in meters)
        force = parse_meter(meters[number]) if changed else force
        lines.append((number, force, changed, top, bottom))
    for number, in_force, changed, top, bottom in lines:
        begins = (chords or {}).get(number, "")
        at = []
        for text in begins.split():
            name, _, place = text.partition("@")
            symbol = parse_chord(name.rstrip("'"))
            assert symbol is not None, name
            at.append(ChordAt(Fraction(place or 0), symbol, stop=name.endswith("'")))
        if not at:
            at = [ChordAt(Fraction(0), parse_chord("N.C."), carried=True)]
        length = top.filled if pickup and number == 0 else in_force.length
        made.append(
            MusicBar(
                number, in_force, changed or number == lines[0][0], length, tuple(at),
                _current(top, upper), bottom and _current(bottom, lower), in_force.length - length, **(more or {}).get(number, {}),
            )
        )  # fmt: skip
    return Music(parse_key(key), guitar, tuple(made), tuple(range(len(made))), swung)


def _current(line: Line, voice: _Voice) -> Line:
    """The line with its sounds as later holds and joins have left them."""
    now = {sound.address: sound for sound in voice.sounds}
    return replace(line, sounds=tuple(now[sound.address] for sound in line.sounds))


def torture() -> Music:
    """Every sign there is, once at least."""
    bars = [
        [N("1/2", "5:0", more={"stroke": "d", "tone": {"finger": "0"}}), N("1/2", "5:4", more={"stroke": "u", "tone": {"finger": "3"}}), N("1/2", "4:2", more={"stroke": "d"}), N("1/2", "4:4", "s"),
         N(1, "2:8b10r8"), N(1, "2:8b10~", more={"accent": True})],
        [N("1/2", "3:2", more={"position": 2}), N("1/2", "3:4", "h", more={"position": 2}), N("1/2", "3:2", "p", more={"position": 2}), N("1/2", "3:5", more={"position": 5}), N("1/2", "3:7", "s!", more={"position": 5}),
         N("1/2", "4:4", grace=("4:2",), more={"position": 5}), N(1, "2:3+3:4", more={"ring": 1, "stroke": "P"})],
        [N("1/2", "6:3", more={"mute": 1, "ring": 0}), N("1/2", "6:3", more={"mute": 1}), N("1/2", "5:x", more={"mute": 1}), N("1/2", "5:x", more={"mute": 1}), N(1, "1:<12>"), N("1/2", "2:t15"), N("1/2", "2:12", "p")],
        [N(1, "2:12pb14"), N("1/2", "2:r12"), N("1/2", "1:10", more={"signs": ("ghost",)}), N("1/2", "3:12b14"), N("1/2", "3:r12"), N(1, "3:12~", more={"signs": ("wide",)})],
        [T(3, 2, (N("1/2", "3:2"), N("1/2", "3:4", "h"), N("1/2", "3:5", "h"))), T(5, 4, tuple(N("1/4", f"2:{f}") for f in (5, 6, 7, 8, 9))), N(1, "1:5", more={"slide_in": None, "slide_out": None, "short": True}), N(1, "2:15b15.5")],
        [N(1, "6:3+5:2+4:0+3:0+2:0+1:3", more={"spread": True}), N(1, "3:2", more={"signs": ("tremolo",)}), N(1, "3:2", more={"signs": ("trill4",)}), N(1, "3:7", more={"signs": ("swell", "fermata")})],
        [N("1/2", "4:2", more={"ring": 2, "tone": {"hand": "p"}}), N("1/2", "3:2", more={"ring": 2, "tone": {"hand": "i"}}), N("1/2", "2:3", more={"ring": 2, "tone": {"hand": "m"}}), N("1/2", "1:0", more={"ring": 2}), N(2, "2:2+3:2", more={"ring": 2})],
        [H(1), N(1, "1:5+2:5", more={"signs": ("pinch",)}), N(1, "4:x", more={"signs": ("scrape",)}), R("1/2"), N("1/2", "5:h5")],
        [N(1, "1:12+2:15b17"), N(1, "2:14+3:14b16"), N("1/2", "3:b16" if False else "3:14"), N("1/2", "3:16", "h"), N(1, "2:5", grace=("5:x", "4:x", "3:x"), more={"signs": ("rit",)})],
        [N(1, "4:2<14>"), N(1, "3:0nb2"), N(2, "4:7b9", more={"signs": ()})],
    ]  # fmt: skip
    from lickwright.model.strike import Slide

    made = music(
        bars,
        chords={1: "A7 D7@2", 2: "Bbm7b5'", 3: "N.C.", 5: "E7/G#", 7: "F#m7 Bm7@2", 9: "A"},
        low={7: [N(2, "6:0"), N(2, "6:0")], 8: [N(1, "5:0"), R(1), N(2, "5:0")]},
        more={1: {"opens": True}, 4: {"endings": (1,), "closes": True, "ending_closed": True}, 5: {"endings": (2,), "ending_closed": True}, 6: {"mark": "Gate swing <b>"}},
        swung=True,
    )  # fmt: skip
    bar = made.bars[4]
    sounds = list(bar.upper.sounds)
    sounds[-2] = replace(sounds[-2], slide_in=Slide.RISING, slide_out=Slide.FALLING)
    return replace(
        made, bars=(*made.bars[:4], replace(bar, upper=replace(bar.upper, sounds=tuple(sounds))), *made.bars[5:])
    )
