// @ts-check
/**
 * The practice player: one for each section that carries music, one of them sounding at a time.
 */
(function () {
"use strict";
const { time, audio, bars } = window.lickwright;
/** @type {any} the one that sounds */ let sounding = null;
/** @type {Element[]} what words point at */ let meant = [];
let byHand = -9999, byUs = -9999; // when the page was last scrolled
for (const kind of ["wheel", "touchmove", "scroll"]) addEventListener(kind, () => {
  if (kind !== "scroll" || performance.now() - byUs > 1200) byHand = performance.now();
}, { passive: true });

/** @param {Element[]} marked */
function mean(marked) {
  for (const note of meant) note.classList.remove("meant");
  for (const note of marked) note.classList.add("meant");
  meant = marked;
}

/** @param {Element[]} marked those of the layout that is shown */
function shownOf(marked) { return marked.filter((note) => note.getClientRects().length); }

/** @param {{top: number, bottom: number}} box */
function inView(box) { return box.top >= 0 && box.bottom <= innerHeight; }

/** @param {Element | null} system @param {ScrollLogicalPosition} block */
function reveal(system, block) {
  if (!system || inView(system.getBoundingClientRect())) return;
  byUs = performance.now();
  system.scrollIntoView({ block: block, behavior: matchMedia("(prefers-reduced-motion:reduce)").matches ? "auto" : "smooth" });
}

/** @param {string} prefix @param {string[]} tones @returns {Element[]} their notes in all layouts, on staff and tab */
function notes(prefix, tones) {
  const found = [];
  for (const layout of ["w-", "n-"]) for (const tone of tones) for (const staff of "st") {
    const note = document.getElementById(layout + prefix + staff + tone);
    if (note) found.push(note);
  }
  return found;
}

/** @param {Element} note @returns {Element | null} a round of ink behind its tab figure */
function spot(note) {
  const figure = note.localName === "text" ? note : note.querySelector("text");
  if (!figure || note.querySelector("use")) return null;
  const size = parseFloat(getComputedStyle(figure.querySelector("tspan") || figure).fontSize) || 320;
  const round = document.createElementNS("http://www.w3.org/2000/svg", "circle");
  const y = parseFloat(figure.getAttribute("y") || "0") - 0.34 * size;
  Object.entries({ class: "spot", cx: figure.getAttribute("x") || "0", cy: y, r: Math.round(0.64 * size) })
    .forEach(([name, value]) => round.setAttribute(name, String(value)));
  figure.before(round);
  return round;
}

/** @param {HTMLElement} section @param {any} music as time.js says */
function player(section, music) {
  /** @type {any[]} */
  const [button, tempo, count, loop, from, to, said] = ["play", "tempo", "count", "loop", "from", "to", "said"]
    .map((name) => section.querySelector("[data-part=" + name + "]"));
  /** @type {[number, number]} */ let range = [0, music.written - 1];
  /** @type {any} the sound that runs, see sound.js */ let playing = null;
  let turn = 0; // every start and stop takes a new one: a file that arrives late finds its own gone
  /** @type {any[]} */ let lit = [], spots = [];
  /** @type {any} its parts, how, and the place in them */ let run = null;
  /** @type {Element | null} */ let system = null;
  let shown = -2, stale = false;

  /** @param {string} text */
  function say(text) { if (said && said.textContent !== text) said.textContent = text; }

  function looping() { return loop && loop.checked; }

  /** @param {number} index of the light, -1 for none */
  function show(index) {
    if (index === shown) return;
    shown = index;
    for (const note of lit) note.classList.remove("sounding");
    for (const round of spots) if (round) round.remove();
    lit = index < 0 ? [] : notes(music.prefix, music.lights[index][1]);
    for (const note of lit) note.classList.add("sounding");
    spots = lit.map(spot);
    const first = shownOf(lit)[0], now = first && first.closest(".system");
    if (!now || now === system || run.how.ring) return;
    system = now;
    if (performance.now() - byHand > 3000) reveal(now, "center");
  }

  function stop() {
    turn += 1;
    if (playing) playing.stop();
    playing = run = system = null;
    if (sounding === self) sounding = null;
    if (button) { button.textContent = "Play"; button.classList.remove("on"); }
    show(-1);
  }

  /**
   * @param {[number, number][]} parts seconds at full tempo, as `offset` into them
   * @param {any} how loop, count, pickup, whole, ring
   */
  function start(parts, how, offset = 0) {
    stop();
    if (sounding) sounding.stop();
    sounding = self;
    byHand = -9999;
    const mine = turn, { file, scale } = music.tempi[tempo ? tempo.selectedIndex : 0], all = time.lengthOf(parts);
    if (button) { button.textContent = "Stop"; button.classList.add("on"); }
    audio.load(file).then((/** @type {any} */ buffer) => {
      if (mine !== turn) return;
      const now = run = { parts, how, inside: offset }, running = playing = audio.play(buffer, {
        parts: how.whole ? null : parts.map((part) => part.map((seconds) => seconds * scale)),
        loop: how.loop, ring: how.ring, ended: stop, offset: offset * scale,
        count: how.count ? time.countIn(music, scale, how.pickup) : null,
      });
      function follow() {
        if (playing !== running) return;
        const elapsed = running.elapsed() / scale;
        now.inside = how.loop ? elapsed % all : elapsed;
        show(elapsed < 0 ? -1 : time.lightAt(music.lights, how.whole ? elapsed : time.placeIn(parts, now.inside)));
        requestAnimationFrame(follow);
      }
      follow();
    }).catch((/** @type {any} */ fault) => {
      if (mine !== turn) return;
      stop();
      say(fault.message + ".");
    });
  }

  function play() {
    mean([]);
    const whole = !looping();
    start(time.span(music, whole ? [0, music.written - 1] : range), {
      loop: !whole, whole: whole, count: count && count.checked, pickup: music.pickup > 0 && (whole || range[0] === 0),
    });
  }

  /** Another tempo: on from the start of the bar that sounds. */
  function playOn() {
    if (!run) return;
    const at = time.placeIn(run.parts, Math.max(0, run.inside));
    const bar = music.bars.filter((/** @type {number[]} */ one) => one[1] <= at + 0.001).pop();
    start(run.parts, { ...run.how, count: false }, Math.max(0, run.inside - (bar ? at - bar[1] : 0)));
  }

  /** Draw the state that has changed. */
  function renew() {
    bars.mark(section, looping() ? range : null);
    if (from) from.value = String(range[0]);
    if (to) to.value = String(range[1]);
    if (looping() && from && to) {
      const first = from.selectedOptions[0].text, last = to.selectedOptions[0].text;
      say(first === last ? "Loop: bar " + first + "." : "Loop: bars " + first + " to " + last + ".");
    } else say("");
  }

  const self = {
    stop, id: section.id,
    /** Light the notes of another view. */
    relight: () => { const now = shown; shown = -2; show(now); },
    range: () => looping() ? range : null,
    /** @param {[number, number] | null} chosen @param {boolean} [moving] more is to come */
    choose: (chosen, moving) => {
      if (!loop) return;
      stale = stale || String(chosen) !== String(self.range());
      loop.checked = chosen !== null;
      range = chosen || [0, music.written - 1];
      renew();
      if (!stale || moving) return;
      stale = false;
      mean([]);
      if (playing) { if (chosen) play(); else playing.finish(); }
    },
    /** @param {string[]} tones */
    notes: (tones) => notes(music.prefix, tones),
    /**
     * Show what the words of a lesson point at, and play it.
     * @param {string[]} tones @param {[number, number]} [span] seconds at full tempo
     */
    point: (tones, span) => {
      const marked = self.notes(tones), first = shownOf(marked)[0];
      mean(marked);
      if (span) start([span], { ring: true });
      if (first && !inView(first.getBoundingClientRect())) reveal(first.closest(".system"), "nearest");
    },
  };

  section.addEventListener("click", (event) => {
    if (event.target !== button) return;
    if (sounding === self) { mean([]); stop(); } else play();
  });
  section.addEventListener("change", ({ target }) => {
    const bar = Number(/** @type {any} */ (target).value);
    if (target === tempo) playOn();
    if (target === from) self.choose([bar, Math.max(range[1], bar)]);
    if (target === to) self.choose([Math.min(range[0], bar), bar]);
    if (target === loop) {
      renew();
      if (playing) { if (looping()) play(); else playing.finish(); }
    }
  });
  for (const layout of section.querySelectorAll(".score > [role=group]")) bars.watch(layout, self);
  section.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && sounding !== self && event.target instanceof Element && event.target.closest(".bars")) self.choose(null);
  });
  for (const touch of ["pointerdown", "focusin"]) section.addEventListener(touch, audio.prepare, { once: true });
  return self;
}

