// The sheet as a file: to be saved and opened again, and as a test solve for the pack's editor.

import { element } from "./board.js";
import { button } from "./footline.js";
import * as store from "./store.js";
import * as words from "./words.js";

/** @typedef {import("./puzzle.js").Puzzle} Puzzle */
/** @typedef {store.Progress} Progress */

/**
 * @typedef {object} Asked
 * @property {() => Progress} progress
 * @property {(progress: Progress) => void} open
 * @property {(why: string) => void} refuse
 * @property {() => void} clear
 */

export class Files {
  /**
   * @param {Puzzle} puzzle
   * @param {Asked} asked
   */
  constructor(puzzle, asked) {
    this.puzzle = puzzle;
    this.asked = asked;
    this.part = element("details", "files");
    const chooser = /** @type {HTMLInputElement} */ (element("input", ""));
    Object.assign(chooser, { type: "file", accept: ".json,application/json", hidden: true });
    chooser.addEventListener("change", () => this.#open(chooser));
    this.#solve = this.#solvePart();
    this.part.append(
      element("summary", "", "Your sheet"),
      element("p", "note", "What you write stays in this browser. A file carries it elsewhere."),
      button("Save it to a file", "", () => save(`${puzzle.id}.sheet.json`, store.asText(puzzle, asked.progress()))),
      button("Open a saved file", "", () => chooser.click()),
      button("Rub out everything", "", () => asked.clear()),
      chooser,
      this.#solve,
    );
  }

  #solve;

  /** Shows what can be done with the sheet as it is. */
  show() {
    this.#solve.hidden = this.asked.progress().sheet.isBlank;
  }

  /** @param {HTMLInputElement} chooser */
  async #open(chooser) {
    const [file] = chooser.files ?? [];
    chooser.value = "";
    if (!file) return;
    const found = store.parsed(this.puzzle, await file.text());
    if (typeof found !== "string") return this.asked.open(found);
    this.asked.refuse(found === "other-puzzle" ? words.ANOTHER_PUZZLE : words.NOT_A_SHEET);
  }

  /** A small form that writes a test solve, in the format of a pack's `solves` folder. */
  #solvePart() {
    const form = /** @type {HTMLFormElement} */ (element("form", "solve"));
    const name = /** @type {HTMLInputElement} */ (element("input", ""));
    Object.assign(name, { required: true, maxLength: 80, autocomplete: "nickname" });
    const kind = /** @type {HTMLSelectElement} */ (element("select", ""));
    for (const it of ["newcomer", "regular", "old hand"]) kind.append(new Option(it, it));
    const send = button("Save my times for the editor", "", () => {});
    send.type = "submit";
    form.append(
      element("p", "note", "The pack's editor can learn from how long you took: save this file and send it, if you like."),
      labelled("Your name", name),
      labelled("With this kind of puzzle you are a", kind),
      send,
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const solve = testSolve(this.puzzle, this.asked.progress(), name.value.trim(), kind.value);
      save(`${this.puzzle.id}-${slug(name.value)}.json`, `${JSON.stringify(solve, null, 2)}\n`);
    });
    return form;
  }
}

/**
 * A test solve as `docs/format.md` has it.
 * @param {Puzzle} puzzle
 * @param {Progress} progress
 * @param {string} solver
 * @param {string} kind
 */
export function testSolve(puzzle, progress, solver, kind) {
  const { side, id, fingerprint } = puzzle;
  const entries = progress.entries.map(({ at, cell, digit }) => {
    return { at, cell: `r${Math.floor(cell / side) + 1}c${(cell % side) + 1}`, digit: digit || null };
  });
  return {
    format: 1,
    puzzle: id,
    fingerprint,
    solver,
    kind,
    aloud: false,
    ...(progress.started === null ? {} : { started: progress.started }),
    entries,
    hints: progress.hints.map((at) => ({ at })),
    outcome: progress.isDone ? "solved" : "left",
  };
}

/**
 * @param {string} text
 * @param {HTMLElement} field
 */
function labelled(text, field) {
  const label = element("label", "");
  label.append(element("span", "", text), field);
  return label;
}

/** @param {string} name */
const slug = (name) => name.toLowerCase().replaceAll(/[^a-z0-9]+/g, "-").replaceAll(/^-+|-+$/g, "") || "solve";

/**
 * Hands a file to whoever sits there.
 * @param {string} name
 * @param {string} text
 */
export function save(name, text) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
