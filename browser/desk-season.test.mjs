// The season, approvals and letters to setters, in a real browser.

import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { opened as atDesk } from "./desk.mjs";
import { launched } from "./site.mjs";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const LONG = { timeout: 60_000 };
const LONG_NAME = "Wolfgangamadeustheophilusvonundzuhohenlichtensteinbergheimsdorf <b>the bold</b>";

let browser;
before(async () => (browser = await launched()));
after(() => browser.close());

/** A desk with a puzzle that has a long name and days. */
const opened = (t, permissions = []) => {
  const alter = (pack) => {
    const low = join(pack, "puzzles/low-wick.toml");
    const days = `setter = '${LONG_NAME}'\nreceived = "2026-09-14"\nrecord = "2026-12-05"\napproved = "2026-10-02 0123456789abcdef"`;
    writeFileSync(low, readFileSync(low, "utf8").replace(/^setter = .*$/m, days));
  };
  return atDesk(browser, t, { alter, patience: 20_000, isMeant: /status of 4(09|22)/ }, { permissions });
};

for (const width of [320, 900, 1600]) {
  for (const colorScheme of ["light", "dark"]) {
    test(`season and letter at ${width} pixels, ${colorScheme}: nothing for axe to find, nothing cut off`, LONG, async (t) => {
      const { base, page } = await opened(t);
      await page.setViewportSize({ width, height: 900 });
      await page.emulateMedia({ colorScheme });
      for (const path of ["season", "puzzles/low-wick"]) {
        await page.goto(base + path);
        await page.evaluate(() => document.querySelectorAll("details").forEach((it) => (it.open = true)));
        if (path !== "season") await page.waitForFunction(() => document.getElementById("letter-text").value !== "");
        await page.evaluate(AXE);
        const found = await page.evaluate((values) => globalThis.axe.run(document, { runOnly: { type: "tag", values } }), TAGS);
        const told = found.violations.map((it) => `${it.id}: ${it.nodes.map((node) => node.html.slice(0, 200)).join(" | ")}`);
        assert.deepEqual(told, [], path);
        assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), `${path} is cut off`);
        const shots = process.env.SHOTS;
        if (shots) {
          await page.evaluate(() => document.querySelectorAll("details:not(.letter)").forEach((it, at) => (it.open = at < 4)));
          await page.evaluate(() => (document.getElementById("letter") ?? document.getElementById("stand-head")).scrollIntoView());
          await page.screenshot({ path: join(shots, `${path.replace("/", "-")}-${width}-${colorScheme}.png`) });
        }
      }
    });
  }
}

test("a setter approves, the letter is copied by keyboard, and a change afterwards shows", LONG, async (t) => {
  const { base, page, file } = await opened(t, ["clipboard-read", "clipboard-write"]);
  await page.goto(`${base}puzzles/first-light`);
  await page.getByRole("button", { name: "The setter has approved it as it is" }).focus();
  await page.keyboard.press("Enter");
  await page.getByText(/^Approved by its setter on/).waitFor();
  assert.match(file("puzzles/first-light.toml"), /^approved = "\d{4}-\d\d-\d\d [0-9a-f]{16}"$/m);
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Take the approval back");

  await page.getByText("A letter to copy").focus();
  await page.keyboard.press("Enter");
  await page.locator('[data-copy="letter"]:enabled').focus();
  await page.keyboard.press("Enter");
  await page.getByText("Copied.").waitFor();
  const copied = await page.evaluate(() => navigator.clipboard.readText());
  assert.match(copied, /^Dear .*,\n\nthank you for "First light"/);
  assert.match(copied, /You have approved it as it is/);
  assert.equal(await (await page.request.get(`${base}api/1/puzzles/first-light/letter.txt`)).text(), copied);

  // A given is taken away: what was approved was another puzzle.
  for (let at = 0; at < 81; at++) {
    const cell = page.locator(`[data-cell="${at}"]`);
    if ((await cell.inputValue()) === "") continue;
    await cell.fill("");
    break;
  }
  await page.getByRole("button", { name: "Keep the change" }).click();
  await page.locator("#letter").getByText(/^Changed since approved/).waitFor();
  await page.goto(`${base}season`);
  await page.locator('[data-id="first-light"]').getByText(/^Changed since approved/).waitFor();
});

test("days and a setter's credit are kept from the season, and a conflict is told", LONG, async (t) => {
  const { base, page, pack, file } = await opened(t);
  await page.goto(`${base}season`);
  const row = page.locator('[data-id="tide-bell"]');
  await row.getByText("Days", { exact: true }).click();
  await row.getByLabel("To be recorded").fill("2026-12-07");
  await row.getByRole("button", { name: "Keep the days" }).click();
  await page.locator("#said").getByText("The days are kept.").waitFor();
  assert.match(file("puzzles/tide-bell.toml"), /^record = "2026-12-07"$/m);
  await row.getByText("7 December 2026").first().waitFor();
  const calendar = await (await page.request.get(`${base}api/1/season/calendar`)).text();
  assert.match(calendar, /DTSTART;VALUE=DATE:20261207\r\n/);

  const setter = page.locator(".setters > li").filter({ hasText: "Wolfgang" });
  await setter.locator("summary").click();
  await setter.getByLabel("Credited as").fill("W. <i>Bold</i>");
  await setter.getByLabel("Link").fill("https://example.org/w");
  await setter.getByRole("button", { name: "Keep it" }).click();
  await page.locator("#said").getByText("Kept for all of").waitFor();
  assert.match(file("pack.toml"), /credit = "W\. <i>Bold<\/i>"/);
  await page.goto(`${base}puzzles/low-wick`);
  await page.getByText("Set by W. <i>Bold</i>").waitFor();

  // Another program writes while something is typed here: nothing is overwritten.
  await page.goto(`${base}season`);
  await row.getByText("Days", { exact: true }).click();
  await row.getByLabel("Received").fill("2026-09-01");
  const by_hand = `${file("puzzles/tide-bell.toml")}# by hand\n`;
  writeFileSync(join(pack, "puzzles/tide-bell.toml"), by_hand);
  await page.getByText(/^Files have changed/).waitFor();
  await row.getByRole("button", { name: "Keep the days" }).click();
  await page.locator("#said").getByText(/was changed or taken away/).waitFor();
  assert.equal(file("puzzles/tide-bell.toml"), by_hand);
});
