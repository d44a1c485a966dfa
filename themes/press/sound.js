// @ts-check
/**
 * Sound: files arrive as classic scripts (a page opened from disk may fetch nothing), are decoded
 * once, and are played from buffers, because only these repeat to the sample.
 *
 * @typedef {Object} Playing a sound that was started
 * @property {number} start the moment of its first sample on the audio clock
 * @property {() => number} elapsed seconds since then that the ear has heard
 * @property {() => void} finish leave the loop at its end
 * @property {() => void} stop
 */
(function () {
  "use strict";
  const kept = 8; // decoded files held in memory
  const fade = 0.004; // seconds: long enough against a click, too short to hear
  const lead = 0.06; // seconds between the call and the first sample
  /** @type {AudioContext | null} */
  let context = null;
  /** @type {Map<string, Promise<AudioBuffer>>} */
  const files = new Map();
  /** @type {Map<string, (text: string) => void>} */
  const waiting = new Map();

  /** Make the audio clock run; called on the first touch of a player, since the first one is slow. */
  function prepare() {
    context = context || new AudioContext();
    if (context.state === "suspended") context.resume().catch(function () { /* no device: Play will say so */ });
    return context;
  }

  /** @param {string} text base64 @returns {Uint8Array<ArrayBuffer>} */
  function bytes(text) {
    if ("fromBase64" in Uint8Array) return /** @type {any} */ (Uint8Array).fromBase64(text);
    return Uint8Array.from(atob(text), function (sign) { return sign.charCodeAt(0); });
  }

  /** @param {string} file an address ending in KEY.js @returns {string} */
  function keyOf(file) {
    return file.replace(/^.*\//, "").replace(/\.js$/, "");
  }

  /** @param {string} file @returns {Promise<string>} */
  function arrive(file) {
    return new Promise(function (resolve, reject) {
      const script = document.createElement("script");
      const key = keyOf(file);
      waiting.set(key, resolve);
      script.onload = script.onerror = function () {
        script.remove();
        if (waiting.delete(key)) reject(new Error("The sound file " + file + " is missing or damaged"));
      };
      script.src = file;
      document.head.append(script);
    });
  }

  /**
   * The decoded sound of a file; a failed one is asked for again next time.
   * @param {string} file @returns {Promise<AudioBuffer>}
   */
  function load(file) {
    const audio = prepare();
    const held = files.get(file) || arrive(file).then(function (text) { return audio.decodeAudioData(bytes(text).buffer); });
    files.delete(file); // put last: the first of the map is the one unused for longest
    files.set(file, held);
    held.catch(function () { files.delete(file); });
    while (files.size > kept) files.delete(/** @type {string} */ (files.keys().next().value));
    return held;
  }

  /** @param {number[]} times moments on the audio clock; the first is the strong one @param {AudioNode} output */
  function click(times, output) {
    const audio = prepare();
    times.forEach(function (time, beat) {
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
   * Play a file or a piece of it, after a count if there is one.
   * @param {AudioBuffer} buffer
   * @param {{from?: number, to?: number, loop?: boolean, count?: {clicks: number[], entry: number} | null, ended: () => void}} order
   *   `from` and `to` in seconds; without `to` the sound rings out
   * @returns {Playing}
   */
  function play(buffer, order) {
    const audio = prepare();
    const source = audio.createBufferSource(), output = audio.createGain();
    const rate = buffer.sampleRate;
    const from = Math.round((order.from || 0) * rate);
    let piece = buffer;
    if (from || order.to !== undefined) {
      const to = order.to === undefined ? buffer.length : Math.max(from + 1, Math.round(order.to * rate));
      piece = audio.createBuffer(buffer.numberOfChannels, to - from, rate);
      for (let channel = 0; channel < buffer.numberOfChannels; channel++) {
        const made = window.lickwright.time.loopOf(buffer.getChannelData(channel), from, to, Math.round(fade * rate));
        piece.copyToChannel(made, channel);
      }
    }
    source.buffer = piece;
    source.loop = Boolean(order.loop);
    source.loopStart = 0;
    source.loopEnd = piece.length / rate;
    source.connect(output).connect(audio.destination);
    const begin = audio.currentTime + lead;
    const start = begin + (order.count ? order.count.entry : 0);
    if (order.count) click(order.count.clicks.map(function (time) { return begin + time; }), output);
    source.onended = order.ended;
    source.start(start);
    return {
      start: start,
      elapsed: function () { return audio.currentTime - (audio.outputLatency || 0) - start; },
      finish: function () { source.loop = false; },
      stop: function () {
        source.onended = null;
        output.gain.setTargetAtTime(0, audio.currentTime, fade);
        source.stop(audio.currentTime + 8 * fade);
        setTimeout(function () { output.disconnect(); }, 100);
      },
    };
  }

  window.lickwright = window.lickwright || {};
  /** Called by a sound file: its key and its bytes. @param {string} key @param {string} text base64 */
  window.lickwright.sound = function (key, text) {
    const ready = waiting.get(key);
    waiting.delete(key);
    if (ready) ready(text);
  };
  window.lickwright.audio = { prepare: prepare, load: load, play: play };
}());
