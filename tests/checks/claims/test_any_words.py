"""Whatever words an author puts into and around links, they are read, judged, and nothing raises."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from hypothesis import given, settings
from hypothesis import strategies as st
from sentences import HERE

from lickwright.checks.claims.claim import KINDS
from lickwright.checks.claims.ledger import list_unresolved
from lickwright.checks.limits import set_limits
from lickwright.checks.subject import Subject
from lickwright.checks.survey import Survey
from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.timeline import resolve
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key

WORDS = """
A B♭ C sharp open G Bb7 E7 Am D six-nine E major G major ninth root third flat seven ♭7 tonic
leading note of over the a to from is and or not if would except in on at first second fourth string
top low E string string 4 seventh fret fret 12 frets 5 to 7 fifth position open position first
finger thumb index slide hammer-on pull-off whole-step bend bend it up to the root curl pre-bend
release vibrato harmonic upstroke all down alternate picking four bars five notes three hammers two
beats chromatic major pentatonic blues scale arpeggio sixths an octave bar 2 V chord four chord key
of A capo 3 G shapes sounds in B every open string belongs to rings ringing same as moved up two
frets begins on starting with ends on descends climbs falls to walks up first ending second bar
triplets sixteenths in open G tuning drop D tuned to has seven notes except in the key of from bar 9
is over A flat seven A major chord later 9th flat 9 sixths up a half step frets , . : ? é 7 th
"""
ADDRESSES = (
    "", "@1", "@2", "@1.1", "@1.2", "@1.1-1.3", "@1.2-2.1", "@low1.1", "@low1", "@0", "@9", "@1-2", "@2.1",
)  # fmt: skip
LICKS = ("walk", "bend", "pairs", "thumb", "chime", "walk-in-b", "round", "none")


@lru_cache(maxsize=1)
def survey() -> Survey:
    """The licks of the fixtures."""
    key = parse_key("A major")
    assert key is not None
    lesson, _ = read_lesson(Source("lessons/a.md", (HERE / "claims" / "licks.md").read_text("utf-8")), "a")
    setting = Settings(key, "straight", Tempo(100), Guitar(), Provenance("own"))
    course = Course("Any", "Somebody", setting, (Unit("One", (lesson,)),))
    book, _ = resolve(course)
    limits = set_limits(())
    return Survey(course, book, limits, {piece.name: Subject(piece, limits) for piece in book.pieces})


words = st.lists(st.sampled_from(WORDS.split()), max_size=6).map(" ".join)
links = st.builds("[{}](lick:{}{})".format, words, st.sampled_from(LICKS), st.sampled_from(ADDRESSES))
sentences = st.lists(st.one_of(words, links), min_size=1, max_size=6).map(" ".join)


@settings(max_examples=150, deadline=None)
@given(sentences)
def test_any_words_are_judged(text: str) -> None:
    """Every claim has a kind, stands in the text it was read from, and has a verdict."""
    base = survey()
    lesson, _ = read_lesson(Source("lessons/b.md", f"Now {text} so."), "b")
    here = replace(base, course=replace(base.course, units=(Unit("One", (lesson,)),)))
    for one in here.claims:
        assert one.claim.kind in KINDS
        assert one.claim.span().text
        assert one.claim.words in one.claim.link.passage.text
    for _, why in list_unresolved(here):
        assert why
