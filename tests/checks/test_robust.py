"""Whatever can be read can be proofed: no lick makes the proof raise."""

from __future__ import annotations

import re

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lickwright.checks import Proof, proof
from lickwright.checks.catalogue import rules
from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.timeline import resolve
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key

TOKENS = (
    "5:0", "4:2", "3:7", "1:30", "9:1", "2:3+3:4", "2:5+2:2", "-", ".", "h", "p", "s", "s!", "4:x", "4:t12",
    "4:h5", "5:<12>", "4:<6>", "4:2<14>", "3:7b9", "3:7b9r7", "3:7b7.5", "2:15pb17r15", "3:0nb2", "3:b9",
    "3:r7", "2:0b2", "1:0~", "/4:5", "4:5\\", "5:0!'^", "(5:0 5:4)", "(5:0 - 4:2)/2", "(4:2 .", ")", "ring[",
    "mute[", "]", "pos5[", "g(3:1)", "g(3:5) s 3:6", "??", "G",
)  # fmt: skip
MARGINS = ("A7", "", "D7 A7", "N.C.", "C7#9/E", "Zz", "2/4 E", "1. A", "3/8", "A@2")
FIELDS = (
    "key: E minor", "pickup: 1/8", "meter: 6/8", "feel: shuffle", "capo: 5", "step: 1/16", "over: A D7",
    "tuning: C2 G2 D3 A3", 'stet: hands/range "so"', "claims: outside (bar 1)",
)  # fmt: skip


@st.composite
def _licks(draw: st.DrawFn) -> str:
    lines = draw(st.lists(st.sampled_from(FIELDS), max_size=3, unique=True))
    lines.append("")
    for _ in range(draw(st.integers(0, 4))):
        slots = " ".join(draw(st.lists(st.sampled_from(TOKENS), max_size=10)))
        opening = draw(st.sampled_from(("|", "|", "|:")))
        closing = draw(st.sampled_from(("", "", " :|")))
        lines.append(f"{draw(st.sampled_from(MARGINS))} {opening} {slots}{closing}")
        row = draw(
            st.sampled_from(("", "", "names | A C# E", "degrees | 1 b3 5", "low | 5:0 - - -", "lh | 1 T 3"))
        )
        lines.append(f"  {row}" if row else "; nothing")
    return "```lick example\n" + "\n".join(lines) + "\n```\n"


def _prove(text: str) -> Proof:
    key = parse_key("A major")
    assert key is not None
    course = Settings(key, "straight", Tempo(120), Guitar(), Provenance("own"))
    lesson, found = read_lesson(Source("lessons/one.md", text), "one")
    read = Course("Test", "us", course, (Unit("Unit", (lesson,)),))
    book, more = resolve(read)
    return proof(read, book, (*found, *more))


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(_licks())
def test_the_proof_never_raises(text: str) -> None:
    """Every finding has a rule with a page, a place in the text and one plain sentence."""
    for finding in _prove(text).findings:
        assert finding.rule in rules()
        assert 0 <= finding.span.start <= finding.span.end <= len(text)
        assert finding.message
        assert not re.search(r"\bwrong\b|\.$", finding.message)
