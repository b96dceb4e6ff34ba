// What the solver has written, how it changes, and how a change is taken back.
//
// Digits are in ink or in pencil. Nothing here knows the page, the clock or the store.

/**
 * @typedef {object} Written What stands on the sheet; one entry a cell, row by row, but for `struck`.
 * @property {number[]} ink 0 is none. Givens stand here too.
 * @property {number[]} pencil Bit d is set if digit d is pencilled.
 * @property {number[]} marks 0, or the place of a mark among the puzzle's, from 1.
 * @property {number[]} struck 1 where the clue of a line is struck: rows from the top, then columns.
 */

/** @typedef {import("./puzzle.js").Puzzle} Puzzle */
/** @typedef {"ink" | "pencil" | "marks" | "struck"} Layer */
/** @typedef {[layer: Layer, at: number, from: number, to: number]} Change */

export class Sheet {
  /** @type {Change[][]} */ done = [];
  /** @type {Change[][]} */ undone = [];

  /**
   * An empty sheet.
   * @param {number} side
   * @param {number[]} givens
   */
  constructor(side, givens) {
    this.side = side;
    this.givens = givens;
    const none = () => givens.map(() => 0);
    /** @type {Written} */
    this.written = { ink: [...givens], pencil: none(), marks: none(), struck: Array(2 * side).fill(0) };
  }

  /** @param {number} cell */
  isGiven(cell) {
    return this.givens[cell] !== 0;
  }

  /**
   * The digits pencilled in a cell, rising.
   * @param {number} cell
   */
  pencilled(cell) {
    return digitsOf(this.written.pencil[cell]);
  }

  /** Whether anything has been written yet. */
  get isBlank() {
    return this.done.length === 0;
  }

  /**
   * A digit is pressed. In one cell the first press pencils it, the second inks it, the third takes it away; an inked
   * digit gives way to another one. In several cells it is pencilled wherever it can be, or taken away if it is
   * everywhere already.
   * @param {number[]} cells
   * @param {number} digit
   */
  press(cells, digit) {
    const free = cells.filter((it) => !this.isGiven(it));
    const { ink, pencil } = this.written;
    const bit = 1 << digit;
    if (free.length === 1) {
      const [cell] = free;
      if (ink[cell] === digit) {
        return this.#change([["ink", cell, 0], ["pencil", cell, pencil[cell] & ~bit]]);
      }
      if (ink[cell] !== 0 || pencil[cell] & bit) {
        return this.#change([["ink", cell, digit]]);
      }
      return this.#change([["pencil", cell, pencil[cell] | bit]]);
    }
    const open = free.filter((it) => ink[it] === 0);
    const isEverywhere = open.every((it) => pencil[it] & bit);
    return this.#change(open.map((it) => ["pencil", it, isEverywhere ? pencil[it] & ~bit : pencil[it] | bit]));
  }

  /**
   * A pencilled digit is taken away, wherever it is.
   * @param {number[]} cells
   * @param {number} digit
   */
  strike(cells, digit) {
    const { ink, pencil } = this.written;
    const open = cells.filter((it) => ink[it] === 0);
    return this.#change(open.map((it) => ["pencil", it, pencil[it] & ~(1 << digit)]));
  }

  /**
   * The cells are marked, or, if all are already, unmarked. A cell is of one kind at most.
   * @param {number[]} cells
   * @param {number} mark From 1.
   */
  mark(cells, mark) {
    const free = cells.filter((it) => !this.isGiven(it));
    const isEverywhere = free.every((it) => this.written.marks[it] === mark);
    return this.#change(free.map((it) => ["marks", it, isEverywhere ? 0 : mark]));
  }

  /**
   * What was written last and heaviest goes first: ink, or, where there is none, pencil and marks.
   * @param {number[]} cells
   */
  rubOut(cells) {
    const free = cells.filter((it) => !this.isGiven(it));
    const inked = free.filter((it) => this.written.ink[it] !== 0);
    if (inked.length > 0) {
      return this.#change(inked.map((it) => ["ink", it, 0]));
    }
    return this.#change(free.flatMap((it) => [["pencil", it, 0], ["marks", it, 0]]));
  }

