// The plan watches what is written by hand, with the engine of the playing sheet. It tells the presenter, never the
// stage, when a digit was written before it could be known, and when an easier step is open than the planned one.

import { FITS, NO_ENGINE, easier, open as isOpen, tooEarly, wrong } from "./words.js";
import * as takes from "./take.js";

/** @typedef {import("./engine.js").Engine} Engine */
/** @typedef {import("../../site/play/engine.js").Hint} Hint */
/** @typedef {import("../../site/play/sheet.js").Sheet} Sheet */
/** @typedef {import("./session.js").Session} Session */

/** @typedef {{text: string, more: string[]}} Open */

/**
 * @typedef {object} Asked
 * @property {(told: import("./session.js").Told) => void} tell
 * @property {(open: Open | null) => void} say
 * @property {() => void} failed
 */

/** The board is looked at when nothing has been written for so many milliseconds. */
const SETTLED = 250;

/** A digit that takes more steps than these cannot be known by who watches; no hint is longer either. */
const FEW_STEPS = 5;

/** What is easier by fewer seconds than these is not worth a glance. */
const WORTH_TELLING = 10;

export class Watch {
  /** The board as it was looked at last. @type {Sheet | null} */ #before = null;
  /** The digits that were written by hand then. @type {number[]} */ #byHand = [];
  #step = -1;
  #timer = 0;
  /** Only the answer to the last question is shown. */ #nAsked = 0;

  /**
   * @param {Engine} engine
   * @param {Session} session
   * @param {Asked} asked
   */
  constructor(engine, session, asked) {
    this.engine = engine;
    this.session = session;
    this.asked = asked;
  }

  /** Something may have changed. */
  look() {
    const { hand, state } = this.session;
    const [before, wasByHand, wasStep] = [this.#before, this.#byHand, this.#step];
    const sheet = this.#position();
    this.#before = sheet;
    this.#byHand = [...hand.written.ink];
    this.#step = state.step;
    if (before) {
      this.#byHand.forEach((digit, cell) => {
        const isNew = digit !== 0 && digit !== wasByHand[cell] && before.written.ink[cell] !== digit;
        if (isNew) this.#weigh(before, wasStep, cell, digit, Date.now());
      });
    }
    const isOther = !before || String(before.written.ink) !== String(sheet.written.ink) || wasStep !== state.step;
    if (!isOther) return;
    clearTimeout(this.#timer);
    const nAsked = ++this.#nAsked;
    this.#timer = setTimeout(() => {
      this.#try(async () => {
        const open = await this.easier();
        if (nAsked === this.#nAsked) this.asked.say(open);
      });
    }, SETTLED);
  }

  /** What is open from here, easier or not. */
  ask() {
    // What is asked for stays until the board changes.
    clearTimeout(this.#timer);
    this.#nAsked += 1;
    this.#try(async () => {
      const answer = await this.engine.hint(this.#position());
      if (answer.kind === "hint") return this.asked.say({ text: isOpen(answer.name), more: said(answer) });
      const text = answer.kind === "mistake" ? answer.near.text : answer.kind === "none" ? answer.text : FITS;
      this.asked.say({ text, more: answer.kind === "mistake" ? [answer.which.text] : [] });
    });
  }

  /**
   * Whether a digit could be known from the board before it.
   * @param {Sheet} before
   * @param {number} step The step that the plan was at then.
   * @param {number} cell
   * @param {number} digit
   * @param {number} now
   */
  #weigh(before, step, cell, digit, now) {
    const { open, plan, puzzle } = this.session;
    const planned = plan.steps.findIndex((it) => it.ink.some(([one, other]) => one === cell && other === digit));
    const at = open ? takes.at(open, now) : 0;
    const name = `r${Math.floor(cell / puzzle.side) + 1}c${(cell % puzzle.side) + 1}`;
    // The plan writes the whole solution.
    if (planned < 0) return this.asked.tell({ at, text: wrong(name, digit) });
    // Its own next step has its reasons.
    if (planned <= step) return;
    this.#try(async () => {
      if (await this.isKnown(before, cell, digit)) return;
      this.asked.tell({ at, text: tooEarly(name, digit, FEW_STEPS, planned + 1) });
    });
  }

  /**
   * Whether a digit that is right can be known from a board. Where something else is wrong, nothing can be said of it.
   * @param {Sheet} before
   * @param {number} cell
   * @param {number} digit
   */
  async isKnown(before, cell, digit) {
    const answer = await this.engine.follows(before, cell, digit, FEW_STEPS);
    return answer.kind !== "not-yet";
  }

  /**
   * What is easier than the planned step, if anything is.
   * @returns {Promise<Open | null>}
   */
  async easier() {
    const { plan, state } = this.session;
    const planned = plan.steps[state.step];
    if (!planned) return null;
    const answer = await this.engine.hint(this.#position());
    if (answer.kind !== "hint") return null;
    // Marks that are easily found are open all along, and a plan leaves out those that lead nowhere.
    if (answer.settles.ink.length === 0) return null;
    // A small argument is no technique, and harder than any.
    const weight = (/** @type {string} */ it) => plan.weights[it] ?? Infinity;
    if (!(weight(answer.hardest) + WORTH_TELLING <= weight(planned.technique))) return null;
    return { text: easier(answer.name, planned.name), more: said(answer) };
  }

  /** The board with what the plan has removed by now, as pencil marks: the engine knows it too then. */
  #position() {
    const { plan, puzzle, state, sheet } = this.session;
    const { ink, pencil } = sheet.written;
    const without = new Map();
    for (const step of plan.steps.slice(0, state.step)) {
      for (const [cell, digit] of step.without) without.set(cell, [...(without.get(cell) ?? []), digit]);
    }
    for (const [cell, digits] of without) {
      if (ink[cell] !== 0) continue;
      const seen = new Set(peers(puzzle, cell).map((it) => ink[it]));
      const left = Array.from({ length: puzzle.side }, (_, at) => at + 1).filter((it) => !seen.has(it) && !digits.includes(it));
      // What is pencilled by hand may be a remark about a place, and is no list of what is left.
      pencil[cell] = left.reduce((all, it) => all | (1 << it), 0);
    }
    return sheet;
  }

  /** @param {() => Promise<void>} work */
  async #try(work) {
    try {
      await work();
    } catch (fault) {
      console.warn(NO_ENGINE, fault);
      this.asked.failed();
    }
  }
}

/**
 * A hint as lines.
 * @param {Hint} hint
 */
const said = (hint) => [hint.where.text, ...hint.why.text.split("\n").map((it) => it.trim())];

/**
 * The cells that a cell sees.
 * @param {import("../../site/play/puzzle.js").Puzzle} puzzle
 * @param {number} cell
 */
function peers({ side, box: [width, height], givens }, cell) {
  const of = (/** @type {number} */ it) => [Math.floor(it / side), it % side];
  const boxOf = (/** @type {number[]} */ [row, column]) => `${Math.floor(row / height)} ${Math.floor(column / width)}`;
  const here = of(cell);
  return givens.map((_, it) => it).filter((it) => {
    const there = of(it);
    return it !== cell && (there[0] === here[0] || there[1] === here[1] || boxOf(there) === boxOf(here));
  });
}
