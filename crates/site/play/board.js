// The board to write on: a grid for keyboard, pointer and screen reader, laid over the printed one.
//
// It shows what is on the sheet and says what was asked of it; what that changes is for others to say. The pattern is
// that of the W3C's ARIA Authoring Practices, "Grid": one cell is in the tab order, the arrows move between cells.

import { cellLabel, clueLabel } from "./words.js";

/** @typedef {import("./puzzle.js").Puzzle} Puzzle */
/** @typedef {import("./sheet.js").Sheet} Sheet */

/**
 * @typedef {object} Asked What the board hands on.
 * @property {(cells: number[], digit: number) => void} press
 * @property {(cells: number[], digit: number) => void} strike
 * @property {(cells: number[], mark: number) => void} mark
 * @property {(cells: number[]) => void} rubOut
 * @property {(line: number) => void} strikeClue
 * @property {() => void} undo
 * @property {() => void} redo
 * @property {() => void} hint
 * @property {(cells: number[]) => void} [choose] Other cells were chosen.
 */

/** How the puzzle's marks and the things pointed at are shown; `sheet.css` draws them. */
const MARK_CLASS = /** @type {Record<string, string>} */ ({ crust: "crust", filling: "filling" });

export class Board {
  /** The chosen cells; the last is where the keyboard is. */
  /** @type {number[]} */ chosen = [];
  /** A line whose clue the keyboard is at, instead of a cell. @type {number | null} */ #line = null;
  /** Where a stretch of cells began. */ #anchor = 0;

  /**
   * Lays the grid over the picture.
   * @param {Puzzle} puzzle
   * @param {HTMLElement} figure What holds the picture.
   * @param {Asked} asked
   */
  constructor(puzzle, figure, asked) {
    this.puzzle = puzzle;
    this.asked = asked;
    /** @type {HTMLElement[]} */ this.cells = [];
    /** @type {Map<number, HTMLElement>} */ this.clues = new Map();
    this.grid = this.#build();
    const picture = figure.querySelector("svg");
    picture?.setAttribute("aria-hidden", "true");
    const stand = element("div", "stand");
    figure.prepend(stand);
    if (picture) stand.append(picture);
    stand.append(this.grid);
    this.#choose([puzzle.givens.indexOf(0) < 0 ? 0 : puzzle.givens.indexOf(0)]);
    this.grid.addEventListener("keydown", (it) => this.key(it));
    this.grid.addEventListener("pointerdown", (it) => this.#onPointer(it));
    this.grid.addEventListener("pointermove", (it) => this.#onDrag(it));
  }

  /**
   * Shows what is on the sheet.
   * @param {Sheet} sheet
   */
  show(sheet) {
    const { ink, marks, struck } = sheet.written;
    this.cells.forEach((cell, at) => {
      const mark = marks[at] ? this.puzzle.marks[marks[at] - 1].id : "";
      const digits = sheet.isGiven(at) ? [] : ink[at] ? [ink[at]] : sheet.pencilled(at);
      const kind = sheet.isGiven(at) ? "given" : ink[at] ? "ink" : "pencil";
      const busy = digits.length > 0 || sheet.isGiven(at) ? "busy" : "";
      const columns = ink[at] ? 1 : digits.length <= 1 ? 1 : digits.length <= 4 ? 2 : digits.length <= 9 ? 3 : 4;
      cell.className = ["cell", kind, busy, MARK_CLASS[mark] ?? "", `in-${columns}`].filter(Boolean).join(" ");
      cell.replaceChildren(said(cellLabel(this.puzzle, sheet, at)), ...digits.map(shown));
    });
    for (const [line, clue] of this.clues) {
      clue.replaceChildren(said(clueLabel(this.puzzle, sheet, line)));
      clue.classList.toggle("struck", struck[line] === 1);
    }
    this.#showChoice();
  }

  /**
   * Points at cells, and at nothing else; a class of `sheet.css` says how.
   * @param {number[]} cells
   * @param {"looked-at" | "wrong"} how
   */
  pointAt(cells, how) {
    this.cells.forEach((cell, at) => {
      for (const it of ["looked-at", "wrong"]) cell.toggleAttribute(`data-${it}`, it === how && cells.includes(at));
    });
  }

  /** Puts the keyboard on the board. */
  focus() {
    this.#current().focus();
  }

  /** Draws the grid of cells, and the clues before its rows and columns. */
  #build() {
    const { side, clues, picture } = this.puzzle;
    const grid = element("div", side > 9 ? "play wide" : "play");
    grid.setAttribute("role", "grid");
    grid.setAttribute("aria-label", `${this.puzzle.title}: board to write on, ${side} rows of ${side} cells`);
    grid.setAttribute("aria-multiselectable", "true");
    const [width, height] = picture.paper;
    const [left, top, length] = picture.frame;
    const place = (/** @type {HTMLElement} */ it, /** @type {number[]} */ [x, y, w, h]) => {
      Object.assign(it.style, {
        left: `${(100 * x) / width}%`,
        top: `${(100 * y) / height}%`,
        width: `${(100 * w) / width}%`,
        height: `${(100 * h) / height}%`,
      });
    };
    const step = length / side;
    // What is written grows with the picture: a share of its width.
    grid.style.setProperty("--cell", `${(100 * step) / width}cqw`);
    const header = (/** @type {number} */ line) => {
      const [kind, number] = line < side ? ["row", line + 1] : ["column", line - side + 1];
      if (!clues.some((it) => it.line === kind && it.number === number)) return null;
      const clue = element("div", `clue ${kind}`);
      clue.setAttribute("role", kind === "row" ? "rowheader" : "columnheader");
      clue.tabIndex = -1;
      clue.dataset.line = String(line);
      const along = step * (number - 1);
      place(clue, kind === "row" ? [0, top + along, left, step] : [left + along, 0, step, top]);
      this.clues.set(line, clue);
      return clue;
    };
    const row = (/** @type {(HTMLElement | null)[]} */ inside) => {
      const it = element("div", "row");
      it.setAttribute("role", "row");
      it.append(...inside.filter((one) => one !== null));
      if (it.childElementCount > 0) grid.append(it);
    };
    row(Array.from({ length: side }, (_, at) => header(side + at)));
    for (let r = 0; r < side; r++) {
      const inside = Array.from({ length: side }, (_, c) => {
        const cell = element("div", "cell");
        cell.setAttribute("role", "gridcell");
        cell.tabIndex = -1;
        cell.dataset.cell = String(this.cells.length);
        if (this.puzzle.givens[r * side + c]) cell.setAttribute("aria-readonly", "true");
        place(cell, [left + c * step, top + r * step, step, step]);
        this.cells.push(cell);
        return cell;
      });
      row([header(r), ...inside]);
    }
    return grid;
  }

  #current() {
    const clue = this.#line === null ? undefined : this.clues.get(this.#line);
    return clue ?? this.cells[this.chosen.at(-1) ?? 0];
  }

