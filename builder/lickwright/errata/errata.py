"""The errata as data."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from lickwright.model.address import Address
from lickwright.model.music import Piece
from lickwright.model.timeline import Grid


class Kind(Enum):
    """What a change is about; the value is the word that is printed for it."""

    MUSIC = "the music"
    """Another pitch, time, chord or technique: it sounds otherwise."""
    HANDS = "the hands"
    """The same notes elsewhere on the neck, by other fingers or strokes."""
    CLAIMS = "the claims"
    """It sounds and is played as before; what the author says the notes are differs."""
    DRAWING = "the drawing"
    """It sounds and is played as before; only what is printed differs."""


@dataclass(frozen=True, slots=True)
class Detail:
    """One change inside a bar.

    Attributes:
        said: ``beat 3: string 4, fret 5 (G natural), is now string 4, fret 4 (F sharp)``.
        old, new: The sounds concerned, None where there is none.
    """

    kind: Kind
    said: str
    old: Address | None = None
    new: Address | None = None


@dataclass(frozen=True, slots=True)
class BarChange:
    """A bar that is not as it was: changed, taken out (``new`` None) or put in (``old`` None)."""

    old: int | None
    new: int | None
    details: tuple[Detail, ...]

    @property
    def kind(self) -> Kind:
        """The gravest of its changes."""
        return gravest(detail.kind for detail in self.details)


@dataclass(frozen=True, slots=True)
class FieldChange:
    """What a lick says of itself as a whole: its key, its tempo, its chords' progression."""

    kind: Kind
    field: str
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class LickChange:
    """A lick or chorus that is not as it was.

    Attributes:
        name: In the new edition, else in the old one.
        before, after: The piece in either edition; None where it is not there.
        fields, bars: What changed; empty for a lick that was put in, taken out or only renamed.
        licks: Its variations in which the same change shows.
    """

    name: str
    before: Piece | None
    after: Piece | None
    fields: tuple[FieldChange, ...] = ()
    bars: tuple[BarChange, ...] = ()
    licks: tuple[str, ...] = ()

    @property
    def state(self) -> str:
        """``put in``, ``taken out``, ``renamed`` or ``changed``."""
        return _state(self.before, self.after, changed=bool(self.fields or self.bars))

    @property
    def kind(self) -> Kind:
        """The gravest of its changes."""
        if self.before is None or self.after is None:
            return Kind.MUSIC
        return gravest([*(f.kind for f in self.fields), *(b.kind for b in self.bars)])


@dataclass(frozen=True, slots=True)
class CourseChange:
    """A line of the manifest that is not as it was: told once, however many licks take it from there.

    Attributes:
        licks: The licks and choruses in which it shows, in the order of study.
    """

    field: FieldChange
    licks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class GridChange:
    """A progression that is not as it was.

    Attributes:
        name: In the new edition, else in the old one.
        before, after: The progression in either edition; None where it is not there.
        fields, bars: What changed; bars are numbered as written.
        licks: The licks and choruses over it in which that shows, in the order of study.
    """

    name: str
    before: Grid | None
    after: Grid | None
    fields: tuple[FieldChange, ...] = ()
    bars: tuple[BarChange, ...] = ()
    licks: tuple[str, ...] = ()

    @property
    def state(self) -> str:
        """``put in``, ``taken out``, ``renamed`` or ``changed``."""
        return _state(self.before, self.after, changed=bool(self.fields or self.bars))


@dataclass(frozen=True, slots=True)
class LinkChange:
    """Words that link to other notes than they did: ``walk@1.1`` is now ``walk@1.2``."""

    words: str
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class SentenceChange:
    """A sentence that speaks of notes and is not as it was; an empty text where there is none.

    Attributes:
        links: Where the words are the same: its links that show other notes.
    """

    lesson: str
    lick: str
    old: str
    new: str
    links: tuple[LinkChange, ...] = ()


@dataclass(frozen=True, slots=True)
class Unread:
    """What could not be read, and so is not compared: a bar of a lick, or all of it (``bar`` None).

    Attributes:
        old, new: In which edition.
    """

    lick: str
    bar: int | None
    old: bool
    new: bool


@dataclass(frozen=True, slots=True)
class Errata:
    """Everything that changed between two editions.

    Attributes:
        old, new: Names of the editions.
        course: Lines of the manifest.
        progressions: In the order of study of the new edition, those taken out last.
        licks: The same of licks and choruses; what they only take from the course, from a progression or from
            the lick they vary is told there.
        sentences: By lesson.
        lessons: Lessons put in (True) or taken out (False), by title.
        unread: What could not be compared.
    """

    old: str
    new: str
    course: tuple[CourseChange, ...] = ()
    progressions: tuple[GridChange, ...] = ()
    licks: tuple[LickChange, ...] = ()
    sentences: tuple[SentenceChange, ...] = ()
    lessons: tuple[tuple[str, bool], ...] = ()
    unread: tuple[Unread, ...] = ()

    def of_kind(self, kind: Kind) -> tuple[LickChange, ...]:
        """The licks whose gravest change is of a kind."""
        return tuple(change for change in self.licks if change.kind is kind)

    @property
    def empty(self) -> bool:
        """True when nothing changed, and all of it could be read."""
        changed = self.course or self.progressions or self.licks or self.sentences or self.lessons
        return not (changed or self.unread)


def gravest(kinds: Iterable[Kind]) -> Kind:
    """Return the gravest of some kinds, in their own order."""
    order = list(Kind)
    return min(kinds, key=order.index, default=Kind.DRAWING)


def _state(before: object, after: object, *, changed: bool) -> str:
    if before is None:
        return "put in"
    if after is None:
        return "taken out"
    return "changed" if changed else "renamed"
