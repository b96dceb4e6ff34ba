// How the desk bears 200 requests a second on one core: `node browser/desk-load.mjs [PER SECOND] [SECONDS]`, after
// `cargo build --release -p desk --example desk`. The desk runs on core 0, this on the others. Pages that compute nothing are
// asked for by turns, from 50 connections.

import { execFileSync, spawn } from "node:child_process";
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { Agent, get } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";

const ROOT = new URL("..", import.meta.url).pathname;
const DESK = process.env.DESK ?? join(ROOT, "target/release/examples/desk");
const [perSecond, seconds] = [Number(process.argv[2] ?? 200), Number(process.argv[3] ?? 20)];
const PAGES = ["", "season", "solves", "press", "puzzles/first-light", "puzzles/low-wick/solve", "desk.css", "api/1/pack"];

const pack = mkdtempSync(join(tmpdir(), "galley-desk-load-"));
cpSync(join(ROOT, "demo/lantern-room"), pack, { recursive: true });
rmSync(join(pack, ".galley"), { recursive: true, force: true });
const desk = spawn("taskset", ["-c", "0", DESK, pack, "0"]);
execFileSync("taskset", ["-p", "-c", "1", String(process.pid)], { stdio: "ignore" });
const base = await new Promise((resolve) => desk.stdout.on("data", (it) => resolve(String(it).trim())));
const agent = new Agent({ keepAlive: true, maxSockets: 50 });

/** Milliseconds until the whole page is there. */
const asked = (path) =>
  new Promise((resolve, reject) => {
    const start = performance.now();
    get(base + path, { agent }, (answer) => {
      answer.on("data", () => {});
      answer.on("end", () => (answer.statusCode === 200 ? resolve(performance.now() - start) : reject(new Error(`${answer.statusCode} for ${path}`))));
    }).on("error", reject);
  });

// Everything is found out first: these pages then compute nothing.
for (const path of PAGES) await asked(path);
const ticks = () => Number(execFileSync("cat", [`/proc/${desk.pid}/stat`], { encoding: "utf8" }).split(") ")[1].split(" ").slice(11, 13).reduce((a, b) => Number(a) + Number(b)));
const before = ticks();
const start = performance.now();
const waiting = [];
for (let n = 0; n < perSecond * seconds; n++) {
  const due = start + (n * 1000) / perSecond;
  while (performance.now() < due) await new Promise((resolve) => setTimeout(resolve, Math.max(0, due - performance.now())));
  waiting.push(asked(PAGES[n % PAGES.length]).then((it) => ({ path: PAGES[n % PAGES.length], took: it })));
}
const all = await Promise.all(waiting);
const spread = (of) => {
  const sorted = of.map((it) => it.took).sort((a, b) => a - b);
  return [0.5, 0.95, 0.99, 1].map((it) => sorted[Math.min(sorted.length - 1, Math.floor(it * sorted.length))].toFixed(1)).join(", ");
};
console.log(`${all.length} requests in ${((performance.now() - start) / 1000).toFixed(1)} s; milliseconds at the median, 95th, 99th percentile, most: ${spread(all)}`);
console.log(`the desk was on its core for ${(((ticks() - before) * 10) / all.length).toFixed(2)} ms a request`);
for (const path of PAGES) console.log(`  /${path}: ${spread(all.filter((it) => it.path === path))}`);
agent.destroy();
desk.kill("SIGINT");
rmSync(pack, { recursive: true, force: true });
