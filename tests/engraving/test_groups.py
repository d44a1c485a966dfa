"""What proofs clean can be printed: groups of every kind, and excerpts that cut them."""

from fractions import Fraction
from itertools import count

import pytest
from engraved_licks import read, resolve
from hypothesis import example, given, settings
from hypothesis import strategies as st
from test_time_and_pitch import late_by
from witness import Witness

from lickwright.analysis.notation.ids import local_id
from lickwright.analysis.notation.values import PRINTED, grid_of, split, tuplet_grid
from lickwright.engraving.document import document
from lickwright.model.address import Address, AddressRange
from lickwright.model.music import Music
from lickwright.model.timeline.excerpt import excerpt_music
from lickwright.theory.meter import Meter

METERS = ("4/4", "3/4", "6/8", "5/8", "12/8", "2/2", "7/16")
STEPS = ("1/8", "1/16", "1/32")
MEMBERS = st.sampled_from(["5:0", "5:4", "3:2", "3:7b9r7", "-", "."])


def shared(members: list[str], share: int) -> str:
    """A group as it is written."""
    first = members[0] if members[0][0] not in "-." else "5:2"
    return f"({' '.join([first, *members[1:]])})" + (f"/{share}" if share > 1 else "")


GROUPS = st.recursive(
    MEMBERS,
    lambda inner: st.builds(shared, st.lists(inner, min_size=2, max_size=7), st.integers(1, 6)),
    max_leaves=9,
)


def steps_of(group: str) -> int:
    """How many steps of a bar a slot takes."""
    tail = group.rpartition(")/")[2]
    return int(tail) if group.endswith(")") is False and ")/" in group and tail.isdigit() else 1


@st.composite
def bars(draw: st.DrawFn) -> tuple[str, str, str]:
    """Fields and the slots of two bars of groups, filled up with notes."""
    meter, step = draw(st.sampled_from(METERS)), draw(st.sampled_from(STEPS))
    top, unit = map(int, meter.split("/"))
    room = Fraction(top, unit) / Fraction(step)
    if room.denominator > 1:
        step, room = "1/32", Fraction(top * 32, unit)
    lines = []
    for string in ("", "6:0"):
        left, slots = int(room), ["1:5"] if not string else ["6:0"]
        left -= 1
        for slot in draw(st.lists(GROUPS, max_size=3)):
            if steps_of(slot) <= left:
                slots.append(slot if not string else slot.replace("5:", "6:").replace("3:", "6:"))
                left -= steps_of(slot)
        lines.append(" ".join([*slots, *["-"] * left]))
    return f"meter: {meter}\nstep: {step}\n\n", lines[0], lines[1]


def engraved(music: Music) -> None:
    """Both staves are written, and Verovio plays each note when the music says.

    A bend's small note on the staff has its time out of what precedes it; where that is shorter
    still, Verovio takes it out of the bent note. Bent notes are timed in ``test_time_and_pitch``.
    """
    bent = {
        f"s{local_id(sound.address, k)}"
        for bar in music.bars
        for line in bar.lines
        for sound in line.sounds
        for k, tone in enumerate(sound.tones, 1)
        if tone.bends
    }
    assert not set(late_by(music, Witness(document(music, "both").mei))) - bent


@settings(max_examples=60, deadline=None)
@given(bars())
@example(("meter: 4/4\n\n", "(1:5 1:4 1:2)/5 1:0 - -", "6:0 - - - - - - -"))
@example(("meter: 4/4\nstep: 1/16\n\n", "3:7b9r7 (- 5:4 5:2) " + "- " * 14, "6:0 " + "- " * 15))
def test_what_proofs_clean_is_printed_and_played(bar: tuple[str, str, str]) -> None:
    """Groups of any size, share and nesting: an error says so, or they are printed in time."""
    fields, upper, lower = bar
    music, wrong = resolve(f"{fields}A | {upper}\n| {lower}\n")
    if not wrong:
        engraved(music)


@pytest.mark.parametrize("share", range(1, 17))
def test_every_number_of_members_in_every_number_of_steps(share: int) -> None:
    """2 to 16 members in 1 to 16 steps: none of them lacks a note value."""
    meter, room = ("4/4", 8) if share <= 8 else ("16/8", 16)
    for members in range(2, 17):
        group = " ".join(f"5:{number % 4}" for number in range(members))
        music = read(f"meter: {meter}\n\nA | ({group})/{share} {'. ' * (room - share)}\n")
        pieces = document(music, "both").score.layers[0][0].pieces
        assert all(piece.length in PRINTED for piece in pieces)
        assert sum(piece.sound is not None and piece.first for piece in pieces) == members


