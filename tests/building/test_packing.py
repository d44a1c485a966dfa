"""Results survive being bytes."""

from hypothesis import given
from hypothesis import strategies as st

from lickwright.building.packing import pack, unpack_score, unpack_sound
from lickwright.model.orders import BarBox, Engraved, Recorded, System

TEXT = st.text(st.characters(codec="utf-8"), max_size=20)
NUMBER = st.floats(0, 1e6)
BOXES = st.builds(BarBox, st.integers(0, 500), NUMBER, NUMBER)
SYSTEMS = st.builds(System, TEXT, st.lists(BOXES, max_size=3).map(tuple), NUMBER, NUMBER)
SCORES = st.builds(
    Engraved, st.lists(SYSTEMS, max_size=3).map(tuple), TEXT, st.lists(TEXT, max_size=2).map(tuple)
)
SOUNDS = st.builds(
    Recorded,
    st.binary(max_size=50),
    NUMBER,
    st.lists(st.tuples(st.integers(0, 500), NUMBER, NUMBER), max_size=3).map(tuple),
    st.lists(st.tuples(NUMBER, st.lists(TEXT, max_size=2).map(tuple)), max_size=3).map(tuple),
)


@given(SCORES)
def test_a_score_comes_back(score: Engraved) -> None:
    """A score is the same after packing, to the last digit."""
    assert unpack_score(pack(score)) == score


@given(SOUNDS)
def test_a_sound_comes_back(sound: Recorded) -> None:
    """A sound is the same after packing, line ends in its bytes included."""
    assert unpack_sound(pack(sound)) == sound
