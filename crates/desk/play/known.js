// A test solve as far as the desk was told: the sheet that its log adds up to. What a seal keeps back adds up to none.

import { ask } from "./api.js";
import * as store from "/play/sheet/store.js";

/** @typedef {import("/play/sheet/puzzle.js").Puzzle} Puzzle */
/** @typedef {import("/play/sheet/sheet.js").Layer} Layer */
/** @typedef {import("/play/sheet/store.js").Progress} Progress */
/** @typedef {import("./log.js").Happened} Happened */

/** What each layer of a sheet is called in the log. @type {Record<Layer, string>} */
export const HAPPENING = { ink: "ink", pencil: "pencil", marks: "mark", struck: "clue" };

/**
 * What the desk knows of a solve; `known` is null if it does not answer, or may not tell it to this page.
 * @param {Puzzle} puzzle
 * @param {string} id
 * @returns {Promise<{known: Progress | null, refused: import("./api.js").Refused | null}>}
 */
export async function asKnown(puzzle, id) {
  /** @type {import("./api.js").Answer<{solve: {begun_at: string}, events: Happened[], is_kept_back: boolean}>} */
  const { value, refused } = await ask("GET", `/solves/${id}`);
  if (refused || value.is_kept_back) return { known: null, refused };
  const known = store.fresh(puzzle);
  const { written } = known.sheet;
  for (const { what, cell, value: now } of value.events) {
    // A key that was pressed too often comes after the end.
    if (what === "solved") break;
    for (const layer of layers) {
      if (HAPPENING[layer] === what && cell !== null && now !== null && cell < written[layer].length) written[layer][cell] = now;
    }
  }
  const last = value.events.at(-1);
  known.spent = last?.after_ms ?? 0;
  known.started = last ? `${value.solve.begun_at.replace(" ", "T")}Z` : null;
  // A hint that is told further is the same one.
  known.hints = value.events.filter((it) => it.what === "hint" && (it.value === 1 || it.value === 4)).map((it) => it.after_ms / 1000);
  known.isDone = value.events.some((it) => it.what === "solved" || it.what === "gave-up");
  return { known, refused: null };
}

/**
 * Whether two sheets hold the same, and have ended or not. When something was written, and what could be undone, is not looked at.
 * @param {Progress} a
 * @param {Progress} b
 */
export const isSame = (a, b) => a.isDone === b.isDone && layers.every((it) => `${a.sheet.written[it]}` === `${b.sheet.written[it]}`);

const layers = /** @type {Layer[]} */ (Object.keys(HAPPENING));
