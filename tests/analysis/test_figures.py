"""Each figure in major, minor, modes, three and six, in both voices; some frets off it is none."""

from __future__ import annotations

from dataclasses import replace

import pytest
from scores import read_piece

from lickwright.analysis import Role, RoleOf, classify
from lickwright.model.address import Address
from lickwright.model.music import Line, MusicBar, Piece

# name, lick, the note, its role, and how many frets off it is another matter
FIGURES: list[tuple[str, str, str, Role, int]] = [
    ("passing, lydian", "key: C lydian\n\nC | 3:0 - 4:4 - 4:3 - - -", "1.2", Role.PASSING, 3),
    ("passing by half steps", "A7 | 5:0 - 5:2 - 5:3 - 5:4 -", "1.3", Role.PASSING, 1),
    ("passing, minor", "key: E minor\n\nB7 | 3:2 - 3:0 - 4:4 - - -", "1.2", Role.PASSING, 1),
    ("passing, six-eight", "key: G major\nmeter: 6/8\n\nD7 | 2:3 2:2 2:1 2:0 3:2 -", "1.2", Role.PASSING, 2),
    ("neighbour, three-four", "key: G major\nmeter: 3/4\n\nG | 3:0 - 4:4 - 3:0 -", "1.2", Role.NEIGHBOUR, 1),
    ("neighbour, below in dorian", "key: D dorian\n\nDm | 3:2 - 3:1 - 3:2 - - -", "1.2", Role.NEIGHBOUR, 1),
    (
        "neighbour in the bass",
        "key: C major\n\nC | 1:0 - - - - - - -\n  low | 5:3 - 5:2 - 5:3 - - -",
        "low1.2",
        Role.NEIGHBOUR,
        1,
    ),
    ("approach from below", "key: C major\n\nC | 3:0 - 2:4 - 2:5 - - -", "1.2", Role.APPROACH, -1),
    ("approach, phrygian", "key: E phrygian\n\nEm | 2:0 - 4:3 - 4:2 - - -", "1.2", Role.APPROACH, 2),
    ("enclosure", "A7 | 2:3 2:1 2:2 - 3:2 - - -", "1.1", Role.ENCLOSURE, 1),
    ("two from above, one from below", "A | 1:5 2:4 2:3 2:1 2:2 - - -", "1.4", Role.APPROACH, 2),
    (
        "suspension",
        "key: D major\n\nA7 | 3:2 - 2:2 - 1:3 - - -\nD  | 1:3 - 1:2 - - - - -",
        "2.1",
        Role.SUSPENSION,
        -1,
    ),
    (
        "suspension, minor, three-four",
        "key: A minor\nmeter: 3/4\n\nE7 | 3:4 - 2:3 - 2:3 -\nAm | 2:3 - 2:1 - - -",
        "2.1",
        Role.SUSPENSION,
        1,
    ),
    (
        "retardation",
        "key: C major\n\nG7 | 3:4 - 3:0 - 3:4 - - -\nC  | 3:4 - 3:5 - - - - -",
        "2.1",
        Role.RETARDATION,
        -1,
    ),
    ("push", "A7 | 5:0 - 5:4 - 4:2 - 3:2 4:0\nD7 | - - 4:4 - 3:2 - - -", "1.5", Role.ANTICIPATION, 1),
    (
        "push, the chord written early",
        "A7 D7@4& | 5:0 - 5:4 - 4:2 - 3:2 4:0\nD7 | - - 4:4 - 3:2 - - -",
        "1.5",
        Role.CHORD_TONE,
        1,
    ),
    (
        "push, six-eight",
        "key: G major\nmeter: 6/8\n\nD7 | 4:0 4:4 3:2 2:1 3:2 3:0\nG | - - 2:0 2:3 - -",
        "1.6",
        Role.ANTICIPATION,
        1,
    ),
    ("appoggiatura", "key: C major\n\nC | 3:0 - - - 2:6 - 2:5 -", "1.2", Role.APPOGGIATURA, 2),
    (
        "appoggiatura, minor, three-four",
        "key: A minor\nmeter: 3/4\n\nAm | 3:2 - 1:1 - 1:0 -",
        "1.2",
        Role.APPOGGIATURA,
        2,
    ),
    ("escape", "key: C major\n\nC | 1:0 1:1 2:1 - 3:0 - - -", "1.2", Role.ESCAPE, 1),
    ("cambiata", "key: C major\n\nC | 2:1 - 2:0 3:0 3:2 - 2:1 -", "1.2", Role.CAMBIATA, 1),
    (
        "drone, open string",
        "key: E major\n\nE | 4:2 - 5:0 - 4:2 - 5:0 -\n | 3:1 - 5:0 - 4:2 - - -",
        "1.2",
        Role.DRONE,
        1,
    ),
    (
        "pedal, fretted",
        "key: D major\n\nD | 3:2 - 3:0 - 2:3 - 3:0 -\n | 3:2 - 3:0 - 2:3 - - -",
        "1.2",
        Role.DRONE,
        1,
    ),
    ("curl", "key: E major\n\nE7 | 6:0 6:3b3.5 - - 5:2 - 6:0 -", "1.2", Role.BLUE, 2),
    ("blue third, minor pentatonic", "A7 | 1:8 1:5 2:8 2:5 3:7 3:5 4:7 -", "1.1", Role.BLUE, 1),
    ("dominant tension", "key: F major\n\nC7 | 2:5 - 1:3 - 1:9 - 1:8 -", "1.3", Role.APPROACH, 1),
]


