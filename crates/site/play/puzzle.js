// The puzzle of the page, as the page embeds it.

/**
 * @typedef {object} Mark A kind of cell that a rule knows.
 * @property {string} id
 * @property {string} key The key that marks a cell with it.
 * @property {string} name What one such cell is called.
 */

/**
 * @typedef {object} Clue
 * @property {string} rule
 * @property {"row" | "column"} line
 * @property {number} number Of the line, from 1.
 * @property {number} value
 */

/**
 * @typedef {object} Puzzle
 * @property {1} format
 * @property {string} id
 * @property {string} title
 * @property {string} fingerprint Another one as soon as a given or clue is.
 * @property {number} side
 * @property {[number, number]} box Width and height.
 * @property {number[]} givens Row by row; 0 is an empty cell.
 * @property {Clue[]} clues
 * @property {Mark[]} marks
 * @property {string[]} taught Ids of the techniques that solvers of this place of the pack know.
 * @property {string[]} practises Names of the techniques of the walkthrough.
 * @property {string} solved What `hash` makes of the digits of the solution.
 * @property {{paper: [number, number], frame: [number, number, number]}} picture The size of the board's picture, and left,
 *   top and side of the frame within it.
 */

/**
 * The puzzle, and the text it was read from, which the engine reads too.
 * @returns {{puzzle: Puzzle, text: string} | null} Null on a page without one.
 */
export function embedded() {
  const text = document.getElementById("puzzle-data")?.textContent;
  return text ? { puzzle: JSON.parse(text), text } : null;
}

/**
 * Whether the board is full and right.
 * @param {Puzzle} puzzle
 * @param {number[]} digits
 */
export function isSolved(puzzle, digits) {
  return !digits.includes(0) && hash(digits) === puzzle.solved;
}

/**
 * FNV-1a with 64 bits over the digits with commas between, in hexadecimal: the page can tell a solved board without
 * holding the solution in plain sight.
 * @param {number[]} digits
 */
export function hash(digits) {
  let state = 0xcbf29ce484222325n;
  for (const it of digits.join(",")) {
    state = BigInt.asUintN(64, (state ^ BigInt(it.charCodeAt(0))) * 0x100000001b3n);
  }
  return state.toString(16).padStart(16, "0");
}
