// How often the plan would speak up if its own walkthroughs were followed to the letter, and how long the engine takes to
// weigh a digit: `node browser/watched.mjs`, after `cargo run -p rehearse --example stage -- demo/lantern-room target/stage`.
// Figures, no checks; they are written down in docs/performance.md.

import { puzzles, watched } from "./stage.mjs";

const all = [];
for (const id of puzzles()) {
  const found = await watched(id);
  console.log(`${id}: ${found.nSteps} steps, something easier at ${found.easier.length}; ${found.nDigits} digits, ${found.early.length} called early`);
  all.push(found);
}
const sum = (of) => all.reduce((n, it) => n + of(it), 0);
console.log(`${sum((it) => it.nSteps)} steps, something easier at ${sum((it) => it.easier.length)}`);
console.log(`${sum((it) => it.nDigits)} digits, ${sum((it) => it.early.length)} called early`);
const times = all.flatMap((it) => it.times).sort((a, b) => a - b);
const share = (it) => times[Math.min(times.length - 1, Math.floor(times.length * it))].toFixed(0);
console.log(`to weigh a digit: ${share(0.5)} ms at the median, ${share(0.99)} at the 99th percentile, ${share(1)} at most`);