def _role(piece: Piece, address: str) -> RoleOf:
    return next(r for r in classify(piece) if str(r.address) == address)


def _slipped(piece: Piece, address: str, frets: int) -> Piece:
    at = Address.parse(address)
    assert at is not None

    def in_line(line: Line) -> Line:
        return replace(
            line,
            sounds=tuple(
                replace(
                    s,
                    tones=tuple(
                        replace(t, fret=(t.fret or 0) + frets, path=tuple(p + frets for p in t.path))
                        for t in s.tones
                    ),
                )
                if s.address == at
                else s
                for s in line.sounds
            ),
        )

    def in_bar(bar: MusicBar) -> MusicBar:
        return replace(bar, upper=in_line(bar.upper), lower=bar.lower and in_line(bar.lower))

    return replace(piece, music=replace(piece.music, bars=tuple(map(in_bar, piece.music.bars))))


@pytest.mark.parametrize(
    ("text", "address", "role", "frets"), [pytest.param(*f[1:], id=f[0]) for f in FIGURES]
)
def test_figure(text: str, address: str, role: Role, frets: int) -> None:
    """The note has the role; played so many frets off, it has not."""
    piece = read_piece(text)
    assert _role(piece, address).role is role
    assert _role(_slipped(piece, address, frets), address).role is not role


@pytest.mark.parametrize(
    ("text", "around"),
    [
        pytest.param("A | 3:4 - 3:1 - 3:2 - - -", 2, id="upper, lower"),
        pytest.param("A | 3:1 - 3:4 - 3:2 - - -", 2, id="lower, upper"),
        pytest.param("A | 3:4 3:3 3:1 - 3:2 - - -", 3, id="two from above, one from below"),
        pytest.param("A | 3:4 3:0 3:1 - 3:2 - - -", 3, id="one from above, two from below"),
        pytest.param("A | 3:4 3:3 3:0 3:1 3:2 - - -", 4, id="two and two"),
        pytest.param("A | 3:0 3:1 3:4 3:3 3:2 - - -", 4, id="two and two, from below"),
        pytest.param("key: A minor\n\nAm | 3:4 3:3 3:1 - 3:2 - - -", 3, id="in minor"),
    ],
)
def test_enclosures_need_no_comment(text: str, around: int) -> None:
    """The classic forms are explained and led, every note of them."""
    roles = classify(read_piece(text, "plain"))
    assert len(roles) == around + 1
    assert [r.tier in (None, 2) for r in roles] == [True] * (around + 1)


@pytest.mark.parametrize(
    ("text", "note"),
    [
        pytest.param("key: C major\n\nC | 3:0 - 2:4 - 2:2 - 2:3 -", "1.2", id="flat third above, no pair"),
        pytest.param("key: C major\n\nC | 2:1 - 2:7 - 2:4 - 2:5 -", "1.2", id="sharp fourth above the third"),
    ],
)
def test_a_chromatic_note_on_its_own_a_whole_step_off_encloses_nothing(text: str, note: str) -> None:
    """Of an enclosure a chromatic note is a half step from the target or from the other of its pair."""
    assert _role(read_piece(text, "plain"), note).role is not Role.ENCLOSURE


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(
            "key: C major\n\nG7 | 2:9 - 2:11 - 2:9 - 2:12 -\nC | 2:13 - - - - - - -", id="b9 #9 b9 3"
        ),
        pytest.param("key: C major\n\nG7 | 1:6 1:4 1:3 2:4 2:3 - - -", id="#9 b9 1"),
        pytest.param(
            "key: C major\n\nA7 | 3:3 3:5 3:6 - - - - -\nDm | 3:7 - - - - - - -", id="goes on a fifth down"
        ),
    ],
)
def test_an_altered_dominant_that_goes_home_needs_no_comment(text: str) -> None:
    """Flat and sharp ninth beside each other, led into a tone of the chord."""
    assert all(r.role.explained and r.tier in (None, 2) for r in classify(read_piece(text, "plain")))


