// Asks the browser's engine what the program has answered, and compares every byte:
//
//   cargo run -p player --example answers -- 200 | node browser/answers.mjs
//
// Prints how long the first hints took, which is a measure and no check.

import { readFileSync } from "node:fs";
import { createInterface } from "node:readline";
import init, { Player } from "../crates/site/engine/player.js";

await init({ module_or_path: readFileSync(new URL("../crates/site/engine/player_bg.wasm", import.meta.url)) });
let nPuzzles = 0;
let nAnswers = 0;
const firsts = [];
for await (const line of createInterface({ input: process.stdin })) {
  const { page, questions } = JSON.parse(line);
  const player = new Player(page);
  const blank = questions.find((it) => it.ask === "hint");
  const begun = performance.now();
  player.hint(blank.sheet);
  firsts.push(performance.now() - begun);
  for (const { ask, sheet, cell, digit, within, answer } of questions) {
    const here = player[ask](sheet, cell, digit, within);
    if (here !== answer) {
      console.error(`puzzle ${nPuzzles}, ${ask}, sheet ${sheet}:\nprogram ${answer}\nbrowser ${here}`);
      process.exit(1);
    }
    nAnswers += 1;
  }
  nPuzzles += 1;
}
if (nPuzzles === 0) throw new Error("there was nothing to compare");
firsts.sort((a, b) => a - b);
const share = (it) => firsts[Math.min(firsts.length - 1, Math.floor(firsts.length * it))].toFixed(1);
console.log(`${nAnswers} answers about ${nPuzzles} puzzles are the same`);
console.log(`first hint: ${share(0.5)} ms at the median, ${share(0.99)} at the 99th percentile, ${share(1)} at most`);
