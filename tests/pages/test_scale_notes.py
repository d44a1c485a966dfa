"""What stands under a scale: its rolls by name, and a word of care where the reach is wide."""

from __future__ import annotations

from itertools import pairwise

import pytest

from lickwright.building.proofing import proof_course
from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.timeline import resolve
from lickwright.pages.edition import Edition
from lickwright.pages.lesson import lesson_page
from lickwright.pages.scale_notes import CAUTION, scale_notes
from lickwright.pages.theme import read_theme
from lickwright.reading.lesson import read_lesson
from lickwright.terms.numbers import ORDINALS
from lickwright.text import Source
from lickwright.theory.key import parse_key


def notes_under(fields: str) -> tuple[tuple[str, ...], list[int]]:
    """The sentences under a scale, and its strings."""
    settings = Settings(parse_key("A major"), "straight", Tempo(100), Guitar(), Provenance("own"))
    lesson, _ = read_lesson(Source("lessons/one.md", f"# One\n\n```scale one\n{fields}\n```\n"), "one")
    book, _ = resolve(Course("Test", "us", settings, (Unit("Unit", (lesson,)),)))
    piece = book.piece("one")
    return scale_notes(piece), [s.tones[0].string for bar in piece.music.bars for s in bar.upper.sounds]


WORDS = ORDINALS[1:]


def test_rolls_are_named() -> None:
    """Read back, the words name runs that move one way over the strings, and all of them from three on."""
    (said, *_), strings = notes_under("scale: G major\nfrom: 6:3 to 1:3\nopen strings: wherever diatonic")
    assert said.startswith("Rolls: ")
    found = set()
    for part in said.removeprefix("Rolls: ").rstrip(".").replace(" and ", ", ").split(", "):
        way, _, _, first, _, _, _, last = part.split()
        run = strings[WORDS.index(first) : WORDS.index(last) + 1]
        assert len(run) >= 3
        assert run == sorted(set(run), reverse=way == "forward")
        assert run != sorted(set(run), reverse=way != "forward")
        found |= set(range(WORDS.index(first), WORDS.index(last)))
    steps = [after < before for before, after in pairwise(strings)]
    alone = [k for k in range(len(steps)) if k not in found]
    assert all(steps[k] != steps[k + 1] for k in alone if k + 1 in alone)  # no roll is left out


@pytest.mark.parametrize(
    ("fields", "cared"),
    [
        ("scale: F major\nfrom: 6:1 to 1:5\nnotes a string: 3", True),
        ("scale: A major\nposition: 5", False),
        ("scale: E dorian\nfrom: 6:12 to 1:15\nnotes a string: 3", False),
    ],
)
def test_a_word_of_care(fields: str, cared: bool) -> None:
    """Where the hand opens wide, low on the neck, and nowhere else; it sends the player to a teacher."""
    said, _ = notes_under(fields)
    assert [CAUTION in sentence for sentence in said] == [True] * cared
    assert "teacher or a clinician" in CAUTION
    assert not any(sentence.startswith("Rolls") for sentence in said)


def test_a_lick_has_none(edition) -> None:
    """They are a scale's own."""
    assert scale_notes(edition.music.piece("step")) == ()


def test_words_lead_to_its_notes(tmp_path) -> None:
    """A link to a scale's notes leads to them, from its own page and from another."""
    (tmp_path / "lessons").mkdir()
    (tmp_path / "course.toml").write_text(
        '[course]\ntitle = "S"\nauthor = "A"\nkey = "G major"\ntempo = 96\n\n'
        '[[unit]]\ntitle = "All"\nlessons = ["one.md", "two.md"]\n',
        encoding="utf-8",
    )
    one = "# One\n\n[G](lick:ring@1.1)\n\n```scale ring\nscale: G major\nfrom: 6:3 to 1:3\n```\n"
    (tmp_path / "lessons" / "one.md").write_text(one, encoding="utf-8")
    (tmp_path / "lessons" / "two.md").write_text("# Two\n\n[A](lick:ring@1.2)\n", encoding="utf-8")
    proofed = proof_course(tmp_path)
    assert proofed.proof.findings == ()
    edition = Edition(proofed.course, proofed.book, read_theme(), sound=False)
    pages = [lesson_page(edition, lesson).render({}.get) for lesson in edition.course.lessons]
    assert '<a class="lick" href="#lick-ring">G</a>' in pages[0]
    assert 'href="one.html#lick-ring">A</a>' in pages[1]
    assert 'id="lick-ring"' in pages[0]
