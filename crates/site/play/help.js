// The margin that answers three questions in turn, from where the solver is: where? what? why?

import { element } from "./board.js";
import { button } from "./footline.js";
import * as words from "./words.js";

/**
 * Whoever answers: all at once, as the engine in the page, or one part at a time, as the desk, which notes what it told.
 * @typedef {"where" | "what" | "why"} Part
 * @typedef {object} Engine
 * @property {(sheet: Sheet, part: Part) => Promise<Hint | Mistake | Other>} hint
 * @property {(sheet: Sheet, part: Part) => Promise<Mistake | Other>} check
 * @property {(sheet: Sheet, cell: number, part: Part) => Promise<Why | Mistake | Other>} why
 * @property {(sheet: Sheet) => Promise<number[][]>} pencil
 */
/** @typedef {import("./engine.js").Hint} Hint */
/** @typedef {import("./engine.js").Mistake} Mistake */
/** @typedef {import("./engine.js").Why} Why */
/** @typedef {import("./engine.js").Other} Other */
/** @typedef {import("./engine.js").Said} Said */
/** @typedef {import("./sheet.js").Sheet} Sheet */

/**
 * @typedef {object} Asked
 * @property {() => Sheet} sheet
 * @property {() => number | null} cell The only chosen cell, if it holds a digit.
 * @property {(cells: number[], how: "looked-at" | "wrong") => void} pointAt
 * @property {() => void} noteHint
 * @property {(settles: Hint["settles"]) => void} write
 * @property {(allowed: number[][]) => void} pencilIn
 * @property {(text: string) => void} say
 * @property {(fault: unknown) => string} failed Nobody answers: what is said then.
 */

/** What is said, and the cells that it is about, if it is about others than before. @typedef {{said: (string | Node)[], cells?: number[]}} Answer */
/** @typedef {{question: string, answer: () => Promise<Answer>}} Question */

export class Help {
  /** Questions that have not been asked yet. @type {Question[]} */ #ahead = [];
  /** Whether the sheet has changed since the first question was asked. */ #isStale = true;
  /** Whether an answer is on its way. */ #isBusy = false;
  /** Whether what was said is about the sheet as it was, and not about the puzzle. */ #isOfSheet = false;

