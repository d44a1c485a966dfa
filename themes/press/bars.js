// @ts-check
/**
 * Choosing a loop on the notation. The buttons over the bars are one Tab stop a layout: arrows, Home
 * and End move, Shift extends, Enter and Space take one bar, the same again or Escape lets go.
 *
 * @typedef {[number, number] | null} BarRange first and last bar by index, or none
 */
(function () {
"use strict";

/** @param {EventTarget | null} target @returns {HTMLButtonElement | null} */
function buttonOf(target) {
  return target instanceof Element ? target.closest(".bars button") : null;
}

/** @param {any} button */
function barOf(button) { return Number(button.dataset.bar); }

/** @param {number} one @param {number} other @returns {[number, number]} */
function between(one, other) { return one < other ? [one, other] : [other, one]; }

/**
 * Put the buttons over the bars as they are drawn.
 * @param {HTMLElement} layout
 */
function place(layout) {
  /** @type {any[]} */ const buttons = [...layout.querySelectorAll(".bars button")];
  for (const button of buttons) {
    button.style.left = button.dataset.x + "%";
    button.style.width = button.dataset.w + "%";
  }
  // under its line the margin stands in columns as wide as the bars
  /** @type {NodeListOf<HTMLElement>} */ (layout.querySelectorAll(".marg>div")).forEach((entry, k) => {
    if (!buttons[k]) return;
    const { x, w } = buttons[k].dataset;
    entry.style.flex = "0 1 " + (Number(w) + (entry.previousElementSibling ? 0 : Number(x))) + "%";
  });
}

/**
 * Watch one layout of a score.
 * @param {HTMLElement} layout
 * @param {{range: () => BarRange, choose: (range: BarRange, moving?: boolean) => void}} player
 */
function watch(layout, player) {
  /** @type {any[]} */ const buttons = [...layout.querySelectorAll(".bars button")];
  /** @type {number | null} where a range that is being extended began */
  let anchor = null;
  let dragged = false;

  /** @param {number} place @param {boolean} focus */
  function step(place, focus) {
    buttons.forEach((button, k) => { button.tabIndex = k === place ? 0 : -1; });
    if (focus && buttons[place]) buttons[place].focus();
  }

  /** @param {HTMLButtonElement} button @param {boolean} extend */
  function take(button, extend) {
    const bar = barOf(button), now = player.range();
    if (extend && now) player.choose(between(anchor === null ? now[0] : anchor, bar));
    else if (now && now[0] === bar && now[1] === bar) player.choose(null);
    else player.choose([bar, bar]);
    if (!extend) anchor = bar;
  }

  buttons.forEach((button, k) => {
    button.setAttribute("aria-pressed", "false");
    button.addEventListener("focus", () => { step(k, false); });
  });
  step(0, false);
  place(layout);

  layout.addEventListener("pointerdown", (event) => {
    const button = buttonOf(event.target);
    dragged = false;
    if (!button || event.button !== 0 || event.shiftKey) return;
    if (button.hasPointerCapture(event.pointerId)) button.releasePointerCapture(event.pointerId);
    const began = barOf(button);
    /** @param {PointerEvent} moved */
    function drag(moved) {
      const over = buttonOf(document.elementFromPoint(moved.clientX, moved.clientY));
      if (!over || !layout.contains(over) || (!dragged && barOf(over) === began)) return;
      dragged = true;
      anchor = began;
      player.choose(between(began, barOf(over)), true);
    }
    const ends = new AbortController(), watched = { signal: ends.signal };
    function drop() {
      ends.abort();
      if (dragged) player.choose(player.range());
    }
    addEventListener("pointermove", drag, watched);
    addEventListener("pointerup", drop, watched);
    addEventListener("pointercancel", drop, watched);
  });

  layout.addEventListener("click", (event) => {
    const button = buttonOf(event.target);
    if (button && !(dragged && event.detail)) take(button, event.shiftKey);
    dragged = false;
  });

  layout.addEventListener("keydown", (event) => {
    const button = buttonOf(event.target);
    if (!button || event.ctrlKey || event.altKey || event.metaKey) return;
    const place = buttons.indexOf(button), last = buttons.length - 1;
    /** @type {Record<string, number>} */
    const moves = { ArrowLeft: place - 1, ArrowRight: place + 1, Home: 0, End: last };
    if (event.key in moves) {
      event.preventDefault();
      const next = Math.min(last, Math.max(0, moves[event.key]));
      if (event.shiftKey) {
        if (anchor === null) anchor = barOf(button);
        player.choose(between(anchor, barOf(buttons[next])));
      } else anchor = null;
      step(next, true);
    }
  });
}

/**
 * Draw the bracket over the chosen bars.
 * @param {HTMLElement} section @param {BarRange} range
 */
function mark(section, range) {
  for (const found of section.querySelectorAll(".bars button")) {
    const bar = barOf(found);
    found.setAttribute("aria-pressed", String(range !== null && bar >= range[0] && bar <= range[1]));
    found.classList.toggle("from", range !== null && bar === range[0]);
    found.classList.toggle("to", range !== null && bar === range[1]);
  }
}

window.lickwright.bars = { watch, mark, place };
}());
