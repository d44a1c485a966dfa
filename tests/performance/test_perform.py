"""What the hands do with each form of the language, in seconds and cents; 120 a minute unless said."""

import pickle
from fractions import Fraction
from itertools import pairwise

import pytest
from rehearsal import line, play, write

from lickwright.instrument.guitar import Guitar
from lickwright.instrument.tuning import Tuning
from lickwright.model.bar import Margin
from lickwright.model.fields import Picking
from lickwright.performance.event import Attack, Performance
from lickwright.performance.perform import TAIL, perform
from lickwright.terms.signs import TABLE, SignWord
from lickwright.theory.pitch import Pitch


def onsets(performance: Performance) -> list[tuple[float, int, float]]:
    """Onset, string and fret of every event, onsets to a tenth of a millisecond."""
    return [(round(e.start, 4), e.string, e.stop) for e in performance.events]


def test_notes_rests_holds_and_ties() -> None:
    """Notes begin on their slots, holds over the bar line make one event, a rest ends the sound."""
    played = play("5:0 5:4 4:2 - . 3:2 - -", "- 2:2 - - - - - .")
    assert onsets(played) == [(0, 5, 0), (0.25, 5, 4), (0.5, 4, 2), (1.25, 3, 2), (2.25, 2, 2)]
    assert [round(e.end, 4) for e in played.events] == [0.25, 0.5, 1.0, 2.25, 3.75]
    assert played.length == 4.0
    assert played.tail == TAIL
    assert played.bars == (0.0, 2.0, 4.0)
    assert [e.source for e in played.events] == ["1.1", "1.2", "1.3", "1.4", "2.1"]


def test_slow_version_is_the_same_in_other_time() -> None:
    """At half the tempo every onset and the length are double, the pitches the same."""
    music = write("5:0 5:4 4:2 s 4:4 3:2 - 2:0 2:15b17")
    fast, slow = perform(music, Fraction(120)), perform(music, Fraction(60))
    assert [2 * e.start for e in fast.events] == pytest.approx([e.start for e in slow.events])
    assert [e.stop for e in fast.events] == [e.stop for e in slow.events]
    assert slow.length == 2 * fast.length
    assert [2 * moment for moment, _ in fast.lights] == pytest.approx([moment for moment, _ in slow.lights])


def test_swing_and_groups() -> None:
    """In a shuffle the second eighth comes at two thirds of the beat; a triplet parts its time evenly."""
    swung = play("5:0 5:2 5:4 4:2 (4:0 4:1 4:2)/2 3:2 -", feel="shuffle")
    third = 0.5 / 3
    wanted = [0, 2 * third, 0.5, 0.5 + 2 * third, 1, 1 + third, 1 + 2 * third, 1.5]
    assert [e.start for e in swung.events] == pytest.approx(wanted)


def test_repeats_and_pickup_are_unfolded() -> None:
    """A repeated bar is played twice, its lights too; a pickup comes first and is not repeated."""
    played = play(
        "1:0",
        "2:0 - - - - - - -",
        "3:0 - - - - - - -",
        margins=[Margin(), Margin(opens=True), Margin(closes=True)],
        pickup=Fraction(1, 2),
    )
    assert [(e.start, e.source) for e in played.events] == [
        (0.0, "0.1"),
        (0.25, "1.1"),
        (2.25, "2.1"),
        (4.25, "1.1"),
        (6.25, "2.1"),
    ]
    assert played.bars == (0.0, 0.25, 2.25, 4.25, 6.25, 8.25)
    assert played.lights == (
        (0.0, ("0.1",)),
        (0.25, ("1.1",)),
        (2.25, ("2.1",)),
        (4.25, ("1.1",)),
        (6.25, ("2.1",)),
        (8.25, ()),
    )


