// The stage and the presenter's page: two windows in step, from a disk and from a host, and a log of what happened.
//
// The pages are those of `cargo run -p rehearse --example stage -- demo/lantern-room target/stage`.

import assert from "node:assert/strict";
import { createReadStream, existsSync, readFileSync } from "node:fs";
import { createServer } from "node:http";
import { createRequire } from "node:module";
import { extname, join } from "node:path";
import { after, before, test } from "node:test";
import { TYPES, launched } from "./site.mjs";
import { FOLDER, watched } from "./stage.mjs";

const PUZZLE = "small-hours";
/** A walkthrough that is told by hidden and naked singles alone. */
const SINGLES = "first-light";
/** At some step of its walkthrough something easier is open that comes later. */
const EASIER = "low-wick";
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const TIME = { timeout: 60_000 };

let browser;
let server;
let host;
const faults = [];
const disk = `file://${join(FOLDER, "/")}`;

before(async () => {
  browser = await launched();
  server = createServer((request, response) => {
    const file = join(FOLDER, new URL(request.url, "http://localhost").pathname);
    if (!existsSync(file)) return response.writeHead(404).end();
    response.writeHead(200, { "content-type": TYPES[extname(file)] ?? "application/octet-stream" });
    createReadStream(file).pipe(response);
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  host = `http://127.0.0.1:${server.address().port}/`;
});
after(async () => {
  await browser.close();
  server.close();
});

/** A presenter with a browser of their own, at that address; everything that goes wrong in any window is noted. */
async function presenter(base, options = {}, id = PUZZLE) {
  const context = await browser.newContext({ viewport: { width: 1600, height: 900 }, ...options });
  context.setDefaultTimeout(10_000);
  context.on("page", (page) => {
    page.on("pageerror", (fault) => faults.push(`${page.url()}: ${fault.message}`));
    page.on("console", (it) => ["error", "warning"].includes(it.type()) && faults.push(`${page.url()}: ${it.text()}`));
    page.on("request", (request) => {
      const isOwn = [base, "blob:", "data:"].some((it) => request.url().startsWith(it));
      if (!isOwn) faults.push(`${page.url()} asked for ${request.url()}`);
    });
  });
  const page = await context.newPage();
  await page.goto(`${base}${id}.presenter.html`);
  return { context, page, plan: JSON.parse(await page.locator("#plan-data").textContent()), ...(await puzzleOf(page)) };
}

async function puzzleOf(page) {
  const puzzle = JSON.parse(await page.locator("#puzzle-data").textContent());
  return { puzzle, key: `galley stage ${puzzle.fingerprint}` };
}

/** The stage, opened by its key. */
async function opened(page) {
  const [stage] = await Promise.all([page.context().waitForEvent("page"), page.keyboard.press("w")]);
  await stage.locator(".play").waitFor({ state: "attached" });
  return stage;
}

const press = async (page, ...keys) => {
  for (const it of keys) await page.keyboard.press(it);
};
/** What a screen reader reads of every cell, clue and section: equal in windows that are in step. */
const board = (page) => page.locator(".play .said").allTextContents();
const state = (page, key) => page.evaluate((it) => JSON.parse(localStorage.getItem(it)), key);
const nowStep = async (page) => Number(/Step (\d+)/.exec(await page.locator(".now .said").textContent())?.[1] ?? 0);

async function inStep(a, b) {
  for (let n = 0; n < 50; n++) {
    if (String(await board(a)) === String(await board(b))) return;
    await a.waitForTimeout(100);
  }
  assert.deepEqual(await board(a), await board(b));
}

async function ended(context) {
  await context.close();
  assert.deepEqual(faults.splice(0), []);
}

/** The log, as it is saved. */
async function saved(page) {
  await page.bringToFront();
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator(".logs .save").first().click()]);
  return { name: download.suggestedFilename(), log: JSON.parse(readFileSync(await download.path(), "utf8")) };
}

/** The cells and digits that the plan writes, in order. */
const planned = (plan) => plan.steps.flatMap((it, at) => it.ink.map(([cell, digit]) => ({ cell, digit, step: at + 1 })));

