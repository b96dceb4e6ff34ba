// What both windows show, and how it changes: the place in the plan, what is written by hand over it, and the takes.
//
// All of it is one text, so that the windows can hand it to each other and the browser can keep it. Nothing here knows
// a page, a clock or a store.

import { Sheet, digitsOf } from "../../site/play/sheet.js";
import { asText, fresh, parsed } from "../../site/play/store.js";
import { closeOf, passageOf } from "./plan.js";
import * as takes from "./take.js";

/** @typedef {import("../../site/play/puzzle.js").Puzzle} Puzzle */
/** @typedef {import("../../site/play/sheet.js").Change} Change */
/** @typedef {import("./plan.js").Plan} Plan */
/** @typedef {import("./take.js").Take} Take */

/** @typedef {"title" | "board" | "rules"} Section */
/** @typedef {{at: number, text: string}} Told What the presenter was told of an entry, and when. */

/**
 * @typedef {object} State
 * @property {1} format
 * @property {string} fingerprint Of the puzzle.
 * @property {[number: number, by: string]} stamp How many changes there were, and whose the last was.
 * @property {Section} shown
 * @property {"light" | "dark"} ground
 * @property {number} step The number of the step that is being said; see `plan.js` for what comes before and after.
 * @property {boolean} isPlanned Whether the step was gone to, and not reached by what was written by hand.
 * @property {number[]} chosen Cells; the last is where the keyboard is.
 * @property {boolean} isPointing Whether the stage shows which they are.
 * @property {string} hand What is written by hand, as the playing sheet keeps it.
 * @property {number[]} since When each change by hand was made that can be undone.
 * @property {Take[]} takes The last may be open.
 * @property {Told[]} told
 */

export class Session {
  /** @type {Sheet} What is written by hand. */ hand;

  /**
   * @param {Puzzle} puzzle
   * @param {Plan} plan
   * @param {string} by A name of this window, unlike any other's.
   */
  constructor(puzzle, plan, by) {
    this.puzzle = puzzle;
    this.plan = plan;
    this.by = by;
    this.hand = new Sheet(puzzle.side, puzzle.givens);
    /** @type {Omit<State, "hand">} */
    this.state = {
      format: 1,
      fingerprint: puzzle.fingerprint,
      stamp: [0, ""],
      shown: "title",
      ground: "light",
      step: 0,
      isPlanned: true,
      chosen: [Math.max(0, puzzle.givens.indexOf(0))],
      isPointing: false,
      since: [],
      takes: [],
      told: [],
    };
  }

  /** All of it as a text. */
  get text() {
    const hand = asText(this.puzzle, { ...fresh(this.puzzle), sheet: this.hand });
    return JSON.stringify({ ...this.state, hand });
  }

  /**
   * Takes the place of what is here, if it is sound and newer.
   * @param {string} text
   * @returns {"taken" | "older" | "unreadable"}
   */
  take(text) {
    const found = this.#parsed(text);
    if (!found) return "unreadable";
    if (!isNewer(found.state.stamp, this.state.stamp)) return "older";
    this.state = found.state;
    this.hand = found.hand;
    return "taken";
  }

  /** The take that is open. */
  get open() {
    const last = this.state.takes.at(-1);
    return last?.closed === null ? last : null;
  }

  /**
   * Begins a take, with the board as it is printed.
   * @param {Take["kind"]} kind
   * @param {number} now
   */
  begin(kind, now) {
    if (this.open) return false;
    this.hand = new Sheet(this.puzzle.side, this.puzzle.givens);
    this.#changed({ step: 0, isPlanned: true, shown: "title", isPointing: false, since: [], told: [] });
    this.state.takes.push(takes.begun(kind, now));
    return true;
  }

  /**
   * Ends the take that is open.
   * @param {number} now
   */
  end(now) {
    const { open } = this;
    if (!open) return false;
    open.closed = now;
    this.#changed({});
    return true;
  }

  /**
   * Stops the time, or lets it run on.
   * @param {number} now
   */
  pause(now) {
    const { open } = this;
    if (!open) return false;
    this.#log(now, { is: takes.isPaused(open) ? "resume" : "pause" });
    this.#changed({});
    return true;
  }

  /**
   * Throws a closed take away.
   * @param {Take} take
   */
  forget(take) {
    this.#changed({ takes: this.state.takes.filter((it) => it !== take || it.closed === null) });
  }

  /**
   * Goes to a step, the opening or the close.
   * @param {number} step
   * @param {number} now
   */
  go(step, now) {
    if (step < 0 || step > closeOf(this.plan)) return false;
    this.#reach(step, now, true);
    this.#changed({ shown: "board", isPointing: false });
    return true;
  }

  /**
   * Goes to the first step of the passage before or after; before the first is the opening, after the last the close. Back
   * is first to the beginning of the passage that is on.
   * @param {1 | -1} by
   * @param {number} now
   */
  goPassage(by, now) {
    const { step } = this.state;
    if ((by > 0 && step === closeOf(this.plan)) || (by < 0 && step === 0)) return false;
    const here = passageOf(this.plan, step);
    const first = this.plan.passages[here]?.first ?? 0;
    if (by < 0 && step > first) return this.go(first, now);
    const to = this.plan.passages[by > 0 && step < first ? here : here + by];
    return this.go(to ? to.first : by > 0 ? closeOf(this.plan) : 0, now);
  }