def test_hammer_pull_and_slide_join_on_their_string() -> None:
    """A joined note goes on without a stroke; the note before a slide carries the movement."""
    played = play("3:2 h 3:4 p 3:2 s 3:7 s! 3:5 - - -")
    attacks = [e.attack for e in played.events]
    assert attacks == [Attack.PICK, Attack.HAMMER, Attack.PULL, Attack.SLIDE, Attack.PICK]
    before, target = played.events[2], played.events[3]
    glide = before.glides[0]
    assert (glide.begin, glide.end) == (2, 7)
    assert before.start + glide.at + glide.seconds == pytest.approx(target.start)
    assert before.end == target.start == 0.75
    assert played.events[3].glides[0].end == 5  # the shift slide too, then it is struck


def test_a_string_that_a_join_leaves_alone_rings_on() -> None:
    """``2:3+3:4 h 3:5``: string 2 sounds on through the hammer-on."""
    played = play("2:3+3:4 - h 3:5 - - - - -")
    (high,) = line(played, 2)
    assert high.end > 1.9
    assert [e.attack for e in line(played, 3)] == [Attack.PICK, Attack.HAMMER]
    held = play("2:3+3:4 h 2:3+3:5 - - - - - -")
    assert len(line(held, 2)) == 1  # same fret: it is not struck again
    assert line(held, 2)[0].end > 1.9


def test_bends_go_up_early() -> None:
    """Up within the first third, at most an eighth, and there to stay; half steps and quarter tones."""
    (quarter,) = play("2:15b17 - - - - - - -").events
    assert quarter.stop == 15
    assert quarter.curve[0][1] == 0
    assert quarter.curve[-1] == (pytest.approx(0.25), 200)
    short = play("2:15b15.5 2:15b16 - - - - - -").events
    assert short[0].curve[-1] == (pytest.approx(0.25 / 3), 50)
    assert short[1].curve[-1][1] == 100


def test_bends_and_releases() -> None:
    """Up in the first half and down at the second; bent before the stroke; late, in slots of their own."""
    (whole,) = play("2:15b17r15 - - - - - - -").events
    heights = [cents for _, cents in whole.curve]
    assert heights == [0, 200, 200, 0]
    assert whole.curve[1][0] <= 1.0 == whole.curve[2][0]
    (before,) = play("2:15pb17r15 - - - - - - -").events
    assert before.curve[0] == (pytest.approx(1.0), 200)
    assert before.curve[-1][1] == 0
    (held,) = play("2:15pb17 - - - - - - -").events
    assert held.curve == ((0.0, 200),)
    late = play("2:15 - 2:b17 - 2:r15 - - -").events
    assert [e.attack for e in late] == [Attack.PICK, Attack.BEND, Attack.BEND]
    assert [e.stop for e in late] == [15, 15, 15]
    assert late[1].curve == ((0.0, 0), (pytest.approx(0.5 / 3), 200))
    assert late[2].curve[0][1] == 200
    assert late[2].curve[-1][1] == 0
    assert late[0].end == late[1].start
    (nut,) = play("3:0nb2 - - - - - - -").events
    assert (nut.stop, nut.curve[-1][1]) == (0, 200)


def test_other_strings_ring_on_under_a_late_bend() -> None:
    """``2:12+3:11`` and then ``3:b13``: string 2 is not damped."""
    played = play("2:12+3:11 - 3:b13 - - - - -")
    assert line(played, 2)[0].end > 1.9
    assert [e.curve[-1][1] if e.curve else 0 for e in line(played, 3)] == [0, 200]


def test_brackets() -> None:
    """Let ring: to the end of the bracket or until the string is used again; palm mute: damped."""
    played = play("ring[ 3:0 2:0 1:0 2:3 ] 3:2 - - -")
    ends = {(e.string, e.stop): round(e.end, 4) for e in played.events}
    assert ends[3, 0] == ends[1, 0] == ends[2, 3] == 1.0
    assert ends[2, 0] == 0.75
    assert [e.ring for e in played.events] == [True] * 4 + [False]
    muted = play("mute[ 6:0 6:3 ] 6:0 - - - - -")
    assert [e.mute > 0 for e in muted.events] == [True, True, False]


