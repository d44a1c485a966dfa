// @ts-check
/**
 * What the reader chooses for every page: light, print, and how notation is read. Each choice is an
 * attribute of the root and is kept. Runs before the first paint; the class "js" tells the sheet that
 * controls may be shown.
 */
(function () {
"use strict";
const root = document.documentElement;
/** @type {Record<string, string[]>} by name, what may be chosen besides nothing */
const choices = { light: ["day", "lamp"], print: ["large"], view: ["tab", "staff"], degrees: ["on"], names: ["on"] };

/** @param {string} name @param {string} value */
function set(name, value) {
  if (choices[name].includes(value)) root.dataset[name] = value; else delete root.dataset[name];
}

/** @param {string} name @returns {string} the kept choice, or "" where storage is shut */
function recall(name) {
  try { return localStorage.getItem("lickwright:" + name) || ""; } catch (_) { return ""; }
}

root.classList.add("js");
for (const name in choices) set(name, recall(name));

document.addEventListener("DOMContentLoaded", () => {
  for (const input of document.querySelectorAll("input[name]")) {
    if (!(input instanceof HTMLInputElement) || !(input.name in choices)) continue;
    const { name } = input;
    input.checked = input.value === (root.dataset[name] || "");
    input.addEventListener("change", () => {
      const value = input.checked ? input.value : "";
      set(name, value);
      try { localStorage.setItem("lickwright:" + name, value); } catch (_) { /* kept for this page only */ }
    });
  }
});
}());
