// The whole job at the desk, from an empty folder to a booklet: three puzzles are typed in, one is mended and one settled, they
// are put in order, a gap is filled, one is test-solved, and everything is pressed.

import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { launched } from "./site.mjs";

const ROOT = new URL("..", import.meta.url).pathname;
/** The program: `cargo build` makes it. */
const GALLEY = join(ROOT, "target/debug/galley");
/** Pressing alone takes half a minute where other work goes on. */
const LONG = { timeout: 600_000 };

let browser;
before(async () => (browser = await launched()));
after(() => browser.close());

/** A puzzle as a setter's message tells it: its grid, and the clues beside it. */
function sent(name) {
  const text = readFileSync(join(ROOT, `demo/lantern-room/puzzles/${name}.toml`), "utf8");
  const of = (key) => new RegExp(`${key} += "([^"]*)"`).exec(text)[1].trim().split(/\s+/);
  return { grid: /"""\n([^"]*)"""/.exec(text)[1], clues: [...of("rows"), ...of("columns")] };
}

const verdict = (page, name) => page.locator(`.verdict[data-verdict="${name}"]`);

/** Begins a file for a puzzle, and pastes the message that it came in; or its grid, and types its clues. */
async function typed(page, base, title, setter, { grid, clues, isMessage = false }) {
  await page.goto(base);
  await page.getByLabel("Title").fill(title);
  await page.getByLabel("Who set it").fill(setter);
  await page.getByRole("button", { name: "Begin a file for it" }).press("Enter");
  await page.getByRole("heading", { name: title }).waitFor();
  await page.getByText("Paste a grid or a message", { exact: true }).click();
  const told = (of) => of.join(" ");
  const message = `Hello Aster,\n> here it is:\n\n${grid}\nrows: ${told(clues.slice(0, 9))}\ncolumns: ${told(clues.slice(9))}\n`;
  await page.getByLabel(/^One line of cells/).fill(isMessage ? message : grid);
  await page.getByRole("button", { name: "Take it", exact: true }).press("Enter");
  await page.getByText(isMessage ? "Pasted from the message." : "Pasted. Undo takes it back.").waitFor();
  if (isMessage) return;
  for (const [line, clue] of clues.entries()) if (clue !== ".") await page.locator(`[data-line="${line}"]`).fill(clue);
}

const keep = async (page) => {
  await page.getByRole("button", { name: "Keep the change" }).press("Enter");
  await page.getByText("Kept. Undo goes back before it").waitFor();
};