@pytest.mark.parametrize(
    ("text", "note"),
    [
        pytest.param(
            "G7 | 2:9 - 2:10 - 2:9 - 2:12 -\nC | 2:13 - - - - - - -", "1.3", id="the flat ninth only"
        ),
        pytest.param("G7 | 2:9 - 2:11 - 2:9 - 1:13 -\nC | 2:13 - - - - - - -", "1.2", id="leaps off"),
        pytest.param("C7 | 2:2 - 2:4 - 2:2 - 2:5 -\nG | 2:3 - - - - - - -", "1.1", id="does not go home"),
        pytest.param("C | 2:2 - 2:4 - 2:2 - 2:5 -\nF | 2:6 - - - - - - -", "1.1", id="no dominant"),
        pytest.param("G7 | 2:9 - 1:11 - 1:12 - 1:7 -\nC | 1:8 - - - - - - -", "1.1", id="far apart"),
        pytest.param("G7 | 2:9 . . . 2:11 - 2:12 -\nC | 2:13 - - - - - - -", "1.1", id="a rest between"),
        pytest.param("G7 | 2:9 . . . 2:11 - 2:12 -\nC | 2:13 - - - - - - -", "1.2", id="a rest before"),
        pytest.param("G7 | 2:9 - 2:11 - 2:13 - 1:7 -\nC | 1:8 - - - - - - -", "1.1", id="to no note at rest"),
    ],
)
def test_altered_notes_on_their_own_are_asked_about(text: str, note: str) -> None:
    """One of the two alone, without a goal, or over a chord that does not go home."""
    found = _role(read_piece(f"key: C major\n\n{text}", "plain"), note)
    assert found.role is not Role.TENSION
    assert found.tier is not None


CELL = "3:2 2:2 1:0 2:2"
UP = "3:3 2:3 1:1 2:3"
UP_AGAIN = "3:4 2:4 1:2 2:4"


def test_a_cell_may_be_moved_twice() -> None:
    """Up a half step, and up another: the notes of both copies belong to the pattern."""
    piece = read_piece(f"A | {CELL} {UP}\n  | {UP_AGAIN} 2:5 - - -\n  | 3:2 - - - - - - -")
    assert [r.role for r in classify(piece)[4:8]].count(Role.PATTERN) >= 2
    assert all(r.role.explained and r.tier != 1 for r in classify(piece))


def test_a_sequence_may_climb_four_times() -> None:
    """Three notes go up by whole steps, four times on; what is far from the key is meant there."""
    climbing = "key: C major\n\nC | 2:8 2:10 2:6 2:10 2:12 2:8 2:12 2:14\nC | 2:10 2:14 2:16 2:12 {} 2:1\n"
    roles = classify(read_piece(climbing.format("2:16 2:18 2:14"), "plain"))
    assert all(role.role.explained for role in roles)
    slipped = classify(read_piece(climbing.format("2:16 2:19 2:14"), "plain"))
    assert not all(role.role.explained for role in slipped)


def test_a_cell_may_end_up_on_a_note_of_a_later_one() -> None:
    """C sharp ends a moved cell; the B flat it goes to is explained only by the cell that begins there."""
    roles = classify(
        read_piece(
            "key: A minor\n\nF | 2:9 2:6 2:3 2:8 2:5 2:2 2:11 2:8\nF | 2:5 2:13 2:10 2:7 2:9 - - -", "plain"
        )
    )
    assert roles[5].role is Role.PATTERN


def test_a_cell_moved_up_and_back() -> None:
    """A side-slip and the way home."""
    roles = classify(read_piece(f"A | {CELL} {UP}\n  | {CELL} 3:2 - - -"))
    assert all(r.role.explained and r.tier is None for r in roles)


def test_a_copy_with_a_slip_is_no_pattern() -> None:
    """One note of the moved cell a fret off: its chromatic notes have no excuse."""
    roles = classify(read_piece(f"A | {CELL} 3:3 2:3 1:2 2:3\n  | 3:2 - - - 3:2 - - -"))
    assert Role.PATTERN not in {r.role for r in roles}
    assert any(r.tier in (0, 1) for r in roles)


