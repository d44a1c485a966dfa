// @ts-check
/**
 * How the notation is read: both staves as they stand in the page, the tab alone or the staff alone, and
 * lines of degrees and names under the notes. What is chosen comes as a classic script and takes the place
 * of the drawings; margins, bar buttons, loop and focus stay. Ids stay too, so the player finds its notes.
 */
(function () {
"use strict";
const { audio, bars } = window.lickwright;
const home = new URL("../views/", /** @type {HTMLScriptElement} */ (document.currentScript).src).href;
const root = document.documentElement, ways = ["view", "degrees", "names"];
const size = 290, row = 400, head = 108; // units of the notation, 20 of them to a CSS pixel
/** @type {Map<string, Promise<any>>} */ const files = new Map();
/** @type {Map<Element, {svg: SVGSVGElement, box: string, at: string[][]}>} by system, as in the page */ const first = new Map();
/** @type {any[]} */ const figures = [...document.querySelectorAll("figure.score[data-ids]")];
/** @type {any} */ const said = document.querySelector("[data-part=shown]");
let turn = 0; // what arrives after another choice finds its own gone

/** @param {string} name */
function chosen(name) { return root.dataset[name] || ""; }

/** @param {string | undefined} key @returns {Promise<any>} what the file holds, null for none */
function bring(key) {
  if (!key) return Promise.resolve(null);
  if (!files.has(key)) files.set(key, audio.arrive(home + key + ".js"));
  return /** @type {Promise<any>} */ (files.get(key));
}

/** @param {string} text @returns {any} */
function drawing(text) { return new DOMParser().parseFromString(text, "text/html").querySelector("svg"); }

/** @param {string} text definitions; those that the page has not yet are put to its own */
function define(text) {
  const home = document.querySelector("body > svg defs");
  if (home) for (const glyph of [...drawing("<svg>" + text + "</svg>").children]) {
    if (!document.getElementById(glyph.id)) home.append(glyph);
  }
}

/** @param {Element} system @param {SVGSVGElement} svg @param {any[][]} at where its bars stand */
function put(system, svg, at) {
  const old = system.querySelector("svg");
  if (old && old !== svg) old.replaceWith(svg);
  system.querySelectorAll(".bars button").forEach((/** @type {any} */ button, k) => {
    [button.dataset.x, button.dataset.w] = at[k];
  });
}

/** @param {any} system @returns {any} what stood in the page */
function original(system) {
  let kept = first.get(system);
  if (!kept) {
    const svg = system.querySelector("svg"), buttons = [...system.querySelectorAll(".bars button")];
    kept = { svg, box: svg.getAttribute("viewBox"), at: buttons.map(({ dataset }) => [dataset.x, dataset.w]) };
    first.set(system, kept);
  }
  return kept;
}

/** @param {string} name @param {Record<string, any>} said */
function make(name, said, text = "") {
  const made = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const key in said) made.setAttribute(key, said[key]);
  made.textContent = text;
  return made;
}

/** @param {Element} note @returns {number} where its middle stands */
function middle(note) {
  const own = note.localName === "g" ? note.querySelector("text,use") || note : note;
  return Number(own.getAttribute("x")) + (own.localName === "use" ? head : 0);
}

/** @param {string} line @param {string[]} mark degree, kind, name @returns {string} */
function wording(line, [text, kind, name]) {
  if (line === "names") return name;
  return kind === "o" ? "(" + text + ")" : text;
}

/** @param {any[]} columns from the left @param {string} line @returns {number} a size at which none touches the next */
function fitting(columns, line) {
  const wide = columns.map(([, stack]) => Math.max(...stack.map((/** @type {string[]} */ mark) =>
    line === "degrees" && { r: 1.8, b: 2.5 }[mark[1]] || wording(line, mark).length)));
  return columns.reduce((least, [x], k) => k ? Math.min(least, (x - columns[k - 1][0]) / (0.38 * (wide[k] + wide[k - 1]))) : least, size);
}

/**
 * Write the lines that are chosen under one system, a column for what sounds at one place.
 * @param {SVGSVGElement} svg @param {string} begin of the ids of its layout @param {Record<string, string[]>} marks
 */
function write(svg, begin, marks) {
  /** @type {any[]} */ const columns = []; // x, marks, sound
  for (const tone in marks) {
    const note = svg.getElementById(begin + "t" + tone) || svg.getElementById(begin + "s" + tone);
    if (!note) continue;
    const x = middle(note), sound = tone.replace(/\d+$/, "");
    const column = columns.find((one) => one[2] === sound || Math.abs(one[0] - x) < 200);
    if (column) column[1].push(marks[tone]); else columns.push([x, [marks[tone]], sound]);
  }
  if (!columns.length) return;
  columns.sort((a, b) => a[0] - b[0]);
  const deepest = Math.max(...columns.map((column) => column[1].length));
  const [left, top, width, height] = (svg.getAttribute("viewBox") || "").split(" ").map(Number);
  const group = make("g", { class: "under" });
  let foot = top + height;
  for (const line of ["degrees", "names"]) if (chosen(line)) {
    const fit = fitting(columns, line), r = 0.64 * fit;
    for (const [x, stack] of columns) stack.forEach((/** @type {string[]} */ mark, /** @type {number} */ k) => {
      const y = foot + row * (k + 1) - 100, up = y - 0.33 * fit, kind = line === "names" ? "name" : mark[1];
      if (kind === "r") group.append(make("circle", { cx: x, cy: up, r }));
      if (kind === "b") group.append(make("path", { d: "M" + [x - 1.4 * r, up] + "l" + [1.4 * r, -r, 1.4 * r, r, -1.4 * r, r] + "z" }));
      group.append(make("text", { x, y, class: kind, "font-size": fit + "px" }, wording(line, mark)));
    });
    foot += row * deepest;
  }
  svg.setAttribute("viewBox", [left, top, width, foot - top].join(" "));
  svg.append(group);
}

/** @param {any} figure @param {any} drawn @param {any} marks */
function show(figure, drawn, marks) {
  if (drawn) define(drawn.glyphs);
  for (const layout of figure.children) {
    layout.querySelectorAll("div.system").forEach((/** @type {Element} */ system, /** @type {number} */ k) => {
      const begin = layout.className[0] + "-" + figure.dataset.ids;
      let { svg, box, at } = original(system);
      if (drawn) {
        svg = document.adoptNode(drawing(drawn[layout.className][k][0]));
        at = drawn[layout.className][k][1];
        for (const part of svg.querySelectorAll("[id]")) part.id = begin + part.id.slice(4);
      } else {
        svg.setAttribute("viewBox", box);
        for (const old of svg.querySelectorAll(".under")) old.remove();
      }
      put(system, svg, at);
      if (marks) write(svg, begin, marks);
    });
    bars.place(layout);
  }
}

/** Bring and show what is chosen. */
function renew() {
  const mine = ++turn, view = chosen("view"), under = chosen("degrees") || chosen("names");
  if (said) said.textContent = "";
  Promise.all(figures.map((figure) => Promise.all([bring(figure.dataset[view]), bring(under && figure.dataset.marks)])))
    .then((all) => {
      if (mine !== turn) return;
      figures.forEach((figure, k) => { show(figure, all[k][0], all[k][1]); });
      root.dataset.shown = view || "both";
      document.dispatchEvent(new Event("lickwright:shown"));
    }, () => {
      if (mine === turn && said) said.textContent = "A file of the notation is missing or damaged. Get the course anew.";
    });
}

document.addEventListener("change", ({ target }) => {
  if (target instanceof HTMLInputElement && ways.includes(target.name)) renew();
});
if (ways.some(chosen)) renew();
}());
