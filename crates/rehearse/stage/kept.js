// What the browser keeps of the stage, so that nothing is lost when a window closes: written after each change.

import { read, write } from "../../site/play/store.js";

/** @typedef {import("./session.js").Session} Session */

/** @param {Session} session */
const keyOf = (session) => `galley stage ${session.puzzle.fingerprint}`;

/**
 * Takes up what was kept. What cannot be read is put aside under another name, never thrown away.
 * @param {Session} session
 * @returns {boolean} Whether something had to be put aside.
 */
export function takeUp(session) {
  const text = read(keyOf(session));
  if (text === null || session.take(text) !== "unreadable") return false;
  write(`${keyOf(session)} put aside ${new Date().toISOString()}`, text);
  return true;
}

/**
 * @param {Session} session
 * @returns {boolean} Whether the browser has kept it.
 */
export const keep = (session) => write(keyOf(session), session.text);

/**
 * Another window has kept something newer.
 * @param {Session} session
 * @param {() => void} then
 */
export function watch(session, then) {
  addEventListener("storage", (event) => {
    if (event.key === keyOf(session) && event.newValue !== null && session.take(event.newValue) === "taken") then();
  });
}
