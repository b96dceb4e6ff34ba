// A puzzle is played, by keyboard, by touch, with help, across reloads and without a network.

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { FOLDER, label, opened, puzzleOf } from "./site.mjs";

const PUZZLE = "puzzles/first-light.html";
const SMALL = 700;

let site;
before(async () => (site = await opened()));
after(() => site.close());

/** A page of a new visitor, ready to be played on. */
async function atPuzzle(options, path = PUZZLE) {
  const context = await site.visitor(options);
  const page = await context.newPage();
  await page.goto(site.base + path);
  await page.locator(".play").waitFor();
  return { context, page, puzzle: await puzzleOf(page) };
}

/** Nothing went wrong since the last time it was asked. */
function nothingWentWrong() {
  assert.deepEqual(site.faults.splice(0), []);
}

const emptyCells = (puzzle) => puzzle.givens.flatMap((digit, cell) => (digit ? [] : [cell]));

/** Fills the whole board from the keyboard alone, cell by cell in reading order, leaving out some. */
async function fillByKeyboard(page, puzzle, leaveOut = []) {
  const { keyboard } = page;
  await page.locator('.play [tabindex="0"]').focus();
  await keyboard.press("Control+Home");
  for (let cell = 0; cell < puzzle.givens.length; cell++) {
    if (!puzzle.givens[cell] && !leaveOut.includes(cell)) {
      await keyboard.press(String(puzzle.solution[cell]));
      await keyboard.press(String(puzzle.solution[cell]));
    }
    const isRowEnd = cell % puzzle.side === puzzle.side - 1;
    if (!isRowEnd) await keyboard.press("ArrowRight");
    else if (cell < puzzle.givens.length - 1) {
      await keyboard.press("Home");
      await keyboard.press("ArrowDown");
    }
  }
}

test("from the first Tab to the last digit by keyboard alone", async () => {
  const { page, puzzle, context } = await atPuzzle();
  for (let n = 0; n < 20; n++) {
    await page.keyboard.press("Tab");
    if (await page.evaluate(() => document.activeElement?.getAttribute("role") === "gridcell")) break;
  }
  await fillByKeyboard(page, puzzle);
  assert.match(await page.locator(".notice").textContent(), /^Solved in less than a minute, without a hint\. What it practises: /);
  await context.close();
  nothingWentWrong();
});

test("a first press pencils, a second inks, a third takes away; other keys keep to their one meaning", async () => {
  const { page, puzzle, context } = await atPuzzle();
  const cells = emptyCells(puzzle);
  const at = (cell) => page.locator(`[data-cell="${cell}"]`);
  const place = (cell) => `row ${Math.floor(cell / 9) + 1} column ${(cell % 9) + 1}`;
  const [a, b] = cells;
  await at(a).click();
  const presses = [
    ["2", "empty, pencilled 2"],
    ["5", "empty, pencilled 2 and 5"],
    ["5", "5"],
    ["5", "empty, pencilled 2"],
    ["7", "empty, pencilled 2 and 7"],
    ["Shift+Digit7", "empty, pencilled 2"],
    ["c", "empty, pencilled 2, marked crust"],
    ["f", "empty, pencilled 2, marked filling"],
    ["f", "empty, pencilled 2"],
    ["Backspace", "empty"],
    ["Control+z", "empty, pencilled 2"],
    ["Control+z", "empty, pencilled 2, marked filling"],
    ["Control+y", "empty, pencilled 2"],
    ["Control+Shift+z", "empty"],
  ];
  for (const [key, said] of presses) {
    await page.keyboard.press(key);
    assert.equal(await label(page, a), `${place(a)}, ${said}`, key);
  }
  // Several cells: chosen by Shift and an arrow, pencilled together and cleared together.
  await at(b).click();
  await page.keyboard.press("Shift+ArrowDown");
  const chosen = await page.locator('[aria-selected="true"]').count();
  assert.equal(chosen, 2);
  await page.keyboard.press("3");
  assert.match(await label(page, b), /pencilled 3$/);
  await page.keyboard.press("3");
  assert.match(await label(page, b), /empty$/);
  // A given stays.
  const given = puzzle.givens.findIndex((it) => it > 0);
  await at(given).click();
  await page.keyboard.press("1");
  await page.keyboard.press("Backspace");
  assert.equal(await label(page, given), `${place(given)}, given ${puzzle.givens[given]}`);
  const status = page.locator(".status");
  assert.equal(await status.textContent(), "This is printed in the puzzle, so it stays.");
  // A clue is struck from the keyboard.
  await at(0).click();
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("Space");
  assert.match(await page.locator('[data-line="0"] .said').textContent(), /^row 1: sandwich clue \d+, struck$/);
  assert.match(await status.textContent(), /^row 1: sandwich clue \d+, struck$/);
  await page.keyboard.press("Control+z");
  assert.match(await status.textContent(), /^row 1: sandwich clue \d+$/);
  await context.close();
  nothingWentWrong();
});