  /** @param {number[]} cells */
  #choose(cells) {
    this.chosen = cells;
    this.#line = null;
    this.#showChoice();
    this.asked.choose?.(cells);
  }

  #showChoice() {
    const current = this.#current();
    for (const it of [...this.cells, ...this.clues.values()]) it.tabIndex = it === current ? 0 : -1;
    this.cells.forEach((it, at) => it.setAttribute("aria-selected", String(this.#line === null && this.chosen.includes(at))));
  }

  /**
   * Does what a key means. Pages on which keys count wherever the keyboard is hand them on.
   * @param {KeyboardEvent} event
   */
  key(event) {
    const isCommand = event.ctrlKey || event.metaKey;
    const key = event.key.toLowerCase();
    const handled = () => event.preventDefault();
    if (isCommand && key === "z") {
      handled();
      return event.shiftKey ? this.asked.redo() : this.asked.undo();
    }
    if (isCommand && key === "y") return handled(), this.asked.redo();
    if (isCommand && key === "a") {
      handled();
      return this.#choose(this.cells.map((_, at) => at));
    }
    const arrow = ARROWS[event.key];
    if (arrow) return handled(), this.#move(arrow, event);
    if (isCommand && (key === "home" || key === "end")) return handled(), this.#jump(key === "home" ? 0 : this.cells.length - 1);
    if (isCommand) return;
    const { side } = this.puzzle;
    const row = Math.floor((this.chosen.at(-1) ?? 0) / side) * side;
    if (key === "home") return handled(), this.#jump(row);
    if (key === "end") return handled(), this.#jump(row + side - 1);
    if (key === "?") return handled(), this.asked.hint();
    if (this.#line !== null) {
      if (key === " " || key === "enter") return handled(), this.asked.strikeClue(this.#line);
      return;
    }
    if (key === "escape") return this.#choose(this.chosen.slice(-1));
    if (key === "backspace" || key === "delete") return handled(), this.asked.rubOut(this.chosen);
    const digit = digitOf(event, side);
    if (digit) {
      handled();
      return event.shiftKey ? this.asked.strike(this.chosen, digit) : this.asked.press(this.chosen, digit);
    }
    const mark = event.altKey ? -1 : this.puzzle.marks.findIndex((it) => it.key === key);
    if (mark >= 0) return handled(), this.asked.mark(this.chosen, mark + 1);
  }

  /**
   * @param {readonly [number, number]} by Rows and columns.
   * @param {KeyboardEvent} event
   */
  #move([down, right], event) {
    const { side } = this.puzzle;
    if (this.#line !== null) return this.#leaveClue(down, right);
    const at = this.chosen.at(-1) ?? 0;
    const [row, column] = [Math.floor(at / side) + down, (at % side) + right];
    const line = column < 0 ? row : row < 0 ? side + column : null;
    if (line !== null) {
      if (event.shiftKey || !this.clues.has(line)) return;
      this.#line = line;
      this.#showChoice();
      return this.focus();
    }
    if (row >= side || column >= side) return;
    this.#jump(row * side + column, event.shiftKey);
  }

  /**
   * From a clue along the clues, or into the board.
   * @param {number} down
   * @param {number} right
   */
  #leaveClue(down, right) {
    const { side } = this.puzzle;
    const line = this.#line ?? 0;
    const [isRow, number] = [line < side, line % side];
    if (isRow ? right > 0 : down > 0) return this.#jump(isRow ? number * side : number);
    const step = isRow ? down : right;
    for (let to = number + step; step !== 0 && to >= 0 && to < side; to += step) {
      const next = isRow ? to : side + to;
      if (!this.clues.has(next)) continue;
      this.#line = next;
      this.#showChoice();
      return this.focus();
    }
  }

  /**
   * To that cell, or, as a stretch, from where the stretch began to that cell.
   * @param {number} cell
   * @param {boolean} [isStretch]
   */
  #jump(cell, isStretch = false) {
    if (!isStretch) this.#anchor = cell;
    this.#choose(isStretch ? this.#between(this.#anchor, cell) : [cell]);
    this.focus();
  }

  /**
   * The cells of the rectangle between two, the second last.
   * @param {number} a
   * @param {number} b
   */
  #between(a, b) {
    const { side } = this.puzzle;
    const inside = (/** @type {number} */ it, /** @type {(n: number) => number} */ of) =>
      Math.min(of(a), of(b)) <= of(it) && of(it) <= Math.max(of(a), of(b));
    const row = (/** @type {number} */ it) => Math.floor(it / side);
    const column = (/** @type {number} */ it) => it % side;
    const cells = this.cells.map((_, at) => at).filter((it) => it !== b && inside(it, row) && inside(it, column));
    return [...cells, b];
  }

  /** @param {PointerEvent} event */
  #onPointer(event) {
    if (event.button !== 0 || !(event.target instanceof Element)) return;
    const under = /** @type {HTMLElement | null} */ (event.target.closest("[data-cell], [data-line]"));
    if (!under) return;
    event.preventDefault();
    if (under.dataset.line !== undefined) {
      this.#line = Number(under.dataset.line);
      this.#showChoice();
      this.focus();
      return this.asked.strikeClue(this.#line);
    }
    const cell = Number(under.dataset.cell);
    if (event.shiftKey) this.#jump(cell, true);
    else if (event.ctrlKey || event.metaKey) {
      const others = this.chosen.filter((it) => it !== cell);
      const isLeft = this.chosen.includes(cell) && others.length > 0;
      this.#choose(isLeft ? others : [...others, cell]);
      this.focus();
    } else this.#jump(cell);
  }

  /**
   * Cells that a pressed pointer passes are chosen too.
   * @param {PointerEvent} event
   */
  #onDrag(event) {
    if ((event.buttons & 1) === 0 || event.shiftKey) return;
    // A finger stays with the element that it came down on, so it is the place that counts.
    const under = document.elementFromPoint(event.clientX, event.clientY)?.closest("[data-cell]");
    if (!(under instanceof HTMLElement) || !this.grid.contains(under)) return;
    const cell = Number(under.dataset.cell);
    if (cell === this.chosen.at(-1)) return;
    this.#choose([...this.chosen.filter((it) => it !== cell), cell]);
    this.focus();
  }
}

/**
 * What is read out of a cell, in words of its own rather than as the bare figures that are seen.
 * @param {string} text
 */
const said = (text) => element("span", "said", text);

/** @param {number} digit */
function shown(digit) {
  const it = element("span", "", String(digit));
  it.setAttribute("aria-hidden", "true");
  return it;
}

const ARROWS = /** @type {Record<string, readonly [number, number]>} */ ({
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
});

/**
 * The digit that a key means. `code` is asked too, because with Shift the key is another sign. 0 is ten, and Alt adds
 * ten, on boards that have so many.
 * @param {KeyboardEvent} event
 * @param {number} side
 */
function digitOf(event, side) {
  const figure = /^(?:Digit|Numpad)(\d)$/.exec(event.code)?.[1] ?? (/^\d$/.test(event.key) ? event.key : null);
  if (figure === null || (event.altKey && side < 10)) return 0;
  const digit = event.altKey ? 10 + Number(figure) : Number(figure) || 10;
  return digit <= side ? digit : 0;
}

/**
 * @param {string} tag
 * @param {string} className
 * @param {string} [text]
 */
export function element(tag, className, text) {
  const it = document.createElement(tag);
  if (className) it.className = className;
  if (text !== undefined) it.textContent = text;
  return it;
}
