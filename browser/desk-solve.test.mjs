// Test solves at the desk, in a real browser: what happens when the desk is away, the page out of sight, the browser's store
// full, and the solve gone on with elsewhere.

import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { opened } from "./desk.mjs";
import { launched } from "./site.mjs";

const LONG = { timeout: 60_000 };

const PUZZLE = `format = 1
title = "Tiny"
setter = "Fern"
size = "4x4"
grid = """
1 . | . .
3 . | 2 .
----+----
. . | . .
. . | 4 .
"""
`;
const SOLUTION = [1, 2, 3, 4, 3, 4, 2, 1, 4, 3, 1, 2, 2, 1, 4, 3];
const OPEN = [1, 2, 3, 5, 7, 8, 9, 10, 11, 12, 13, 15];

let browser;
before(async () => (browser = await launched()));
after(() => browser.close());

/** A desk with a small puzzle, and a page on which somebody has begun to solve it. */
async function begun(t, who = "Tansy") {
  const desk = await opened(browser, t, { alter: (pack) => writeFileSync(join(pack, "puzzles/tiny.toml"), PUZZLE) });
  await desk.page.goto(`${desk.base}puzzles/tiny/solve`);
  await begin(desk.page, who);
  return desk;
}

async function begin(page, who) {
  await page.getByLabel("Who solves").fill(who);
  await page.getByRole("button", { name: "Begin", exact: true }).press("Enter");
  await page.locator(".play").waitFor();
}

/** Writes a digit in ink. */
async function write(page, cell, digit) {
  await page.locator(`[data-cell="${cell}"]`).click();
  await page.keyboard.press(String(digit));
  await page.keyboard.press(String(digit));
}

async function fill(page, cells = OPEN) {
  for (const it of cells) await write(page, it, SOLUTION[it]);
}

/** What is said of a cell. */
const said = (page, cell) => page.locator(`[data-cell="${cell}"] .said`).textContent();

/** Once the desk was told everything: what it has in its log. */
async function logged(page) {
  await page.waitForFunction(() => !Object.keys(localStorage).some((it) => it.startsWith("galley desk log")));
  return page.evaluate(async () => {
    const id = Object.entries(localStorage).find(([key]) => key.startsWith("galley desk solve "))[1];
    return (await (await fetch(`/api/1/solves/${id}`)).json()).events;
  });
}

/** Makes the page believe that another tab lies before it, or no longer. */
const hide = (page, isHidden) =>
  page.evaluate((isHidden) => {
    Object.defineProperty(document, "hidden", { value: isHidden, configurable: true });
    document.dispatchEvent(new Event("visibilitychange"));
  }, isHidden);

test("a board that is filled while the desk is away is solved once it is back", LONG, async (t) => {
  const { page, killed } = await begun(t);
  await killed(async () => {
    await fill(page);
    await page.getByText("The desk does not answer.").waitFor();
  });
  // Without a reload, though the desk that was started anew has another token.
  await page.getByText(/^Solved in less than a minute/).waitFor({ timeout: 40_000 });
  assert.equal((await logged(page)).filter((it) => it.what === "solved").length, 1);
});

for (const isLoaded of [false, true]) {
  test(`a board that could not be judged is judged ${isLoaded ? "when the page is loaded again" : "later, by itself"}`, LONG, async (t) => {
    const { page } = await begun(t);
    await page.route("**/judged", (it) => it.abort("connectionrefused"));
    await fill(page);
    await page.getByText("The desk does not answer.").waitFor();
    await page.unroute("**/judged");
    if (isLoaded) await page.reload();
    await page.getByText(/^Solved in less than a minute/).waitFor();
    assert.ok(await page.getByRole("button", { name: "Give up" }).isHidden());
  });
}

test("a full board that is wrong can be mended", LONG, async (t) => {
  const { page } = await begun(t);
  await fill(page, OPEN.slice(1));
  await write(page, 1, 3);
  await page.getByText("The board is full, but something in it does not fit.").waitFor();
  await page.keyboard.press("2");
  await page.getByText(/^Solved in less than a minute/).waitFor();
});

