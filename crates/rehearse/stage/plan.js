// The walkthrough of the page, as the page embeds it. All times are seconds.

/**
 * @typedef {object} Step What is said at once, and what it puts on the board.
 * @property {string} key The name by which it is known again in another walkthrough.
 * @property {string} technique
 * @property {string} name Of the technique, in words.
 * @property {string} says What is said; a line a part.
 * @property {string | null} note The editor's own.
 * @property {string[]} introduces What its technique is, line by line, where it is new.
 * @property {string[]} stumbles Why viewers may stumble here.
 * @property {string[]} asks What to ask them first.
 * @property {number} starts
 * @property {number} takes
 * @property {[cell: number, digit: number][]} ink
 * @property {[cell: number, mark: string][]} marks
 * @property {[cell: number, digit: number][]} without Candidates that it removes.
 * @property {number[]} spent Rows, then columns, whose clues have no more to say.
 * @property {number[]} small Cells in which its picture has small digits.
 * @property {string} below What its picture has more right on the paper.
 * @property {string} above What its picture has more over everything.
 */

/** @typedef {{title: string, first: number, starts: number, takes: number}} Passage `first` is the number of a step. */

/**
 * @typedef {object} Plan
 * @property {1} format
 * @property {{lines: string[], takes: number}} opening
 * @property {{lines: string[], takes: number}} close
 * @property {number} total
 * @property {number | null} target How long the editor wants it to be.
 * @property {Record<string, number>} weights How hard techniques are to see, in about the seconds that it takes.
 * @property {Passage[]} passages
 * @property {Step[]} steps Numbered from 1. The number before the first is the opening, with the board as it is printed; the
 *   number after the last is the close, with the board full.
 */

/** @returns {Plan | null} Null on a page without one. */
export function embeddedPlan() {
  const text = document.getElementById("plan-data")?.textContent;
  return text ? JSON.parse(text) : null;
}

/**
 * The place of the passage that a step is in; the first for the opening, the last for the close.
 * @param {Plan} plan
 * @param {number} step
 */
export function passageOf(plan, step) {
  return Math.max(0, plan.passages.findLastIndex((it) => it.first <= step));
}

/**
 * When the step should be said: its first and last second.
 * @param {Plan} plan
 * @param {number} step
 * @returns {[from: number, to: number]}
 */
export function due(plan, step) {
  if (step === 0) return [0, plan.opening.takes];
  const it = plan.steps[step - 1];
  return it ? [it.starts, it.starts + it.takes] : [plan.total - plan.close.takes, plan.total];
}

/**
 * The number of the close.
 * @param {Plan} plan
 */
export const closeOf = (plan) => plan.steps.length + 1;
