"""The bars of a lick in two editions: laid against each other, then sound by sound.

A bar is compared as the hands read it: what it sounds at another tuning or capo, or in another feel, is told
of those, not of every bar.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from difflib import SequenceMatcher
from fractions import Fraction

from lickwright.analysis.naming import GraceKey, spelled, spelled_graces
from lickwright.errata.errata import BarChange, Detail, Kind
from lickwright.errata.sounds import Names, compare_sounds, unpitched
from lickwright.model.address import Address
from lickwright.model.canonical import digest
from lickwright.model.music import ChordAt, Line, Music, MusicBar, Sound
from lickwright.model.unnumbered import unnumbered
from lickwright.terms.lengths import say_length

_TAKEN_OUT = (Detail(Kind.MUSIC, "the bar is taken out"),)
_PUT_IN = (Detail(Kind.MUSIC, "the bar is put in"),)


def compare_bars(old: Music, new: Music) -> tuple[BarChange, ...]:
    """Compare the bars of a lick; a bar that only moved along is no change.

    Args:
        old: As it was.
        new: As it is.

    Returns:
        The bars that differ, in the order of the new edition, those taken out where they stood.
    """
    one = [digest(_for_the_hands(bar)) for bar in old.bars]
    two = [digest(_for_the_hands(bar)) for bar in new.bars]
    if one == two:
        return ()
    names = _name(old), _name(new)
    changes: list[BarChange] = []
    for kind, i1, i2, j1, j2 in SequenceMatcher(None, one, two, autojunk=False).get_opcodes():
        if kind == "equal":
            continue
        was, now = old.bars[i1:i2], new.bars[j1:j2]
        for before, after in zip(was, now, strict=False):
            details = tuple(_compare_bar(before, after, names))
            changes.append(BarChange(before.number, after.number, details))
        changes += [BarChange(bar.number, None, _TAKEN_OUT) for bar in was[len(now) :]]
        changes += [BarChange(None, bar.number, _PUT_IN) for bar in now[len(was) :]]
    return tuple(changes)


def _for_the_hands(bar: MusicBar) -> MusicBar:
    """A bar without what follows from the guitar (pitches) and the feel (swung times)."""
    bare = unnumbered(bar)
    return replace(bare, upper=_unsounded(bare.upper), lower=bare.lower and _unsounded(bare.lower))


def _unsounded(line: Line) -> Line:
    return replace(line, sounds=tuple(replace(unpitched(sound), time=Fraction(0)) for sound in line.sounds))


def _name(music: Music) -> Names:
    """The name of each tone and grace note: what it ends on, bends counted."""
    names: dict[tuple[Address, int] | GraceKey, str] = {}
    for called in (spelled(music), spelled_graces(music)):
        names.update((key, pitches[-1].name.spoken) for key, pitches in called.items() if pitches)
    return names


def _compare_bar(old: MusicBar, new: MusicBar, names: tuple[Names, Names]) -> Iterator[Detail]:
    found = [*_compare_heads(old, new)]
    for lower in (False, True):
        before, after = (bar.lower if lower else bar.upper for bar in (old, new))
        found += _compare_lines(before, after, new.meter.beat, names, lower=lower)
    yield from found or [Detail(Kind.DRAWING, "its notes are written otherwise")]


def _compare_heads(old: MusicBar, new: MusicBar) -> Iterator[Detail]:
    before, after = (say_chords(bar.chords, bar.meter.beat) for bar in (old, new))
    if before != after:
        yield chord_change(before, after)
    elif [chord.carried for chord in old.chords] != [chord.carried for chord in new.chords]:
        yield Detail(Kind.DRAWING, f"the chord {after} is printed elsewhere")
    if old.meter != new.meter or old.length != new.length:
        yield Detail(Kind.MUSIC, f"the meter {old.meter} is now {new.meter}")
    if (old.opens, old.closes, old.endings, old.times) != (new.opens, new.closes, new.endings, new.times):
        yield Detail(Kind.MUSIC, "its repeat signs are others")


def say_chords(chords: Sequence[ChordAt], beat: Fraction) -> str:
    """Return the chords of a bar, ``D, A7 at beat 3``."""
    return ", ".join(
        f"{chord.symbol.display}{_at(chord.onset, beat)}{' stop' if chord.stop else ''}" for chord in chords
    )


def chord_change(before: str, after: str) -> Detail:
    """Return what is told of a bar whose chords are others."""
    return Detail(Kind.MUSIC, f"the chord {before} is now {after}")


def _at(onset: Fraction, beat: Fraction) -> str:
    return f" at {say_beat(onset, beat)}" if onset else ""


def say_beat(onset: Fraction, beat: Fraction) -> str:
    """Return where a sound stands: ``beat 3``, ``the and of beat 3``, ``a sixteenth after beat 3``.

    Args:
        onset: In its bar, in quarters.
        beat: Of the meter, in quarters.
    """
    whole, part = divmod(onset, beat)
    if not part:
        return f"beat {whole + 1}"
    return f"{'the and of' if part * 2 == beat else f'{say_length(part)} after'} beat {whole + 1}"


def _compare_lines(
    old: Line | None, new: Line | None, beat: Fraction, names: tuple[Names, Names], *, lower: bool
) -> Iterator[Detail]:
    was = {sound.onset: sound for sound in old.sounds} if old else {}
    now = {sound.onset: sound for sound in new.sounds} if new else {}
    voice = "lower voice, " if lower else ""
    for onset in sorted({*was, *now}):
        before, after = was.get(onset), now.get(onset)
        for kind, said in compare_sounds(before, after, names):
            yield Detail(kind, f"{voice}{say_beat(onset, beat)}: {said}", _address(before), _address(after))


def _address(sound: Sound | None) -> Address | None:
    return None if sound is None else sound.address
