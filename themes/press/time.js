// @ts-check
/**
 * Times and places in a lick. Pure functions: no page, no sound.
 *
 * @typedef {{bpm: number, label: string, scale: number, file: string}} Tempo
 *   `scale` times a second at full tempo is a second at this one; `file` is the sound's address.
 * @typedef {[number, string[]]} Light from this second on, exactly these tones sound: what their notes' ids end with
 * @typedef {Object} Music what a page says about a lick; seconds are those of the full tempo
 * @property {string} name
 * @property {string} prefix begins the ids of its notes, after the layout's own and before the staff's
 * @property {number} beat length of one beat in seconds
 * @property {number} beats beats to count in
 * @property {number} written how many bars there are as written
 * @property {[number, number, number, number?][]} bars as played: which written bar, its start, its end,
 *   and by how much grace notes before it begin earlier
 * @property {number} pickup length of the pickup bar in seconds, 0 without one
 * @property {Tempo[]} tempi
 * @property {Light[]} lights in order of time
 */
(function () {
"use strict";

/**
 * The light that is on at a moment.
 * @param {Light[]} lights @param {number} seconds
 * @returns {number} its index, or -1 before the first
 */
function lightAt(lights, seconds) {
  let low = 0, high = lights.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (lights[middle][0] <= seconds) low = middle + 1; else high = middle;
  }
  return low - 1;
}

/**
 * The pieces of sound that play some bars straight on: one where the music itself runs so, as first
 * it does; else runs of it in written order. All bars are one with all repeats.
 * @param {Music} music @param {[number, number]} range first and last bar, by index
 * @returns {[number, number][]} from and to, in seconds at full tempo
 */
function span(music, range) {
  const bars = music.bars, runs = [];
  if (range[0] === 0 && bars.every((bar) => bar[0] <= range[1])) runs.push(bars);
  else for (let next = range[0]; next <= range[1];) {
    /** @type {Music["bars"]} */ let best = [];
    bars.forEach((_, k) => {
      let length = 0;
      while (next + length <= range[1] && bars[k + length] && bars[k + length][0] === next + length) length++;
      if (length > best.length) best = bars.slice(k, k + length);
    });
    if (best.length) runs.push(best);
    next += best.length || 1;
  }
  return runs.map((run, k) => {
    const after = runs[(k + 1) % runs.length][0];
    return [run[0][1] - (run[0][3] || 0), run[run.length - 1][2] - (after[3] || 0)];
  });
}

/** @param {[number, number][]} parts @returns {number} how long they are together */
function lengthOf(parts) { return parts.reduce((sum, part) => sum + part[1] - part[0], 0); }

/**
 * Where in the music a moment of its parts is.
 * @param {[number, number][]} parts @param {number} seconds since the first began
 */
function placeIn(parts, seconds) {
  for (const [from, to] of parts) {
    if (seconds < to - from) return from + seconds;
    seconds -= to - from;
  }
  return parts[parts.length - 1][1] - 0.001;
}

/**
 * Beats to count and when the music enters, so that bar 1 falls on the beat after the last one counted.
 * @param {Music} music @param {number} scale @param {boolean} withPickup
 * @returns {{clicks: number[], entry: number}} seconds from the first click
 */
function countIn(music, scale, withPickup) {
  const beat = music.beat * scale, lead = withPickup ? music.pickup * scale : 0;
  const bars = Math.max(1, Math.ceil(lead / (beat * music.beats)));
  const entry = bars * music.beats * beat - lead;
  /** @type {number[]} */
  const clicks = [];
  for (let k = 0; k < bars * music.beats; k++) clicks.push(k * beat);
  return { clicks: clicks, entry: entry };
}

/**
 * A piece of sound that may be repeated without a seam: its last samples fade over into those
 * that stand before its first, so the jump back goes on where the sound was.
 * @param {Float32Array} samples @param {number} from first sample @param {number} to the one after the last
 * @param {number} fade length of the cross-fade in samples
 * @param {number} [next] first sample of what follows, if it is not the piece again
 * @returns {Float32Array<ArrayBuffer>} exactly `to - from` samples; those beyond the end are silent
 */
function loopOf(samples, from, to, fade, next = from) {
  const piece = new Float32Array(to - from);
  piece.set(samples.subarray(from, Math.min(to, samples.length)));
  const length = Math.min(fade, piece.length);
  for (let k = 0; k < length; k++) {
    const weight = (k + 1) / length, before = next - length + k;
    const place = piece.length - length + k;
    piece[place] = piece[place] * (1 - weight) + (before >= 0 ? samples[before] : 0) * weight;
  }
  return piece;
}

window.lickwright = window.lickwright || {};
window.lickwright.time = { lightAt: lightAt, span: span, lengthOf: lengthOf, placeIn: placeIn, countIn: countIn, loopOf: loopOf };
}());
