"""Strategies for every value of the language: notes, slots, rows, margins, fields, blocks."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from hypothesis import strategies as st

from lickwright.instrument.tuning import parse_tuning
from lickwright.model.address import Address, AddressRange
from lickwright.model.bar import Bar, Entry, Margin, MarginChord, Row, Voice
from lickwright.model.blocks import (
    Chorus,
    ChorusPart,
    Excerpt,
    Lick,
    NeckBlock,
    OpenStringsBlock,
    Progression,
    ScaleBlock,
    TunerBlock,
)
from lickwright.model.fields import (
    CLAIM_KINDS,
    FEELS,
    Change,
    Claim,
    Over,
    Picking,
    PositionClaim,
    Provenance,
    Shape,
    Stet,
    Take,
    Tempo,
)
from lickwright.model.slots import BracketKind, Closing, Grace, Group, Hold, Join, JoinKind, Opening, Rest
from lickwright.model.strike import (
    Bend,
    BendKind,
    Dead,
    Fretted,
    Hammered,
    Harmonic,
    Late,
    Note,
    Slide,
    Strike,
    Tapped,
)
from lickwright.terms.signs import TABLE
from lickwright.theory.chord import parse_chord
from lickwright.theory.key import parse_key
from lickwright.theory.meter import Meter

if TYPE_CHECKING:
    pass

CHORDS = [parse_chord(text) for text in ("A", "D7", "F#m7b5", "Bb6/9", "G/B", "N.C.", "Em(maj7)", "C7#9")]
KEYS = [parse_key(text) for text in ("A major", "F# minor", "Bb mixolydian", "D dorian")]
TUNINGS = [parse_tuning(text) for text in ("D2 A2 D3 F#3 A3 D4", "B1 E2 A2 D3 G3 B3 E4")]
SIGNS = tuple(  # a trill to a fret that no note holds; a dead note alone may have a scrape
    f"{sign.word}30" if sign.takes_fret else sign.word for sign in TABLE if sign.word != "scrape"
)
FRETS = st.integers(0, 24)
FLAGS = st.booleans()
NAMES = st.from_regex(r"[a-z][a-z0-9]{0,6}(-[a-z0-9]{1,5}){0,2}", fullmatch=True)
WORDS = st.text(st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp")), min_size=1, max_size=24).filter(
    lambda text: text == text.strip() and "\n" not in text
)
TAGS = WORDS.map(lambda text: " ".join(text.replace(",", "").split())).filter(bool)


def maybe(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


@st.composite
def bends(draw: st.DrawFn, fret: int) -> tuple[Bend, ...]:
    """Bends that go up and releases that go down, beginning as a bend may."""
    kinds = [BendKind.UP, BendKind.PRE] + ([BendKind.NUT] if fret == 0 else [])
    now = Fraction(fret) + draw(st.integers(1, 4)) + draw(st.sampled_from([Fraction(0), Fraction(1, 2)]))
    found = [Bend(draw(st.sampled_from(kinds)), now)]
    if draw(FLAGS):
        now = draw(st.integers(0, int((now - fret) * 2) - 1)) * Fraction(1, 2) + fret
        found.append(Bend(BendKind.RELEASE, now))
        if draw(FLAGS):
            found.append(Bend(BendKind.UP, now + draw(st.integers(1, 3))))
    return tuple(found)


@st.composite
def notes(draw: st.DrawFn, string: int, *, late: bool) -> Note:
    kind = draw(st.sampled_from(["fret", "fret", "fret", "dead", "tap", "hammer", "harmonic", "late"]))
    fret = draw(FRETS)
    vibrato = draw(FLAGS)
    if kind == "late" and late:
        to = draw(FRETS) + draw(st.sampled_from([Fraction(0), Fraction(1, 2)]))
        return Note(string, Late(Bend(draw(st.sampled_from([BendKind.UP, BendKind.RELEASE])), to)))
    if kind == "dead":
        return Note(string, Dead())
    if kind == "harmonic":
        touch = draw(st.sampled_from([Fraction("2.7"), Fraction("3.2"), Fraction(5), Fraction(12)]))
        return Note(string, Harmonic(fret, fret + touch), (), vibrato)
    bent = draw(bends(fret)) if draw(st.integers(0, 3)) == 0 else ()
    fretted = {"tap": Tapped(fret), "hammer": Hammered(fret)} if fret else {}
    head = fretted.get(kind, Fretted(fret))
    return Note(string, head, bent, vibrato)


@st.composite
def strikes(draw: st.DrawFn, shapes: tuple[Shape, ...] = (), *, late: bool = True) -> Strike:
    signs = (
        draw(maybe(st.sampled_from(Slide))),
        draw(maybe(st.sampled_from(Slide))),
        draw(FLAGS),
        draw(FLAGS),
        draw(FLAGS),
    )
    if shapes and draw(st.integers(0, 4)) == 0:
        shape = draw(st.sampled_from(shapes))
        said = shape.strike
        return Strike(
            said.notes,
            signs[0] or said.slide_in,
            signs[1] or said.slide_out,
            signs[2] or said.accent,
            signs[3] or said.short,
            signs[4] or said.spread,
            shape.name,
        )
    strings = draw(st.lists(st.integers(1, 6), min_size=1, max_size=3, unique=True))
    return Strike(tuple(draw(notes(string, late=late)) for string in strings), *signs)


class Writer:
    """Writes slots that may follow one another, bar by bar."""

    def __init__(self, draw: st.DrawFn, shapes: tuple[Shape, ...]) -> None:
        self.draw = draw
        self.shapes = shapes
        self.sounding = False
        self.joined = False
        self.brackets: list[BracketKind] = []
        self.sounds: list[Strike] = []

    def write(self, depth: int = 0, least: int = 0) -> list[Any]:
        """Write the members of a bar or a group."""
        slots: list[Any] = []
        opened = len(self.brackets)
        count = 0
        for _ in range(self.draw(st.integers(max(least, 1), 5))):
            choice = self.draw(st.integers(0, 11))
            if choice == 0 and len(self.brackets) < 3:
                slots += self.open_bracket()
            elif choice == 1 and len(self.brackets) > opened:
                self.brackets.pop()
                slots.append(Closing())
            if choice == 2 and depth < 2 and not self.joined:
                slots.append(self.write_group(depth))
            elif choice == 3 and not self.joined and (slots or depth or self.sounding):
                slots.append(Hold())
            elif choice == 4 and not self.joined:
                slots.append(Rest())
                self.sounding = False
            else:
                slots += self.write_sound()
            count += 1
        while count < least:
            slots += self.write_sound()
            count += 1
        if depth:
            slots += [Closing() for _ in self.brackets[opened:]]
            del self.brackets[opened:]
        return slots

    def write_group(self, depth: int) -> Group:
        """Write a group of two members or more."""
        return Group(tuple(self.write(depth + 1, 2)), self.draw(st.integers(1, 16)))

    def write_sound(self) -> list[Any]:
        """Write a sound, perhaps with grace notes before it and a join after."""
        slots: list[Any] = []
        if self.draw(st.integers(0, 7)) == 0:
            grace = self.draw(st.lists(strikes(self.shapes, late=False), min_size=1, max_size=3))
            slots.append(Grace(tuple(grace)))
            if self.draw(FLAGS):
                slots.append(Join(JoinKind.SLIDE))
        strike = self.draw(strikes(self.shapes))
        slots.append(strike)
        self.sounds.append(strike)
        self.sounding, self.joined = True, False
        if self.draw(st.integers(0, 3)) == 0:
            slots += [Hold()] * self.draw(st.integers(0, 1))
            slots.append(Join(self.draw(st.sampled_from(JoinKind))))
            self.joined = True
        return slots

    def open_bracket(self) -> list[Any]:
        """Open a bracket of a kind that is not open yet."""
        kinds = [kind for kind in BracketKind if kind not in self.brackets]
        if not kinds:
            return []
        kind = self.draw(st.sampled_from(kinds))
        self.brackets.append(kind)
        fret = self.draw(st.integers(0, 14)) if kind is BracketKind.POSITION else None
        return [Opening(kind, fret)]

    def finish(self) -> list[Any]:
        """End the voice: close what is open, and give a waiting join its sound."""
        slots = self.write_sound() if self.joined else []
        while self.joined:
            slots += self.write_sound()
        slots += [Closing() for _ in self.brackets]
        self.brackets.clear()
        return slots


@st.composite
def rows(draw: st.DrawFn, sounds: list[Strike]) -> tuple[Row, ...]:
    found = []
    for kind in draw(st.lists(st.sampled_from(["rh", "lh", "names", "degrees", "signs"]), unique=True)):
        entries = tuple(draw(entry(kind, len(sound.notes))) for sound in sounds)
        found.append(Row(kind, entries))
    return tuple(found)


@st.composite
def entry(draw: st.DrawFn, kind: str, count: int) -> Entry:
    if draw(st.integers(0, 4)) == 0:
        return Entry((None,))
    if kind == "signs":
        return Entry(tuple(draw(st.lists(st.sampled_from(SIGNS), min_size=1, max_size=2, unique=True))))
    if kind == "rh" and draw(FLAGS):
        return Entry((draw(st.sampled_from("duP")),))
    values = {
        "rh": "dupimacP",
        "lh": "01234T",
        "names": ["A", "C#", "Bb", "F##", "Ebb"],
        "degrees": ["1", "b3", "#4", "b7", "7", "bb7"],
    }[kind]
    one = st.sampled_from([*values, None])
    said = tuple(draw(one) for _ in range(count))
    return Entry(said if any(said) or count > 1 else (None,))


def frame(number: int, pattern: str) -> Margin:
    """Repeat signs of bar ``number`` of four."""
    table: dict[str, list[Margin]] = {
        "plain": [Margin()] * 4,
        "twice": [Margin(opens=True), Margin(), Margin(), Margin(closes=True)],
        "start": [Margin(), Margin(closes=True, times=3), Margin(opens=True, closes=True), Margin()],
        "endings": [
            Margin(opens=True),
            Margin(endings=(1, 2), closes=True),
            Margin(endings=(3,), closes=True),
            Margin(),
        ],
    }
    return table[pattern][number]


@st.composite
def margins(draw: st.DrawFn, signs: Margin) -> Margin:
    chords: tuple[MarginChord, ...] = ()
    meter = draw(maybe(st.sampled_from([Meter(4, 4), Meter(2, 4), Meter(12, 8)])))
    if draw(FLAGS):
        first = MarginChord(draw(st.sampled_from(CHORDS)), stop=draw(FLAGS))
        second = MarginChord(draw(st.sampled_from(CHORDS)), 2, draw(FLAGS), draw(FLAGS))
        chords = (first, second) if draw(FLAGS) else (first,)
    return Margin(chords, meter, signs.opens, signs.endings, signs.closes, signs.times)


@st.composite
def shapes(draw: st.DrawFn) -> tuple[Shape, ...]:
    names = draw(st.lists(st.sampled_from(["G", "A7", "Cadd9", "open-d", "F#m"]), max_size=2, unique=True))
    return tuple(Shape(name, draw(strikes(late=False))) for name in names)


BEATS = st.sampled_from([Fraction(1), Fraction(2), Fraction(3, 2)])
TEMPI = st.builds(Tempo, st.integers(20, 400), maybe(BEATS))
FAST = st.builds(Tempo, st.integers(200, 400), st.sampled_from([Fraction(1), Fraction(2)]))
SLOW = st.builds(Tempo, st.integers(20, 99), st.sampled_from([Fraction(1), Fraction(2)]))
BARS = st.tuples(st.integers(0, 4), st.integers(0, 4)).map(
    lambda pair: AddressRange(Address(min(pair)), Address(max(pair)))
)
STETS = st.builds(
    Stet,
    st.sampled_from(["harmony/unexplained", "hands/stretch"]),
    WORDS,
    maybe(st.builds(Address, st.integers(0, 9), maybe(st.integers(1, 9)), FLAGS)),
    st.sampled_from(["", "a41f", "00ff12"]),
)
OVERS = st.builds(Over, NAMES, maybe(BARS)) | st.lists(
    st.sampled_from(CHORDS).map(MarginChord), min_size=1, max_size=5
).map(lambda chords: Over("", None, tuple(chords)))
SOURCES = st.just(Provenance("own")) | st.builds(
    Provenance, st.sampled_from(["traditional", "licensed"]), WORDS
)
FIELDS: dict[str, st.SearchStrategy[Any]] = {
    "title": WORDS,
    "key": st.sampled_from(KEYS),
    "meter": st.sampled_from([Meter(4, 4), Meter(3, 4), Meter(6, 8)]),
    "step": st.sampled_from([Fraction(1, 2), Fraction(1, 4)]),
    "tempo": FAST,
    "slow": SLOW,
    "ladder": st.lists(TEMPI, min_size=1, max_size=6).map(tuple),
    "feel": st.sampled_from(FEELS),
    "over": OVERS,
    "position": st.lists(st.builds(PositionClaim, st.integers(0, 24), maybe(BARS)), min_size=1)
    .map(tuple)
    .filter(lambda claims: sum(claim.bars is None for claim in claims) < 2),
    "picking": st.sampled_from([Picking("alternate", "d"), Picking("alternate"), Picking("hybrid")]),
    "claims": st.lists(st.builds(Claim, st.sampled_from(CLAIM_KINDS), maybe(BARS)), min_size=1).map(tuple),
    "pickup": st.sampled_from([Fraction(1, 2), Fraction(1)]),
    "tuning": st.sampled_from(TUNINGS),
    "capo": st.integers(0, 12),
    "ending": st.sampled_from(["open", "closed"]),
    "source": SOURCES,
    "take": st.sampled_from([Take("takes/my porch.flac"), Take("takes/a.wav", Fraction("2.35"))]),
    "tags": st.lists(TAGS, min_size=1, max_size=3).map(tuple),
    "stets": st.lists(STETS, max_size=2).map(tuple),
}


@st.composite
def fields(draw: st.DrawFn) -> dict[str, Any]:
    names = draw(st.sets(st.sampled_from(sorted(FIELDS)), max_size=8))
    return {name: draw(FIELDS[name]) for name in sorted(names)}


@st.composite
def licks(draw: st.DrawFn) -> Lick:
    """A lick of four bars with whatever the language has."""
    known = draw(shapes())
    pattern = draw(st.sampled_from(["plain", "twice", "start", "endings"]))
    upper = Writer(draw, known)
    bars = []
    for number in range(4):
        upper.sounds = []
        slots = upper.write()
        if number == 3:
            slots += upper.finish()
        voice = Voice(tuple(slots), draw(rows(upper.sounds)))
        low = None
        if draw(st.integers(0, 2)) == 0:
            lower = Writer(draw, known)
            under = lower.write() + lower.finish()
            low = Voice(tuple(under), draw(rows(lower.sounds)))
        bars.append(Bar(draw(margins(frame(number, pattern))), voice, low))
    said = draw(fields())
    if "pickup" in said:  # a second chord on beat 2 has no place in it
        margin = replace(bars[0].margin, chords=bars[0].margin.chords[:1])
        bars[0] = replace(bars[0], margin=margin)
    return Lick(draw(NAMES), tuple(bars), shapes=known, **said)


@st.composite
def variations(draw: st.DrawFn) -> Lick:
    addresses = draw(
        st.lists(st.builds(Address, st.integers(0, 9), st.integers(1, 9), FLAGS), max_size=4, unique=True)
    )
    changes = tuple(Change(at, draw(st.just(Rest()) | strikes())) for at in addresses)
    return Lick(draw(NAMES), vary=draw(NAMES), changes=changes, **draw(fields()))


@st.composite
def progressions(draw: st.DrawFn) -> Progression:
    pattern = draw(st.sampled_from(["plain", "twice", "start", "endings"]))
    count = 4 if pattern == "start" else draw(st.sampled_from([4, 8]))
    cells = tuple(draw(margins(frame(number % 4, pattern))) for number in range(count))
    known = {name: draw(maybe(FIELDS[name])) for name in ("title", "key", "feel", "tempo")}
    return Progression(draw(NAMES), cells, stets=draw(FIELDS["stets"]), **known)


PARTS = st.builds(ChorusPart, NAMES.filter(lambda name: name != "rest") | st.just(""), st.integers(1, 9))
OTHERS = st.one_of(
    st.builds(
        Chorus,
        NAMES,
        st.builds(Over, NAMES, maybe(BARS)),
        st.lists(PARTS, min_size=1, max_size=5).map(tuple),
        maybe(WORDS),
        maybe(SLOW),
    ),
    st.builds(Excerpt, NAMES, maybe(BARS | st.just(AddressRange(Address(1, 3, True), Address(2, 1, True))))),
    st.builds(
        ScaleBlock,
        NAMES,
        st.sampled_from(["G major", "A blues", "F# minor pentatonic", "D dorian"]),
        st.just((6, 3)),
        st.just((1, 3)),
        maybe(st.integers(0, 12)),
        maybe(st.integers(1, 4)),
        FLAGS,
        maybe(WORDS),
        maybe(TEMPI),
    ),
    st.builds(
        NeckBlock,
        st.sampled_from([("chord", "A7"), ("scale", "A major"), ("notes", "A C# E")]),
        frets=maybe(st.just((0, 5))),
        strings=maybe(st.just((1, 4))),
        labels=maybe(st.sampled_from(["names", "degrees", "fingers"])),
    ),
    st.builds(NeckBlock, st.none(), NAMES, maybe(BARS)),
    st.builds(OpenStringsBlock, st.lists(st.sampled_from(KEYS), min_size=1).map(tuple)),
    st.just(TunerBlock()),
)
