// @ts-check
/**
 * Times and places in a lick. Pure functions: no page, no sound.
 *
 * @typedef {[number, string[]]} Light from this second on, exactly these tones sound, by the ends of their notes' ids
 * @typedef {Object} Music what a page says about a lick, in seconds of the full tempo
 * @property {number} beat length of one beat
 * @property {number} beats to count in
 * @property {number} written how many bars there are as written
 * @property {[number, number, number, number?][]} bars as played: which written one, its start, its end,
 *   and by how much grace notes before it begin earlier
 * @property {number} pickup length of the pickup bar, 0 without one
 * @property {{scale: number, file: string}[]} tempi `scale` times a second is a second at this one
 * @property {Light[]} lights
 */
(function () {
"use strict";

/** @param {Light[]} lights @param {number} seconds @returns {number} which is on, -1 before the first */
function lightAt(lights, seconds) {
  let low = 0, high = lights.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (lights[middle][0] <= seconds) low = middle + 1; else high = middle;
  }
  return low - 1;
}

/**
 * The pieces of sound that play some bars: one where the music itself runs straight through them,
 * else runs of it in written order. All bars come with all repeats.
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

/** @param {[number, number][]} parts @param {number} seconds into them @returns {number} where in the music */
function placeIn(parts, seconds) {
  for (const [from, to] of parts) {
    if (seconds < to - from) return from + seconds;
    seconds -= to - from;
  }
  return parts[parts.length - 1][1] - 0.001;
}

/**
 * Beats to count and when the music enters: bar 1 falls on the beat after the last one counted.
 * @param {Music} music @param {number} scale @param {boolean} withPickup
 * @returns {{clicks: number[], entry: number}} seconds from the first click
 */
function countIn(music, scale, withPickup) {
  const beat = music.beat * scale, lead = withPickup ? music.pickup * scale : 0;
  const bars = Math.max(1, Math.ceil(lead / (beat * music.beats)));
  const entry = bars * music.beats * beat - lead;
  return { clicks: Array.from({ length: bars * music.beats }, (_, k) => k * beat), entry };
}

/**
 * A piece of sound without a seam: its last samples fade over into those that stand before what follows.
 * @param {Float32Array} samples @param {number} from first sample @param {number} to the one after the last
 * @param {number} fade in samples @param {number} [next] first sample of what follows, if not the piece again
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
window.lickwright.time = { lightAt, span, lengthOf, placeIn, countIn, loopOf };
}());
