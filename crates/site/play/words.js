// What the sheet says: all its own sentences. What hints say comes from the engine.

/** @typedef {import("./puzzle.js").Puzzle} Puzzle */
/** @typedef {import("./sheet.js").Sheet} Sheet */

/**
 * `2, 5 and 7`.
 * @param {(string | number)[]} items
 */
export function list(items) {
  return items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}

/**
 * @param {number} n
 * @param {string} one
 */
export function counted(n, one) {
  return n === 1 ? `one ${one}` : `${n} ${one}s`;
}

/**
 * `row 4 column 7, empty, pencilled 2 and 5`.
 * @param {Puzzle} puzzle
 * @param {Sheet} sheet
 * @param {number} cell
 */
export function cellLabel(puzzle, sheet, cell) {
  const place = `row ${Math.floor(cell / puzzle.side) + 1} column ${(cell % puzzle.side) + 1}`;
  const { ink, marks } = sheet.written;
  if (sheet.isGiven(cell)) return `${place}, given ${ink[cell]}`;
  const mark = marks[cell] ? `, marked ${puzzle.marks[marks[cell] - 1].name}` : "";
  if (ink[cell]) return `${place}, ${ink[cell]}${mark}`;
  const pencilled = sheet.pencilled(cell);
  return `${place}, empty${pencilled.length ? `, pencilled ${list(pencilled)}` : ""}${mark}`;
}

/**
 * `row 4: sandwich 14, struck`.
 * @param {Puzzle} puzzle
 * @param {Sheet} sheet
 * @param {number} line
 */
export function clueLabel(puzzle, sheet, line) {
  const [kind, number] = line < puzzle.side ? ["row", line + 1] : ["column", line - puzzle.side + 1];
  const clues = puzzle.clues.filter((it) => it.line === kind && it.number === number);
  const said = clues.map((it) => `${it.rule} clue ${it.value}`).join(", ");
  return `${kind} ${number}: ${said}${sheet.written.struck[line] ? ", struck" : ""}`;
}

/**
 * What a change of one cell did, for those who hear it.
 * @param {Puzzle} puzzle
 * @param {Sheet} sheet
 * @param {number[]} cells
 */
export function changed(puzzle, sheet, cells) {
  return cells.length === 1 ? cellLabel(puzzle, sheet, cells[0]) : `${cells.length} cells changed`;
}

/** @param {string} it */
export const capital = (it) => it.charAt(0).toUpperCase() + it.slice(1);

/**
 * What each key does; each means one thing, wherever the sheet is.
 * @param {Puzzle} puzzle
 * @returns {[key: string, meaning: string][]}
 */
export function keys(puzzle) {
  const { side, marks } = puzzle;
  /** @type {[string, string][]} */
  const ofLarge = side < 10 ? [] : [["0, or Alt and a digit", side === 10 ? "0 is 10" : "0 is 10, Alt and 1 is 11, and so on"]];
  return [
    ["a digit", "once: in pencil; again: in ink; a third time: taken away. In several cells: in pencil in all of them"],
    ["Shift and a digit", "takes a pencilled digit away"],
    ["digits in pencil", "two or more in a cell mean that it is one of these; help counts on that. A single one is only a remark"],
    ...ofLarge,
    ...marks.map((it) => /** @type {[string, string]} */ ([it.key, `marks the cell as ${it.name}, or takes the mark away`])),
    ["Backspace", "rubs out ink first, then pencil and marks"],
    ["arrows", "go from cell to cell, and to the clues; with Shift they choose several cells"],
    ["a drag, or Ctrl and a click", "chooses several cells"],
    ["Space, or a click on a clue", "strikes a clue that is spent"],
    ["?", "asks the next question in the margin"],
    ["Ctrl and Z, Ctrl and Y", "undo and redo"],
  ];
}

/**
 * How long it took, in whole minutes.
 * @param {number} milliseconds
 */
export function minutes(milliseconds) {
  const whole = Math.floor(milliseconds / 60_000);
  return whole === 0 ? "less than a minute" : counted(whole, "minute");
}

/**
 * @param {Puzzle} puzzle
 * @param {number} milliseconds
 * @param {number} nHints
 */
export function finished(puzzle, milliseconds, nHints) {
  const hints = nHints === 0 ? "without a hint" : `with ${counted(nHints, "hint")}`;
  const practised = puzzle.practises.length ? ` What it practises: ${list(puzzle.practises)}.` : "";
  return `Solved in ${minutes(milliseconds)}, ${hints}.${practised}`;
}

export const FULL_BUT_WRONG = "The board is full, but something in it does not fit.";
export const PRINTED = "This is printed in the puzzle, so it stays.";
export const NOTHING_TO_UNDO = "Nothing to undo.";
export const NOTHING_TO_REDO = "Nothing to do again.";
export const CHANGED_ELSEWHERE = "This sheet was changed in another window. Both now show the same.";
export const ASIDE =
  "What was kept of this sheet could not be read. It is put aside in this browser, and you have a fresh sheet.";
export const NOT_KEPT =
  "This browser does not keep what you write: its store is full or switched off. Save your sheet to a file before you leave.";
export const NOT_A_SHEET = "That file is not a saved sheet, so nothing was changed.";
export const ANOTHER_PUZZLE = "That file is a sheet of another puzzle, or of this one before it was changed.";
export const OPENED = "The sheet was opened. Undo brings back what was here before.";
export const NO_ENGINE = "Help from your own position could not be loaded. The printed hints are still here.";
export const FITS = "Everything you have written fits so far.";
export const CHOOSE_A_DIGIT = "Choose one cell that holds a digit first.";
