// What happens in a test solve, kept in the browser until the desk has said that it has it: nothing is lost on reload, when
// the desk is away for hours, or when either is killed.

import { ask, say, told } from "./api.js";

/** @typedef {{id: string, after_ms: number, what: string, cell: number | null, value: number | null}} Happened */

/** So many are sent at once. */
const MOST = 200;
/** Milliseconds until it is tried again. */
const AGAIN = 4_000;

/** @param {string} fingerprint */
const placeOf = (fingerprint) => `galley desk solve ${fingerprint}`;

/**
 * The test solve of this puzzle that was begun in this browser.
 * @param {string} fingerprint
 */
export const begun = (fingerprint) => localStorage.getItem(placeOf(fingerprint));

/**
 * @param {string} fingerprint
 * @param {string} solve
 */
export const remember = (fingerprint, solve) => localStorage.setItem(placeOf(fingerprint), solve);

export class Log {
  #isSending = false;
  #place;
  #solve;
  #spent;

  /**
   * @param {string} solve
   * @param {() => number} spent Milliseconds of solving.
   */
  constructor(solve, spent) {
    this.#solve = solve;
    this.#spent = spent;
    this.#place = `galley desk log ${solve}`;
  }

  /**
   * Notes that something happened, and sends it.
   * @param {string} what
   * @param {number | null} [cell]
   * @param {number | null} [value]
   */
  note(what, cell = null, value = null) {
    this.#keep([...this.#kept(), { id: crypto.randomUUID(), after_ms: this.#spent(), what, cell, value }]);
    this.send();
  }

  /** Sends what the desk does not have yet. */
  async send() {
    if (this.#isSending) return;
    this.#isSending = true;
    for (let events = this.#kept(); events.length > 0; events = this.#kept()) {
      const part = events.slice(0, MOST);
      const { refused } = await ask("POST", `/solves/${this.#solve}/events`, { events: part });
      if (refused) {
        say(told(refused));
        setTimeout(() => this.send(), AGAIN);
        break;
      }
      say("");
      const sent = new Set(part.map((it) => it.id));
      this.#keep(this.#kept().filter((it) => !sent.has(it.id)));
    }
    this.#isSending = false;
  }

  /** @returns {Happened[]} */
  #kept() {
    return JSON.parse(localStorage.getItem(this.#place) ?? "[]");
  }

  /** @param {Happened[]} events */
  #keep(events) {
    if (events.length === 0) return localStorage.removeItem(this.#place);
    localStorage.setItem(this.#place, JSON.stringify(events));
  }
}