test("by touch alone, and by a drag across cells", async () => {
  const { page, puzzle, context } = await atPuzzle({ hasTouch: true, isMobile: true, viewport: { width: 360, height: SMALL } });
  const digit = (it) => page.locator(".foot-line .digit").nth(it - 1);
  for (const button of await page.locator(".foot-line button, .help button:visible, summary:visible").all()) {
    const box = await button.boundingBox();
    assert.ok(box.width >= 44 && box.height >= 44, `${await button.textContent()}: ${box.width} x ${box.height}`);
  }
  for (const cell of emptyCells(puzzle)) {
    await page.locator(`[data-cell="${cell}"]`).tap();
    await digit(puzzle.solution[cell]).tap();
    await digit(puzzle.solution[cell]).tap();
  }
  assert.match(await page.locator(".notice").textContent(), /^Solved/);
  await context.close();

  const mouse = await atPuzzle();
  const middle = async (cell) => {
    const box = await mouse.page.locator(`[data-cell="${cell}"]`).boundingBox();
    return [box.x + box.width / 2, box.y + box.height / 2];
  };
  await mouse.page.mouse.move(...(await middle(0)));
  await mouse.page.mouse.down();
  for (const cell of [1, 2, 11]) await mouse.page.mouse.move(...(await middle(cell)), { steps: 4 });
  await mouse.page.mouse.up();
  assert.equal(await mouse.page.locator('[aria-selected="true"]').count(), 4);
  await mouse.context.close();
  nothingWentWrong();
});

test("help answers where, what and why from a half-solved sheet, and can be written down", async () => {
  const { page, puzzle, context } = await atPuzzle();
  const cells = emptyCells(puzzle);
  await fillByKeyboard(page, puzzle, cells.slice(cells.length / 2));
  const question = page.locator(".question");
  const answers = page.locator(".answers");
  const heads = () => answers.locator("h3").allTextContents();
  await page.keyboard.press("?");
  await page.waitForFunction(() => document.querySelectorAll(".answers h3").length === 1);
  assert.match(await answers.textContent(), /Look at /);
  assert.ok((await page.locator("[data-looked-at]").count()) > 0);
  await question.click();
  assert.deepEqual(await heads(), ["Where?", "What?"]);
  await question.click();
  assert.deepEqual(await heads(), ["Where?", "What?", "Why?"]);
  assert.equal(await answers.locator("svg").count(), 1);
  assert.ok(await question.isHidden());
  const before = await page.locator(".play").innerHTML();
  await page.getByText("Write it on my sheet").click();
  assert.notEqual(await page.locator(".play").innerHTML(), before);
  // Every hint after that leads on, to the end.
  for (let n = 0; n < 200 && !(await page.locator(".notice").textContent()).startsWith("Solved"); n++) {
    await question.click();
    await question.click();
    await question.click();
    await page.getByText("Write it on my sheet").click();
  }
  assert.match(await page.locator(".notice").textContent(), /^Solved in .*, with \d+ hints\./);
  assert.ok(await question.isHidden(), "nothing is left to ask for");
  await page.keyboard.press("Control+z");
  assert.ok(await question.isVisible());
  await context.close();
  nothingWentWrong();
});

