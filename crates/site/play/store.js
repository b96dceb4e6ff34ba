// Where a sheet is kept between visits: in this browser, one entry a puzzle, and in files.

import { Sheet } from "./sheet.js";

/** @typedef {import("./puzzle.js").Puzzle} Puzzle */
/** @typedef {import("./sheet.js").Change} Change */

/**
 * @typedef {object} Entry A digit that was inked, or taken away again (0), and when.
 * @property {number} at Seconds of solving time.
 * @property {number} cell
 * @property {number} digit
 */

/**
 * @typedef {object} Progress Everything that is kept.
 * @property {Sheet} sheet
 * @property {number} spent Milliseconds of solving time.
 * @property {Entry[]} entries
 * @property {number[]} hints When help was asked for, in seconds of solving time.
 * @property {boolean} isDone
 * @property {string | null} started When the first thing was written, as ISO 8601.
 */

/** @typedef {"nothing" | "unreadable" | "other-puzzle"} Refusal */

/** @param {Puzzle} puzzle */
const keyOf = (puzzle) => `galley sheet ${puzzle.fingerprint}`;

/**
 * @param {Puzzle} puzzle
 * @returns {Progress}
 */
export function fresh(puzzle) {
  const sheet = new Sheet(puzzle.side, puzzle.givens);
  return { sheet, spent: 0, entries: [], hints: [], isDone: false, started: null };
}

/**
 * What the browser has kept. What cannot be read is put aside under another name, never thrown away.
 * @param {Puzzle} puzzle
 * @returns {{progress: Progress, wasUnreadable: boolean}}
 */
export function kept(puzzle) {
  const text = read(keyOf(puzzle));
  const found = text === null ? "nothing" : parsed(puzzle, text);
  if (typeof found !== "string") return { progress: found, wasUnreadable: false };
  const wasUnreadable = found !== "nothing";
  if (wasUnreadable && text !== null) write(`${keyOf(puzzle)} put aside ${new Date().toISOString()}`, text);
  return { progress: fresh(puzzle), wasUnreadable };
}

/**
 * Keeps it.
 * @param {Puzzle} puzzle
 * @param {Progress} progress
 * @returns {boolean} Whether the browser has kept it.
 */
export function keep(puzzle, progress) {
  return write(keyOf(puzzle), asText(puzzle, progress));
}

/**
 * Calls back when another window has kept something for the same puzzle.
 * @param {Puzzle} puzzle
 * @param {(progress: Progress) => void} then
 */
export function watch(puzzle, then) {
  addEventListener("storage", (event) => {
    if (event.key !== keyOf(puzzle) || event.newValue === null) return;
    const found = parsed(puzzle, event.newValue);
    if (typeof found !== "string") then(found);
  });
}

/**
 * The text of a file that holds it: `solve-entries` are those of a test solve, so that an editor can use them.
 * @param {Puzzle} puzzle
 * @param {Progress} progress
 */
export function asText(puzzle, { sheet, ...rest }) {
  const { fingerprint, id } = puzzle;
  const { written, done, undone } = sheet;
  return JSON.stringify({ format: 1, sheet: id, fingerprint, written, done, undone, ...rest });
}

/**
 * @param {Puzzle} puzzle
 * @param {string} text
 * @returns {Progress | Refusal}
 */
export function parsed(puzzle, text) {
  let it;
  try {
    it = JSON.parse(text);
  } catch {
    return "unreadable";
  }
  if (it?.format !== 1 || typeof it.fingerprint !== "string") return "unreadable";
  if (it.fingerprint !== puzzle.fingerprint) return "other-puzzle";
  const progress = fresh(puzzle);
  const { sheet } = progress;
  const isSound =
    isWritten(puzzle, it.written) &&
    [it.done, it.undone].every((list) => isListOf(list, (all) => isListOf(all, (one) => isChange(sheet, one)))) &&
    isCount(it.spent) &&
    isListOf(it.entries, (one) => isCount(one?.at) && isIn(puzzle.givens, one.cell) && isDigit(puzzle, one.digit)) &&
    isListOf(it.hints, isCount) &&
    typeof it.isDone === "boolean" &&
    (it.started === null || typeof it.started === "string");
  if (!isSound) return "unreadable";
  Object.assign(sheet, { written: it.written, done: it.done, undone: it.undone });
  const { spent, entries, hints, isDone, started } = it;
  return { ...progress, spent, entries, hints, isDone, started };
}

/** @param {unknown} it */
const isCount = (it) => typeof it === "number" && Number.isFinite(it) && it >= 0;

/**
 * @param {unknown[]} all
 * @param {unknown} at
 */
const isIn = (all, at) => Number.isInteger(at) && Number(at) >= 0 && Number(at) < all.length;

/**
 * @param {Puzzle} puzzle
 * @param {unknown} it
 */
const isDigit = (puzzle, it) => Number.isInteger(it) && Number(it) >= 0 && Number(it) <= puzzle.side;

/**
 * @param {unknown} list
 * @param {(it: any) => boolean} isOne
 */
const isListOf = (list, isOne) => Array.isArray(list) && list.every(isOne);

/**
 * @param {Puzzle} puzzle
 * @param {any} it
 */
function isWritten(puzzle, it) {
  const { givens, side, marks } = puzzle;
  const isLayer = (/** @type {any} */ list, /** @type {number} */ length, /** @type {number} */ most) =>
    isListOf(list, (one) => Number.isInteger(one) && one >= 0 && one <= most) && list.length === length;
  return (
    isLayer(it?.ink, givens.length, side) &&
    isLayer(it.pencil, givens.length, (2 << side) - 2) &&
    isLayer(it.marks, givens.length, marks.length) &&
    isLayer(it.struck, 2 * side, 1) &&
    givens.every((digit, cell) => digit === 0 || it.ink[cell] === digit)
  );
}

/**
 * @param {Sheet} sheet
 * @param {any} it
 */
function isChange(sheet, it) {
  const layers = /** @type {Record<string, number[]>} */ (sheet.written);
  return Array.isArray(it) && Object.hasOwn(layers, it[0]) && isIn(layers[it[0]], it[1]) && isCount(it[2]) && isCount(it[3]);
}

/**
 * What the browser has under that name.
 * @param {string} key
 * @returns {string | null}
 */
export function read(key) {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

/**
 * @param {string} key
 * @param {string} text
 * @returns {boolean} Whether it is there now: a store may be full or switched off.
 */
export function write(key, text) {
  try {
    localStorage.setItem(key, text);
    return true;
  } catch {
    return false;
  }
}