@pytest.mark.parametrize("members", [3, 5, 7, 11, 16])
@pytest.mark.parametrize("share", [5, 7, 11])
def test_tied_members_are_in_time(members: int, share: int) -> None:
    """Members that are no plain value are tied, and Verovio counts them as the music does."""
    group = " ".join(f"5:{number % 4}" for number in range(members))
    engraved(read(f"meter: 12/8\nstep: 1/8\n\nA | ({group})/{share} {'. ' * (12 - share)}\n"))


@pytest.mark.parametrize(
    "text",
    [
        "\nA | ((((((5:0 5:4) 5:0) 5:4) 5:0) 5:4) 5:0) . . . . . . .\n",
        "step: 1/64\n\nA | (5:0 5:4 5:0 5:4 5:0 5:4 5:0 5:4) " + ". " * 63 + "\n",
        "step: 1/16\n\nA | (3:7b9r7b9r7b9r7 3:7 3:7) " + ". " * 15 + "\n",
        "\nA | " + "(" * 14 + "5:0 5:1 5:2 5:3" + " 5:4)/4" * 14 + " . . . .\n",
    ],
)
def test_what_is_too_short_for_print_is_told(text: str) -> None:
    """Shorter than a 256th is an error of the author's, said once."""
    _, wrong = resolve(text)
    assert len(wrong) == 1
    assert "256th" in wrong[0]


@pytest.mark.parametrize("apart", [13, pytest.param(3, marks=pytest.mark.slow)])
def test_every_stretch_of_256ths_can_be_made_up(apart: int) -> None:
    """In a bar, a tuplet and as rests: any beginning, any length."""
    unit = Fraction(1, 64)
    grids = [grid_of(Meter(2, 4)), grid_of(Meter(6, 8)), grid_of(Meter(7, 16))]
    grids += [tuplet_grid(Fraction(size)) for size in ("1/64", "5/64", "1/2", "3/8", "5/4", "13/8", "16")]
    for grid in grids:
        for start, length in zip(range(0, 64, apart), count(1, 2 * apart - 1), strict=False):
            for rest in (False, True):
                made = split(grid, start * unit, length * unit, rest)
                assert sum(made) == length * unit


@settings(max_examples=40, deadline=None)
@given(bars(), st.data())
@example(("meter: 4/4\n\n", "(1:5 1:4 1:2)/2 1:0 - 2:2 - 2:0 -", "6:0 - - - 6:0 - - -"), None)
def test_every_excerpt_of_two_voices_is_printed(
    bar: tuple[str, str, str], data: st.DataObject | None
) -> None:
    """Whatever sound it begins and ends on, whatever the other voice does there."""
    fields, upper, lower = bar
    music, wrong = resolve(f"{fields}A | {upper}\n  low | {lower}\nA | {upper}\n  low | {lower}\n")
    if wrong:
        return
    addresses = [sound.address for b in music.bars for sound in b.upper.sounds]
    chosen = (
        [AddressRange(Address(1, 2), Address(1, 4))]
        if data is None
        else [AddressRange(*sorted(data.draw(st.tuples(*[st.sampled_from(addresses)] * 2))))]
    )
    for show in chosen:
        shown = excerpt_music(music, show)
        assert shown is not None
        assert show.first in [s.address for s in shown.bars[0].upper.sounds]
        engraved(shown)


@pytest.mark.parametrize(
    ("upper", "show", "expected"),
    [
        ("(1:5 1:4 1:2)/2 1:0 - 2:2 - 2:0 -", "1.2-1.4", ["1.1", "1.2", "1.3", "1.4"]),
        ("(1:5 1:4 1:2)/2 1:0 - 2:2 - 2:0 -", "1.4-1.5", ["1.4", "1.5"]),
        ("1:5 - (1:4 1:2 1:0)/2 2:2 - 2:0 -", "1.1-1.3", ["1.1", "1.2", "1.3", "1.4"]),
        ("1:5 1:4 1:2 1:0 2:2 - 2:0 -", "1.2-1.3", ["1.2", "1.3"]),
    ],
)
def test_an_excerpt_is_widened_only_where_the_other_voice_cannot_be_cut(
    upper: str, show: str, expected: list[str]
) -> None:
    """A half note under a triplet cannot begin in its middle; between plain values it can."""
    music = read(f"\nA | {upper}\n  low | 6:0 - - - 6:0 - - -\n")
    part = AddressRange.parse(show)
    assert part is not None
    shown = excerpt_music(music, part)
    assert shown is not None
    assert [str(sound.address) for sound in shown.bars[0].upper.sounds] == expected
    engraved(shown)