/** Goes to a cell with the keys alone. */
async function goTo(page, cell, side) {
  await press(page, "Control+Home");
  for (let n = 0; n < Math.floor(cell / side); n++) await press(page, "ArrowDown");
  for (let n = 0; n < cell % side; n++) await press(page, "ArrowRight");
}

const name = (cell, side) => `r${Math.floor(cell / side) + 1}c${(cell % side) + 1}`;

for (const where of ["disk", "host"]) {
  test(`from a ${where}: forward, back and passages from either window, and both stay in step`, TIME, async () => {
    const { context, page, plan } = await presenter(where === "disk" ? disk : host);
    const stage = await opened(page);
    assert.equal(await stage.locator("body").getAttribute("data-shown"), "title");
    await press(page, "n", "PageDown");
    await inStep(page, stage);
    assert.equal(await nowStep(page), 2);
    assert.equal(await stage.locator("body").getAttribute("data-shown"), "board");
    await press(stage, "n", "n", "b");
    await inStep(page, stage);
    assert.equal(await nowStep(page), 3);
    // What a step says and writes comes at once.
    const before = planned(plan)[0];
    await press(stage, ...Array(before.step).fill("n"));
    await page.waitForFunction((it) => document.querySelector(".now .said").textContent.includes(it), `Step ${3 + before.step}`);
    await inStep(page, stage);
    assert.match(await stage.locator(`[data-cell="${before.cell}"] .said`).textContent(), new RegExp(`, ${before.digit}$`));
    // Passages: by key from the stage, and from the list.
    await press(stage, "Shift+B");
    await page.waitForFunction(() => document.querySelector(".now .said").textContent.includes("Step 1 ") || document.querySelector(".now .number").textContent === "Step 1");
    await press(stage, "Shift+PageDown");
    await page.waitForFunction((it) => document.querySelector(".now .number")?.textContent === it, `Step ${plan.passages[1].first}`);
    await page.locator(".passages button").last().click();
    await inStep(page, stage);
    assert.equal(await nowStep(page), plan.passages.at(-1).first);
    assert.equal(await page.locator('.passages [aria-current="step"]').count(), 1);
    // All the way: the board is full, and the last key does nothing more.
    await press(page, ...Array(plan.steps.length + 2).fill("n"));
    await inStep(page, stage);
    assert.match(await page.locator(".now .said").textContent(), /^Close/);
    await press(stage, "b");
    await page.waitForFunction((it) => document.querySelector(".now .number")?.textContent === `Step ${it}`, plan.steps.length);
    assert.ok((await board(stage)).every((it) => !it.includes("empty")));
    await ended(context);
  });

  test(`from a ${where}: either window is closed and opened again, and nothing is lost`, TIME, async () => {
    const { context, page, plan, key } = await presenter(where === "disk" ? disk : host);
    let stage = await opened(page);
    await press(page, "y", "n", "n", "n");
    await inStep(page, stage);
    await stage.close();
    await press(page, "n");
    // A browser takes a moment to tell that a window is gone.
    await page.waitForTimeout(300);
    stage = await opened(page);
    await inStep(page, stage);
    assert.equal(await stage.locator("body").getAttribute("data-shown"), "board");
    await press(stage, "n");
    await inStep(page, stage);
    // The presenter's page goes; the stage goes on alone, and opens it again.
    await page.close();
    await press(stage, "n");
    const again = await opened(stage);
    await again.locator(".now .number").waitFor();
    await inStep(again, stage);
    assert.equal(await nowStep(again), 6);
    // A reload in the middle.
    await again.reload();
    await press(stage, "n");
    await again.waitForFunction(() => document.querySelector(".now .number")?.textContent === "Step 7");
    await stage.reload();
    await press(again, "n");
    await inStep(again, stage);
    // Both are closed: what the browser has kept is all there.
    await stage.close();
    await again.close();
    const last = await context.newPage();
    await last.goto(`${where === "disk" ? disk : host}${PUZZLE}.presenter.html`);
    assert.equal(await nowStep(last), 8);
    const { log } = await saved(last);
    const steps = log.events.filter((it) => it.is === "step");
    assert.deepEqual(steps.map((it) => it.step), [1, 2, 3, 4, 5, 6, 7, 8]);
    assert.ok(steps.every((it) => it.key === plan.steps[it.step - 1].key));
    assert.ok((await state(last, key)).takes.length === 1);
    await ended(context);
  });
}

