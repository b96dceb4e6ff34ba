// The desk as the one who helps in a test solve: it knows the solution, and the page does not. It tells one part of an answer
// at a time, and notes that it did.

import { ask, told } from "./api.js";
import { positionOf } from "/play/sheet/sheet.js";

/** @typedef {import("/play/sheet/puzzle.js").Puzzle} Puzzle */
/** @typedef {import("/play/sheet/sheet.js").Sheet} Sheet */
/** @typedef {import("/play/sheet/help.js").Part} Part */

export class Helper {
  #puzzle;
  #solve;
  #log;

  /**
   * @param {Puzzle} puzzle
   * @param {string} solve The test solve in which it helps.
   * @param {import("./log.js").Log} log What the desk must have been told before it is asked.
   */
  constructor(puzzle, solve, log) {
    this.#puzzle = puzzle;
    this.#solve = solve;
    this.#log = log;
  }

  hint = (/** @type {Sheet} */ sheet, /** @type {Part} */ part) => this.#asked("hint", sheet, part);
  check = (/** @type {Sheet} */ sheet, /** @type {Part} */ part) => this.#asked("check", sheet, part);
  why = (/** @type {Sheet} */ sheet, /** @type {number} */ cell, /** @type {Part} */ part) => this.#asked("why", sheet, part, cell);
  pencil = async (/** @type {Sheet} */ sheet) => (await this.#asked("pencil", sheet)).pencil;

  /**
   * @param {string} question
   * @param {Sheet} sheet
   * @param {Part} [part]
   * @param {number | null} [cell]
   * @returns {Promise<any>} The part, as the engine of the site answers.
   * @throws If the desk does not answer.
   */
  async #asked(question, sheet, part = "where", cell = null) {
    const asked = { question, part, cell, sheet: positionOf(this.#puzzle, sheet), after_ms: this.#log.spent() };
    // In its log, what was written comes before what was asked of it.
    await this.#log.send();
    const { value, refused } = await ask("POST", `/solves/${this.#solve}/help`, asked);
    if (refused) throw new Error(told(refused));
    return value;
  }
}
