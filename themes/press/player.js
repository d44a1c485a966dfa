// @ts-check
/**
 * The practice player: one for each section of class "practice" that carries music, one of them
 * sounding at a time. The markup is whole without it; only what exists in the page is bound.
 */
(function () {
  "use strict";
  const time = window.lickwright.time, audio = window.lickwright.audio, bars = window.lickwright.bars;
  const layouts = ["w-", "n-"]; // the wide and the narrow engraving of the same notes
  /** @type {{stop: () => void} | null} the one that sounds */
  let sounding = null;

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
    /** @type {[number, number]} */ let range = [0, music.bars.length - 1];
    /** @type {any} the sound that runs, see sound.js */ let playing = null;
    let turn = 0; // every start and stop takes a new turn: a file that arrives late finds its turn gone
    /** @type {Element[]} */ let lit = [];
    /** @type {(Element | null)[]} */ let spots = [];
    /** @type {Element[]} */ let meant = [];
    let shown = -2;

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
    }

    function stop() {
      turn += 1;
      if (playing) playing.stop();
      playing = null;
      if (sounding === self) sounding = null;
      if (button) { button.textContent = "Play"; button.classList.remove("on"); }
      meant.forEach(function (note) { note.classList.remove("meant"); });
      meant = [];
      show(-1);
    }

    /**
     * @param {[number, number | undefined]} span seconds at full tempo; without an end it rings out
     * @param {{loop: boolean, count: boolean, pickup: boolean}} how
     */
    function start(span, how) {
      stop();
      if (sounding) sounding.stop();
      sounding = self;
      const mine = turn, chosen = music.tempi[tempo ? tempo.selectedIndex : 0], scale = chosen.scale;
      if (button) { button.textContent = "Stop"; button.classList.add("on"); }
      const begin = span[0] * scale, end = span[1] === undefined ? undefined : span[1] * scale;
      audio.load(chosen.file).then(function (/** @type {AudioBuffer} */ buffer) {
        if (mine !== turn) return;
        const running = audio.play(buffer, {
          from: begin, to: end, loop: how.loop, ended: stop,
          count: how.count ? time.countIn(music, scale, how.pickup) : null,
        });
        playing = running;
        function follow() {
          if (playing !== running) return;
          const elapsed = running.elapsed();
          const inside = how.loop && end !== undefined ? elapsed % (end - begin) : elapsed;
          show(elapsed < 0 ? -1 : time.lightAt(music.lights, (begin + inside) / scale));
          requestAnimationFrame(follow);
        }
        follow();
      }).catch(function (/** @type {Error} */ fault) {
        if (mine !== turn) return;
        stop();
        say(fault.message + ".");
      });
    }

    function play() {
      /** @type {[number, number | undefined]} */
      const span = looping() ? time.span(music, range) : [0, undefined];
      const pickup = music.pickup > 0 && (!looping() || range[0] === 0);
      start(span, { loop: looping(), count: count !== null && count.checked, pickup: pickup });
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
      /** @returns {[number, number] | null} */
      range: function () { return looping() ? range : null; },
      /** @param {[number, number] | null} chosen */
      choose: function (chosen) {
        if (!loop) return;
        loop.checked = chosen !== null;
        if (chosen) range = chosen; else range = [0, music.bars.length - 1];
        renew();
        if (playing) { if (chosen) play(); else playing.finish(); }
      },
      /**
       * Play what the words of the lesson point at, and show its notes.
       * @param {[number, number]} span seconds at full tempo @param {string[]} tones
       */
      quote: function (span, tones) {
        start(span, { loop: false, count: false, pickup: false });
        meant = notes(music.prefix, tones);
        meant.forEach(function (note) { note.classList.add("meant"); });
      },
    };

    if (button) button.addEventListener("click", function () { if (sounding === self) stop(); else play(); });
    if (tempo) tempo.addEventListener("change", function () { if (playing) play(); });
    if (loop) loop.addEventListener("change", function () {
      renew();
      if (playing) { if (looping()) play(); else playing.finish(); }
    });
    [from, to].forEach(function (end, k) {
      if (end) end.addEventListener("change", function () {
        const bar = Number(end.value);
        self.choose(k ? [Math.min(range[0], bar), bar] : [bar, Math.max(range[1], bar)]);
      });
    });
    for (const layout of section.querySelectorAll(".score > [role=group]")) bars.watch(/** @type {HTMLElement} */ (layout), self);
    section.addEventListener("keydown", function (event) {
      if (event.key !== "Escape" || event.defaultPrevented) return;
      if (sounding === self) stop();
      else if (event.target instanceof Element && event.target.closest(".bars")) self.choose(null);
    });
    for (const touch of ["pointerdown", "focusin"]) section.addEventListener(touch, audio.prepare, { once: true });
    return self;
  }

  /** @param {HTMLAnchorElement} link @param {Map<string, any>} players by the name of their lick */
  function bindLink(link, players) {
    const target = players.get(link.dataset.lick || "");
    const span = (link.dataset.span || "").split(" ").map(Number);
    if (!target || span.length !== 2) return; // it stays a link to the lick's place
    link.setAttribute("role", "button");
    /** @param {Event} event */
    function quote(event) {
      event.preventDefault();
      target.quote(span, (link.dataset.notes || "").split(" "));
      const score = document.querySelector("#" + CSS.escape(link.hash.slice(1)) + " .score");
      if (score) score.scrollIntoView({ block: "nearest" });
    }
    link.addEventListener("click", quote);
    link.addEventListener("keydown", function (event) {
      if (event.key === " ") quote(event);
      if (event.key === "Escape") target.stop();
    });
    link.addEventListener("pointerdown", audio.prepare, { once: true });
  }

  const players = new Map();
  for (const data of document.querySelectorAll(".practice script.music")) {
    const section = /** @type {HTMLElement} */ (data.closest(".practice"));
    const music = JSON.parse(data.textContent || "{}");
    if (music.tempi && music.tempi.length) players.set(music.name, player(section, music));
  }
  for (const link of document.querySelectorAll("a.lick[data-lick]")) bindLink(/** @type {HTMLAnchorElement} */ (link), players);
}());
