// @ts-check
/**
 * The proof sheet: which findings are shown, from one to the next, and the sound of their bars.
 * Without script every finding is shown and the links lead from one to the next.
 */
(function () {
"use strict";
const { audio } = window.lickwright;
/** @type {any[]} */ const findings = Array.from(document.querySelectorAll(".finding"));
/** @type {any} */ const sift = document.querySelector(".sift");
/** @type {any} what sounds, see sound.js */ let playing = null;
/** @type {any} */ let pressed = null;
let turn = 0; // a file that arrives late finds its own gone

/** @param {any} button @param {string} word */
function name(button, word) {
  button.firstElementChild.textContent = word;
  button.classList.toggle("on", word === "Stop");
}

function stop() {
  turn += 1;
  if (playing) playing.stop();
  if (pressed) name(pressed, "Play");
  playing = pressed = null;
}

/** @param {any} button */
function play(button) {
  stop();
  pressed = button;
  name(button, "Stop");
  const mine = turn, said = button.nextElementSibling;
  said.textContent = "";
  audio.load(button.dataset.sound).then((/** @type {any} */ buffer) => {
    if (mine === turn) playing = audio.play(buffer, { ended: stop });
  }).catch((/** @type {any} */ fault) => {
    if (mine !== turn) return;
    stop();
    said.textContent = fault.message + ".";
  });
}

/** Show what is chosen, and say how many that are. */
function renew() {
  if (!sift) return;
  const wanted = Array.from(sift.querySelectorAll("input:checked,select"));
  for (const finding of findings) finding.hidden = wanted.some(({ name, value }) => value && finding.dataset[name] !== value);
  const all = findings.length, shown = findings.filter((finding) => !finding.hidden).length;
  const said = (shown === all ? "All " + all : shown + " of " + all) + " findings shown.";
  sift.querySelector("[data-part=count]").textContent = said;
  /** @type {any} what a sheet on paper says of it */ const tally = document.querySelector(".tallyline");
  if (shown === all) delete tally.dataset.sifted;
  else tally.dataset.sifted = said;
}

/** @param {any} finding */
function open(finding) {
  if (finding.hidden) { // a link asks for what is left out: show everything again
    for (const input of sift.querySelectorAll("input[value='']")) input.checked = true;
    for (const select of sift.querySelectorAll("select")) select.value = "";
    renew();
  }
  finding.scrollIntoView();
  finding.querySelector(".says").focus({ preventScroll: true });
}

/** @param {any} from @param {number} step @returns {boolean} whether there is another one */
function go(from, step) {
  const shown = findings.filter((finding) => !finding.hidden), next = shown[shown.indexOf(from) + step];
  if (next) open(next);
  return Boolean(next);
}

document.addEventListener("click", (event) => {
  /** @type {any} */ const target = event.target;
  const button = target.closest("[data-sound]"), link = target.closest("a[href^='#finding-']");
  if (button) { if (button === pressed) stop(); else play(button); }
  if (!link) return;
  event.preventDefault();
  if (link.dataset.step) go(link.closest(".finding"), Number(link.dataset.step));
  else open(document.getElementById(link.hash.slice(1)));
});
addEventListener("keydown", (event) => {
  /** @type {any} */ const target = event.target;
  const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
  if (event.key === "Escape") stop();
  if (!step || event.ctrlKey || event.altKey || event.metaKey || event.shiftKey || !target.matches(".says,.finding .turn a")) return;
  if (go(target.closest(".finding"), step)) event.preventDefault();
});
for (const button of document.querySelectorAll("[data-sound]")) button.addEventListener("pointerdown", audio.prepare, { once: true });
if (sift) sift.addEventListener("change", renew);
renew();
}());