  /** @param {Section} shown */
  show(shown) {
    this.#changed({ shown });
    return true;
  }

  turnGround() {
    this.#changed({ ground: this.state.ground === "light" ? "dark" : "light" });
    return true;
  }

  /**
   * Chooses cells. The last of them is where the keyboard is.
   * @param {number[]} chosen
   */
  choose(chosen) {
    if (String(chosen) === String(this.state.chosen) && this.state.isPointing) return false;
    this.#changed({ chosen, isPointing: true });
    return true;
  }

  /** The presenter is told something. @param {Told} told */
  tell(told) {
    this.#changed({ told: [...this.state.told, told].slice(-MOST_TOLD) });
  }

  /**
   * The digit is written where the keyboard is; the same again is taken away.
   * @param {number[]} cells
   * @param {number} digit
   * @param {number} now
   */
  write(cells, digit, now) {
    const cell = cells.at(-1) ?? 0;
    if (this.hand.isGiven(cell)) return false;
    const isThere = this.hand.written.ink[cell] === digit;
    return this.#byHand(now, (it) => it.write({ ink: [[cell, isThere ? 0 : digit]], pencil: [], marks: [] }));
  }

  /**
   * A small digit is written in the cells, or taken away where it is in all of them.
   * @param {number[]} cells
   * @param {number} digit
   * @param {number} now
   */
  pencil(cells, digit, now) {
    return this.#byHand(now, (it) => {
      const open = cells.filter((cell) => it.written.ink[cell] === 0);
      const isEverywhere = open.every((cell) => it.pencilled(cell).includes(digit));
      const others = (/** @type {number} */ cell) => it.pencilled(cell).filter((one) => one !== digit);
      /** @type {[number, number[]][]} */
      const pencil = open.map((cell) => [cell, isEverywhere ? others(cell) : [...others(cell), digit]]);
      return it.write({ ink: [], pencil, marks: [] });
    });
  }

  /**
   * @param {number} now
   * @param {(sheet: Sheet) => Change[]} how
   */
  change(now, how) {
    return this.#byHand(now, how);
  }

  /** @param {number} now */
  undo(now) {
    const changes = this.hand.undo();
    if (changes.length === 0) return false;
    const since = this.state.since.at(-1) ?? 0;
    this.#changed({ since: this.state.since.slice(0, -1), shown: "board" });
    for (const [layer, at, from, to] of changes) {
      if (layer === "struck") continue;
      if (to !== 0 || layer === "pencil") this.#log(now, { is: "undone", since, cell: this.#name(at) });
      if (from !== 0 && layer !== "pencil") this.#logEntry(now, layer, at, from);
    }
    return true;
  }

  /** @param {number} now */
  redo(now) {
    const changes = this.hand.redo();
    if (changes.length === 0) return false;
    this.#written(now, changes);
    return true;
  }

  /** What the board shows: the plan up to its step, and over it what is written by hand. */
  get sheet() {
    const sheet = new Sheet(this.puzzle.side, this.puzzle.givens);
    const { ink, pencil, marks, struck } = sheet.written;
    for (const step of this.plan.steps.slice(0, this.state.step)) {
      for (const [cell, digit] of step.ink) ink[cell] = digit;
      for (const [cell, id] of step.marks) marks[cell] = this.#mark(id);
      for (const line of step.spent) struck[line] = 1;
    }
    const { written } = this.hand;
    ink.forEach((_, cell) => {
      ink[cell] = written.ink[cell] || ink[cell];
      marks[cell] = ink[cell] ? 0 : written.marks[cell] || marks[cell];
      pencil[cell] = ink[cell] ? 0 : written.pencil[cell];
    });
    struck.forEach((_, line) => (struck[line] ||= written.struck[line]));
    return sheet;
  }

  /** @param {string} id */
  #mark(id) {
    return 1 + this.puzzle.marks.findIndex((it) => it.id === id);
  }

  /**
   * @param {number} now
   * @param {(sheet: Sheet) => Change[]} how
   */
  #byHand(now, how) {
    const changes = how(this.hand);
    if (changes.length === 0) return false;
    this.#written(now, changes);
    return true;
  }

  /**
   * Something was written by hand: it is logged, and the plan catches up.
   * @param {number} now
   * @param {Change[]} changes
   */
  #written(now, changes) {
    const at = this.open ? takes.at(this.open, now) : 0;
    this.#changed({ since: [...this.state.since, at], shown: "board", isPointing: true });
    for (const [layer, cell, from, to] of changes) {
      if (layer === "struck") continue;
      if (layer === "pencil") {
        // A digit in ink or a mark says what was meant.
        if (changes.every((it) => it[0] === "pencil")) this.#logMark(now, cell, from ^ to);
        continue;
      }
      if (from !== 0) this.#logUndone(now, layer, cell, from);
      if (to !== 0) this.#logEntry(now, layer, cell, to);
    }
    if (changes.some((it) => (it[0] === "ink" || it[0] === "marks") && it[3] !== 0)) this.#catchUp(now);
  }

  /**
   * The plan goes on to the last step up to which everything that it would write is written already. That is said of
   * the place alone: what such a step points at is not shown, because nobody has said its words.
   * @param {number} now
   */
  #catchUp(now) {
    const { ink, marks } = this.sheet.written;
    const { steps } = this.plan;
    let reached = this.state.step;
    for (let at = reached; at < steps.length; at++) {
      const it = steps[at];
      const isWritten =
        it.ink.every(([cell, digit]) => ink[cell] === digit) &&
        it.marks.every(([cell, id]) => ink[cell] !== 0 || marks[cell] === this.#mark(id));
      if (!isWritten) break;
      if (it.ink.length + it.marks.length > 0) reached = at + 1;
    }
    if (reached > this.state.step) this.#reach(reached, now, false);
  }

  /**
   * @param {number} step
   * @param {number} now
   * @param {boolean} isPlanned
   */
  #reach(step, now, isPlanned) {
    this.#changed({ step, isPlanned });
    const it = this.plan.steps[step - 1];
    if (it) this.#log(now, { is: "step", step, key: it.key });
    else this.#log(now, { is: step === 0 ? "opening" : "close" });
  }

  /**
   * @param {number} now
   * @param {string} layer
   * @param {number} cell
   * @param {number} value
   */
  #logEntry(now, layer, cell, value) {
    const name = this.#name(cell);
    const entry = layer === "ink" ? { is: "digit", cell: name, digit: value } : { is: this.puzzle.marks[value - 1].id, cell: name };
    this.#log(now, entry);
  }

  /**
   * @param {number} now
   * @param {number} cell
   * @param {number} bits Of the small digits that are other ones than before.
   */
  #logMark(now, cell, bits) {
    const [digit, ...others] = digitsOf(bits);
    this.#log(now, { is: "mark", cell: this.#name(cell), ...(digit && others.length === 0 ? { digit } : {}) });
  }

  /**
   * What stood in the cell is taken back, or gives way.
   * @param {number} now
   * @param {string} layer
   * @param {number} cell
   * @param {number} value
   */
  #logUndone(now, layer, cell, value) {
    const name = this.#name(cell);
    const is = layer === "ink" ? "digit" : this.puzzle.marks[value - 1].id;
    const entry = this.open?.events.findLast((it) => it.is === is && it.cell === name);
    if (entry) this.#log(now, { is: "undone", since: entry.at, cell: name });
  }

  /**
   * @param {number} now
   * @param {Omit<takes.Event, "at">} what
   */
  #log(now, what) {
    this.open?.events.push({ at: takes.at(this.open, now), ...what });
  }

  /** @param {number} cell */
  #name(cell) {
    const { side } = this.puzzle;
    return `r${Math.floor(cell / side) + 1}c${(cell % side) + 1}`;
  }

  /** @param {Partial<State>} what */
  #changed(what) {
    Object.assign(this.state, what);
    this.state.stamp = [this.state.stamp[0] + 1, this.by];
  }

  /** @param {string} text */
  #parsed(text) {
    let it;
    try {
      it = JSON.parse(text);
    } catch {
      return null;
    }
    const { puzzle, plan } = this;
    if (it?.format !== 1 || it.fingerprint !== puzzle.fingerprint || typeof it.hand !== "string") return null;
    const hand = parsed(puzzle, it.hand);
    const isCell = (/** @type {unknown} */ one) => Number.isInteger(one) && Number(one) >= 0 && Number(one) < puzzle.givens.length;
    const isSound =
      typeof hand !== "string" &&
      isStamp(it.stamp) &&
      ["title", "board", "rules"].includes(it.shown) &&
      ["light", "dark"].includes(it.ground) &&
      Number.isInteger(it.step) &&
      it.step >= 0 &&
      typeof it.isPlanned === "boolean" &&
      typeof it.isPointing === "boolean" &&
      isListOf(it.chosen, isCell) &&
      isListOf(it.since, (one) => typeof one === "number") &&
      isListOf(it.takes, takes.isTake) &&
      isListOf(it.told, (one) => typeof one?.at === "number" && typeof one.text === "string");
    if (!isSound) return null;
    const { hand: _, ...state } = it;
    // The walkthrough may be another one since.
    state.step = Math.min(state.step, closeOf(plan));
    return { state, hand: hand.sheet };
  }
}

/** Older than so many are dropped. */
const MOST_TOLD = 50;

/**
 * Whether one stamp is later than another. Of two that come to the same number, the same one counts in every window.
 * @param {State["stamp"]} a
 * @param {State["stamp"]} b
 */
export const isNewer = (a, b) => a[0] > b[0] || (a[0] === b[0] && a[1] > b[1]);

/** @param {any} it */
export const isStamp = (it) => Array.isArray(it) && Number.isInteger(it[0]) && it[0] >= 0 && typeof it[1] === "string";

/**
 * @param {unknown} list
 * @param {(it: any) => boolean} isOne
 */
const isListOf = (list, isOne) => Array.isArray(list) && list.every(isOne);
