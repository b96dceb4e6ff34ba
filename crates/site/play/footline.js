// The line of digits and marks below the board, for those without a keyboard. A button does what its key does.

import { element } from "./board.js";
import { capital, keys } from "./words.js";

/**
 * @typedef {object} Asked
 * @property {(digit: number) => void} press
 * @property {(mark: number) => void} mark
 * @property {() => void} rubOut
 * @property {() => void} undo
 * @property {() => void} redo
 */

/**
 * @param {import("./puzzle.js").Puzzle} puzzle
 * @param {Asked} asked
 */
export function footLine(puzzle, asked) {
  const line = element("div", "foot-line");
  line.setAttribute("role", "group");
  line.setAttribute("aria-label", "Digits and marks");
  const digits = Array.from({ length: puzzle.side }, (_, at) => {
    return button(String(at + 1), "digit", () => asked.press(at + 1));
  });
  const marks = puzzle.marks.map((it, at) => {
    const mark = button(capital(it.name), "mark", () => asked.mark(at + 1));
    mark.prepend(element("span", `sample cell busy ${it.id}`));
    return mark;
  });
  const others = [
    button("Rub out", "", asked.rubOut),
    button("Undo", "", asked.undo),
    button("Redo", "", asked.redo),
  ];
  for (const group of [digits, [...marks, ...others]]) {
    const part = element("div", "part");
    part.append(...group);
    line.append(part);
  }
  return line;
}

/**
 * @param {string} text
 * @param {string} className
 * @param {() => void} then
 */
export function button(text, className, then) {
  const it = /** @type {HTMLButtonElement} */ (element("button", className, text));
  it.type = "button";
  it.addEventListener("click", then);
  return it;
}

/**
 * How to write on the sheet, folded.
 * @param {import("./puzzle.js").Puzzle} puzzle
 */
export function keyList(puzzle) {
  const part = element("details", "keys");
  const all = element("dl", "");
  for (const [key, meaning] of keys(puzzle)) all.append(element("dt", "", key), element("dd", "", meaning));
  part.append(element("summary", "", "How to write here"), all);
  return part;
}
