"""What leads from note to note: ties, slurs, hammer-ons, slides, and the brackets over passages."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from operator import attrgetter
from typing import TYPE_CHECKING

from lickwright.analysis.notation.accidentals import shown
from lickwright.analysis.notation.cut import Cut, Entry, cut
from lickwright.analysis.notation.ids import grace_id
from lickwright.analysis.notation.pieces import moves
from lickwright.exchange.flow import Written, flow
from lickwright.model.slots import JoinKind
from lickwright.model.strike import Dead, Harmonic, Late
from lickwright.terms.numbers import roman
from lickwright.theory.spelling import spell

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lickwright.analysis.notation.pieces import Head, Layer, Piece
    from lickwright.model.music import Music, Sound, Tone
    from lickwright.theory.pitch import Pitch

_SLURRED = (JoinKind.HAMMER, JoinKind.PULL, JoinKind.SLIDE)
BRACKETS = ("ring", "mute", "position", "rit")
_WORDS = {"ring": "let ring", "mute": "P.M.", "rit": "rit."}


@dataclass(frozen=True, slots=True)
class Join:
    """Two notes of one string, by their names, the second reached from the first."""

    kind: JoinKind
    start: str
    end: str
    string: int


@dataclass(frozen=True, slots=True)
class Slur:
    """A slur between two notes, by their names.

    Attributes:
        lane: Slurs of one lane never overlap: the voice's own, its grace notes'.
    """

    start: str
    end: str
    lane: int


@dataclass(frozen=True, slots=True)
class Bracket:
    """A bracket over sounds of one voice, or the ritardando to the end.

    Attributes:
        kind: One of :data:`BRACKETS`.
        fret: Of a position, 0 for open.
    """

    kind: str
    first: Entry
    last: Entry
    lower: bool
    fret: int = 0

    @property
    def words(self) -> str:
        """What is printed at its beginning."""
        return _WORDS.get(self.kind) or roman(self.fret) or "open"


@dataclass(frozen=True, slots=True)
class Sheet:
    """A piece of music ready to be written as notes.

    A bent note is written at the fret it is stopped at, with its bends as signs; what a string sounds on as,
    bent or let down, is tied to it.

    Attributes:
        rows: Of every bar the notes of each voice in order, upper voice first.
        pitches: By the name of a note: what is written.
        begun: Names of the notes from which a tie goes out; ``tied``: to which one leads.
        ending: Names of the last notes of each tone, of those that are tied together.
        moving: By the name of a note, which of its tone's bends and releases are made at it: from, until.
    """

    cut: Cut
    rows: tuple[tuple[tuple[Written, ...], ...], ...]
    pitches: dict[str, Pitch]
    begun: frozenset[str]
    tied: frozenset[str]
    ending: frozenset[str]
    moving: dict[str, tuple[int, int]]
    joins: tuple[Join, ...]
    slurs: tuple[Slur, ...]
    brackets: tuple[Bracket, ...]

    def named(self, piece: Piece) -> Iterator[str]:
        """Yield the names of the notes of a piece, those of its grace notes first."""
        sound = piece.sound
        if sound is not None and piece.first:
            for number, grace in enumerate(sound.grace, 1):
                yield from (grace_id(sound.address, number, k) for k in range(1, len(grace.tones) + 1))
        yield from (head.local for head in piece.heads)

    @property
    def music(self) -> Music:
        """The piece."""
        return self.cut.music


@lru_cache(maxsize=4)
def sheet(music: Music) -> Sheet:
    """Prepare a piece; the same for every format."""
    made = cut(music)
    pitches: dict[str, Pitch] = {}
    begun: set[str] = set()
    tied: set[str] = set()
    ending: set[str] = set()
    moving: dict[str, tuple[int, int]] = {}
    joins: list[Join] = []
    slurs: list[Slur] = []
    for lower, voice in enumerate(made.voices):
        last: dict[int, str] = {}
        for entry in voice:
            joins += _graces(made, entry, pitches)
            slurs += _grace_slurs(entry, 2 + lower)
            graced = {tone.string for grace in entry.sound.grace for tone in grace.tones}
            for head in (head for _, piece in entry.pieces for head in piece.heads):
                tone, local = head.tone, head.local
                before = last.get(tone.string)
                if before is not None and _goes_on(head):
                    begun.add(before)
                    tied.add(local)
                    pitches[local] = pitches[before]
                else:
                    pitches[local] = written(made, head)
                    if before is not None and tone.link is not None and tone.string not in graced:
                        joins.append(Join(tone.link, before, local, tone.string))
                last[tone.string] = local
            for k, tone in enumerate(entry.sound.tones, 1):
                heads = [head for _, head in entry.heads(k)]
                ending.add(heads[-1].local)
                reached = [0, *(head.move for head in heads[:-1]), len(moves(tone))]
                moving |= {head.local: (reached[n], reached[n + 1]) for n, head in enumerate(heads)}
        slurs += _slurs(voice, lower)
    return Sheet(
        cut=made,
        rows=tuple(tuple(flow(layer) for layer in layers) for layers in made.layers),
        pitches=pitches,
        begun=frozenset(begun),
        tied=frozenset(tied),
        ending=frozenset(ending),
        moving=moving,
        joins=tuple(joins),
        slurs=tuple(slurs),
        brackets=tuple(_brackets(made)),
    )


def _goes_on(head: Head) -> bool:
    return head.tied or head.piece > 1 or isinstance(head.tone.head, Late)


def written(made: Cut, head: Head) -> Pitch:
    """Return the pitch at which a note is written: a bent one at its fret, a harmonic as it sounds."""
    if isinstance(head.tone.head, Dead):
        return muffled(made.music, head.tone)
    names = made.names[head.address, head.k]
    return names[0] if names and isinstance(head.tone.head, Harmonic) else made.fretted(head)


def muffled(music: Music, tone: Tone) -> Pitch:
    """Return where the x of a dead note stands: at its open string."""
    return spell(music.guitar.open_midi(tone.string), music.key, None, None, None)


def _graces(made: Cut, entry: Entry, pitches: dict[str, Pitch]) -> Iterator[Join]:
    sound = entry.sound
    for number, grace in enumerate(sound.grace, 1):
        for k, tone in enumerate(grace.tones, 1):
            name = grace_id(sound.address, number, k)
            path = made.grace_names[sound.address, number, k]
            pitches[name] = path[0] if path else muffled(made.music, tone)
            end = _following(entry, number, tone.string) if grace.leads else None
            if grace.leads and end:
                yield Join(grace.leads, name, end, tone.string)


def _following(entry: Entry, number: int, string: int) -> str | None:
    """The next note on a string after the grace note of that number, up to the sound itself."""
    sound = entry.sound
    for later in range(number, len(sound.grace)):
        for k, tone in enumerate(sound.grace[later].tones, 1):
            if tone.string == string:
                return grace_id(sound.address, later + 1, k)
    found = entry.on_string(string)
    return entry.first(found[0]) if found else None


def _grace_slurs(entry: Entry, lane: int) -> Iterator[Slur]:
    """One slur from the first grace note that leads on without a stroke to the sound."""
    for number, grace in enumerate(entry.sound.grace, 1):
        if grace.leads not in _SLURRED:
            continue
        for k, tone in sorted(enumerate(grace.tones, 1), key=lambda found: found[1].string):
            found = entry.on_string(tone.string)
            if found:
                yield Slur(grace_id(entry.sound.address, number, k), entry.first(found[0]), lane)
                return


def _slurs(voice: tuple[Entry, ...], lane: int) -> Iterator[Slur]:
    """One slur over each run of sounds that are joined without a stroke."""
    start, end = "", ""
    for before, entry in zip((None, *voice), voice, strict=False):
        linked = _linked(before, entry)
        if linked is None:
            if start:
                yield Slur(start, end, lane)
            start = ""
        else:
            start, end = start or linked[0], linked[1]
    if start:
        yield Slur(start, end, lane)


def _linked(before: Entry | None, entry: Entry) -> tuple[str, str] | None:
    if before is None or entry.sound.grace:
        return None
    for k, tone in sorted(enumerate(entry.sound.tones, 1), key=lambda found: found[1].string):
        found = before.on_string(tone.string) if tone.link in _SLURRED else None
        if found:
            return before.first(found[0]), entry.first(k)
    return None


def _brackets(made: Cut) -> Iterator[Bracket]:
    for lower, voice in enumerate(made.voices):
        for kind in ("ring", "mute", "position"):
            for value, run in groupby(voice, attrgetter(f"sound.{kind}")):
                covered = list(run)
                if value if kind != "position" else value is not None:
                    yield Bracket(kind, covered[0], covered[-1], bool(lower), value)
        slower = next((entry for entry in voice if "rit" in entry.sound.signs), None)
        if slower:
            yield Bracket("rit", slower, voice[-1], bool(lower))


def by_end(pairs: tuple[Slur | Join, ...]) -> dict[str, list[tuple[str, Slur | Join]]]:
    """Return what begins and ends at each note, ends first: ``(start or stop, pair)``."""
    found: dict[str, list[tuple[str, Slur | Join]]] = defaultdict(list)
    for pair in pairs:
        found[pair.end].insert(0, ("stop", pair))
        found[pair.start].append(("start", pair))
    return found


def has_sign(sound: Sound, word: str) -> bool:
    """Whether a word of the ``signs`` row stands at a sound."""
    return any(entry.rstrip("0123456789") == word for entry in sound.signs)


def accidentals(made: Sheet) -> dict[str, int]:
    """Return the alterations to be printed, by the name of the note; the others need no sign."""
    return shown(made.music.key, (_in_order(made, layers) for layers in made.cut.layers))


def _in_order(made: Sheet, layers: tuple[Layer, ...]) -> Iterator[tuple[str, Pitch, bool]]:
    """Yield the notes of a bar in order of onset; dead ones have no accidental."""
    for piece in sorted((piece for layer in layers for piece in layer.pieces), key=lambda p: p.onset):
        sound = piece.sound
        graces = sound.grace if sound and piece.first else ()
        tones = [*(tone for grace in graces for tone in grace.tones), *(head.tone for head in piece.heads)]
        for name, tone in zip(made.named(piece), tones, strict=True):
            if not isinstance(tone.head, Dead):
                yield name, made.pitches[name], name in made.tied
