// The engine of the playing sheet, asked from the presenter's page. It runs in a worker, whose script is part of this one:
// from a disk, browsers start no worker from a file.

import { fromScript } from "../../site/play/engine.js";
import { positionOf } from "../../site/play/sheet.js";
import source from "../stage-built/worker.txt";

/** @typedef {import("../../site/play/engine.js").Hint} Hint */
/** @typedef {import("../../site/play/engine.js").Mistake} Mistake */
/** @typedef {import("../../site/play/engine.js").Other} Other */
/** @typedef {import("../../site/play/engine.js").Known} Known */
/** @typedef {import("../../site/play/puzzle.js").Puzzle} Puzzle */
/** @typedef {import("../../site/play/sheet.js").Sheet} Sheet */

/** Beside the page. */
const ADDRESS = "engine.js";

export class Engine {
  /** @type {Promise<Worker> | null} */ #worker = null;
  /** @type {Map<number, {resolve: (answer: string) => void, reject: (fault: Error) => void}>} */ #asked = new Map();
  #nAsked = 0;

  /**
   * @param {Puzzle} puzzle
   * @param {string} text The puzzle as the page embeds it.
   */
  constructor(puzzle, text) {
    this.puzzle = puzzle;
    this.text = text;
  }

  /**
   * A step from here.
   * @param {Sheet} sheet
   * @returns {Promise<Hint | Mistake | Other>}
   */
  async hint(sheet) {
    return JSON.parse(await this.#ask({ ask: "hint", args: [positionOf(this.puzzle, sheet)] }));
  }

  /**
   * Whether the cell's digit can be known from here.
   * @param {Sheet} sheet
   * @param {number} cell
   * @param {number} digit
   * @param {number} within So many steps at most.
   * @returns {Promise<Known | Mistake | Other>}
   */
  async follows(sheet, cell, digit, within) {
    return JSON.parse(await this.#ask({ ask: "follows", args: [positionOf(this.puzzle, sheet), cell, digit, within] }));
  }

  /** @param {import("./worker.js").Question} question */
  async #ask(question) {
    this.#worker ??= this.#start();
    return this.#post(await this.#worker, question);
  }

  async #start() {
    const bytes = await fromScript(ADDRESS);
    const address = URL.createObjectURL(new Blob([source], { type: "text/javascript" }));
    const worker = new Worker(address);
    worker.addEventListener("message", ({ data }) => {
      const { id, answer, fault } = /** @type {import("./worker.js").Answer} */ (data);
      const asked = this.#asked.get(id);
      this.#asked.delete(id);
      if (answer === undefined) asked?.reject(new Error(fault));
      else asked?.resolve(answer);
    });
    worker.addEventListener("error", (event) => {
      for (const it of this.#asked.values()) it.reject(new Error(event.message));
      this.#asked.clear();
    });
    await this.#post(worker, { bytes, page: this.text });
    URL.revokeObjectURL(address);
    return worker;
  }

  /**
   * @param {Worker} worker
   * @param {import("./worker.js").Start | import("./worker.js").Question} what
   * @returns {Promise<string>}
   */
  #post(worker, what) {
    const id = this.#nAsked++;
    return new Promise((resolve, reject) => {
      this.#asked.set(id, { resolve, reject });
      worker.postMessage({ id, ...what });
    });
  }
}
