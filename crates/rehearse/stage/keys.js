// What each key does. It is one thing, in either window and at any time: there are no modes to be in the wrong one of.
//
// Writing and moving on the board are `site/play/board.js`'s; these are the others.

/** @typedef {import("../../site/play/puzzle.js").Puzzle} Puzzle */

/**
 * @typedef {"next" | "back" | "next-passage" | "back-passage" | "title" | "rules" | "sheet" | "dark" | "record" | "rehearse"
 *   | "pause" | "end" | "window"} Command
 */

/** @type {Record<string, Command>} Keys by what they are without Shift. */
const COMMANDS = {
  n: "next",
  pagedown: "next",
  b: "back",
  pageup: "back",
  t: "title",
  r: "rules",
  s: "sheet",
  d: "dark",
  o: "record",
  y: "rehearse",
  p: "pause",
  x: "end",
  w: "window",
};

/** @type {Partial<Record<Command, Command>>} With Shift. */
const WITH_SHIFT = { next: "next-passage", back: "back-passage" };

/**
 * What a key means; null where it is not one of these.
 * @param {KeyboardEvent} event
 * @returns {Command | null}
 */
export function commandOf(event) {
  if (event.ctrlKey || event.metaKey || event.altKey) return null;
  const command = COMMANDS[event.key.toLowerCase()] ?? null;
  return command && event.shiftKey ? WITH_SHIFT[command] ?? null : command;
}

/**
 * All keys, in words.
 * @param {Puzzle} puzzle
 * @returns {[key: string, meaning: string][]}
 */
export function keys({ side, marks }) {
  /** @type {[string, string][]} */
  const ofLarge = side < 10 ? [] : [["0, or Alt and a digit", side === 10 ? "0 is 10" : "0 is 10, Alt and 1 is 11, and so on"]];
  return [
    ["n, or Page Down", "the next step, with what it writes and points at; after the last the close"],
    ["b, or Page Up", "back by one step"],
    ["Shift with these", "the next passage, or the beginning of this one"],
    ["t, r, s", "show the title, the rules, the sheet"],
    ["d", "turns both light or dark"],
    ["o, y", "opens a recording, or a rehearsal to try it"],
    ["p", "stops the time, or lets it run on"],
    ["x", "ends the recording or rehearsal"],
    ["w", "opens the other window, or brings it up"],
    ["arrows", "go from cell to cell; with Shift they choose several"],
    ["a digit", "is written where you are; the same again is taken away"],
    ...ofLarge,
    ...marks.map((it) => /** @type {[string, string]} */ ([it.key, `marks as ${it.name}, or takes the mark away`])),
    ["Shift and a digit", "a small digit in the chosen cells, or away"],
    ["Backspace", "rubs out what is written by hand"],
    ["Space on a clue", "strikes it"],
    ["Ctrl and Z, Ctrl and Y", "undo and redo what is written by hand"],
    ["?", "asks what is open from here; only the presenter’s page says it"],
  ];
}
