// What the presenter's page says: all its own sentences. Steps and hints come worded.

import { capital } from "../../site/play/words.js";

/** @typedef {import("./plan.js").Plan} Plan */
/** @typedef {import("./take.js").Take} Take */

/**
 * `1:05`.
 * @param {number} seconds
 */
export function time(seconds) {
  const whole = Math.floor(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

/**
 * How the time stands to the plan.
 * @param {number} talked
 * @param {[from: number, to: number]} due
 */
export function against(talked, [from, to]) {
  if (talked > to) return `${time(talked - to)} behind the plan`;
  if (talked < from) return `${time(from - talked)} ahead of the plan`;
  return "on time";
}

/** @param {Plan} plan */
export const length = ({ total, target }) => `${time(total)} as planned${target === null ? "" : `, ${time(target)} wanted`}`;

/**
 * What is going on.
 * @param {Take | undefined} take
 * @param {boolean} isPaused
 */
export function doing(take, isPaused) {
  if (!take) return "Nothing is logged yet: o opens a recording, y a rehearsal.";
  if (take.closed !== null) return `The ${take.kind} is ended: o opens another recording, y a rehearsal.`;
  return isPaused ? `The ${take.kind} stands still: p lets the time run on.` : `A ${take.kind} is being logged.`;
}

/**
 * @param {string} cell
 * @param {number} digit
 * @param {number} within So many steps.
 * @param {number} step In which the plan has it.
 */
export const tooEarly = (cell, digit, within, step) =>
  `${cell} is ${digit} was written before it can be known: no technique leads there within ${within} steps. In the plan it is step ${step}.`;

/**
 * @param {string} cell
 * @param {number} digit
 */
export const wrong = (cell, digit) => `${cell} is not ${digit}.`;

/**
 * @param {string} hint Name of the technique that is open.
 * @param {string} planned Name of the planned one.
 */
export const easier = (hint, planned) => `An easier step is open than the planned one, which is ${planned}: ${hint}.`;

/** @param {string} hint */
export const open = (hint) => `${capital(hint)} is open from here.`;

/** @param {Take} take */
export const takeName = (take) => `${capital(take.kind)} of ${take.started.replace("T", ", ").replace("Z", " UTC")}`;

export const OPENING = "Opening";
export const CLOSE = "Close";
export const NO_MORE = "Nothing more: x ends it.";
export const ASK = "Ask:";
export const STUMBLE = "Look out:";
export const NEW = "new here";
export const NO_NEXT = "That is the last of it.";
export const NO_BEFORE = "There is nothing before this.";
export const IS_OPEN = "One is open already: x ends it first.";
export const NONE_OPEN = "Nothing is open: o opens a recording, y a rehearsal.";
export const NOTHING_TO_UNDO = "Nothing to undo.";
export const NOTHING_TO_REDO = "Nothing to do again.";
export const NOT_CHANGED = "Nothing changes there.";
export const BLOCKED = "The browser did not let the other window open: allow this page to open windows, or open it by hand.";
export const ALONE = "The stage is not open: w opens it.";
export const NOT_KEPT =
  "This browser does not keep the log: its store is full or switched off. Save the log before you close both windows.";
export const ASIDE = "What was kept could not be read. It is put aside in this browser, and you start afresh.";
export const NO_ENGINE = "The engine beside this page could not be loaded, so nothing watches with the plan.";
export const FITS = "Everything that is written fits, and nothing is left to find.";
export const NO_LOGS = "None yet.";
