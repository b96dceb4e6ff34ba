// The engine in a thread of its own: a hard question may take it a second, and keys must not wait for that.

import init, { Player } from "../../site/engine/player.js";

/**
 * @typedef {{bytes: BufferSource, page: string}} Start
 * @typedef {{ask: "hint" | "follows", args: [sheet: string, cell?: number, digit?: number, within?: number]}} Question
 * @typedef {{id: number, answer?: string, fault?: string}} Answer
 */

/** @type {Promise<Player> | null} */
let player = null;

addEventListener("message", async (/** @type {MessageEvent<{id: number} & (Start | Question)>} */ { data }) => {
  try {
    if ("bytes" in data) {
      player = init({ module_or_path: data.bytes }).then(() => new Player(data.page));
      await player;
      return postMessage({ id: data.id, answer: "" });
    }
    const it = await player;
    const [sheet, cell = 0, digit = 0, within = 0] = data.args;
    postMessage({ id: data.id, answer: data.ask === "hint" ? it?.hint(sheet) : it?.follows(sheet, cell, digit, within) });
  } catch (fault) {
    postMessage({ id: data.id, fault: String(fault) });
  }
});
