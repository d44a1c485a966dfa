// @ts-check
/**
 * The light of the page: day, lamp, or as the computer has it. Runs before the first paint;
 * the class "js" tells the sheet that controls may be shown.
 */
(function () {
"use strict";
const root = document.documentElement;
const kept = "lickwright:light";

/** @param {string} light "day", "lamp" or "" */
function set(light) {
  if (light === "day" || light === "lamp") root.setAttribute("data-light", light);
  else root.removeAttribute("data-light");
}

/** @returns {string} the kept choice, or "" where storage is shut */
function recall() {
  try { return localStorage.getItem(kept) || ""; } catch (_) { return ""; }
}

root.classList.add("js");
set(recall());

document.addEventListener("DOMContentLoaded", () => {
  const now = root.getAttribute("data-light") || "";
  for (const choice of document.querySelectorAll("input[name=light]")) {
    if (!(choice instanceof HTMLInputElement)) continue;
    choice.checked = choice.value === now;
    choice.addEventListener("change", () => {
      set(choice.value);
      try { localStorage.setItem(kept, choice.value); } catch (_) { /* kept for this page only */ }
    });
  }
});
}());
