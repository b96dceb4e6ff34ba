// The desk in a real browser: by keyboard alone, as axe-core sees it, and beside another program that saves files.

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

let browser;
before(async () => (browser = await launched()));
after(() => browser.close());

const opened = (t, alter) => atDesk(browser, t, { alter });

const cell = (page, at) => page.locator(`[data-cell="${at}"]`);
const verdict = (page) => page.locator(".verdict");

for (const width of [320, 900, 1600]) {
  for (const colorScheme of ["light", "dark"]) {
    test(`at ${width} pixels, ${colorScheme}: nothing for axe to find, nothing cut off`, LONG, async (t) => {
      const { base, page } = await opened(t, (pack) => writeFileSync(join(pack, "puzzles/broken.toml"), "title = 3\n"));
      await page.setViewportSize({ width, height: 900 });
      await page.emulateMedia({ colorScheme });
      for (const path of ["", "puzzles/first-light", "puzzles/broken", "puzzles/low-wick/solve", "solves", "puzzles/low-wick/solves", "a review"]) {
        if (path === "a review") await page.goto(base + (await page.locator("td a").first().getAttribute("href")).slice(1));
        else await page.goto(base + path);
        if (path === "a review") await page.getByText("is being found out").waitFor({ state: "detached" });
        if (path === "") await page.locator("ol.order").waitFor();
        // A page as it is used: everything unfolded, something moved, typed, offered and compared.
        await page.evaluate(() => document.querySelectorAll("details").forEach((it) => (it.open = true)));
        if (path === "") {
          await page.locator("[data-by='1']").first().click();
          await page.getByText(/the order costs \d+/).waitFor();
        }
        if (path.endsWith("first-light")) {
          for (let at = 0; at < 81 && (await verdict(page).getAttribute("data-verdict")) !== "many"; at++) {
            if ((await cell(page, at).inputValue()) === "") continue;
            await Promise.all([page.waitForResponse(/\/verdict$/), cell(page, at).fill("")]);
          }
          await page.locator(".verdict[data-verdict='many']").waitFor();
          await page.getByRole("button", { name: "What would make it sound?" }).click();
          await page.getByRole("button", { name: /^Take it: / }).first().waitFor();
          await page.getByRole("button", { name: "What if it stood so?" }).click();
          await page.locator("#tried table").waitFor();
          await page.getByLabel(/^Cell, from/).fill("r5c5");
          await page.getByRole("button", { name: "Why is it so?" }).click();
          await page.locator("#answer li, #answer p").first().waitFor();
        }
        if (path.endsWith("/solve")) {
          await page.getByLabel("Who solves").fill("Tansy");
          await page.evaluate(AXE);
          await page.getByRole("button", { name: "Begin" }).click();
          await page.locator('.cell:not([aria-readonly="true"])').first().click();
          await page.keyboard.press("5");
          await page.getByRole("button", { name: "Where?" }).click();
          await page.locator(".help .answers h3").waitFor();
          // What is written on the sheet lies over the picture of it.
          const [sheet, picture] = await Promise.all([page.locator(".play"), page.locator("figure.board svg").first()].map((it) => it.boundingBox()));
          assert.ok(Math.abs(sheet.height - picture.height) < 2 && Math.abs(sheet.y - picture.y) < 2, "the sheet lies over the board");
        }
        // Where what stays at the foot of a narrow page covers nothing.
        await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
        await page.evaluate(AXE);
        const found = await page.evaluate((values) => globalThis.axe.run(document, { runOnly: { type: "tag", values } }), TAGS);
        const told = found.violations.map((it) => `${it.id}: ${it.nodes.map((node) => node.html.slice(0, 200)).join(" | ")}`);
        assert.deepEqual(told, [], path);
        assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), `${path} is cut off`);
      }
    });
  }
}

test("a board is typed, judged, tried, kept and taken back by keyboard alone", LONG, async (t) => {
  const { base, page, file } = await opened(t);
  const before = file("puzzles/first-light.toml");
  await page.goto(`${base}puzzles/first-light`);
  await cell(page, 0).focus();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Backspace");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.type("4");
  assert.equal(await cell(page, 9).inputValue(), "4");
  await page.locator(".verdict:not([data-verdict='one'])").waitFor();
  // Two digits in one cell: the last counts.
  await page.keyboard.type("6");
  assert.equal(await cell(page, 9).inputValue(), "6");
  // Beside a line, figures are a number.
  await page.keyboard.press("ArrowLeft");
  assert.equal(await page.evaluate(() => document.activeElement.getAttribute("aria-label")), "sandwich clue of row 2");
  await page.keyboard.type("14");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  assert.equal(await page.locator('[data-line="1"]').inputValue(), "5");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  await page.locator(".verdict[data-verdict='many'], .verdict[data-verdict='one']").waitFor();
  assert.equal(await cell(page, 9).inputValue(), "");
  assert.equal(await cell(page, 1).inputValue(), "");
  await page.keyboard.press("Control+s");
  await page.getByText("Kept. Undo goes back before it").waitFor();
  assert.equal(file("puzzles/first-light.toml"), before.replace(". 1 . | . . 2", ". . . | . . 2"));
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+s");
  await page.waitForFunction(() => document.querySelectorAll("#history li").length === 2);
  assert.equal(file("puzzles/first-light.toml"), before);
});

