// Every kind of page as axe-core sees it, at three widths, light and dark.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import { opened } from "./site.mjs";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const PAGES = ["index.html", "primer.html", "404.html", "puzzles/first-light.html", "puzzles/small-hours.html"];

let site;
before(async () => (site = await opened()));
after(() => site.close());

for (const path of PAGES) {
  for (const [width, colorScheme] of [[320, "light"], [900, "dark"], [1600, "light"]]) {
    test(`${path} at ${width} pixels, ${colorScheme}: nothing for axe to find, nothing cut off`, async () => {
      const context = await site.visitor({ viewport: { width, height: 900 }, colorScheme, bypassCSP: true });
      const page = await context.newPage();
      await page.goto(site.base + path);
      // A page as it is used: everything unfolded, and on a sheet something of each kind written.
      await page.evaluate(() => document.querySelectorAll("details").forEach((it) => (it.open = true)));
      if (path.startsWith("puzzles/")) {
        await page.locator('.cell:not([aria-readonly="true"])').first().click();
        await page.getByText("Pencil in what rows, columns and boxes allow").click();
        await page.locator(".cell", { hasText: "pencilled" }).first().waitFor();
        await page.locator('[data-line="0"]').click();
        await page.locator(".question").click();
        await page.locator(".answers h3").waitFor();
        for (let n = 0; n < 2; n++) await page.locator(".question").click();
        await page.getByText("Write it on my sheet").click();
      }
      const isWider = await page.evaluate(() => document.documentElement.scrollWidth > innerWidth);
      assert.ok(!isWider, "the page is wider than its window");
      await page.evaluate(AXE);
      const found = await page.evaluate((values) => globalThis.axe.run(document, { runOnly: { type: "tag", values } }), TAGS);
      const said = found.violations.map((it) => `${it.id}: ${it.help}\n${it.nodes.slice(0, 3).map((one) => one.html.slice(0, 160)).join("\n")}`);
      assert.deepEqual(said, []);
      assert.ok(found.passes.length > 10);
      await context.close();
      assert.deepEqual(site.faults.splice(0), []);
    });
  }
}