def test_grace_notes_come_before_the_beat() -> None:
    """Out of the time of what precedes, slurred on their own string, else struck; the beat stays."""
    played = play("3:0 - - g(2:3 2:4) 2:5 - - - -")
    assert [e.attack for e in line(played, 2)] == [Attack.PICK, Attack.HAMMER, Attack.HAMMER]
    assert line(played, 2)[-1].start == 0.75
    assert 0.5 < line(played, 2)[0].start < 0.75
    assert line(played, 3)[0].end <= line(played, 2)[0].start
    other = play("3:0 - - g(3:4) 2:5 - - - -")
    assert line(other, 2)[0].attack is Attack.PICK
    slid = play("3:0 - - g(2:3) s 2:5 - - - -")
    assert [e.attack for e in line(slid, 2)] == [Attack.PICK, Attack.SLIDE]
    assert line(slid, 2)[0].glides[0].end == 5
    rake = play("3:0 - - g(5:x 4:x 3:x) 2:12 - - - -")
    assert [e.attack for e in rake.events if e.attack is Attack.DEAD] == [Attack.DEAD] * 3
    first = play("g(2:3) 2:5 - - - - - - -")
    assert min(e.start for e in first.events) == 0.0


def test_signs_of_a_strike() -> None:
    """Accent louder, short shorter, spread from low to high, slides in and out, vibrato after a while."""
    plain, accent = play("3:5 3:5 3:5! 3:5 3:5 - - -").events[::2][:2]
    assert accent.velocity > plain.velocity
    short = play("3:5' 2:5 - - - - - -").events[0]
    assert short.end == pytest.approx(0.125)
    spread = play("5:0+4:2+3:2^ - - - - - - -").events
    assert [e.string for e in spread] == [5, 4, 3]
    assert spread[0].start == 0.0
    assert spread[1].start < spread[2].start < 0.1
    into, out = play("/4:5 - 4:7\\ - - - - -").events
    assert (into.stop, into.arrival) == (3, 5)
    assert (out.stop, out.arrival) == (7, 3)
    shaken = play("2:15b17~ - - - - - - -").events[0]
    assert shaken.vibrato is not None
    assert shaken.vibrato.delay >= shaken.curve[-1][0]


def test_heads() -> None:
    """Dead, tapped, hammered from nowhere, harmonics natural and stopped."""
    played = play("4:x 4:t12 4:h5 4:<12> 4:2<14> 4:<7> - -")
    attacks = [e.attack for e in played.events]
    assert attacks[:3] == [Attack.DEAD, Attack.TAP, Attack.HAMMER]
    assert [(e.harmonic, e.stop) for e in played.events[3:]] == [(2, 0), (2, 2), (3, 0)]
    assert all(not e.curve for e in played.events)


def test_rows_of_signs() -> None:
    """Tremolo repeats the stroke, a trill changes fingers, a swell and a ghost change the loudness."""
    tremolo = play("3:5 - - - 3:5 - - -\nsigns tremolo *").events
    strokes = [e for e in tremolo if e.source == "1.1"]
    assert len(strokes) > 8
    assert strokes[-1].end == pytest.approx(1.0)
    trill = play("3:5 - - - - - - -\nsigns trill7").events
    assert {e.stop for e in trill} == {5, 7}
    assert trill[-1].stop == 5
    assert trill[1].attack is Attack.HAMMER
    assert trill[2].attack is Attack.PULL
    swell, ghost, pinch, scrape = play("3:5 - 3:5 - 3:5 - 3:x -\nsigns swell ghost pinch scrape").events
    assert swell.swell > 0
    assert ghost.velocity < 0.5
    assert pinch.harmonic == 4
    assert scrape.attack is Attack.SCRAPE


