"""The practice player in Chromium, from disk and off line."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

pytestmark = pytest.mark.browser

PRESSED = "[...document.querySelectorAll('#first .wide .bars [aria-pressed=true]')].map(b => b.dataset.bar)"
WATCH = """() => {
  window.seen = [];
  new MutationObserver(() => {
    const lit = [...document.querySelectorAll('.wide .sounding')].map(n => n.id).join(' ');
    if (lit && lit !== seen.at(-1)) seen.push(lit);
    if (seen.length > 4) document.body.dataset.seen = 'five';
  }).observe(document.body, {subtree: true, attributes: true, attributeFilter: ['class']});
}"""


def both(bar: int, note: int) -> str:
    """The lit notes of the wide layout at one moment: staff and tab."""
    return f"w-first-s{bar}.{note} w-first-t{bar}.{note}"


def test_play_becomes_stop_and_the_lights_follow(desk):
    """Play plays the lick to its end, lighting staff and tab in order, and is Play again afterwards."""
    page = desk.page
    page.evaluate(WATCH)
    play = page.locator("#first .play")
    expect(play).to_have_text("Play")
    play.click()
    expect(play).to_have_text("Stop")
    expect(page.locator("#first .wide .spot")).to_have_count(1)
    expect(play).to_have_text("Play")
    assert page.evaluate("seen") == [both(bar, note) for bar in range(4) for note in (1, 2)]
    expect(page.locator(".sounding, .spot")).to_have_count(0)
    assert play.get_attribute("aria-pressed") is None


def test_one_player_at_a_time(desk):
    """Starting the second player stops the first."""
    page = desk.page
    page.locator("#first [data-part=loop]").check()
    page.locator("#first .play").click()
    expect(page.locator("#first .spot").first).to_be_attached()
    page.locator("#second .play").click()
    expect(page.locator("#second .spot").first).to_be_attached()
    expect(page.locator("#first .play")).to_have_text("Play")
    expect(page.locator("#first .sounding")).to_have_count(0)


def test_escape_stops(desk):
    """Escape stops the sound from anywhere in the section, and only then lets go of the loop."""
    page = desk.page
    page.locator("#first .wide [data-bar='1']").click()
    page.locator("#first .play").click()
    expect(page.locator("#first .spot").first).to_be_attached()
    page.locator("#first .wide [data-bar='1']").focus()
    page.keyboard.press("Escape")
    expect(page.locator("#first .play")).to_have_text("Play")
    assert page.evaluate(PRESSED) == ["1"]
    page.keyboard.press("Escape")
    assert page.evaluate(PRESSED) == []


def test_a_loop_by_keys(desk):
    """The bars are one Tab stop; arrows move, Shift extends, the range is pressed and said."""
    page = desk.page
    page.locator("#first .wide [data-bar='0']").focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Space")
    assert page.evaluate(PRESSED) == ["1"]
    page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("Shift+ArrowRight")
    assert page.evaluate(PRESSED) == ["1", "2", "3"]
    expect(page.locator("#first [role=status]")).to_have_text("Loop: bars 2 to 4.")
    page.keyboard.press("Home")
    assert page.evaluate("document.activeElement.dataset.bar") == "0"
    assert page.locator("#first .wide .bars button[tabindex='0']").count() == 1
    page.keyboard.press("Enter")
    page.keyboard.press("Enter")
    assert page.evaluate(PRESSED) == []
    expect(page.locator("#first [role=status]")).to_have_text("")


def test_a_loop_by_mouse(desk):
    """A drag takes the bars it passes, Shift extends, the same bar again lets go; selects and box agree."""
    page = desk.page
    bars = [page.locator(f"#first .wide [data-bar='{k}']") for k in range(4)]
    bars[0].scroll_into_view_if_needed()
    bars[0].hover()
    page.mouse.down()
    bars[1].hover()
    page.mouse.up()
    assert page.evaluate(PRESSED) == ["0", "1"]
    assert page.locator("#first [data-part=to]").input_value() == "1"
    bars[3].click(modifiers=["Shift"])
    assert page.evaluate(PRESSED) == ["0", "1", "2", "3"]
    bars[2].click()
    assert page.evaluate(PRESSED) == ["2"]
    assert page.locator("#first [data-part=loop]").is_checked()
    bars[2].click()
    assert page.evaluate(PRESSED) == []
    assert not page.locator("#first [data-part=loop]").is_checked()


def test_the_loop_goes_round_its_bars_only(desk):
    """A loop of bar 3 at the slower tempo lights its two notes over and over, with a count before it."""
    page = desk.page
    page.locator("#first [data-part=tempo]").select_option(index=0)
    page.locator("#first [data-part=count]").check()
    page.locator("#first [data-part=from]").select_option(index=2)
    page.locator("#first [data-part=to]").select_option(index=2)
    page.evaluate(WATCH)
    page.locator("#first .play").click()
    page.locator("[data-seen=five]").wait_for()
    assert page.evaluate("seen.slice(0, 5)") == [both(2, 1 + k % 2) for k in range(5)]
    assert page.locator("script[src*='first-slow']").count() == 0  # taken out once it has spoken


def test_unticking_the_loop_plays_to_its_end(desk):
    """Without its tick the running pass is the last one."""
    page = desk.page
    page.locator("#first .wide [data-bar='1']").click()
    page.locator("#first .play").click()
    expect(page.locator("#first .spot").first).to_be_attached()
    page.locator("#first [data-part=loop]").uncheck()
    expect(page.locator("#first .play")).to_have_text("Play")


@pytest.mark.parametrize(
    ("music", "scale", "with_pickup", "clicks", "entry"),
    [
        ({"beat": 0.5, "beats": 4, "pickup": 0}, 1, True, 4, 2.0),
        ({"beat": 0.5, "beats": 4, "pickup": 0}, 2, True, 4, 4.0),  # at half the tempo
        ({"beat": 0.5, "beats": 4, "pickup": 0.5}, 1, True, 4, 1.5),  # one, two, three, and in on four
        ({"beat": 0.5, "beats": 4, "pickup": 0.5}, 2, True, 4, 3.0),
        ({"beat": 0.5, "beats": 4, "pickup": 0.5}, 1, False, 4, 2.0),  # a loop that leaves the pickup out
        (
            {"beat": 0.75, "beats": 2, "pickup": 0.25},
            1,
            True,
            2,
            1.25,
        ),  # 6/8: two dotted quarters, an eighth before
        ({"beat": 0.5, "beats": 3, "pickup": 1.5}, 1, True, 3, 0.0),  # a whole bar: with the first click
        ({"beat": 0.5, "beats": 2, "pickup": 1.25}, 1, True, 4, 0.75),  # more than a bar: two are counted
    ],
)
def test_the_count_in(
    desk, music: dict[str, float], scale: float, with_pickup: bool, clicks: int, entry: float
):
    """Whole bars are counted, a click a beat; a pickup enters so early that bar 1 falls on the next beat."""
    call = "([music, scale, pickup]) => lickwright.time.countIn(music, scale, pickup)"
    counted = desk.page.evaluate(call, [music, scale, with_pickup])
    beat = music["beat"] * scale
    assert counted["clicks"] == pytest.approx([k * beat for k in range(clicks)])
    assert counted["entry"] == pytest.approx(entry)
    lead = music["pickup"] * scale if with_pickup else 0
    assert counted["entry"] + lead == pytest.approx(clicks * beat)


def test_words_play_their_notes(desk):
    """A link in the prose plays its span and shows the notes it means, by mouse and by keys."""
    page = desk.page
    page.evaluate(WATCH)
    link = page.locator("a.lick")
    assert link.get_attribute("role") == "button"
    link.click()
    expect(page.locator("#first .wide .meant")).to_have_count(2)
    expect(page.locator("#first .play")).to_have_text("Play")
    assert page.evaluate("seen")[:2] == [both(1, 1), both(1, 2)]
    link.focus()
    page.keyboard.press("Space")
    expect(page.locator("#first .play")).to_have_text("Stop")
    page.keyboard.press("Escape")
    expect(page.locator("#first .play")).to_have_text("Play")
    expect(page.locator(".meant")).to_have_count(0)
    assert page.url.endswith("page.html")


def test_a_missing_sound_is_said(chromium: Browser, trial_page: Path, tmp_path: Path, press):
    """A sound file that is not there is told in words, and Play is there to try again."""
    site = shutil.copytree(trial_page.parent, tmp_path / "site")
    (site / "sound" / "first-full.js").unlink()
    desk = press.open_desk(chromium, site / "page.html")
    desk.page.locator("#first .play").click()
    expect(desk.page.locator("#first [role=status]")).to_contain_text("first-full.js is missing")
    expect(desk.page.locator("#first .play")).to_have_text("Play")
    desk.page.context.close()


@pytest.mark.parametrize(("fault", "exact"), [(0, True), (7, False)])
def test_a_loop_is_exact_to_the_sample(desk, fault, exact):
    """The pulses of a piece are its length apart, pass by pass; a piece 7 samples too long is caught."""
    gaps = desk.page.evaluate(
        """async fault => {
          const rate = 44100, from = 11025, to = 22050, context = new OfflineAudioContext(1, 4 * 11025, rate);
          const stem = new Float32Array(44100); stem[from + 3000] = 1;
          const piece = lickwright.time.loopOf(stem, from, to + fault, 176);
          const buffer = context.createBuffer(1, piece.length, rate); buffer.copyToChannel(piece, 0);
          const source = context.createBufferSource(); source.buffer = buffer;
          source.loop = true; source.loopStart = 0; source.loopEnd = piece.length / rate;
          source.connect(context.destination); source.start();
          const out = (await context.startRendering()).getChannelData(0);
          const pulses = [...out.keys()].filter(k => out[k] > 0.5);
          return pulses.slice(1).map((p, k) => p - pulses[k]);
        }""",
        fault,
    )
    assert len(gaps) >= 2
    assert (set(gaps) == {11025}) is exact


def test_the_seam_of_a_loop_does_not_click(desk):
    """At the jump back a steady tone goes on without a step; without the cross-fade there is one."""
    steps = desk.page.evaluate(
        """() => {
          const tone = Float32Array.from({length: 8000}, (_, k) => Math.sin(k * 0.05));
          const seam = fade => {
            const piece = lickwright.time.loopOf(tone, 1000, 1963, fade);
            return Math.abs(piece[0] - piece[piece.length - 1]);
          };
          return [seam(176), seam(0)];
        }"""
    )
    assert steps[0] < 0.06  # the tone's own steepest step is 0.05
    assert steps[1] > 0.1


def test_times(desk):
    """The light in force is the last one begun; a pickup is counted in on its own beat."""
    page = desk.page
    lights = "[[0, ['a']], [1, []], [1.5, ['b']]]"
    found = [page.evaluate(f"lickwright.time.lightAt({lights}, {t})") for t in (-0.1, 0, 0.99, 1, 9)]
    assert found == [-1, 0, 0, 1, 2]
    music = "{beat: 0.5, beats: 4, pickup: 0.25}"
    assert page.evaluate(f"lickwright.time.countIn({music}, 1, false)") == {
        "clicks": [0, 0.5, 1, 1.5],
        "entry": 2,
    }
    assert page.evaluate(f"lickwright.time.countIn({music}, 2, true).entry") == 3.5


def test_all_bars_are_looped_with_their_repeats(desk):
    """A range is from bar to bar as first played; the whole goes on to the end of the last repeat."""
    music = "{bars: [[0, 0, 1], [1, 1, 2], [0, 2, 3], [1, 3, 4]]}"
    spans = [desk.page.evaluate(f"lickwright.time.span({music}, {r})") for r in ([0, 0], [1, 1], [0, 1])]
    assert spans == [[[0, 1]], [[1, 2]], [[0, 4]]]


def test_a_loop_over_a_repeat_plays_the_chosen_bars_only(desk):
    """Where the music runs straight through them it is that pass; over an ending, runs in written order."""
    order = [0, 1, 2, 1, 2, 3, 4, 3, 5]  # a pickup, two bars twice, a bar with a first and a second ending
    bars = [[bar, k, k + 1] for k, bar in enumerate(order)]
    found = {
        tuple(r): desk.page.evaluate(f"lickwright.time.span({{bars: {bars}}}, {r})")
        for r in ([2, 3], [1, 3], [3, 5], [4, 5], [0, 5])
    }
    assert found == {
        (2, 3): [[4, 6]],
        (1, 3): [[3, 6]],
        (3, 5): [[5, 7], [8, 9]],
        (4, 5): [[6, 7], [8, 9]],
        (0, 5): [[0, 9]],
    }


def test_a_grace_note_before_the_loop_is_in_it(desk):
    """The piece begins with the grace note and is as long as its bars: it ends that much earlier."""
    span = desk.page.evaluate(
        "lickwright.time.span({bars: [[0, 0, 1], [1, 1, 2, 0.125], [2, 2, 3]]}, [1, 1])"
    )
    assert span == [[0.875, 1.875]]


def test_words_leave_the_page_where_it_is(desk):
    """Where the notes are in view nothing scrolls, and the mark stays after the sound, until Escape."""
    page = desk.page
    page.locator("a.lick").scroll_into_view_if_needed()
    before = page.evaluate("scrollY")
    page.locator("a.lick").click()
    expect(page.locator("#first .play")).to_have_text("Stop")
    expect(page.locator("#first .play")).to_have_text("Play")
    assert page.evaluate("scrollY") == before
    assert page.locator("#first .wide .meant").count() == 2
    page.keyboard.press("Escape")
    expect(page.locator(".meant")).to_have_count(0)


def test_words_on_another_page_point_here(chromium: Browser, trial_page: Path, press):
    """On arrival the notes asked for are marked; nothing sounds before Play."""
    desk = press.open_desk(chromium, trial_page)
    desk.page.goto(trial_page.as_uri() + "?notes=1.1+1.2#second")
    expect(desk.page.locator("#second .wide .meant")).to_have_count(4)
    expect(desk.page.locator("#second .play")).to_have_text("Play")
    assert desk.faults == []
    desk.page.context.close()


def test_a_drag_starts_the_sound_once(desk):
    """While the bars are drawn over nothing starts anew; letting go does, once."""
    page = desk.page
    page.evaluate(
        "() => { window.starts = 0; const play = lickwright.audio.play;"
        " lickwright.audio.play = (...all) => { starts += 1; return play(...all); }; }"
    )
    bars = [page.locator(f"#first .wide [data-bar='{k}']") for k in range(2)]
    bars[0].click()
    page.locator("#first .play").click()
    expect(page.locator("#first .spot").first).to_be_attached()
    bars[0].hover()
    page.mouse.down()
    for bar in (bars[1], bars[0], bars[1]):
        bar.hover()
    assert page.evaluate("starts") == 1
    page.mouse.up()
    page.wait_for_function("starts === 2")
    assert page.evaluate(PRESSED) == ["0", "1"]


def test_two_widths_share_one_state(chromium: Browser, trial_page: Path, press):
    """On a phone the narrow bars are there to choose, reach 44 px, and nothing is wider than the page."""
    desk = press.open_desk(chromium, trial_page, 360)
    page = desk.page
    assert page.locator("#first .wide").is_hidden()
    page.locator("#first .narrow [data-bar='2']").click()
    assert page.evaluate(PRESSED) == ["2"]
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    small = page.evaluate(
        """[...document.querySelectorAll('main button, main select, .row label, .running a, .foot label')]
           .filter(e => e.offsetParent).map(e => [e.textContent || e.dataset.part, e.getBoundingClientRect()])
           .filter(([, box]) => box.height < 43.9 || box.width < 43.9).map(([name]) => name)"""
    )
    assert small == []
    assert desk.faults == []
    page.context.close()
