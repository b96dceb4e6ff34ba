// What is printed on a board while it is typed: how it changes, and how a change is taken back. Nothing here knows the page.

/**
 * @typedef {object} Typed
 * @property {number[]} givens Row by row; 0 is an empty cell.
 * @property {Record<string, {rows: (number | null)[], columns: (number | null)[]}>} clues
 */

export class Typing {
  /** @type {Typed[]} */ #done = [];
  /** @type {Typed[]} */ #undone = [];

  /** @param {Typed} kept The board of the file. */
  constructor(kept) {
    this.kept = kept;
    this.now = kept;
  }

  /** Whether anything differs from the file. */
  get isChanged() {
    return !isSame(this.now, this.kept);
  }

  get canUndo() {
    return this.#done.length > 0;
  }

  get canRedo() {
    return this.#undone.length > 0;
  }

  /**
   * Takes another board in the place of this one.
   * @param {Typed} board
   * @returns {boolean} Whether it is another.
   */
  take(board) {
    if (isSame(board, this.now)) return false;
    this.#done.push(this.now);
    this.#undone = [];
    this.now = board;
    return true;
  }

  /**
   * Prints a digit in a cell; 0 takes it away.
   * @param {number} cell
   * @param {number} digit
   */
  print(cell, digit) {
    return this.take({ ...this.now, givens: this.now.givens.with(cell, digit) });
  }

  /**
   * Prints a clue beside a line; null takes it away.
   * @param {string} rule
   * @param {number} line Rows from the top, then columns.
   * @param {number | null} value
   */
  printClue(rule, line, value) {
    const { rows, columns } = this.now.clues[rule];
    const side = rows.length;
    const clues = line < side ? { rows: rows.with(line, value), columns } : { rows, columns: columns.with(line - side, value) };
    return this.take({ ...this.now, clues: { ...this.now.clues, [rule]: clues } });
  }

  undo() {
    return this.#move(this.#done, this.#undone);
  }

  redo() {
    return this.#move(this.#undone, this.#done);
  }

  /**
   * @param {Typed[]} from
   * @param {Typed[]} to
   */
  #move(from, to) {
    const board = from.pop();
    if (!board) return false;
    to.push(this.now);
    this.now = board;
    return true;
  }
}

/**
 * @param {Typed} a
 * @param {Typed} b
 */
export const isSame = (a, b) => JSON.stringify(a) === JSON.stringify(b);

/**
 * The digits of a grid that was pasted: one line of cells, or a block of rows with whatever drawing between them. A dot or
 * a nought is an empty cell. Null if it is no grid of that side.
 * @param {string} text
 * @param {number} side
 * @returns {number[] | null}
 */
export function pasted(text, side) {
  const isCell = /^[0-9A-Ga-g.]$/;
  const cells = [...text].filter((it) => isCell.test(it));
  if (cells.length !== side * side || /[h-z]/i.test(text)) return null;
  const digits = cells.map((it) => (it === "." ? 0 : Number.parseInt(it, 17)));
  return digits.every((it) => it <= side) ? digits : null;
}
