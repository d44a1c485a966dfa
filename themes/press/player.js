// @ts-check
/**
 * The practice player: one for each section of class "practice" that carries music, one of them
 * sounding at a time. The markup is whole without it; only what exists in the page is bound.
 */
(function () {
"use strict";
const time = window.lickwright.time, audio = window.lickwright.audio, bars = window.lickwright.bars;
const layouts = ["w-", "n-"]; // the wide and the narrow engraving of the same notes
/** @type {{stop: () => void} | null} the one that sounds */ let sounding = null;
/** @type {Element[]} what words point at, till the next action */ let meant = [];
let byHand = -9999, byUs = -9999; // when the page was last scrolled
for (const kind of ["wheel", "touchmove"]) addEventListener(kind, () => { byHand = performance.now(); }, { passive: true });
addEventListener("scroll", () => { if (performance.now() - byUs > 1200) byHand = performance.now(); }, { passive: true });

/** @param {Element[]} marked */
function mean(marked) {
  for (const note of meant) note.classList.remove("meant");
  for (const note of marked) note.classList.add("meant");
  meant = marked;
}

/** @param {Element[]} marked @returns {Element[]} those of the layout that is shown */
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
  for (const layout of layouts) for (const tone of tones) for (const staff of "st") {
    const note = document.getElementById(layout + prefix + staff + tone);
    if (note) found.push(note);
  }
  return found;
}

/**
 * Put a round of ink behind a tab figure. A note is a figure or a head itself, or a group with one in it.
 * @param {Element} note @returns {Element | null} the round, or none for a note on the staff
 */
function spot(note) {
  const figure = note.localName === "text" ? note : note.querySelector("text");
  if (!figure || note.querySelector("use")) return null;
  const size = parseFloat(getComputedStyle(figure.querySelector("tspan") || figure).fontSize) || 320;
  const round = document.createElementNS("http://www.w3.org/2000/svg", "circle");
  round.setAttribute("class", "spot");
  round.setAttribute("cx", figure.getAttribute("x") || "0");
  round.setAttribute("cy", String(parseFloat(figure.getAttribute("y") || "0") - 0.34 * size));
  round.setAttribute("r", String(Math.round(0.64 * size)));
  figure.before(round);
  return round;
}

/** @param {HTMLElement} section @param {any} music as time.js says */
function player(section, music) {
  /** @template {HTMLElement} T @param {string} name @returns {T | null} the part of that name */
  function part(name) { return section.querySelector("[data-part=" + name + "]"); }
  /** @type {HTMLButtonElement | null} */ const button = part("play");
  /** @type {HTMLSelectElement | null} */ const tempo = part("tempo");
  /** @type {HTMLInputElement | null} */ const count = part("count");
  /** @type {HTMLInputElement | null} */ const loop = part("loop");
  /** @type {HTMLSelectElement | null} */ const from = part("from");
  /** @type {HTMLSelectElement | null} */ const to = part("to");
  const said = part("said");
  /** @type {[number, number]} */ let range = [0, music.written - 1];
  /** @type {any} the sound that runs, see sound.js */ let playing = null;
  let turn = 0; // every start and stop takes a new turn: a file that arrives late finds its turn gone
  /** @type {Element[]} */ let lit = [];
  /** @type {(Element | null)[]} */ let spots = [];
  /** @type {{parts: [number, number][], how: any, inside: number} | null} what runs, in seconds at full tempo */ let run = null;
  /** @type {Element | null} */ let system = null;
  let shown = -2, stale = false;

  /** @param {string} text */
  function say(text) { if (said && said.textContent !== text) said.textContent = text; }

  function looping() { return loop !== null && loop.checked; }

  /** @param {number} index the light to show, -1 for none */
  function show(index) {
    if (index === shown) return;
    shown = index;
    for (const note of lit) note.classList.remove("sounding");
    for (const round of spots) if (round) round.remove();
    lit = index < 0 ? [] : notes(music.prefix, music.lights[index][1]);
    for (const note of lit) note.classList.add("sounding");
    spots = lit.map(spot);
    const first = shownOf(lit)[0], now = first && first.closest(".system");
    if (!now || now === system) return;
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
   * @param {[number, number][]} parts seconds at full tempo; the whole, not looped, rings out
   * @param {{loop?: boolean, count?: boolean, pickup?: boolean, whole?: boolean, ring?: boolean}} how
   * @param {number} [offset] seconds into them
   */
  function start(parts, how, offset = 0) {
    stop();
    if (sounding) sounding.stop();
    sounding = self;
    byHand = -9999;
    const mine = turn, chosen = music.tempi[tempo ? tempo.selectedIndex : 0], scale = chosen.scale, all = time.lengthOf(parts);
    if (button) { button.textContent = "Stop"; button.classList.add("on"); }
    audio.load(chosen.file).then((/** @type {AudioBuffer} */ buffer) => {
      if (mine !== turn) return;
      const running = playing = audio.play(buffer, {
        parts: how.whole ? null : parts.map((part) => part.map((seconds) => seconds * scale)),
        loop: how.loop, ring: how.ring, ended: stop, offset: offset * scale,
        count: how.count ? time.countIn(music, scale, how.pickup) : null,
      });
      const now = run = { parts: parts, how: how, inside: offset };
      function follow() {
        if (playing !== running) return;
        const elapsed = running.elapsed() / scale;
        now.inside = how.loop ? elapsed % all : elapsed;
        show(elapsed < 0 ? -1 : time.lightAt(music.lights, how.whole ? elapsed : time.placeIn(parts, now.inside)));
        requestAnimationFrame(follow);
      }
      follow();
    }).catch((/** @type {Error} */ fault) => {
      if (mine !== turn) return;
      stop();
      say(fault.message + ".");
    });
  }

  function play() {
    mean([]);
    const whole = !looping();
    start(time.span(music, whole ? [0, music.written - 1] : range), {
      loop: !whole, whole: whole, count: count !== null && count.checked, pickup: music.pickup > 0 && (whole || range[0] === 0),
    });
  }

  /** Another tempo: on from the start of the bar that sounds. */
  function playOn() {
    if (!run) return;
    const at = time.placeIn(run.parts, Math.max(0, run.inside));
    const bar = music.bars.filter((/** @type {number[]} */ one) => one[1] <= at + 0.001).pop();
    start(run.parts, { ...run.how, count: false }, Math.max(0, run.inside - (bar ? at - bar[1] : 0)));
  }

  /** Draw the state that has changed, and play on if something plays. */
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
    stop: stop,
    id: section.id,
    /** @returns {[number, number] | null} */
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
      system = first ? first.closest(".system") : null;
      reveal(system, "nearest");
    },
  };

  if (button) button.addEventListener("click", () => { if (sounding === self) { mean([]); stop(); } else play(); });
  if (tempo) tempo.addEventListener("change", playOn);
  if (loop) loop.addEventListener("change", () => {
    renew();
    if (playing) { if (looping()) play(); else playing.finish(); }
  });
  [from, to].forEach((end, k) => {
    if (end) end.addEventListener("change", () => {
      const bar = Number(end.value);
      self.choose(k ? [Math.min(range[0], bar), bar] : [bar, Math.max(range[1], bar)]);
    });
  });
  for (const layout of section.querySelectorAll(".score > [role=group]")) bars.watch(/** @type {HTMLElement} */ (layout), self);
  section.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || event.defaultPrevented) return;
    if (sounding !== self && event.target instanceof Element && event.target.closest(".bars")) self.choose(null);
  });
  for (const touch of ["pointerdown", "focusin"]) section.addEventListener(touch, audio.prepare, { once: true });
  return self;
}

/** @param {HTMLAnchorElement} link @param {Map<string, any>} players by the name of their piece */
function bindLink(link, players) {
  const tones = (link.dataset.notes || "").split(" ");
  const found = (link.dataset.lick || "").split(" ").map((name, k) => ({
    player: players.get(name), span: (link.dataset.span || "").split(";")[k].split(" ").map(Number),
  })).filter((one) => one.player);
  if (!found.length) return; // it stays a link to the lick's place
  link.setAttribute("role", "button");
  /** @param {any} one @returns {number} how far its notes are from the words; those in view come first */
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

const players = new Map();
for (const data of document.querySelectorAll(".practice script.music")) {
  const section = /** @type {HTMLElement} */ (data.closest(".practice"));
  const music = JSON.parse(data.textContent || "{}");
  if (music.tempi && music.tempi.length) players.set(music.name, player(section, music));
}
for (const link of document.querySelectorAll("a.lick[data-lick]")) bindLink(/** @type {HTMLAnchorElement} */ (link), players);
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