def test_a_sequence_goes_along_the_scale() -> None:
    """The held fourth of a cell moved down the scale is excused by it; on its own it is put to the author."""
    cells = "key: C major\n\nC | {} -\nC | {} -\nC | 1:0 - - - - - - -"
    moved = cells.format("1:3 - 1:1 - 1:5 - -", "1:1 - 1:0 - 1:3 - -")
    assert all(r.role.explained for r in classify(read_piece(moved)))


def test_a_line_that_alternates_with_a_drone_is_followed() -> None:
    """Half steps down, the open first string between: each is led to the next."""
    text = (
        "key: E major\n\nE7 | 6:0 - (2:3 1:0 2:3)/2  (2:2 1:0 2:2)/2 (2:1 1:0 2:1)/2\n"
        "E7 | 2:0+1:0 - - - - - - -"
    )
    assert all(r.role.explained for r in classify(read_piece(text)))
    slip = classify(read_piece(text.replace("(2:1 1:0 2:1)", "(2:1 1:0 3:1)").replace("2:0+1:0", "2:2+1:0")))
    assert any(r.tier in (0, 1) for r in slip)


def test_double_stops_explain_each_other() -> None:
    """A note that nothing else explains moves in parallel with the explained note struck with it."""
    together = classify(read_piece("key: C major\n\nC | 3:0+2:1 - 2:6+1:4 - 2:8+1:6 - 2:5+1:8 -"))
    alone = classify(read_piece("key: C major\n\nC | 2:1 - 1:4 - 1:6 - 1:8 -"))
    assert [r.role for r in together if r.pitch == 68] == [Role.PARALLEL]
    assert [r.role for r in alone if r.pitch == 68] == [Role.UNEXPLAINED]


@pytest.mark.parametrize(
    ("text", "note", "role"),
    [
        pytest.param(
            "key: F major\n\nF  | 2:6 - - - - - 2:5 2:6\nC7 | 2:8 - - - - - - -",
            "1.2",
            Role.NEIGHBOUR,
            id="another note stands between",
        ),
        pytest.param(
            "key: F major\n\nF  | 2:6 - - - - - - 2:5\nC7 | 2:8 - - - - - - -",
            "1.2",
            Role.ANTICIPATION,
            id="the last before the change",
        ),
        pytest.param(
            "key: A major\n\nA | 5:0 - 3:2 2:0  1:0 - - 2:0\nBm7 | 5:2 - - - - - - -",
            "1.5",
            Role.TENSION,
            id="rocks over its own chord",
        ),
        pytest.param(
            "key: A major\n\nD | 4:0 - - - 3:2 - 3:1 -\nE7 | 3:1 - - - - - - -",
            "1.3",
            Role.ANTICIPATION,
            id="a beat early, struck again",
        ),
        pytest.param(
            "key: F major\n\nC7 | 3:5 - 2:0 - 2:5 - - -",
            "1.2",
            Role.UNEXPLAINED,
            id="a major seventh is no blue note",
        ),
        pytest.param(
            "key: Bb major\n\nGm | 2:3 - 3:1 - 2:3 - - -",
            "1.2",
            Role.UNEXPLAINED,
            id="nor is a flat ninth",
        ),
    ],
)
def test_what_is_told_apart(text: str, note: str, role: Role) -> None:
    """Anticipations from notes that only look ahead; blue notes from foreign ones."""
    at = Address.parse(note)
    (found,) = [each for each in classify(read_piece(text)) if each.address == at]
    assert found.role is role


def test_a_bass_that_moves_on_is_no_drone() -> None:
    """A low note of moving sixths goes with the note above it; one that stays under two chords is a drone."""
    sixths = "key: F major\n\nF | 3:5+1:5 - 3:2+1:1 - 3:3+1:3 - - -\nGm | 3:7+1:6 - 3:3+1:3 - - - - -"
    roles = {(str(r.address), r.pitch): r.role for r in classify(read_piece(sixths))}
    assert roles["1.3", 58] is Role.PARALLEL
    pedal = "key: C major\n\nC | 5:3+2:1 - - - 5:3+2:1 - - -\nG7 | 5:3+2:0 - - - 6:3 - - -"
    roles = {(str(r.address), r.pitch): r.role for r in classify(read_piece(pedal))}
    assert roles["2.1", 48] is Role.DRONE


def test_a_note_struck_twice_does_not_enclose() -> None:
    """G sharp and F on both sides of G, F struck twice: no two notes go round their target."""
    roles = classify(read_piece("key: G major\n\nG7 | 2:9 2:6 2:6 2:8 - - - -", "plain"))
    assert Role.ENCLOSURE not in {role.role for role in roles}
    once = classify(read_piece("key: G major\n\nG7 | 2:9 - 2:6 2:8 - - - -", "plain"))
    assert once[0].role is Role.ENCLOSURE
