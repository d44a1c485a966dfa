"""The sentences of two editions that speak of notes: what they say, and which notes their links show.

Those are the sentences that link to notes, and those beside them that count or number something of the trade:
the seventh position, fret 5, two bars.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from itertools import zip_longest

from lickwright.errata.errata import LinkChange, SentenceChange
from lickwright.model.address import Address, AddressRange
from lickwright.model.course import Course, Lesson, LickLink
from lickwright.model.music import Music, Piece, Sound
from lickwright.model.prose import paragraphs
from lickwright.terms.numbers import CARDINAL, ORDINAL, read_number
from lickwright.terms.units import UNIT

Pieces = Mapping[str, Piece]
_NUMBER = re.compile(rf"(?i)(?<![\w-]){CARDINAL}(?![\w-])")
_PLACE = r"(?:positions?|frets?|fingers?|strings?|bars?)(?![\w-])"
_NUMBERED = re.compile(
    rf"(?i)(?<![\w-])(?:(?:{ORDINAL}|{CARDINAL})[ -](?:{_PLACE}|{UNIT})|{_PLACE} (?:{CARDINAL})(?![\w-]))"
)
_END = re.compile(r"(?<=[.!?])\s+")
_MARKS = re.compile(r"[*_`]+")
_LINK = "](lick:"


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence: its words on one line, and its links to notes in order."""

    said: str
    links: tuple[LickLink, ...] = ()

    @property
    def lick(self) -> str:
        """The lick it speaks of first; nothing where it links to none."""
        return self.links[0].target if self.links else ""


def compare_sentences(old: Course, new: Course, before: Pieces, after: Pieces) -> Iterator[SentenceChange]:
    """Yield the sentences whose words changed, and those whose links show other notes than they did.

    Args:
        old: As read.
        new: The later edition.
        before: The licks and choruses of the old edition, by name.
        after: Those of the new one.
    """
    lessons = {lesson.name: lesson for lesson in old.lessons}
    for lesson in new.lessons:
        if lesson.name not in lessons:
            continue
        for one, two in zip(_sentences(lessons[lesson.name]), _sentences(lesson), strict=True):
            for was, now in _pairs(one, two):
                same = _alike(was.said) == _alike(now.said)
                links = tuple(_compare_links(was, now, before, after)) if same else ()
                if links or not same:
                    yield SentenceChange(lesson.title, now.lick or was.lick, was.said, now.said, links)


def _pairs(old: Sequence[Sentence], new: Sequence[Sentence]) -> Iterator[tuple[Sentence, Sentence]]:
    """Lay sentences against each other; one that has no partner against none."""
    texts = [_alike(each.said) for each in old], [_alike(each.said) for each in new]
    for _, i1, i2, j1, j2 in SequenceMatcher(None, *texts, autojunk=False).get_opcodes():
        yield from zip_longest(old[i1:i2], new[j1:j2], fillvalue=Sentence(""))


def _compare_links(old: Sentence, new: Sentence, before: Pieces, after: Pieces) -> Iterator[LinkChange]:
    """A link with another address is no change where the notes there are the same: its bar has moved."""
    for then, later in zip(old.links, new.links, strict=False):
        was, now = say_target(then), say_target(later)
        if was != now and _shown(then, before) != _shown(later, after):
            yield LinkChange(later.words, was, now)


def say_target(link: LickLink) -> str:
    """Return where a link leads, as it is typed: ``walk@1.1-1.2``."""
    return link.target if link.at is None else f"{link.target}@{link.at}"


def _shown(link: LickLink, pieces: Pieces) -> object:
    """What a link shows: when each sound comes in its bar, and where it is played; else where it leads."""
    piece = pieces.get(link.target)
    if piece is None:
        return say_target(link)
    return tuple(
        (sound.onset, tuple((tone.string, tone.fret, tone.path) for tone in sound.tones))
        for sound in _sounds(piece.music, link.at)
    )


def _sounds(music: Music, at: AddressRange | None) -> Iterator[Sound]:
    for bar in music.bars:
        for line in bar.lines:
            yield from (sound for sound in line.sounds if at is None or _holds(at, sound.address))


def _holds(at: AddressRange, address: Address) -> bool:
    first, last = at.first, at.last
    if at.whole_bars:
        return first.bar <= address.bar <= last.bar
    here = address.bar, address.sound or 0
    begins, ends = (first.bar, first.sound or 0), (last.bar, last.sound or 10_000)
    return address.lower is first.lower and begins <= here <= ends


def _alike(sentence: str) -> str:
    """A sentence without the choice between ``three`` and ``3``: the words say the same."""
    return _NUMBER.sub(lambda word: str(read_number(word[0])), sentence)


def _sentences(lesson: Lesson) -> tuple[list[Sentence], list[Sentence]]:
    """The sentences of a lesson that link to notes, each once; and the others that number something."""
    found: list[Sentence] = []
    for link in lesson.links:
        said = " ".join(link.sentence.split())
        if found and found[-1].said == said:
            found[-1] = Sentence(said, (*found[-1].links, link))
        else:
            found.append(Sentence(said, (link,)))
    linked = {each.said for each in found}
    others = (
        Sentence(said)
        for paragraph in paragraphs(lesson)
        for text in _END.split(paragraph)
        if _LINK not in text and _NUMBERED.search(text) and (said := _MARKS.sub("", text)) not in linked
    )
    return found, list(others)