test("a mistake is found in two questions, and the right digit is not given away", async () => {
  const { page, puzzle, context } = await atPuzzle();
  const cell = emptyCells(puzzle)[0];
  const wrong = await page.evaluate(
    ([givens, solution, cell]) => {
      const sees = givens.flatMap((it, at) => (at % 9 === cell % 9 || Math.floor(at / 9) === Math.floor(cell / 9) ||
        (Math.floor(at / 27) === Math.floor(cell / 27) && Math.floor((at % 9) / 3) === Math.floor((cell % 9) / 3)) ? [it] : []));
      return [1, 2, 3, 4, 5, 6, 7, 8, 9].find((it) => it !== solution[cell] && !sees.includes(it));
    },
    [puzzle.givens, puzzle.solution, cell],
  );
  await page.locator(`[data-cell="${cell}"]`).click();
  await page.keyboard.press(String(wrong));
  await page.keyboard.press(String(wrong));
  await page.getByText("Is everything right so far?").click();
  const answers = page.locator(".answers");
  await answers.locator("h3").waitFor();
  const name = `r${Math.floor(cell / 9) + 1}c${(cell % 9) + 1}`;
  assert.equal(await answers.textContent(), `Where?Something in row ${Math.floor(cell / 9) + 1} does not fit.`);
  await page.locator(".question").click();
  assert.equal(await answers.locator("p").last().textContent(), `${name} is not ${wrong}.`);
  assert.equal(await page.locator("[data-wrong]").count(), 1);
  await page.locator(`[data-cell="${cell}"]`).click();
  await page.keyboard.press("Backspace");
  // What was said of the sheet as it was is not left beside another one.
  assert.equal(await answers.textContent(), "");
  await page.getByText("Is everything right so far?").click();
  await page.getByText("Everything you have written fits so far.").waitFor();
  await context.close();
  nothingWentWrong();
});

test("any digit says why it is so, and pencil marks can be filled in", async () => {
  const { page, puzzle, context } = await atPuzzle();
  const cells = emptyCells(puzzle);
  await page.getByText("Why is this digit so?").click();
  await page.getByText("Choose one cell that holds a digit first.").waitFor();
  await fillByKeyboard(page, puzzle, cells.slice(3));
  await page.locator(`[data-cell="${cells[2]}"]`).click();
  await page.getByText("Why is this digit so?").click();
  await page.getByRole("heading", { name: "Why is this so?" }).waitFor();
  assert.ok((await page.locator(".answers .steps li").count()) > 0);
  await page.getByText("Pencil in what rows, columns and boxes allow").click();
  await page.waitForFunction((cell) => /pencilled/.test(document.querySelector(`[data-cell="${cell}"] .said`).textContent), cells[5]);
  for (const cell of cells.slice(3)) {
    const said = await label(page, cell);
    assert.ok(said.match(/\d/g).includes(String(puzzle.solution[cell])), said);
  }
  await context.close();
  nothingWentWrong();
});

test("nothing is lost on a reload, and two windows show the same", async () => {
  const { page, puzzle, context } = await atPuzzle();
  const [a, b, c] = emptyCells(puzzle);
  await page.locator(`[data-cell="${a}"]`).click();
  await page.keyboard.press("4");
  await page.keyboard.press("4");
  await page.locator(`[data-cell="${b}"]`).click();
  await page.keyboard.press("c");
  await page.keyboard.press("9");
  const labels = async (it) => [await label(it, a), await label(it, b), await label(it, c)];
  const before = await labels(page);
  await page.reload();
  await page.locator(".play").waitFor();
  assert.deepEqual(await labels(page), before);
  // Even what was done before can be undone.
  await page.locator(`[data-cell="${a}"]`).click();
  await page.keyboard.press("Control+z");
  assert.match(await label(page, b), /empty, marked crust$/);

  const other = await context.newPage();
  await other.goto(site.base + PUZZLE);
  await other.locator(`[data-cell="${c}"]`).click();
  await other.keyboard.press("6");
  await page.waitForFunction((cell) => /pencilled 6$/.test(document.querySelector(`[data-cell="${cell}"] .said`).textContent), c);
  await context.close();
  nothingWentWrong();
});

test("kept progress that cannot be read is put aside, and a full store is said", async () => {
  const { page, puzzle, context } = await atPuzzle();
  const key = `galley sheet ${puzzle.fingerprint}`;
  for (const bad of ["{", '{"format":2}', JSON.stringify({ format: 1, fingerprint: puzzle.fingerprint, written: {} })]) {
    await page.evaluate(([key, bad]) => localStorage.setItem(key, bad), [key, bad]);
    await page.reload();
    await page.getByText("It is put aside in this browser, and you have a fresh sheet.").waitFor();
    const aside = await page.evaluate(() => Object.entries(localStorage).filter((it) => it[0].includes("put aside")).map((it) => it[1]));
    assert.ok(aside.includes(bad));
    await page.evaluate((key) => localStorage.removeItem(key), key);
  }
  await page.evaluate(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException("full", "QuotaExceededError");
    };
  });
  await page.locator(`[data-cell="${emptyCells(puzzle)[0]}"]`).click();
  await page.keyboard.press("4");
  await page.getByText("Save your sheet to a file before you leave.").waitFor();
  await context.close();
  nothingWentWrong();
});