test("from an empty folder to a booklet", LONG, async (t) => {
  const pack = join(mkdtempSync(join(tmpdir(), "galley-whole-job-")), "pack");
  execFileSync(GALLEY, ["new", pack, "--quiet"]);
  for (const it of readdirSync(join(pack, "puzzles"))) rmSync(join(pack, "puzzles", it));
  // The line of the order, if there is one, names puzzles that are gone.
  const info = readFileSync(join(pack, "pack.toml"), "utf8");
  writeFileSync(join(pack, "pack.toml"), info.replace(/^order = \[[^\]]*\]\n/m, "").replace(/^editor = .*$/m, 'editor = "Aster"'));
  const desk = spawn(GALLEY, ["desk", pack, "--no-browser", "--port", "0"]);
  const base = await new Promise((resolve, reject) => {
    desk.stdout.on("data", (it) => /http:\S+/.test(String(it)) && resolve(/http:\S+/.exec(String(it))[0]));
    desk.stderr.on("data", (it) => reject(new Error(String(it))));
  });
  const context = await browser.newContext();
  context.setDefaultTimeout(60_000);
  const page = await context.newPage();
  const faults = [];
  page.on("pageerror", (it) => faults.push(it.message));
  t.after(async () => {
    await context.close();
    const ended = new Promise((resolve) => desk.on("exit", resolve));
    desk.kill("SIGINT");
    assert.equal(await ended, 0);
    rmSync(join(pack, ".."), { recursive: true, force: true });
    assert.deepEqual(faults, []);
  });
  const file = (name) => readFileSync(join(pack, name), "utf8");

  // One that is sound.
  const first = sent("first-light");
  await typed(page, base, "Morning post", "Fern", first);
  await verdict(page, "one").waitFor();
  await keep(page);

  // One with a clue mistyped: mended.
  const second = sent("low-wick");
  const right = second.clues[2];
  await typed(page, base, "Noon post", "Moss", { ...second, clues: second.clues.with(2, "9"), isMessage: true });
  await verdict(page, "none").waitFor();
  await page.getByRole("button", { name: "What would make it sound?" }).press("Enter");
  const offers = page.getByRole("button", { name: /^Take it: / });
  await offers.first().waitFor();
  await offers.filter({ hasText: /row 3/ }).first().press("Enter");
  await verdict(page, "one").waitFor();
  assert.equal(await page.locator('[data-line="2"]').inputValue(), right, "the mend is the clue that was meant");
  await keep(page);

  // One with a given left out that has several solutions: settled.
  const third = sent("two-moths");
  await typed(page, base, "Evening post", "Yarrow", { ...third, clues: third.clues.map((it, at) => (at < 6 ? "." : it)) });
  await verdict(page, "many").waitFor();
  for (let n = 0; n < 12 && (await verdict(page, "one").count()) === 0; n++) {
    await page.getByRole("button", { name: "What would make it sound?" }).press("Enter");
    await offers.first().waitFor();
    await offers.first().press("Enter");
    await page.waitForFunction(() => document.querySelector("#offers")?.childElementCount === 0);
    await page.waitForTimeout(300);
  }
  await verdict(page, "one").waitFor();
  await keep(page);

  // Put in order: the last becomes the first.
  await page.goto(base);
  const rows = page.locator("ol.order > li");
  await rows.nth(2).waitFor();
  const last = await rows.nth(2).locator(".title").textContent();
  await rows.nth(2).locator("button[data-by='-1']").focus();
  await page.keyboard.press("Home");
  await page.getByText(/the order costs/).waitFor();
  await page.getByRole("button", { name: /^Keep/ }).first().press("Enter");
  await page.waitForFunction((it) => document.querySelector("ol.order > li .title")?.textContent === it, last);
  for (let n = 0; !/^order = /m.test(file("pack.toml")) && n < 100; n++) await page.waitForTimeout(100);
  assert.match(file("pack.toml"), /^order = \[/m);

  // A gap is filled.
  await page.getByLabel("Seed (empty: any)").fill("7");
  const before = readdirSync(join(pack, "puzzles")).length;
  await page.getByRole("button", { name: /^Set one for (a )?.*(naked pair|hidden pair|filling)/ }).first().press("Enter");
  await page.getByRole("button", { name: "Keep it" }).first().press("Enter");
  for (let n = 0; readdirSync(join(pack, "puzzles")).length === before && n < 200; n++) await page.waitForTimeout(100);
  assert.equal(readdirSync(join(pack, "puzzles")).length, before + 1);

  // Test-solved by the editor, with what the desk says every cell holds.
  await page.goto(`${base}puzzles/morning-post`);
  const digits = await page.evaluate(async () => {
    const token = document.querySelector('meta[name="desk-token"]').content;
    const headers = { "x-desk-token": token, "content-type": "application/json" };
    const ask = async (cell) => {
      const answer = await fetch("/api/1/puzzles/morning-post/why", { method: "POST", headers, body: JSON.stringify({ cell, says: "is", digit: null }) });
      return Number(/ is (\d)/.exec((await answer.json()).says)[1]);
    };
    return Promise.all([...Array(81).keys()].map(ask));
  });
  await page.goto(`${base}puzzles/morning-post/solve`);
  await page.getByLabel("Who solves").fill("Aster");
  await page.getByRole("button", { name: "Begin" }).press("Enter");
  const cells = page.locator(".play .cell");
  for (const [at, digit] of digits.entries()) {
    if ((await cells.nth(at).getAttribute("aria-readonly")) === "true") continue;
    await cells.nth(at).click();
    await page.keyboard.press(String(digit));
    await page.keyboard.press(String(digit));
  }
  await page.getByText(/solved/i).first().waitFor();
  await page.goto(`${base}puzzles/morning-post/solves`);
  // A button does nothing before the page's script is there.
  await Promise.all([page.waitForEvent("load"), page.getByRole("link", { name: "Aster" }).click()]);
  await page.getByRole("button", { name: /^Write it into/ }).press("Enter");
  await page.getByText(/^Written: solves\/morning-post-/).waitFor();

  // Pressed, and the booklet opened.
  await page.goto(`${base}press`);
  await page.getByRole("button", { name: "Press", exact: true }).press("Enter");
  const job = page.locator('#jobs li[data-state="done"]').first();
  await job.waitFor({ timeout: 300_000 });
  await page.getByText("Pages of booklet.pdf").first().click();
  const picture = page.getByAltText("Page 1", { exact: true }).first();
  await picture.scrollIntoViewIfNeeded();
  await page.waitForFunction((it) => it.complete && it.naturalWidth > 100, await picture.elementHandle());
  for (const it of ["out/booklet.pdf", "out/site/index.html", "out/report.html"]) assert.ok(existsSync(join(pack, it)), it);
  assert.equal(readFileSync(join(pack, "out/booklet.pdf")).subarray(0, 5).toString(), "%PDF-");
});
