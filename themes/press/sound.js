// @ts-check
/**
 * Sound: files arrive as classic scripts (a page from disk may fetch nothing), are decoded once, and
 * played from buffers, because only these repeat to the sample.
 */
(function () {
"use strict";
const kept = 8; // decoded files held in memory
const fade = 0.004; // seconds: against clicks, too short to hear
const ring = 1; // seconds a quoted note rings out
const lead = 0.06; // seconds between the call and the first sample
/** @type {AudioContext | null} */ let context = null;
/** @type {Map<string, Promise<AudioBuffer>>} */ const files = new Map();
/** @type {Map<string, (content: any) => void>} */ const waiting = new Map();

/** Make the audio clock run, at the first touch of a player, since that is slow. */
function prepare() {
  context = context || new AudioContext();
  if (context.state === "suspended") context.resume().catch(() => { /* no device: Play will say so */ });
  return context;
}

/** @param {string} text base64 @returns {Uint8Array<ArrayBuffer>} */
function bytes(text) {
  if ("fromBase64" in Uint8Array) return /** @type {any} */ (Uint8Array).fromBase64(text);
  return Uint8Array.from(atob(text), (sign) => { return sign.charCodeAt(0); });
}

/** @param {string} file KEY.js @returns {Promise<any>} what it hands over */
function arrive(file) {
  return new Promise((resolve, reject) => {
    const script = document.createElement("script");
    const key = file.replace(/^.*\/|\.js$/g, "");
    waiting.set(key, resolve);
    script.onload = script.onerror = () => {
      script.remove();
      if (waiting.delete(key)) reject();
    };
    script.src = file;
    document.head.append(script);
  });
}

/** @param {string} file KEY.js @returns {Promise<AudioBuffer>} decoded; a failed one is asked for again */
function load(file) {
  const audio = prepare();
  const held = files.get(file) || arrive(file)
    .then((text) => audio.decodeAudioData(bytes(text).buffer))
    .catch(() => { throw new Error("The sound " + file + " is missing or damaged. Load the page again, or get the course anew"); });
  files.delete(file); // put last: the first of the map is the one unused for longest
  files.set(file, held);
  held.catch(() => { files.delete(file); });
  while (files.size > kept) files.delete(/** @type {string} */ (files.keys().next().value));
  return held;
}

/** @param {number[]} times moments on the audio clock; the first is the strong one @param {AudioNode} output */
function click(times, output) {
  const audio = prepare();
  times.forEach((time, beat) => {
    const tone = audio.createOscillator(), level = audio.createGain();
    tone.frequency.value = beat ? 1000 : 1500;
    level.gain.setValueAtTime(0.25, time);
    level.gain.exponentialRampToValueAtTime(0.001, time + 0.03);
    tone.connect(level).connect(output);
    tone.start(time);
    tone.stop(time + 0.04);
  });
}

/**
 * Let the last note ring out over the end of its piece, where the music itself goes on: as in a room.
 * @param {AudioNode} source @param {GainNode} output @param {number} end on the audio clock
 */
function ringOut(source, output, end) {
  const audio = prepare(), room = audio.createConvolver(), level = audio.createGain();
  const answer = audio.createBuffer(1, ring * audio.sampleRate, audio.sampleRate), samples = answer.getChannelData(0);
  samples.forEach((_, k) => { samples[k] = (2 * Math.random() - 1) * Math.exp(-3 * k / audio.sampleRate); });
  room.buffer = answer;
  source.connect(room).connect(level).connect(audio.destination);
  [output, level].forEach((node, k) => {
    node.gain.setValueAtTime(1 - k, Math.max(0, end - 0.06));
    node.gain.linearRampToValueAtTime(k, end);
  });
  return level;
}

/**
 * Play a file or pieces of it, after a count if there is one.
 * @param {AudioBuffer} buffer
 * @param {any} order `parts` from and to in seconds, null for all; `offset` into them; `loop`, `ring`,
 *   `count` as time.js has it, `ended` what to do then
 */
function play(buffer, order) {
  const audio = prepare();
  const source = audio.createBufferSource(), output = audio.createGain();
  const rate = buffer.sampleRate, offset = order.offset || 0;
  let piece = buffer;
  if (order.parts) {
    const cuts = order.parts.map((part) => part.map((seconds) => Math.round(seconds * rate)));
    piece = audio.createBuffer(buffer.numberOfChannels, Math.max(1, window.lickwright.time.lengthOf(cuts)), rate);
    for (let channel = 0; channel < buffer.numberOfChannels; channel++) {
      let at = 0;
      cuts.forEach(([from, to], k) => {
        const next = cuts[(k + 1) % cuts.length][0];
        piece.copyToChannel(window.lickwright.time.loopOf(buffer.getChannelData(channel), from, to, Math.round(fade * rate), next), channel, at);
        at += to - from;
      });
    }
  }
  source.buffer = piece;
  source.loop = Boolean(order.loop);
  source.loopEnd = piece.length / rate;
  source.connect(output).connect(audio.destination);
  const begin = audio.currentTime + lead;
  const start = begin + (order.count ? order.count.entry : 0);
  if (order.count) click(order.count.clicks.map((time) => begin + time), output);
  const tail = order.ring ? ringOut(source, output, start + piece.length / rate) : null;
  let waits = 0;
  source.onended = () => { waits = setTimeout(order.ended, tail ? 1000 * ring : 0); };
  source.start(start, offset);
  return {
    /** Seconds of the pieces that the ear has heard. */
    elapsed: () => audio.currentTime - (audio.outputLatency || 0) - start + offset,
    finish: () => { source.loop = false; },
    stop: () => {
      clearTimeout(waits);
      source.onended = null;
      for (const node of [output, tail]) if (node) {
        node.gain.cancelScheduledValues(0);
        node.gain.setTargetAtTime(0, audio.currentTime, fade);
      }
      source.stop(audio.currentTime + 8 * fade);
      setTimeout(() => { output.disconnect(); if (tail) tail.disconnect(); }, 100);
    },
  };
}

/** Called by a file. @param {string} key @param {any} content a sound is base64 */
window.lickwright.sound = window.lickwright.view = (key, content) => {
  const ready = waiting.get(key);
  waiting.delete(key);
  if (ready) ready(content);
};
window.lickwright.audio = { prepare, load, play, arrive };
}());
