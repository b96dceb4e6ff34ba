// The board of either window: the printed one, what is written on it, and what the step points at.

import { Board } from "../../site/play/board.js";

/** @typedef {import("../../site/play/board.js").Asked} Asked */
/** @typedef {import("../../site/play/puzzle.js").Puzzle} Puzzle */
/** @typedef {import("./session.js").Session} Session */

export class View {
  /** @type {Board} */ board;
  #below = layer();
  #above = layer();
  /** The step whose picture is laid over the board. @type {number | null} */ #pictured = null;

  /**
   * @param {Puzzle} puzzle
   * @param {HTMLElement} figure
   * @param {Asked} asked
   */
  constructor(puzzle, figure, asked) {
    const picture = /** @type {SVGElement} */ (figure.querySelector("svg"));
    const [width, height] = puzzle.picture.paper;
    figure.style.setProperty("--shape", String(width / height));
    // The first thing in a picture is its paper.
    picture.querySelector("rect")?.after(this.#below);
    picture.append(this.#above);
    this.board = new Board(puzzle, figure, asked);
  }

  /** @param {Session} session */
  show(session) {
    const { state, plan } = session;
    const step = state.isPlanned ? plan.steps[state.step - 1] : undefined;
    const sheet = session.sheet;
    const small = new Set(step?.small.filter((it) => sheet.written.ink[it] === 0));
    // A picture's small digits are what is being said; pencilled ones would lie under them.
    for (const it of small) sheet.written.pencil[it] = 0;
    this.board.chosen = state.chosen;
    this.board.show(sheet);
    for (const it of small) this.board.cells[it].classList.add("busy");
    const pictured = step ? state.step : null;
    if (pictured === this.#pictured) return;
    this.#pictured = pictured;
    // Galley's own drawing, which holds no text but figures.
    this.#below.innerHTML = step?.below ?? "";
    this.#above.innerHTML = step?.above ?? "";
  }
}

const layer = () => document.createElementNS("http://www.w3.org/2000/svg", "g");