test("windows that nobody opened from each other find each other on a host", TIME, async () => {
  const { context, page } = await presenter(host);
  const stage = await context.newPage();
  await stage.goto(`${host}${PUZZLE}.html`);
  await press(page, "n", "n");
  await inStep(page, stage);
  await press(stage, "n");
  await page.waitForFunction(() => document.querySelector(".now .number")?.textContent === "Step 3");
  await page.waitForFunction(() => !document.querySelector(".state").textContent.includes("not open"));
  await ended(context);
});

test("the stage shows nothing but what is called: no control, no word of the plan", TIME, async () => {
  const { context, page } = await presenter(disk);
  const stage = await opened(page);
  const seen = async () => (await stage.locator("main").innerText()).replaceAll(/\s+/g, " ");
  assert.match(await seen(), /^Small hours Set by/);
  // The opening is read out from the presenter's page, and so is the note on the first step.
  assert.match(await page.locator(".now .said").innerText(), /^Opening[^]*Small hours, set by/);
  assert.match(await page.locator(".next .said").innerText(), /Wave at the back row\./);
  await press(stage, "r");
  assert.match(await seen(), /Rules/);
  await press(page, "s");
  await stage.waitForFunction(() => document.body.dataset.shown === "board");
  assert.equal(await stage.locator("button, input, select, a, summary").count(), 0);
  await press(page, "n", "?");
  await page.locator(".watch .open").waitFor();
  const words = await page.locator(".now .said").innerText();
  for (const it of [...words.split("\n").filter(Boolean), await page.locator(".watch .open").innerText()]) {
    assert.ok(!(await seen()).includes(it), it);
  }
  await press(page, "d");
  await stage.waitForFunction(() => document.documentElement.dataset.ground === "dark");
  const paper = await stage.evaluate(() => getComputedStyle(document.body).backgroundColor);
  assert.equal(paper, "rgb(0, 0, 0)");
  await ended(context);
});

test("a log of everything, with what was undone and the pauses", TIME, async () => {
  const { context, page, puzzle, plan } = await presenter(disk);
  const stage = await opened(page);
  const { side } = puzzle;
  const [first] = planned(plan);
  // Nobody works in both windows within a few milliseconds: what is done in one is known in the other first.
  const seen = (text) => page.locator(".state", { hasText: text }).waitFor();
  await press(page, "o");
  await page.waitForTimeout(300);
  await goTo(stage, first.cell, side);
  await press(stage, "c", "c", String(first.digit));
  await page.waitForTimeout(300);
  await press(page, "p");
  await page.waitForTimeout(300);
  await press(stage, "p");
  await seen("is being logged");
  await press(page, "Control+z");
  await inStep(page, stage);
  await press(stage, "Control+y");
  await press(stage, "Backspace", "Shift+Digit4", ...Array(plan.passages.length + 1).fill("Shift+N"));
  await page.locator(".now .head", { hasText: "Close" }).waitFor();
  await press(page, "x");
  // It is ended, so nothing more is logged.
  await press(page, "b");
  await seen("The recording is ended");
  const { name: file, log } = await saved(page);
  assert.match(file, /^small-hours\.recording\.\d{4}-\d\d-\d\d-\d{6}\.json$/);
  const { events, ...about } = log;
  assert.deepEqual(Object.keys(about), ["format", "puzzle", "fingerprint", "kind", "started", "seconds"]);
  assert.deepEqual([log.format, log.puzzle, log.fingerprint, log.kind], [1, PUZZLE, puzzle.fingerprint, "recording"]);
  assert.match(log.started, /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/);
  const cell = name(first.cell, side);
  const others = events.filter((it) => it.is !== "step");
  assert.deepEqual(others.map((it) => it.is), ["opening", "crust", "undone", "digit", "pause", "resume", "undone", "digit", "undone", "mark", "close"]);
  assert.deepEqual(others.at(-2), { at: others.at(-2).at, is: "mark", cell, digit: 4 });
  const steps = events.filter((it) => it.is === "step").map((it) => it.step);
  assert.deepEqual(steps.slice(-plan.passages.length), plan.passages.map((it) => it.first));
  const digits = events.filter((it) => it.is === "digit");
  assert.deepEqual(digits.map((it) => [it.cell, it.digit]), [[cell, first.digit], [cell, first.digit]]);
  const undone = events.filter((it) => it.is === "undone");
  assert.deepEqual(undone.map((it) => [it.cell, it.since]), [
    [cell, events.find((it) => it.is === "crust").at],
    [cell, digits[0].at],
    [cell, digits[1].at],
  ]);
  assert.ok(events.every((it, at) => at === 0 || it.at >= events[at - 1].at));
  assert.ok(events.every((it) => Math.abs(it.at * 1000 - Math.round(it.at * 1000)) < 1e-6));
  assert.ok(log.seconds >= events.at(-1).at);
  const [paused, resumed] = ["pause", "resume"].map((is) => events.find((it) => it.is === is).at);
  assert.ok(resumed - paused >= 0.3, `${resumed - paused}`);
  // The clock leaves the pause out.
  assert.equal(await page.locator(".state").textContent().then((it) => it.startsWith("The recording is ended")), true);
  await ended(context);
});

