// Keeps the two windows in step, through the browser alone.
//
// Two ways are used side by side, because neither works everywhere. A window and the one it opened can post to each
// other even when the pages are read from a disk, where browsers take every file for a stranger; but a window that was
// closed and opened again by itself knows nobody. A broadcast channel reaches every window of the pages' host, whoever
// opened it; but from a disk not in every browser. What comes twice does no harm: only what is newer counts.

import { isNewer, isStamp } from "./session.js";

/** @typedef {import("./session.js").Session} Session */

/** So many milliseconds pass between two beats, by which windows find each other again. */
const BEAT = 1_000;

export class Link {
  /** @type {Set<Window>} */ #others = new Set();
  /** @type {BroadcastChannel | null} */ #channel = null;
  #name;
  #heard = -Infinity;

  /**
   * @param {Session} session
   * @param {() => void} then What is done when another window's state was taken.
   */
  constructor(session, then) {
    this.session = session;
    this.then = then;
    this.#name = `galley stage ${session.puzzle.fingerprint}`;
    if (window.opener) this.#others.add(window.opener);
    try {
      this.#channel = new BroadcastChannel(this.#name);
      this.#channel.addEventListener("message", (it) => this.#receive(it.data));
    } catch {
      // Without it there is still the other way.
    }
    addEventListener("message", (event) => {
      if (!isOwn(event.origin) || event.data?.galley !== this.#name) return;
      if (event.source && "closed" in event.source) this.#others.add(event.source);
      this.#receive(event.data);
    });
    setInterval(() => this.#beat(), BEAT);
    this.#beat();
  }

  /** Whether the other window was heard of just now. */
  get isHeard() {
    return performance.now() - this.#heard < 3 * BEAT;
  }

  /**
   * A window that was opened from here.
   * @param {Window} other
   */
  meet(other) {
    this.#others.add(other);
  }

  /** Hands on everything as it is. */
  send() {
    this.#post({ stamp: this.session.state.stamp, text: this.session.text });
  }

  #beat() {
    this.#post({ stamp: this.session.state.stamp });
  }

  /** @param {object} what */
  #post(what) {
    const message = { galley: this.#name, ...what };
    this.#channel?.postMessage(message);
    for (const it of this.#others) {
      if (it.closed) this.#others.delete(it);
      // A page on a disk has no origin that could be named.
      else it.postMessage(message, location.protocol === "file:" ? "*" : location.origin);
    }
  }

  /** @param {any} message */
  #receive(message) {
    if (message?.galley !== this.#name || !isStamp(message.stamp)) return;
    this.#heard = performance.now();
    const { stamp } = this.session.state;
    if (isNewer(stamp, message.stamp)) return this.send();
    if (!isNewer(message.stamp, stamp)) return;
    if (typeof message.text !== "string") return this.#beat();
    if (this.session.take(message.text) === "taken") this.then();
  }
}

/** @param {string} origin */
function isOwn(origin) {
  return location.protocol === "file:" ? ["null", "file://"].includes(origin) : origin === location.origin;
}
