"""What stands under the notes: against music21's chord tones and names, for all music of the courses."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from lickwright.analysis import Role
from lickwright.analysis.classifier import analyse, list_roles
from lickwright.analysis.notation.ids import local_id
from lickwright.building.proofing import proof_course
from lickwright.model.music import Piece
from lickwright.pages import role_marks
from lickwright.pages.role_marks import BLUE, CHORD, OTHER, ROOT, note_marks
from lickwright.theory.chord import Chord

ROOT_FOLDER = Path(__file__).parents[2]
COURSES = ("content", "tests/courses/low-water", "tests/courses/every-sign")


@pytest.fixture(scope="module")
def pieces() -> list[Piece]:
    """All pieces of the three courses."""
    return [piece for course in COURSES for piece in proof_course(ROOT_FOLDER / course).book.pieces]


def slips(pieces: list[Piece]) -> list[str]:
    """Marks that music21 or plain arithmetic contradict: names, roots, chord tones, letters of degrees."""
    from music21.pitch import Pitch

    found = []
    for piece in pieces:
        roles = {local_id(role.address, role.tone + 1): role for role in reversed(list_roles(analyse(piece)))}
        for tone, mark in note_marks(piece.music, analyse(piece)).items():
            role = roles[tone]
            name = Pitch(mark.name.replace("♭", "-").replace("♯", "#"))
            if name.pitchClass != role.pitch % 12:
                found.append(f"{piece.name} {tone}: {mark.name} does not sound {role.pitch}")
            if not isinstance(role.chord, Chord):
                continue
            root = Pitch(str(role.chord.root).replace("b", "-"))
            above = (name.pitchClass - root.pitchClass) % 12
            if (mark.degree == "R") != (above == 0 and name.step == root.step):
                found.append(f"{piece.name} {tone}: {mark.degree} over {role.chord}")
            if mark.degree != "R":
                steps = ("CDEFGAB".index(name.step) - "CDEFGAB".index(root.step)) % 7 + 1
                number = int(mark.degree.strip("♭♯"))
                if (number - 1) % 7 + 1 != steps:
                    found.append(f"{piece.name} {tone}: {mark.degree}, {steps} by its letter")
            if mark.kind in (ROOT, CHORD) and role.role is not Role.CHORD_TONE:
                found.append(f"{piece.name} {tone}: {mark.kind}, {role.role}")
            if (mark.kind == BLUE) != (role.role is Role.BLUE):
                found.append(f"{piece.name} {tone}: {mark.kind}, {role.role}")
    return found


def test_marks_say_what_music21_says(pieces: list[Piece]) -> None:
    """Name and sounding pitch agree, R is the root of the chord, a degree is the number of its letter."""
    assert sum(len(note_marks(piece.music, analyse(piece))) for piece in pieces) > 2000
    assert slips(pieces) == []


def test_all_kinds_come(pieces: list[Piece]) -> None:
    """Roots, chord tones, blue notes and others stand in the courses."""
    kinds = {mark.kind for piece in pieces for mark in note_marks(piece.music, analyse(piece)).values()}
    assert kinds == {ROOT, CHORD, BLUE, OTHER}


@pytest.mark.parametrize("fault", ["name", "degree", "kind"])
def test_a_false_mark_is_seen(pieces: list[Piece], monkeypatch: pytest.MonkeyPatch, fault: str) -> None:
    """Planted faults: one name, one degree, one kind that are not the note's."""
    marks = note_marks
    changed = {"name": {"name": "B♭"}, "degree": {"degree": "♭6"}, "kind": {"kind": BLUE}}[fault]

    def false(music, analysis):
        found = dict(marks(music, analysis))
        first = next((tone for tone, mark in found.items() if mark.kind == ROOT and mark.name == "A"), None)
        return found | ({first: replace(found[first], **changed)} if first else {})

    monkeypatch.setitem(globals(), "note_marks", false)
    assert slips(pieces[:10]) != []


def test_a_chord_is_told_from_its_highest_string(pieces: list[Piece]) -> None:
    """The marks of one sound come in the order in which the tab has its strings."""
    strings = {
        local_id(sound.address, k): (sound.address, tone.string)
        for piece in pieces[:1]
        for bar in piece.music.bars
        for line in bar.lines
        for sound in line.sounds
        for k, tone in enumerate(sound.tones, 1)
    }
    told = [strings[tone] for tone in note_marks(pieces[0].music, analyse(pieces[0]))]
    assert told == sorted(told, key=lambda one: (told.index(next(t for t in told if t[0] == one[0])), one[1]))


def test_equal_marks_are_one_file(pieces: list[Piece]) -> None:
    """The file of a piece is named by what it says."""
    one, other = pieces[0], pieces[1]
    files = [role_marks.marks_file(piece.music, analyse(piece)) for piece in (one, one, other)]
    assert files[0] == files[1]
    assert files[0].path != files[2].path
