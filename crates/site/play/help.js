// The margin that answers three questions in turn, from where the solver is: where? what? why?

import { element } from "./board.js";
import { button } from "./footline.js";
import * as words from "./words.js";

/** Whoever answers. @typedef {Pick<import("./engine.js").Engine, "hint" | "check" | "why" | "pencil">} Engine */
/** @typedef {import("./engine.js").Hint} Hint */
/** @typedef {import("./engine.js").Mistake} Mistake */
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

/** @typedef {{question: string, answer: () => (string | Node)[], said: Said}} Question */

export class Help {
  /** Questions that have not been asked yet. @type {Question[]} */ #ahead = [];
  /** Whether the sheet has changed since the first question was asked. */ #isStale = true;

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
      else this.#answer();
    });
  }

  /** The sheet has changed: what was said stays, and the next question is the first again. */
  changed() {
    this.#isStale = true;
    this.#ahead = [];
    this.next.textContent = "Where?";
    this.next.hidden = false;
    this.asked.pointAt([], "looked-at");
  }

  /** Finds something to say, and says its first part. */
  async #begin() {
    const answer = await this.engine.hint(this.asked.sheet());
    this.#isStale = false;
    if (answer.kind === "hint") {
      this.asked.noteHint();
      this.#show(answer);
    } else if (answer.kind === "mistake") {
      this.asked.noteHint();
      this.#showMistake(answer);
    } else {
      this.#say(answer.kind === "none" ? answer.text : words.FITS);
    }
  }

  /** @param {Hint} hint */
  #show(hint) {
    const { settles } = hint;
    const isWritable = settles.ink.length + settles.pencil.length + settles.marks.length > 0;
    const why = () => {
      const picture = element("figure", "");
      // The engine's own drawing, in which every text is escaped.
      picture.innerHTML = hint.why.picture;
      const write = button("Write it on my sheet", "", () => this.asked.write(settles));
      return [...paragraphs(hint.why.text), picture, ...(isWritable ? [write] : [])];
    };
    const untaught = hint.taught ? [] : [element("p", "note", "This technique is not one the pack has taught by now.")];
    this.#open([
      { question: "Where?", answer: () => paragraphs(hint.where.text), said: hint.where },
      { question: "What?", answer: () => [...paragraphs(hint.what.text), ...untaught], said: { text: "", cells: hint.where.cells } },
      { question: "Why?", answer: why, said: { text: "", cells: hint.where.cells } },
    ]);
  }

  /** @param {Mistake} mistake */
  #showMistake(mistake) {
    this.#open([
      { question: "Where?", answer: () => paragraphs(mistake.near.text), said: mistake.near },
      { question: "Which?", answer: () => paragraphs(mistake.which.text), said: mistake.which },
    ], "wrong");
  }

  /**
   * Puts questions in the place of those that were there, and answers the first.
   * @param {Question[]} questions
   * @param {"looked-at" | "wrong"} [how]
   */
  #open(questions, how = "looked-at") {
    this.answers.replaceChildren();
    this.#ahead = questions;
    this.#how = how;
    this.#answer();
  }

  /** @type {"looked-at" | "wrong"} */ #how = "looked-at";

  #answer() {
    const now = this.#ahead.shift();
    if (!now) return;
    this.answers.append(element("h3", "", now.question), ...now.answer());
    if (now.said.cells) this.asked.pointAt(now.said.cells, this.#how);
    const next = this.#ahead[0];
    this.next.hidden = !next;
    this.next.textContent = next ? next.question : "Where?";
  }

  async #check() {
    const answer = await this.engine.check(this.asked.sheet());
    if (answer.kind === "mistake") {
      this.#isStale = false;
      this.asked.noteHint();
      this.#showMistake(answer);
    } else {
      this.#say(words.FITS);
    }
  }

  async #why() {
    const cell = this.asked.cell();
    if (cell === null) return this.#say(words.CHOOSE_A_DIGIT);
    const answer = await this.engine.why(this.asked.sheet(), cell);
    this.asked.noteHint();
    if (answer.kind === "mistake") return this.#showMistake(answer);
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
    if (answer.steps.length > 0) this.answers.append(steps);
  }

  async #pencilIn() {
    this.asked.pencilIn(await this.engine.pencil(this.asked.sheet()));
  }

  /** @param {string} text */
  #say(text) {
    this.answers.replaceChildren(...paragraphs(text));
  }

  /**
   * Runs it, with the section marked busy; an engine that cannot be had is said.
   * @param {() => Promise<unknown>} work
   */
  async #busy(work) {
    this.section.setAttribute("aria-busy", "true");
    try {
      await work();
    } catch (fault) {
      console.warn(fault);
      this.#say(this.asked.failed(fault));
    } finally {
      this.section.removeAttribute("aria-busy");
    }
  }
}

/** @param {string} text Lines. */
const paragraphs = (text) => text.split("\n").map((it) => element("p", it.startsWith(" ") ? "case" : "", it.trim()));