test("a key that is pressed once more while the last digit is judged changes nothing of the end", LONG, async (t) => {
  const { page } = await begun(t);
  await fill(page, OPEN.slice(1));
  // The desk has judged, and its answer comes after another key.
  await page.route("**/judged", async (it) => {
    const answer = await it.fetch();
    await page.keyboard.press("2");
    await it.fulfill({ response: answer });
  });
  await write(page, 1, 2);
  await page.getByText(/^Solved in less than a minute/).waitFor();
  assert.match(await said(page, 1), /, 2$/);
  assert.equal((await logged(page)).findLast((it) => it.what === "ink").value, 0, "the key came after the end");
  await page.reload();
  await page.locator(".play").waitFor();
  assert.match(await said(page, 1), /, 2$/);
});

test("time out of sight does not count", LONG, async (t) => {
  const { page } = await begun(t);
  await page.clock.install();
  await page.reload();
  await write(page, 1, 2);
  await page.clock.runFor(20_000);
  await hide(page, true);
  await page.clock.runFor(600_000);
  await hide(page, false);
  await page.clock.runFor(20_000);
  await write(page, 2, 3);
  await page.clock.runFor(5_000);
  const events = await logged(page);
  const at = (what) => events.filter((it) => it.what === what).at(-1).after_ms;
  assert.ok(at("pause") >= 20_000 && at("pause") < 25_000, `paused at ${at("pause")}`);
  assert.ok(at("resume") - at("pause") < 100, `went on at ${at("resume")}`);
  assert.ok(at("ink") >= 40_000 && at("ink") < 50_000, `written at ${at("ink")}`);
});

test("while the desk is away it is asked seldom, and told everything afterwards", LONG, async (t) => {
  const { page } = await begun(t);
  let n = 0;
  await page.route("**/events", (it) => (n++, it.abort("connectionrefused")));
  for (let round = 0; round < 20; round++) await write(page, 1, 2);
  await page.waitForTimeout(5_000);
  assert.ok(n >= 2 && n <= 4, `asked ${n} times`);
  await page.unroute("**/events");
  assert.equal((await logged(page)).length >= 40, true);
});

test("what the desk will never take is put aside, and the rest does not wait for it", LONG, async (t) => {
  const { page } = await begun(t);
  await write(page, 1, 2);
  await logged(page);
  await page.evaluate(() => {
    const id = Object.entries(localStorage).find(([key]) => key.startsWith("galley desk solve "))[1];
    const event = (what, n) => ({ id: `forged-${n}`, after_ms: 50_000 + n, what, cell: 2, value: 3 });
    localStorage.setItem(`galley desk log ${id}`, JSON.stringify([event("ink", 1), event("ink", 2), event("cheat", 3), event("ink", 4)]));
  });
  await page.reload();
  await page.getByText(/did not take something that was noted here \(cheat\)/).waitFor();
  const events = await logged(page);
  assert.deepEqual(events.slice(-3).map((it) => it.id), ["forged-1", "forged-2", "forged-4"]);
  const aside = await page.evaluate(() => Object.entries(localStorage).find(([key]) => key.startsWith("galley desk put aside"))[1]);
  assert.deepEqual(JSON.parse(aside).map((it) => it.id), ["forged-3"]);
});

test("in a browser whose store is full it can be written, and the desk is told", LONG, async (t) => {
  const { page } = await begun(t);
  // What is still on its way would make room in the store when it has arrived.
  await logged(page);
  await page.route("**/events", (it) => it.abort("connectionrefused"));
  await page.evaluate(() => {
    for (let text = "x".repeat(1 << 22); text.length > 0; text = text.slice(text.length / 2 + 1)) {
      try {
        for (let n = 0; ; n++) localStorage.setItem(`filled ${text.length} ${n}`, text);
      } catch {}
    }
  });
  await write(page, 1, 2);
  // That the desk is away is said beside it, not in its place.
  await page.getByText(/The desk does not answer.*store is full or switched off/).waitFor();
  assert.match(await said(page, 1), /, 2$/);
  await page.unroute("**/events");
  await page.waitForResponse(/\/events$/);
  const events = await logged(page);
  assert.deepEqual(events.filter((it) => it.what === "ink").map((it) => [it.cell, it.value]), [[1, 2]]);
});

