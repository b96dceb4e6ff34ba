// What the site weighs and how soon the first hint is there, in Chromium: `node browser/measure.mjs` after a press.
// Figures, no checks; they are written down in docs/performance.md.

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { FOLDER, opened } from "./site.mjs";

const compressed = (path) => gzipSync(readFileSync(join(FOLDER, path)), { level: 9 }).length;
const kib = (bytes) => `${(bytes / 1024).toFixed(1)} KiB`;

const worker = readFileSync(join(FOLDER, "sw.js"), "utf8");
const kept = JSON.parse(/const FILES = (.*);/.exec(worker)[1]);
const whole = [...kept, "sw.js"].reduce((all, it) => all + compressed(it), 0);
console.log(`engine ${kib(compressed("play/engine.wasm"))}, script ${kib(compressed("play/sheet.js"))}, compressed`);
console.log(`a first visit, with all that is kept for later: ${kib(whole)} compressed, ${kept.length} files`);

const site = await opened();
const times = [];
for (const file of readdirSync(join(FOLDER, "puzzles"))) {
  const context = await site.visitor();
  const page = await context.newPage();
  await page.goto(`${site.base}puzzles/${file}`);
  await page.waitForLoadState("networkidle");
  times.push(
    await page.evaluate(async () => {
      const answers = document.querySelector(".answers");
      const answered = new Promise((resolve) => new MutationObserver(resolve).observe(answers, { childList: true }));
      const begun = performance.now();
      document.querySelector(".question").click();
      await answered;
      return performance.now() - begun;
    }),
  );
  await context.close();
}
await site.close();
times.sort((a, b) => a - b);
console.log(`first hint on the page: ${times[times.length >> 1].toFixed(1)} ms at the median, ${times.at(-1).toFixed(1)} at most`);