@pytest.mark.parametrize("sign", TABLE, ids=lambda sign: sign.word)
def test_every_word_of_the_signs_row_is_sounded_or_printed_only(sign: SignWord) -> None:
    """A word of the table changes what is played, or the table says that the clock keeps time."""
    head = "x" if sign.word == "scrape" else "5"
    plain, signed = (play(f"3:{head} - - - 3:5 - - -\nsigns {word} *") for word in ("*", sign.example))
    assert (plain.events != signed.events) is sign.sounded


def test_strokes() -> None:
    """The rh row holds; where it is silent the claim decides: alternate, pendulum, fingers."""
    said = play("5:0 5:4 4:2 h 4:4 3:2 - - -\nrh d u d * m")
    assert [e.stroke for e in said.events] == ["down", "up", "down", None, None]
    assert said.events[-1].attack is Attack.FINGER
    bar = "5:0 - 5:4 4:2 h 4:4 3:2 - -"
    alternate = play(bar, picking=Picking("alternate", "u"))
    assert [e.stroke for e in alternate.events] == ["up", "down", "up", None, "down"]
    pendulum = play(bar, picking=Picking("pendulum"))
    assert [e.stroke for e in pendulum.events] == ["down", "down", "up", None, "up"]
    fingers = play(bar, picking=Picking("fingers"))
    assert {e.attack for e in fingers.events} == {Attack.FINGER, Attack.HAMMER}


def test_two_voices_share_the_strings() -> None:
    """Both voices are played; a string that the other voice uses is cut off; lights hold both."""
    played = play("1:5 - 1:4 - 2:5 - 2:2 -", lower=["5:0 - - - 4:2 - - -"])
    assert [(e.start, e.source) for e in played.events] == [
        (0.0, "1.1"),
        (0.0, "low1.1"),
        (0.5, "1.2"),
        (1.0, "1.3"),
        (1.0, "low1.2"),
        (1.5, "1.4"),
    ]
    assert played.lights[0] == (0.0, ("1.1", "low1.1"))
    assert played.lights[1] == (0.5, ("low1.1", "1.2"))
    assert line(played, 5)[0].end == 1.0


def test_other_guitars() -> None:
    """Seven strings, open tunings and a capo: pitches are the guitar's."""
    names = ["B1", "E2", "A2", "D3", "G3", "B3", "E4"]
    tuning = Tuning(tuple(Pitch.parse(name) for name in reversed(names)))
    played = play("7:0 7:2 - - 1:0 - - -", guitar=Guitar(tuning=tuning, capo=2, sound="acoustic"))
    assert played.opens == (64, 59, 55, 50, 45, 40, 35)
    assert [e.stop for e in played.events] == [2, 4, 2]
    assert played.instrument == "acoustic"


def test_one_voice_a_string_and_pure() -> None:
    """No string has two events at once; the same music twice is equal, and travels between processes."""
    bars = ("ring[ 3:0 2:0 3:2 h 3:4 2:3 1:0 ] 3:4 g(3:5) 3:7", "2:12+3:11 - 3:b13 . 5:x 4:x (3:2 3:4 3:5)/2")
    played = play(*bars)
    for string in range(1, 7):
        own = line(played, string)
        for before, after in pairwise(own):
            assert before.start < before.end <= after.start + 1e-9
    assert all(e.end > e.start >= 0 for e in played.events)
    assert played == play(*bars)
    assert pickle.loads(pickle.dumps(played)) == played


def test_onsets_against_the_timeline() -> None:
    """Without grace notes every struck sound begins at its place in quarters times 60 over the tempo."""
    played = play("5:0 (5:2 5:4 4:2) 4:4 (3:2 3:4)/3 - -", bpm=97)
    quarters = [0, 0.5, 0.5 + 1 / 6, 0.5 + 2 / 6, 1, 1.5, 2.25]
    assert [e.start for e in played.events] == pytest.approx([q * 60 / 97 for q in quarters])
