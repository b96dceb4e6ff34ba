// The desk's long work in a real browser: the outputs pressed, broken off, looked at and played in their sandbox; a gap set;
// places by hand; each by keyboard, and as axe-core sees it.

import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { opened as atDesk, ROOT } from "./desk.mjs";
import { launched } from "./site.mjs";

/** Where `galley press demo/lantern-room` has put the outputs. */
const PRESSED = join(ROOT, "out");
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const LONG = { timeout: 120_000 };

let browser;
before(async () => (browser = await launched()));
after(() => browser.close());

/** In its sandbox the site has no service worker, and what its page asks of the desk is blocked. */
const MEANT = /status of 4(04|09|22)|serviceWorker|Content Security Policy/;
/** A desk that can press. */
const opened = (t) => atDesk(browser, t, { more: [PRESSED], patience: 30_000, isMeant: MEANT, isThrown: MEANT, isOwn: (url) => /^(data|blob):/.test(url) });

/** What axe-core finds, and whether anything is cut off. */
async function looked(page, what) {
  await page.evaluate(AXE);
  const found = await page.evaluate((values) => globalThis.axe.run(document, { runOnly: { type: "tag", values } }), TAGS);
  const told = found.violations.map((it) => `${it.id}: ${it.nodes.map((node) => node.html.slice(0, 200)).join(" | ")}`);
  assert.deepEqual(told, [], what);
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), `${what} is cut off`);
}

const job = (page, state) => page.locator(`#jobs li[data-state="${state}"]`);

test("the outputs are pressed, broken off, survive a reload, and are looked at", LONG, async (t) => {
  const { base, page, pack } = await opened(t);
  await page.goto(`${base}press`);
  await page.getByText("Nothing yet.").waitFor();
  await page.getByText("None since the desk was started.").waitFor();
  // Two, by keyboard: one at work, one waiting.
  await page.getByRole("button", { name: "Press", exact: true }).focus();
  await page.keyboard.press("Enter");
  await job(page, "running").waitFor();
  await page.getByRole("button", { name: "Press", exact: true }).press("Enter");
  await job(page, "waiting").waitFor();
  await page.reload();
  await job(page, "running").getByRole("progressbar").waitFor();
  await job(page, "waiting").getByRole("button").press("Enter");
  await job(page, "running").getByRole("button").press("Enter");
  await job(page, "cancelled").nth(1).waitFor();
  assert.ok(!existsSync(join(pack, "out")), "nothing is left");
  await page.getByLabel(/^Day of issue/).fill("2026-12-01");
  await page.getByLabel("these:").check();
  await page.getByLabel("Ink").selectOption("black");
  await page.getByRole("button", { name: "Add this booklet" }).press("Enter");
  await page.getByText("a4, black, one", { exact: false }).first().waitFor();
  await page.getByRole("button", { name: "Press", exact: true }).press("Enter");
  await job(page, "running").getByRole("progressbar").waitFor();
  await looked(page, "at work");
  await job(page, "done").getByText("copied what was pressed").waitFor();
  await page.getByText("Pages of booklet.pdf").first().click();
  const first = page.getByAltText("Page 1", { exact: true }).first();
  await first.scrollIntoViewIfNeeded();
  await page.waitForFunction((it) => it.complete && it.naturalWidth > 0, await first.elementHandle());
});

test("the site is played in a sandbox out of which nothing reaches the desk", LONG, async (t) => {
  const { base, page, context } = await opened(t);
  await page.goto(`${base}press`);
  await page.getByRole("button", { name: "Press", exact: true }).press("Enter");
  const [site] = await Promise.all([context.waitForEvent("page"), page.getByRole("link", { name: "The site" }).click()]);
  await site.waitForLoadState();
  assert.equal(await site.evaluate(() => origin), "null");
  await site.locator("a[href*='puzzles/']").first().click();
  const cell = site.locator('.cell:not([aria-readonly="true"])').first();
  await cell.click();
  await site.keyboard.press("5");
  await site.locator('.cell', { hasText: "5" }).first().waitFor();
  // What the page asks of the desk is not answered.
  const reached = await site.evaluate(async (base) => {
    const tried = ["", "api/1/pack", "api/1/jobs"].map((it) => fetch(base + it).then(() => it, () => null));
    return Promise.all(tried);
  }, base).catch(() => []);
  assert.deepEqual(reached.filter(Boolean), []);
});

test("places and shelves are set by hand, weighed and kept by keyboard", LONG, async (t) => {
  const { base, page, file } = await opened(t);
  const before = file("pack.toml");
  await page.goto(base);
  const place = page.locator('#places details[data-id="first-light"]');
  await place.locator("summary").press("Enter");
  await place.getByLabel("Pinned to place").selectOption("2");
  await place.getByRole("button", { name: "What would the pin cost?" }).press("Enter");
  await place.getByText(/the order costs|kept back/).waitFor();
  await place.getByRole("button", { name: "Keep the pin" }).press("Enter");
  await page.locator('#places details[data-id="first-light"] summary', { hasText: "pinned" }).waitFor();
  assert.match(file("pack.toml"), /first-light = 2/);
  assert.notEqual(file("pack.toml"), before);
  const again = page.locator('#places details[data-id="first-light"]');
  await again.getByLabel("In the pack").selectOption("pool");
  await again.getByLabel(/^Reason/).fill("a <b>long</b> one");
  await again.getByRole("button", { name: "Keep shelf and state" }).press("Enter");
  await page.locator('#places details[data-id="first-light"] summary', { hasText: "in the pool" }).waitFor();
  assert.match(file("puzzles/first-light.toml"), /state = "pool"/);
});

for (const width of [320, 900, 1600]) {
  for (const colorScheme of ["light", "dark"]) {
    test(`at ${width} pixels, ${colorScheme}: nothing for axe to find, nothing cut off`, LONG, async (t) => {
      const { base, page } = await opened(t);
      await page.setViewportSize({ width, height: 900 });
      await page.emulateMedia({ colorScheme });
      await page.goto(`${base}press`);
      await page.getByRole("button", { name: "Press", exact: true }).click();
      await job(page, "done").waitFor();
      await page.getByLabel("these:").check();
      await page.evaluate(() => document.querySelectorAll("details").forEach((it) => (it.open = true)));
      await looked(page, "press");
      if (process.env.SHOTS) await page.screenshot({ path: `${process.env.SHOTS}/press-${width}-${colorScheme}.png`, fullPage: true });
      await page.goto(base);
      await page.locator("#places").waitFor();
      const set = page.getByRole("button", { name: /^Set one for / });
      if ((await set.count()) > 0) {
        await page.getByLabel("Seed (empty: any)").fill("7");
        await page.getByLabel("Tries at most").fill("4");
        await set.first().click();
        await job(page, "done").or(job(page, "running")).first().waitFor();
      }
      await page.evaluate(() => document.querySelectorAll("details.place").forEach((it, at) => (it.open = at < 2)));
      await looked(page, "pack");
      if (process.env.SHOTS) await page.screenshot({ path: `${process.env.SHOTS}/pack-${width}-${colorScheme}.png`, fullPage: true });
    });
  }
}