test("solved freely: the presenter alone is told what came too early, and what is wrong", TIME, async () => {
  const { context, page, puzzle, plan } = await presenter(disk);
  const stage = await opened(page);
  const { side } = puzzle;
  await press(page, "y");
  await page.waitForTimeout(600);
  // The last digit of the plan, from the printed board: it is right, and cannot be known.
  const last = planned(plan).at(-1);
  await goTo(stage, last.cell, side);
  await press(stage, String(last.digit));
  const early = page.locator(".watch .early");
  await early.first().waitFor();
  assert.match(await early.first().textContent(), new RegExp(`${name(last.cell, side)} is ${last.digit} was written before it can be known.*step ${last.step}`));
  assert.ok(!(await stage.locator("body").textContent()).includes("before it can be known"));
  // A wrong digit is told too, and not what would be right.
  const [first] = planned(plan);
  await goTo(stage, first.cell, side);
  await press(stage, String((first.digit % side) + 1));
  await page.waitForFunction(() => document.querySelectorAll(".watch .early").length === 2);
  assert.match(await early.first().textContent(), /is not \d\.$/);
  await press(stage, "Control+z", "Control+z");
  // What is told is not lost with the page.
  await page.reload();
  assert.equal(await early.count(), 2);
  await ended(context);
});

test("solved freely in the order of the plan: it follows by itself, and warns of nothing", TIME, async () => {
  const { context, page, puzzle, plan, key } = await presenter(disk, {}, SINGLES);
  const stage = await opened(page);
  await page.waitForTimeout(600);
  for (const it of planned(plan).slice(0, 6)) {
    await goTo(stage, it.cell, puzzle.side);
    await press(stage, String(it.digit));
  }
  await inStep(page, stage);
  assert.equal((await state(page, key)).step, planned(plan)[5].step);
  assert.equal(await nowStep(page), planned(plan)[5].step);
  // What the steps point at is not shown: nobody has said their words.
  assert.equal(await stage.locator(".board svg g:empty").count(), 2);
  await page.waitForTimeout(1_000);
  assert.equal(await page.locator(".watch .early").count(), 0);
  await ended(context);
});

test("a digit that follows is no warning", TIME, async () => {
  const { context, page, puzzle, plan } = await presenter(disk);
  await page.waitForTimeout(600);
  const [first] = planned(plan);
  await press(page, ...Array(first.step - 1).fill("n"));
  await page.waitForTimeout(600);
  await goTo(page, first.cell, puzzle.side);
  await press(page, String(first.digit));
  await page.waitForTimeout(1_000);
  assert.equal(await page.locator(".watch .early").count(), 0);
  await ended(context);
});

test("an easier step than the planned one is told to the presenter, and goes with it", TIME, async () => {
  const { easier } = await watched(EASIER);
  // One that is told by itself, not from step to step.
  const step = easier.find((it) => !easier.includes(it + 1));
  const { context, page, plan } = await presenter(disk, {}, EASIER);
  const stage = await opened(page);
  await page.bringToFront();
  await press(page, ...Array(step - 1).fill("n"));
  await page.locator(".watch .open").waitFor();
  const told = await page.locator(".watch .open").textContent();
  assert.ok(told.startsWith(`An easier step is open than the planned one, which is ${plan.steps[step - 1].name}: `), told);
  assert.ok(!(await stage.locator("body").textContent()).includes("easier step"));
  await press(page, "n");
  await page.locator(".watch .open").waitFor({ state: "hidden" });
  await ended(context);
});