/** @param {any} link */
function bindLink(link) {
  const tones = (link.dataset.notes || "").split(" ");
  const found = (link.dataset.lick || "").split(" ").map((name, k) => ({
    player: players.get(name), span: (link.dataset.span || "").split(";")[k].split(" ").map(Number),
  })).filter((one) => one.player);
  if (!found.length) return; // it stays a link to the lick's place
  link.setAttribute("role", "button");
  /** @param {any} one @returns {number} from the words to its notes; those in view come first */
  function distance(one) {
    const boxes = shownOf(one.player.notes(tones)).map((note) => note.getBoundingClientRect()), words = link.getBoundingClientRect();
    if (!boxes.length) return Infinity;
    const top = Math.min(...boxes.map((box) => box.top)), bottom = Math.max(...boxes.map((box) => box.bottom));
    return Math.max(0, top - words.bottom, words.top - bottom) + (inView({ top: top, bottom: bottom }) ? 0 : 1e6);
  }
  /** @param {Event} event */
  function quote(event) {
    event.preventDefault();
    const near = found.map((one) => [distance(one), one]).reduce((a, b) => b[0] < a[0] ? b : a)[1];
    near.player.point(tones, near.span);
  }
  link.addEventListener("click", quote);
  link.addEventListener("keydown", (event) => { if (event.key === " ") quote(event); });
  link.addEventListener("pointerdown", audio.prepare, { once: true });
}

/** @type {Map<string, any>} by the name of their piece */ const players = new Map();
for (const data of document.querySelectorAll(".practice script.music")) {
  /** @type {any} */ const section = data.closest(".practice");
  const music = JSON.parse(data.textContent || "{}");
  if (music.tempi && music.tempi.length) players.set(music.name, player(section, music));
}
for (const link of document.querySelectorAll("a.lick[data-lick]")) bindLink(link);
document.addEventListener("lickwright:shown", () => {
  mean(meant.map((note) => document.getElementById(note.id)).filter((note) => note !== null));
  if (sounding) sounding.relight();
});
addEventListener("keydown", (event) => {
  if (event.key !== "Escape") return;
  mean([]);
  if (sounding) sounding.stop();
});
// words on another page pointed here
const asked = new URLSearchParams(location.search).get("notes");
if (asked) addEventListener("load", () => {
  for (const one of players.values()) if (one.id === decodeURIComponent(location.hash.slice(1))) one.point(asked.split(" "));
});
}());
