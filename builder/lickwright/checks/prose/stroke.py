"""A stroke that the words name and the picking hand does not make.

``an upstroke`` is held against the ``rh`` row of the notes; ``all down`` and ``downstrokes`` speak of every
stroke of the link, ``two downstrokes and an up`` of so many, in that order where the words give one;
``strictly alternate`` speaks of each and the next. ``downstrokes except on the third`` holds where all
are down, and is not checked where others are there. ``alternate picking`` is held against the row as the rule
``picking/alternate`` does it: down and up in turn, or a hand in steady swing.

Why it matters: strokes are taught by their pattern; one that is told the other way breaks it.

What to do: make the words and the row agree.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_place
from lickwright.checks.claims.term import StrokeName, Term
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.checks.strokes import find_out_of_turn, find_swing, list_breaks, list_runs
from lickwright.terms.strokes import StrokeList, limits_strokes, list_strokes

_SPOKEN = {"d": "down", "u": "up"}


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Compare the strokes that the row gives."""
    said = claim.terms[0].value
    assert isinstance(said, StrokeName)  # the kind of claim says so
    strokes = [heard.sound.stroke for heard in notes.heard if heard.sound.stroke in _SPOKEN]
    if not strokes:
        struck = any(tone.struck for heard in notes.heard for tone in heard.sound.tones)
        return Unresolved("no rh row says which stroke it is" if struck else "nothing is struck there")
    real = ", ".join(_SPOKEN[s] for s in strokes if s is not None)
    term = claim.terms[0]
    if said.sign == "du":
        fits = _alternates(notes, strict=said.every)
    elif (listed := _listed(claim)) is not None:
        fits, term = _fits_list(listed[0], "".join(s for s in strokes if s)), listed[1]
    else:
        fits = _fits(said, strokes)
        if not fits and said.every and _of_some(claim):
            return Unresolved("it speaks of some of the strokes, and which they are cannot be told")
    if fits:
        return HELD
    return Differs(
        f"the words say “{term.text}”, and the rh row at {say_place(notes)} says {real}",
        term,
        help=_hint(said, strokes),
    )


def _words(claim: Claim) -> tuple[int, str]:
    """Where the words stand that a stroke may be listed in, and they: the link's own, or the sentence's."""
    link = claim.link
    return (link.start, link.words) if claim.inside else (0, link.passage.text)


def _listed(claim: Claim) -> tuple[StrokeList, Term] | None:
    """The list that a stroke is said in, and its words; None for a stroke by itself."""
    begin, words = _words(claim)
    for one in list_strokes(words):
        start, end = begin + one.start, begin + one.end
        if start <= claim.terms[0].start < end and (len(one.signs) > 1 or one.counted):
            return one, replace(claim.terms[0], start=start, end=end, text=words[one.start : one.end])
    return None


def _of_some(claim: Claim) -> bool:
    """Whether the words leave strokes out, say where they are made, or name others besides."""
    begin, words = _words(claim)
    several = claim.inside and len([*list_strokes(words)]) > 1
    return several or limits_strokes(words, claim.terms[0].end - begin)


def _fits_list(said: StrokeList, strokes: str) -> bool:
    """Whether the strokes are as they are listed: in order, or so many of each."""
    if said.open:
        runs = "".join(sign for n, sign in enumerate(strokes) if n == 0 or strokes[n - 1] != sign)
        return said.signs in runs if said.ordered and not said.counted else set(said.signs) <= set(strokes)
    if said.signs == strokes or (said.signs in strokes and not said.counted):
        return True
    return (
        said.counted
        and not said.ordered
        and all(said.signs.count(sign) == strokes.count(sign) for sign in set(said.signs))
    )


def _fits(said: StrokeName, strokes: Sequence[str | None]) -> bool:
    return all(stroke == said.sign for stroke in strokes) if said.every else said.sign in strokes


def _alternates(notes: Pointed, *, strict: bool) -> bool:
    """Whether the strokes of the link are alternate picking as ``picking/alternate`` reads it.

    Args:
        notes: Of the link.
        strict: Where only strokes that take turns will do, and no hand in steady swing.
    """
    linked = {heard.sound.address for heard in notes.heard}
    music = notes.subject.piece.music
    runs = [[stroke for stroke in run if stroke.sound.address in linked] for run in list_runs(music)]
    if strict:
        return not any(map(list_breaks, runs))
    swing = cache(lambda: find_swing(music))
    return not any(find_out_of_turn(run, swing)[0] for run in runs)


def _hint(said: StrokeName, strokes: Sequence[str | None]) -> str:
    """What to write for what the row says."""
    if said.sign == "du":
        return "Leave the words about alternate picking out, or mend the strokes of the rh row"
    if len(set(strokes)) == 1:
        stroke = "downstroke" if strokes[0] == "d" else "upstroke"
        return f"Write “{stroke}{'s' if len(strokes) > 1 else ''}”, or mend the rh row"
    return "Link only the sounds that are struck so, or mend the rh row"


RULE = Rule(
    id="prose/stroke",
    title="A stroke that the words name and the picking hand does not make",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 5, Prose that points at notes: strokes"),
    good=(
        Example(
            "```lick example\nA | 3:2 - - 2:2 1:0 - 2:2 -\n  rh | d u d d\n```\n\n"
            "The short note falls on [an upstroke](lick:example@1.2), and the rest are "
            "[downstrokes](lick:example@1.3-1.4)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA | 3:2 - - 2:2 1:0 - 2:2 -\n  rh | d u d d\n```\n\n"
            "The short note falls on [a downstroke](lick:example@1.2).",
            ("downstroke",),
        ),
    ),
    survey=tell("stroke", Severity.ERROR),
)