test("what is kept and cannot be read is put aside, and a full store is said", TIME, async () => {
  const { context, page, key } = await presenter(host);
  await press(page, "n");
  await page.goto(`${host}two-moths.html`);
  await page.evaluate((it) => localStorage.setItem(it, "{"), key);
  await page.goto(`${host}${PUZZLE}.presenter.html`);
  assert.match(await page.locator("[role=alert]").textContent(), /put aside/);
  assert.equal(await nowStep(page), 0);
  const aside = await page.evaluate((it) => Object.keys(localStorage).filter((one) => one.startsWith(`${it} put aside`)).length, key);
  assert.equal(aside, 1);
  await page.evaluate(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException("full", "QuotaExceededError");
    };
  });
  await press(page, "n");
  assert.match(await page.locator("[role=alert]").textContent(), /does not keep the log/);
  assert.equal(await nowStep(page), 1);
  await ended(context);
});

test("a message that is not ours changes nothing", TIME, async () => {
  const { context, page, key } = await presenter(host);
  await press(page, "n");
  const before = await state(page, key);
  await page.evaluate(
    async (it) => {
      const name = it.replace("galley stage ", "galley stage ");
      const channel = new BroadcastChannel(name);
      const stamp = [10_000, "z"];
      for (const message of [null, "x", { galley: name }, { galley: name, stamp, text: "{" }, { galley: "other", stamp, text: "{}" }]) {
        channel.postMessage(message);
        window.postMessage(message, "*");
      }
      await new Promise((resolve) => setTimeout(resolve, 300));
      channel.close();
    },
    key,
  );
  assert.deepEqual(await state(page, key), before);
  assert.equal(await nowStep(page), 1);
  await ended(context);
});

for (const [width, ground] of [[320, "light"], [320, "dark"], [900, "light"], [900, "dark"], [1600, "light"], [1600, "dark"]]) {
  test(`at ${width} pixels, ${ground}: nothing for axe to find, nothing cut off`, TIME, async () => {
    const { context, page } = await presenter(host, { viewport: { width, height: 800 }, bypassCSP: true });
    await press(page, "y", "n", "n", "?");
    await page.locator(".watch .open").waitFor();
    if (ground === "dark") await press(page, "d");
    await page.evaluate(() => document.querySelectorAll("details").forEach((it) => (it.open = true)));
    const stage = await context.newPage();
    await stage.goto(`${host}${PUZZLE}.html`);
    for (const shown of ["s", "t", "r"]) {
      await press(stage, shown);
      await axe(stage, `the stage, ${shown}`);
    }
    await axe(page, "the presenter's page");
    await ended(context);
  });
}

async function axe(page, what) {
  const isWider = await page.evaluate(() => document.documentElement.scrollWidth > innerWidth);
  assert.ok(!isWider, `${what} is wider than its window`);
  await page.evaluate(AXE);
  const found = await page.evaluate((values) => globalThis.axe.run(document, { runOnly: { type: "tag", values } }), TAGS);
  const said = found.violations.map((it) => `${what}: ${it.id}: ${it.help}\n${it.nodes.slice(0, 3).map((one) => one.html.slice(0, 160)).join("\n")}`);
  assert.deepEqual(said, []);
  assert.ok(found.passes.length > 10);
}

for (const [width, height] of [[1920, 1080], [3840, 2160], [640, 900], [320, 640]]) {
  test(`the board is as large as a window of ${width} by ${height} allows`, TIME, async () => {
    const { context } = await presenter(disk);
    const stage = await context.newPage();
    await stage.setViewportSize({ width, height });
    await stage.goto(`${disk}${PUZZLE}.html`);
    await press(stage, "s");
    const box = await stage.locator(".stand").boundingBox();
    const margin = Math.min(width, height) * 0.05;
    assert.ok(box.x >= 0 && box.y >= 0 && box.x + box.width <= width && box.y + box.height <= height, JSON.stringify(box));
    assert.ok(width - box.width <= margin || height - box.height <= margin, JSON.stringify(box));
    await ended(context);
  });
}
