// The stage's own modules outside a browser: how the plan would watch over its own walkthrough.

import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { Session } from "../crates/rehearse/stage/session.js";
import { Watch } from "../crates/rehearse/stage/watch.js";
import { positionOf } from "../crates/site/play/sheet.js";
import init, { Player } from "../crates/site/engine/player.js";

/** Where `cargo run -p rehearse --example stage -- demo/lantern-room target/stage` has put the pages. */
export const FOLDER = new URL("../target/stage/", import.meta.url).pathname;

/** The puzzles that have a stage. */
export const puzzles = () =>
  readdirSync(FOLDER).flatMap((it) => (it.endsWith(".presenter.html") ? [it.replace(".presenter.html", "")] : []));

/** What would be told at each step, if the plan is followed from page to end: easier steps, and digits that come too early. */
export async function watched(id) {
  await init({ module_or_path: readFileSync(new URL("../crates/site/engine/player_bg.wasm", import.meta.url)) });
  const page = readFileSync(join(FOLDER, `${id}.presenter.html`), "utf8");
  const data = (name) => new RegExp(`id="${name}">(.*?)</script>`, "s").exec(page)[1];
  const [text, plan] = [data("puzzle-data"), JSON.parse(data("plan-data"))];
  const puzzle = JSON.parse(text);
  const player = new Player(text);
  const times = [];
  const engine = {
    hint: async (sheet) => JSON.parse(player.hint(positionOf(puzzle, sheet))),
    follows: async (sheet, ...rest) => {
      const begun = performance.now();
      const answer = JSON.parse(player.follows(positionOf(puzzle, sheet), ...rest));
      times.push(performance.now() - begun);
      return answer;
    },
  };
  const session = new Session(puzzle, plan, "measured");
  const watch = new Watch(engine, session, { tell() {}, say() {}, failed() {} });
  const [easier, early] = [[], []];
  for (const [at, step] of plan.steps.entries()) {
    if (await watch.easier()) easier.push(at + 1);
    for (const [cell, digit] of step.ink) {
      if (!(await watch.isKnown(session.sheet, cell, digit))) early.push(at + 1);
    }
    session.go(at + 1, 0);
  }
  return { easier, early, times, nSteps: plan.steps.length, nDigits: plan.steps.flatMap((it) => it.ink).length };
}