test("what would settle a board is taken by one press, and a change stands beside what is kept", LONG, async (t) => {
  const { base, page } = await opened(t);
  await page.goto(`${base}puzzles/first-light`);
  await cell(page, 27).focus();
  for (const it of ["Backspace", "ArrowRight", "ArrowRight", "Backspace", "ArrowRight", "Backspace", "ArrowDown", "ArrowDown", "ArrowLeft", "Backspace"]) {
    await page.keyboard.press(it);
  }
  // A clue contradicts the rest.
  await page.locator('[data-line="4"]').focus();
  await page.keyboard.type("2");
  await page.locator(".verdict[data-verdict='none']").waitFor();
  await page.getByRole("button", { name: "What would make it sound?" }).press("Enter");
  const offer = page.getByRole("button", { name: /^Take it: / }).first();
  await offer.press("Enter");
  await page.locator(".verdict[data-verdict='one'], .verdict[data-verdict='many']").waitFor();
  await page.getByRole("button", { name: "Undo" }).press("Enter");
  await page.locator(".verdict[data-verdict='none']").waitFor();
  await page.getByRole("button", { name: "Put it back" }).press("Enter");
  await page.locator(".verdict[data-verdict='one']").waitFor();
  await cell(page, 1).focus();
  await page.keyboard.press("Backspace");
  await page.getByRole("button", { name: "What if it stood so?" }).press("Enter");
  await page.getByRole("columnheader", { name: "As it is tried" }).waitFor();
  assert.equal(await page.locator("#tried tbody tr").count(), 6);
});

test("a keystroke is judged within a tenth of a second", LONG, async (t) => {
  const { base, page } = await opened(t);
  await page.goto(`${base}puzzles/first-light`);
  const times = [];
  for (const [key, expected] of Array.from({ length: 20 }, (_, at) => (at % 2 ? ["1", "one"] : ["Backspace", "many"]))) {
    await cell(page, 1).focus();
    times.push(
      await page.evaluate(
        ([key, expected]) =>
          new Promise((resolve) => {
            const [field, verdict] = [document.querySelector('[data-cell="1"]'), document.querySelector(".verdict")];
            const begun = performance.now();
            new MutationObserver((_, it) => {
              if (verdict.dataset.verdict !== expected && expected === "one") return;
              it.disconnect();
              resolve(performance.now() - begun);
            }).observe(verdict, { attributes: true });
            field.value = key === "Backspace" ? "" : key;
            field.dispatchEvent(new InputEvent("input", { bubbles: true }));
          }),
        [key, expected],
      ),
    );
  }
  times.sort((a, b) => a - b);
  t.diagnostic(`median ${times[10].toFixed(0)} ms, slowest ${times.at(-1).toFixed(0)} ms`);
  assert.ok(times[10] < 100, `${times}`);
});

test("a grid that is pasted takes the place of the digits", LONG, async (t) => {
  const { base, page } = await opened(t);
  await page.goto(`${base}puzzles/first-light`);
  await page.locator("summary", { hasText: "Paste a grid" }).click();
  await page.getByRole("textbox", { name: /^One line of cells/ }).fill(`1${".".repeat(79)}2`);
  await page.getByRole("button", { name: "Take it" }).click();
  assert.deepEqual([await cell(page, 0).inputValue(), await cell(page, 1).inputValue(), await cell(page, 80).inputValue()], ["1", "", "2"]);
  await page.getByRole("textbox", { name: /^One line of cells/ }).fill("12");
  await page.getByRole("button", { name: "Take it" }).click();
  await page.getByText("There is no grid of 9x9 in that text.").waitFor();
});

