// What happens in a test solve, kept in the browser until the desk has said that it has it: nothing is lost on reload, when
// the desk is away for hours, or when either is killed.

import { ask, isPassing, say, told } from "./api.js";
import { read, write } from "/play/sheet/store.js";

/** @typedef {{id: string, after_ms: number, what: string, cell: number | null, value: number | null}} Happened */

/** So many are sent at once. */
const MOST = 200;
/** Milliseconds until it is tried again, and twice as long each time until it is this long. */
const [AGAIN, SELDOM] = [2_000, 30_000];

export const NOT_KEPT = "This browser’s store is full or switched off: what the desk has not been told yet is lost with this page.";

/** @param {string} fingerprint */
const placeOf = (fingerprint) => `galley desk solve ${fingerprint}`;

/**
 * The test solve of this puzzle that was begun in this browser.
 * @param {string} fingerprint
 */
export const begun = (fingerprint) => read(placeOf(fingerprint));

/**
 * @param {string} fingerprint
 * @param {string} solve
 */
export const remember = (fingerprint, solve) => write(placeOf(fingerprint), solve);

/** @param {string} fingerprint */
export const forget = (fingerprint) => localStorage.removeItem(placeOf(fingerprint));

export class Log {
  /** Whole milliseconds of solving. @type {() => number} */ spent = () => 0;
  /** Called when the desk has everything, after it could not be told for a while. @type {() => void} */ caughtUp = () => {};
  #solve;
  #place;
  /** What the browser's store did not take. @type {Happened[]} */ #unkept = [];
  /** Whether the line above the page says something of this log. */ #hasSpoken = false;
  /** @type {Promise<boolean> | null} */ #sending = null;
  #timer = 0;
  #wait = AGAIN;
  /** Whether the desk did not do as it was asked when it was asked last. */ #isAway = false;

  /** @param {string} solve */
  constructor(solve) {
    this.#solve = solve;
    this.#place = `galley desk log ${solve}`;
    addEventListener("online", () => this.send());
  }

  /** Whether the desk has been told everything. */
  get isTold() {
    return this.#left().length === 0;
  }

  /**
   * Notes that something happened, and sends it.
   * @param {string} what
   * @param {number | null} [cell]
   * @param {number | null} [value]
   */
  note(what, cell = null, value = null) {
    /** @type {Happened} */
    const it = { id: crypto.randomUUID(), after_ms: this.spent(), what, cell, value };
    if (!this.#keep([...this.#kept(), it])) {
      this.#unkept.push(it);
      this.#say(NOT_KEPT);
    }
    // While the desk is away, it is sent with all that waits.
    if (!this.#timer) this.send();
  }

  /**
   * Sends what the desk does not have yet.
   * @returns {Promise<boolean>} Whether it has everything now; if not, it is tried again by itself.
   */
  send() {
    this.#sending ??= this.#sendAll().finally(() => (this.#sending = null));
    return this.#sending;
  }

  /** Tries it again later. */
  later() {
    this.#isAway = true;
    if (this.#timer) return;
    this.#timer = setTimeout(() => this.send(), this.#wait);
    this.#wait = Math.min(2 * this.#wait, SELDOM);
  }

  async #sendAll() {
    clearTimeout(this.#timer);
    this.#timer = 0;
    let most = MOST;
    for (let left = this.#left(); left.length > 0; left = this.#left()) {
      const part = left.slice(0, most);
      const { refused } = await ask("POST", `/solves/${this.#solve}/events`, { events: part });
      if (refused && isPassing(refused)) {
        // That something would be lost with the page is not to be talked over.
        this.#say([told(refused), ...(this.#unkept.length > 0 ? [NOT_KEPT] : [])].join(" "));
        this.later();
        return false;
      }
      if (refused && part.length > 1) {
        // The desk will never take one of them: it is looked for, for the others must not wait for it.
        most = Math.ceil(part.length / 2);
        continue;
      }
      if (refused) {
        this.#putAside(part[0], told(refused));
        most = MOST;
      } else {
        this.#wait = AGAIN;
        if (this.#hasSpoken) this.#say("");
      }
      const done = new Set(part.map((it) => it.id));
      this.#unkept = this.#unkept.filter((it) => !done.has(it.id));
      this.#keep(this.#kept().filter((it) => !done.has(it.id)));
    }
    if (this.#isAway) {
      this.#isAway = false;
      this.caughtUp();
    }
    return true;
  }

  /**
   * @param {Happened} it
   * @param {string} why
   */
  #putAside(it, why) {
    const place = `galley desk put aside ${this.#solve}`;
    write(place, JSON.stringify([...JSON.parse(read(place) ?? "[]"), it]));
    console.warn(`put aside: ${JSON.stringify(it)}: ${why}`);
    this.#say(`The desk did not take something that was noted here (${it.what}); it is put aside in this browser. ${why}`);
    this.#hasSpoken = false;
  }

  /** @param {string} what */
  #say(what) {
    say(what);
    this.#hasSpoken = what !== "";
  }

  #left() {
    return [...this.#kept(), ...this.#unkept];
  }

  /** @returns {Happened[]} */
  #kept() {
    return JSON.parse(read(this.#place) ?? "[]");
  }

  /**
   * @param {Happened[]} events
   * @returns {boolean} Whether the browser keeps them.
   */
  #keep(events) {
    if (events.length > 0) return write(this.#place, JSON.stringify(events));
    if (read(this.#place) !== null) localStorage.removeItem(this.#place);
    return true;
  }
}