test("a sheet goes to a file and back, and another puzzle's file is refused", async () => {
  const { page, puzzle, context } = await atPuzzle();
  const [cell] = emptyCells(puzzle);
  await page.locator(`[data-cell="${cell}"]`).click();
  await page.keyboard.press("4");
  await page.getByText("Your sheet").click();
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByText("Save it to a file").click()]);
  const saved = await download.path();
  await page.getByText("Rub out everything").click();
  assert.match(await label(page, cell), /empty$/);
  await page.locator("input[type=file]").setInputFiles(saved);
  await page.waitForFunction((cell) => /pencilled 4$/.test(document.querySelector(`[data-cell="${cell}"] .said`).textContent), cell);
  await page.goto(`${site.base}puzzles/low-wick.html`);
  await page.getByText("Your sheet").click();
  await page.locator("input[type=file]").setInputFiles(saved);
  await page.getByText("That file is a sheet of another puzzle").waitFor();
  await context.close();
  nothingWentWrong();
});

test("the times of a solve are a test solve that the program reads", async (t) => {
  const galley = new URL("../target/debug/galley", import.meta.url).pathname;
  const { page, puzzle, context } = await atPuzzle();
  await fillByKeyboard(page, puzzle);
  await page.getByText("Your sheet").click();
  await page.getByLabel("Your name").fill("Teasel");
  await page.getByLabel("With this kind of puzzle you are a").selectOption("regular");
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByText("Save my times for the editor").click()]);
  assert.equal(download.suggestedFilename(), "first-light-teasel.json");
  const folder = mkdtempSync(join(tmpdir(), "galley-solve-"));
  t.after(() => rmSync(folder, { recursive: true }));
  cpSync(new URL("../demo/lantern-room/", import.meta.url).pathname, folder, { recursive: true });
  cpSync(await download.path(), join(folder, "solves", download.suggestedFilename()));
  const run = spawnSync(galley, ["calibrate", folder, "--json", "--quiet"], { encoding: "utf8" });
  assert.equal(run.status, 0, run.stderr);
  assert.ok(!run.stderr.includes("teasel"), run.stderr);
  await context.close();
  nothingWentWrong();
});

test("after one visit the whole site works without a network", async () => {
  const context = await site.visitor();
  const page = await context.newPage();
  await page.goto(`${site.base}index.html`);
  await page.evaluate(() => navigator.serviceWorker.ready);
  await context.setOffline(true);
  await page.goto(`${site.base}puzzles/low-wick.html`);
  await page.locator(".question").click();
  await page.locator(".answers h3").waitFor();
  assert.match(await page.locator(".answers").textContent(), /Look at /);
  await page.goto(site.base);
  assert.equal(await page.locator(".entry").count(), 12);
  await context.close();
  nothingWentWrong();
});

test("a page that is read from a disk can be played on, with help", async () => {
  const context = await site.visitor();
  const page = await context.newPage();
  await page.goto(`file://${FOLDER}${PUZZLE}`);
  const puzzle = await puzzleOf(page);
  await page.locator(`[data-cell="${emptyCells(puzzle)[0]}"]`).click();
  await page.keyboard.press("4");
  await page.locator(".question").click();
  await page.locator(".answers h3").waitFor();
  await context.close();
  nothingWentWrong();
});

test("time that nobody looked on does not count", async () => {
  const context = await site.visitor();
  const page = await context.newPage();
  await page.clock.install();
  await page.goto(site.base + PUZZLE);
  const puzzle = await puzzleOf(page);
  await page.clock.runFor(600_000);
  assert.equal(await page.locator(".time").textContent(), "less than a minute");
  await page.locator(`[data-cell="${emptyCells(puzzle)[0]}"]`).click();
  await page.keyboard.press("4");
  await page.clock.runFor(125_000);
  assert.equal(await page.locator(".time").textContent(), "2 minutes");
  // Behind another tab ticks go on, and the clock does not.
  const hide = (isHidden) =>
    page.evaluate((isHidden) => {
      Object.defineProperty(document, "hidden", { value: isHidden, configurable: true });
      document.dispatchEvent(new Event("visibilitychange"));
    }, isHidden);
  await hide(true);
  await page.clock.runFor(600_000);
  await hide(false);
  await page.clock.runFor(1_000);
  assert.equal(await page.locator(".time").textContent(), "2 minutes");
  await page.clock.runFor(60_000);
  assert.equal(await page.locator(".time").textContent(), "3 minutes");
  await page.getByText("Hide the time").click();
  assert.ok(await page.locator(".time").isHidden());
  await context.close();
  nothingWentWrong();
});