test("when a solve has ended, another can be begun in the same browser, by somebody else", LONG, async (t) => {
  const { base, page } = await begun(t);
  assert.ok(await page.getByRole("button", { name: "Begin another test solve" }).isHidden());
  await fill(page);
  await page.getByText(/^Solved in less than a minute/).waitFor();
  await Promise.all([page.waitForEvent("load"), page.getByRole("button", { name: "Begin another test solve" }).click()]);
  await begin(page, "Sorrel");
  assert.match(await said(page, 1), /empty$/);
  await write(page, 1, 2);
  assert.equal((await logged(page)).filter((it) => it.what === "ink").length, 1);
  await page.goto(`${base}solves`);
  for (const it of ["Tansy, regular", "Sorrel, regular"]) await page.getByRole("link", { name: it }).waitFor();
});

test("a solve that was gone on with in another browser stands here as it stands there", LONG, async (t) => {
  const { base, page } = await begun(t);
  await write(page, 1, 2);
  await logged(page);
  const [key, id] = await page.evaluate(() => Object.entries(localStorage).find(([key]) => key.startsWith("galley desk solve ")));
  const elsewhere = await (await browser.newContext()).newPage();
  t.after(() => elsewhere.context().close());
  await elsewhere.addInitScript(([key, id]) => localStorage.setItem(key, id), [key, id]);
  await elsewhere.goto(`${base}puzzles/tiny/solve`);
  await elsewhere.locator('[data-cell="1"] .said', { hasText: /, 2$/ }).waitFor({ state: "attached" });
  await write(elsewhere, 2, 3);
  await logged(elsewhere);

  // Looked at again, and loaded again.
  await hide(page, true);
  await Promise.all([page.waitForEvent("load"), hide(page, false)]);
  await page.locator(".play").waitFor();
  assert.match(await said(page, 2), /, 3$/);
  await write(elsewhere, 3, 4);
  await logged(elsewhere);
  await page.reload();
  await page.locator(".play").waitFor();
  assert.match(await said(page, 3), /, 4$/);
  await write(page, 5, 4);
  const events = await logged(page);
  const times = events.map((it) => it.after_ms);
  assert.deepEqual(times, times.toSorted((a, b) => a - b));
  assert.deepEqual(events.filter((it) => it.what === "ink").map((it) => it.cell), [1, 2, 3, 5]);
});

test("help comes a part at a time, and the desk notes what it told", LONG, async (t) => {
  const { base, page } = await begun(t);
  await write(page, 1, 2);
  const parts = [];
  for (const question of ["Where?", "What?", "Why?"]) {
    const answer = page.waitForResponse((it) => it.url().endsWith("/help"));
    await page.locator(".question", { hasText: question }).click();
    parts.push(Object.keys(await (await answer).json()).sort().join(" "));
    await page.locator(".answers h3", { hasText: question }).waitFor();
  }
  assert.deepEqual(parts, ["kind where", "kind taught what", "kind settles why"]);
  await page.getByRole("button", { name: "Write it on my sheet" }).click();
  await write(page, 15, 4);
  await page.getByRole("button", { name: "Is everything right so far?" }).click();
  await page.locator(".answers h3", { hasText: "Where?" }).waitFor();
  await page.locator(".question", { hasText: "Which?" }).click();
  await page.locator(".answers h3", { hasText: "Which?" }).waitFor();
  const events = await logged(page);
  assert.deepEqual(events.filter((it) => it.what === "hint").map((it) => it.value), [1, 2, 3, 1, 2]);
  await page.goto(`${base}solves`);
  await page.getByRole("link", { name: "Tansy, regular" }).click();
  await page.getByText("asked where to look").first().waitFor();
  assert.equal(await page.locator("dt:text('Hints asked for') + dd").textContent(), "2");
});
