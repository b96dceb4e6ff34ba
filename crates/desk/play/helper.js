// The desk as the one who helps in a test solve: it knows the solution, and the page does not.

import { ask, told } from "./api.js";
import { positionOf } from "/play/sheet/sheet.js";

/** @typedef {import("/play/sheet/puzzle.js").Puzzle} Puzzle */
/** @typedef {import("/play/sheet/sheet.js").Sheet} Sheet */

export class Helper {
  #puzzle;
  #solve;

  /**
   * @param {Puzzle} puzzle
   * @param {string} solve The test solve in which it helps.
   */
  constructor(puzzle, solve) {
    this.#puzzle = puzzle;
    this.#solve = solve;
  }

  hint = (/** @type {Sheet} */ sheet) => this.#asked("hint", sheet);
  check = (/** @type {Sheet} */ sheet) => this.#asked("check", sheet);
  why = (/** @type {Sheet} */ sheet, /** @type {number} */ cell) => this.#asked("why", sheet, cell);
  pencil = async (/** @type {Sheet} */ sheet) => (await this.#asked("pencil", sheet)).pencil;

  /**
   * @param {string} question
   * @param {Sheet} sheet
   * @param {number | null} [cell]
   * @returns {Promise<any>} As the engine of the site answers.
   * @throws If the desk does not answer.
   */
  async #asked(question, sheet, cell = null) {
    const asked = { question, cell, sheet: positionOf(this.#puzzle, sheet) };
    const { value, refused } = await ask("POST", `/solves/${this.#solve}/help`, asked);
    if (refused) throw new Error(told(refused));
    return value;
  }
}