  /**
   * The clues of a line are struck, or, if they are, not struck any more.
   * @param {number} line Rows from 0, then columns.
   */
  strikeClue(line) {
    return this.#change([["struck", line, 1 - this.written.struck[line]]]);
  }

  /**
   * Several things at once, which are taken back at once.
   * @param {{ink: [number, number][], pencil: [number, number[]][], marks: [number, number][]}} what Cell and digit, cell
   *   and pencil marks, cell and mark from 1.
   */
  write({ ink, pencil, marks }) {
    return this.#change([
      ...ink.map(([cell, digit]) => /** @type {const} */ (["ink", cell, digit])),
      ...pencil.map(([cell, digits]) => /** @type {const} */ (["pencil", cell, bitsOf(digits)])),
      ...marks.map(([cell, mark]) => /** @type {const} */ (["marks", cell, mark])),
    ]);
  }

  /**
   * Pencils in the open cells what is allowed there. Where something is pencilled already, only what is not allowed
   * goes.
   * @param {number[][]} allowed The digits of each cell.
   */
  pencilIn(allowed) {
    const { ink, pencil } = this.written;
    const bits = allowed.map(bitsOf);
    const open = bits.map((_, cell) => cell).filter((it) => ink[it] === 0);
    return this.#change(open.map((it) => ["pencil", it, pencil[it] === 0 ? bits[it] : pencil[it] & bits[it]]));
  }

  /** Takes the last change back. */
  undo() {
    return this.#move(this.done, this.undone, (it) => [it[0], it[1], it[2]]);
  }

  /** Makes the change again that was taken back last. */
  redo() {
    return this.#move(this.undone, this.done, (it) => [it[0], it[1], it[3]]);
  }

  /** Rubs everything out. */
  clear() {
    const { written } = this;
    /** @type {[Layer, number, number][]} */
    const changes = [];
    for (const layer of /** @type {Layer[]} */ (["ink", "pencil", "marks", "struck"])) {
      written[layer].forEach((_, at) => changes.push([layer, at, layer === "ink" ? this.givens[at] : 0]));
    }
    return this.#change(changes);
  }

  /**
   * @param {(readonly [Layer, number, number])[]} wanted
   * @returns {Change[]} What has changed; nothing if all was so already.
   */
  #change(wanted) {
    const changes = wanted
      .filter(([layer, at, to]) => this.written[layer][at] !== to)
      .map(([layer, at, to]) => /** @type {Change} */ ([layer, at, this.written[layer][at], to]));
    if (changes.length > 0) {
      changes.forEach(([layer, at, , to]) => (this.written[layer][at] = to));
      this.done.push(changes);
      this.undone = [];
    }
    return changes;
  }

  /**
   * @param {Change[][]} from
   * @param {Change[][]} to
   * @param {(it: Change) => [Layer, number, number]} becomes
   * @returns {Change[]}
   */
  #move(from, to, becomes) {
    const changes = from.pop();
    if (!changes) return [];
    changes.map(becomes).forEach(([layer, at, value]) => (this.written[layer][at] = value));
    to.push(changes);
    return changes;
  }
}

/** @param {number[]} digits */
const bitsOf = (digits) => digits.reduce((all, it) => all | (1 << it), 0);

/**
 * The digits whose bits are set, rising.
 * @param {number} bits
 */
export function digitsOf(bits) {
  return Array.from({ length: 17 }, (_, digit) => digit).filter((it) => (bits >> it) & 1);
}

/**
 * The sheet as the engine reads it.
 * @param {Puzzle} puzzle
 * @param {Sheet} sheet
 */
export function positionOf(puzzle, sheet) {
  const { ink, marks } = sheet.written;
  const named = marks.map((it) => (it ? puzzle.marks[it - 1].id : ""));
  return JSON.stringify({ format: 1, ink, pencil: ink.map((_, cell) => sheet.pencilled(cell)), marks: named });
}