  /**
   * @param {Engine} engine
   * @param {Asked} asked
   */
  constructor(engine, asked) {
    this.engine = engine;
    this.asked = asked;
    this.section = element("section", "help");
    this.section.setAttribute("aria-label", "Help from where you are");
    this.answers = element("div", "answers");
    this.answers.setAttribute("aria-live", "polite");
    this.next = button("Where?", "question", () => this.ask());
    const others = element("div", "others");
    others.append(
      button("Is everything right so far?", "", () => this.#busy(() => this.#check())),
      button("Why is this digit so?", "", () => this.#busy(() => this.#why())),
      button("Pencil in what rows, columns and boxes allow", "", () => this.#busy(() => this.#pencilIn())),
    );
    this.section.append(element("h2", "", "Help from where you are"), this.answers, this.next, others);
  }

  /** The next of the three questions. */
  ask() {
    this.#busy(async () => {
      if (this.#isStale || this.#ahead.length === 0) await this.#begin();
      else await this.#answer();
    });
  }

  /**
   * The sheet has changed: what was said of the puzzle stays, what was said of the sheet goes, and the next question is
   * the first again.
   */
  changed() {
    if (this.#isOfSheet) this.answers.replaceChildren();
    this.#isOfSheet = false;
    this.#isStale = true;
    this.#ahead = [];
    this.next.textContent = "Where?";
    this.next.hidden = false;
    this.asked.pointAt([], "looked-at");
  }

  /** The puzzle is solved: there is nothing to ask for any more, until the sheet changes. */
  finished() {
    this.next.hidden = true;
  }

  /** Finds something to say, and says its first part. */
  async #begin() {
    const sheet = this.asked.sheet();
    const ask = (/** @type {Part} */ part) => this.engine.hint(sheet, part);
    const answer = await ask("where");
    this.#isStale = false;
    if (answer.kind === "hint") {
      this.asked.noteHint();
      await this.#show(answer, ask);
    } else if (answer.kind === "mistake") {
      this.asked.noteHint();
      await this.#showMistake(answer, ask);
    } else {
      this.#say(answer.kind === "none" ? answer.text : words.FITS);
    }
  }

  /**
   * @param {Hint} hint
   * @param {(part: Part) => Promise<Hint | Mistake | Other>} ask
   */
  async #show(hint, ask) {
    const { cells } = hint.where;
    /** @param {"what" | "why"} part */
    const further = async (part) => {
      const more = part in hint ? hint : await ask(part);
      if (more.kind !== "hint") throw new Error("the sheet is no longer as it was");
      return more;
    };
    const what = async () => {
      const { what, taught } = await further("what");
      const untaught = taught ? [] : [element("p", "note", "This technique is not one the pack has taught by now.")];
      return { said: [...paragraphs(what.text), ...untaught], cells };
    };
    const why = async () => {
      const { why, settles } = await further("why");
      const isWritable = settles.ink.length + settles.pencil.length + settles.marks.length > 0;
      const picture = element("figure", "");
      // The engine's own drawing, in which every text is escaped.
      picture.innerHTML = why.picture;
      const write = button("Write it on my sheet", "", () => this.asked.write(settles));
      return { said: [...paragraphs(why.text), picture, ...(isWritable ? [write] : [])], cells };
    };
    await this.#open([
      { question: "Where?", answer: async () => ({ said: paragraphs(hint.where.text), cells }) },
      { question: "What?", answer: what },
      { question: "Why?", answer: why },
    ]);
  }

  /**
   * @param {Mistake} mistake
   * @param {(part: Part) => Promise<Hint | Why | Mistake | Other>} ask
   */
  async #showMistake(mistake, ask) {
    const which = async () => {
      const more = "which" in mistake ? mistake : await ask("what");
      if (more.kind !== "mistake") throw new Error("the sheet is no longer as it was");
      return { said: paragraphs(more.which.text), cells: more.which.cells };
    };
    await this.#open([
      { question: "Where?", answer: async () => ({ said: paragraphs(mistake.near.text), cells: mistake.near.cells }) },
      { question: "Which?", answer: which },
    ], "wrong");
  }

  /**
   * Puts questions in the place of those that were there, and answers the first.
   * @param {Question[]} questions
   * @param {"looked-at" | "wrong"} [how]
   */
  async #open(questions, how = "looked-at") {
    this.answers.replaceChildren();
    this.#ahead = questions;
    this.#how = how;
    this.#isOfSheet = how === "wrong";
    await this.#answer();
  }

  /** @type {"looked-at" | "wrong"} */ #how = "looked-at";

  async #answer() {
    const [now] = this.#ahead;
    if (!now) return;
    const { said, cells } = await now.answer();
    // Something was written meanwhile: this is about a sheet that is no more.
    if (this.#ahead[0] !== now) return;
    this.#ahead.shift();
    this.answers.append(element("h3", "", now.question), ...said);
    if (cells) this.asked.pointAt(cells, this.#how);
    const next = this.#ahead[0];
    const isFocused = document.activeElement === this.next;
    this.next.hidden = !next;
    this.next.textContent = next ? next.question : "Where?";
    // The button that was pressed is gone: whoever goes on by keyboard does so from the answer.
    if (isFocused && !next) this.#focusAnswer();
  }

  #focusAnswer() {
    const button = this.answers.querySelector("button");
    if (button) return button.focus();
    const heading = this.answers.querySelector("h3:last-of-type");
    if (!(heading instanceof HTMLElement)) return;
    heading.tabIndex = -1;
    heading.focus();
  }

  async #check() {
    const sheet = this.asked.sheet();
    const ask = (/** @type {Part} */ part) => this.engine.check(sheet, part);
    const answer = await ask("where");
    if (answer.kind === "mistake") {
      this.#isStale = false;
      this.asked.noteHint();
      await this.#showMistake(answer, ask);
    } else {
      this.#say(words.FITS);
    }
  }

  async #why() {
    const cell = this.asked.cell();
    if (cell === null) return this.#say(words.CHOOSE_A_DIGIT);
    const sheet = this.asked.sheet();
    const ask = (/** @type {Part} */ part) => this.engine.why(sheet, cell, part);
    const answer = await ask("where");
    this.asked.noteHint();
    if (answer.kind === "mistake") return this.#showMistake(answer, ask);
    if (answer.kind !== "why") return this.#say("text" in answer ? answer.text : words.FITS);
    const steps = element("ol", "steps");
    for (const it of answer.steps) {
      const step = element("li", "");
      const figure = element("figure", "");
      figure.innerHTML = it.picture;
      step.append(element("p", "technique", it.name), ...paragraphs(it.text), figure);
      steps.append(step);
    }
    this.answers.replaceChildren(element("h3", "", "Why is this so?"), ...paragraphs(answer.text));
    this.#isOfSheet = false;
    if (answer.steps.length > 0) this.answers.append(steps);
  }

  async #pencilIn() {
    this.asked.pencilIn(await this.engine.pencil(this.asked.sheet()));
  }

  /** @param {string} text */
  #say(text) {
    this.answers.replaceChildren(...paragraphs(text));
    this.#isOfSheet = true;
  }

  /**
   * Runs it, with the section marked busy; an engine that cannot be had is said.
   * @param {() => Promise<unknown>} work
   */
  async #busy(work) {
    if (this.#isBusy) return;
    this.#isBusy = true;
    this.section.setAttribute("aria-busy", "true");
    try {
      await work();
    } catch (fault) {
      console.warn(fault);
      this.#say(this.asked.failed(fault));
    } finally {
      this.#isBusy = false;
      this.section.removeAttribute("aria-busy");
    }
  }
}

/** @param {string} text Lines. */
const paragraphs = (text) => text.split("\n").map((it) => element("p", it.startsWith(" ") ? "case" : "", it.trim()));
