// One recording or rehearsal: what happened when. Its log is what chapters, captions and cuts are made from later.
//
// Times in it are seconds from its beginning, pauses included, with three decimals.

/** @typedef {import("../../site/play/puzzle.js").Puzzle} Puzzle */

/** @typedef {{at: number, is: string, step?: number, key?: string, cell?: string, digit?: number, since?: number}} Event */

/**
 * @typedef {object} Take
 * @property {"rehearsal" | "recording"} kind
 * @property {string} started As ISO 8601.
 * @property {number} begun By the machine's clock, in milliseconds. Not by a page's own: a take outlives its pages.
 * @property {number | null} closed The same, when it was closed.
 * @property {Event[]} events
 */

/**
 * @param {Take["kind"]} kind
 * @param {number} now
 * @returns {Take}
 */
export function begun(kind, now) {
  const started = new Date(now).toISOString().replace(/\.\d+/, "");
  return { kind, started, begun: now, closed: null, events: [{ at: 0, is: "opening" }] };
}

/**
 * Seconds from the beginning.
 * @param {Take} take
 * @param {number} now
 */
export const at = (take, now) => Math.max(0, Math.round((take.closed ?? now) - take.begun) / 1_000);

/**
 * Whether it stands still.
 * @param {Take} take
 */
export const isPaused = (take) => take.events.findLast((it) => it.is === "pause" || it.is === "resume")?.is === "pause";

/**
 * Seconds in which there was talk: without the pauses.
 * @param {Take} take
 * @param {number} now
 */
export function talked(take, now) {
  let [paused, since] = [0, /** @type {number | null} */ (null)];
  for (const it of take.events) {
    if (it.is === "pause") since ??= it.at;
    if (it.is === "resume" && since !== null) [paused, since] = [paused + it.at - since, null];
  }
  const all = at(take, now);
  return all - paused - (since === null ? 0 : all - since);
}

/**
 * The log, in the format that `galley` reads.
 * @param {Puzzle} puzzle
 * @param {Take} take
 * @param {number} now
 */
export function log(puzzle, take, now) {
  const { kind, started, events } = take;
  return { format: 1, puzzle: puzzle.id, fingerprint: puzzle.fingerprint, kind, started, seconds: at(take, now), events };
}

/**
 * The name of its file.
 * @param {Puzzle} puzzle
 * @param {Take} take
 */
export const fileName = (puzzle, take) => `${puzzle.id}.${take.kind}.${take.started.replaceAll(/[:Z]/g, "").replace("T", "-")}.json`;

/** @param {any} it */
export function isTake(it) {
  const isCount = (/** @type {unknown} */ one) => typeof one === "number" && Number.isFinite(one) && one >= 0;
  return (
    ["rehearsal", "recording"].includes(it?.kind) &&
    typeof it.started === "string" &&
    isCount(it.begun) &&
    (it.closed === null || isCount(it.closed)) &&
    Array.isArray(it.events) &&
    it.events.every((/** @type {any} */ one) => isCount(one?.at) && typeof one.is === "string")
  );
}