test("puzzles are moved by keys and by drag, weighed, and kept", LONG, async (t) => {
  const { base, page, file } = await opened(t);
  await page.goto(base);
  await page.locator("ol.order").waitFor();
  const titles = () => page.locator("ol.order .title").allTextContents();
  const first = await titles();
  await page.getByRole("button", { name: `Move ${first[0]} later` }).focus();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowDown");
  assert.deepEqual((await titles()).slice(0, 3), [first[1], first[2], first[0]]);
  assert.equal(await page.evaluate(() => document.activeElement.getAttribute("aria-label")), `Move ${first[0]} later`);
  await page.getByText(/the order costs \d+/).waitFor();
  await page.getByRole("button", { name: "Put it back" }).press("Enter");
  assert.deepEqual(await titles(), first);
  const row = await page.locator("ol.order li").nth(1).boundingBox();
  const to = await page.locator("ol.order li").nth(3).boundingBox();
  await page.mouse.move(row.x + 20, row.y + row.height / 2);
  await page.mouse.down();
  await page.mouse.move(to.x + 20, to.y + to.height - 4, { steps: 8 });
  await page.mouse.up();
  assert.deepEqual((await titles()).slice(0, 4), [first[0], first[2], first[3], first[1]]);
  await page.getByRole("button", { name: "Keep this order" }).press("Enter");
  await page.getByText("This is your order.").waitFor();
  assert.match(file("pack.toml"), /\norder = \["first-light", /);
  assert.ok(file("pack.toml").includes('title = "The lantern room"'));
});

test("what another program saves shows within a second, and is never written over", LONG, async (t) => {
  const { base, page, pack, file } = await opened(t);
  const path = join(pack, "puzzles/first-light.toml");
  await page.goto(`${base}puzzles/first-light`);
  const theirs = file("puzzles/first-light.toml").replace(". 1 . | . . 2", ". . . | . . 2");
  await page.waitForTimeout(500);
  writeFileSync(path, theirs);
  await page.waitForFunction(() => document.querySelector('[data-cell="1"]').value === "", null, { timeout: 5_000 });
  // Now both change it.
  await cell(page, 0).focus();
  await page.keyboard.type("8");
  const again = theirs.replace("First light", "First lights");
  writeFileSync(path, again.replace("5 . . | . . .", ". . . | . . ."));
  await page.getByText("The file was changed by another program since you began.").waitFor();
  await page.keyboard.press("Control+s");
  await page.getByText(/was changed or taken away since this edit began/i).waitFor();
  assert.equal(await cell(page, 0).inputValue(), "8");
  assert.equal(file("puzzles/first-light.toml"), again.replace("5 . . | . . .", ". . . | . . ."));
});

test("a file that another program changed is put back as a whole", LONG, async (t) => {
  const { base, page, pack, file } = await opened(t);
  const path = join(pack, "puzzles/first-light.toml");
  const before = file("puzzles/first-light.toml");
  await page.goto(`${base}puzzles/first-light`);
  await page.getByText("None yet.").waitFor();
  writeFileSync(path, before.replace("First light", "Last light").replace(". 1 . | . . 2", ". . . | . . 2"));
  const changes = page.locator("#history li");
  await changes.getByText(/changed by another program/).waitFor();
  assert.match(await changes.locator("pre").textContent(), /-title = "First light"[^]*\+title = "Last light"/);
  await changes.getByRole("button", { name: "Put the whole file back to before this" }).press("Enter");
  await page.waitForFunction(() => document.querySelectorAll("#history li").length === 2);
  assert.equal(file("puzzles/first-light.toml"), before);
  await page.waitForFunction(() => document.querySelector('[data-cell="1"]').value === "1");
});

test("a sealed puzzle shows nothing until its seal is opened", LONG, async (t) => {
  const seal = (pack) => {
    const path = join(pack, "puzzles/tide-bell.toml");
    writeFileSync(path, readFileSync(path, "utf8").replace("format = 1", "format = 1\nsealed = true"));
  };
  const { base, page, file } = await opened(t, seal);
  await page.goto(`${base}puzzles/tide-bell`);
  await page.getByText("This puzzle is sealed.").waitFor();
  // The letter to the setter, which says the verdict alone, has a field of its own.
  assert.equal(await page.locator("svg, input:not(#letter input)").count(), 0);
  await page.getByRole("button", { name: "Open the seal" }).press("Enter");
  await cell(page, 0).waitFor();
  assert.match(file("puzzles/tide-bell.toml"), /sealed = true/);
});

test("one press of a seal asks once, however often the page was made anew", LONG, async (t) => {
  const { base, page, pack, file } = await opened(t);
  await page.goto(`${base}puzzles/first-light`);
  await page.locator("#walkthrough").waitFor();
  const made = file("puzzles/first-light.toml");
  for (const title of ["First lights", "Second light"]) {
    const answered = page.waitForResponse(/\/api\/1\/puzzles\/first-light$/);
    writeFileSync(join(pack, "puzzles/first-light.toml"), made.replace("First light", title));
    await answered;
    await page.locator("#walkthrough").waitFor();
  }
  await page.waitForTimeout(1_000);
  const asked = [];
  page.on("request", (it) => it.method() === "PUT" && asked.push(it.url()));
  await Promise.all([page.waitForEvent("load"), page.getByRole("button", { name: "Seal it, in the file" }).click()]);
  await page.getByText("This puzzle is sealed.").waitFor();
  assert.deepEqual(asked, [`${base}api/1/puzzles/first-light/sealed`]);
});

test("the board follows the paragraph that is read", LONG, async (t) => {
  const { base, page } = await opened(t);
  await page.goto(`${base}puzzles/first-light`);
  const caption = page.locator(".reading figcaption");
  assert.equal(await caption.textContent(), "Before the first step");
  await page.locator('[data-step="7"]').focus();
  await page.getByText("After step 7", { exact: true }).waitFor();
  await page.locator('[data-step="30"]').evaluate((it) => scrollTo(0, it.getBoundingClientRect().top + scrollY - innerHeight * 0.3));
  await page.getByText("After step 30", { exact: true }).waitFor();
});

test("a test solve loses nothing when the desk is killed, and goes on after a reload", LONG, async (t) => {
  const { base, page, killed } = await opened(t);
  await page.goto(`${base}puzzles/low-wick/solve`);
  await page.getByLabel("Who solves").fill("Tansy");
  await page.getByRole("button", { name: "Begin" }).press("Enter");
  const open = page.locator('.cell:not([aria-readonly="true"])');
  const shown = async (n) => (await open.nth(n).locator(".said").textContent()).split(", ").pop();
  const logged = () =>
    page.evaluate(async () => {
      const id = Object.entries(localStorage).find(([key]) => key.startsWith("galley desk solve "))[1];
      const { events } = await (await fetch(`/api/1/solves/${id}`)).json();
      const n = events.filter((it) => !["pause", "resume"].includes(it.what)).length;
      return { id, n, left: localStorage.getItem(`galley desk log ${id}`) };
    });
  const press = async (n, digit) => {
    await open.nth(n).click();
    await page.keyboard.press(digit);
  };
  for (let n = 0; n < 6; n++) await press(n, "5");
  await page.waitForFunction(() => !Object.keys(localStorage).some((it) => it.startsWith("galley desk log")));
  const before = await logged();
  assert.ok(before.n >= 6, `${before.n} events`);
  await killed(async () => {
    for (let n = 6; n < 12; n++) await press(n, "6");
    await page.getByText("The desk does not answer.").waitFor();
  });
  // The token of the desk that was killed is no longer any; after a reload the page has the new one.
  await page.reload();
  assert.equal(await shown(0), "pencilled 5");
  assert.equal(await shown(11), "pencilled 6");
  await page.waitForFunction(() => !Object.keys(localStorage).some((it) => it.startsWith("galley desk log")));
  const after = await logged();
  assert.equal(after.id, before.id);
  assert.ok(after.n >= before.n + 6, `${before.n} and then ${after.n} events`);
  await page.goto(`${base}solves`);
  await page.getByRole("link", { name: "Tansy, regular" }).click();
  await page.getByRole("heading", { name: "What happened" }).waitFor();
  // Leaving a page is a pause, which is noted sooner or later.
  assert.equal(await page.locator("tbody tr").filter({ hasNotText: /paused|went on/ }).count(), after.n);
});

test("a puzzle that was sent is begun, pasted, and kept", LONG, async (t) => {
  const { base, page, file } = await opened(t);
  await page.goto(base);
  await page.getByLabel("Title").fill("Market Day");
  await page.getByLabel("Who set it").fill("Sedge");
  await page.getByRole("button", { name: "Begin a file for it" }).press("Enter");
  await page.getByRole("heading", { name: "Market Day" }).waitFor();
  const grid = /"""\n([^"]*)"""/.exec(file("puzzles/first-light.toml"))[1];
  await cell(page, 0).focus();
  await page.evaluate((text) => {
    const data = new DataTransfer();
    data.setData("text/plain", text);
    document.activeElement.dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
  }, grid);
  await page.getByText("Pasted. Undo takes it back.").waitFor();
  assert.equal(await cell(page, 1).inputValue(), "1");
  await page.keyboard.press("Control+s");
  await page.getByText("Kept. Undo goes back before it").waitFor();
  assert.ok(file("puzzles/market-day.toml").includes('setter = "Sedge"'));
  assert.equal(/"""\n([^"]*)"""/.exec(file("puzzles/market-day.toml"))[1], grid);
});
