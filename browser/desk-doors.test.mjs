// Who may come into the desk, in a real browser: an editor signs in and invites, a tester solves in a browser of their own.

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { begun, DESK } from "./desk.mjs";
import { launched } from "./site.mjs";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const LONG = { timeout: 90_000 };
const PASSWORD = "moss under a lantern";
const LONG_NAME = "Tansy of the very long name who lives in the lighthouse at the far end of the";

let browser;
before(async () => (browser = await launched()));
after(() => browser.close());

/** A desk with an account. `person` opens the browser of somebody. */
async function opened(t) {
  const alter = (pack) => assert.equal(spawnSync(DESK, [pack, "--add-account", "Aster", PASSWORD]).status, 0);
  const desk = await begun(browser, t, { alter, isMeant: /status of 4(01|04)|ERR_INCOMPLETE/ });
  return { ...desk, person: async () => (await desk.person()).page };
}

/** An editor signs in, by keyboard alone. */
async function signedIn(page, address) {
  await page.goto(address);
  await page.getByLabel("Name").focus();
  await page.keyboard.type("Aster");
  await page.keyboard.press("Tab");
  await page.keyboard.type(PASSWORD);
  await Promise.all([page.waitForNavigation(), page.keyboard.press("Enter")]);
}

/** Invites somebody to solve a puzzle, and gives the link. */
async function invited(page, base, who, titles) {
  await page.goto(`${base}people`);
  await page.getByLabel("Who solves").fill(who);
  for (const it of titles) await page.getByLabel(it, { exact: true }).check();
  await page.getByRole("button", { name: "Make a link" }).click();
  await page.getByText(/can come in by the link below/).waitFor();
  return page.getByLabel(/^The link/).inputValue();
}

async function found(page) {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate((values) => globalThis.axe.run(document, { runOnly: { type: "tag", values } }), TAGS);
  return violations.map((it) => `${it.id}: ${it.nodes.map((node) => node.html.slice(0, 200)).join(" | ")}`);
}

const cell = (page, at) => page.locator(`.cell[data-cell="${at}"]`);

test("an editor signs in and invites; a tester solves in a browser of their own and goes on in another", LONG, async (t) => {
  const { base, person } = await opened(t);
  const editor = await person();
  await editor.goto(`${base}solves`);
  await editor.getByLabel("Name").fill("Aster");
  await editor.getByLabel("Password").fill("not the password at all");
  await editor.getByRole("button", { name: "Sign in" }).click();
  await editor.getByText("The name or the password is not right.").waitFor();
  await signedIn(editor, `${base}solves`);
  // The page that was asked for, not another.
  await editor.getByRole("heading", { name: "Test solves" }).waitFor();
  const link = await invited(editor, base, "Tansy", ["First light"]);
  assert.match(link, /\/invited#[0-9a-f]{64}$/);
  await editor.locator("#invitations").getByText(/Tansy.*First light/).waitFor();
  await editor.reload();
  assert.equal(await editor.locator("#made").isVisible(), false, "the link is shown once");

  const tester = await person();
  await tester.goto(link);
  await tester.getByRole("button", { name: "Come in" }).waitFor();
  assert.equal(tester.url(), `${base}invited`, "the token has left the address");
  await tester.getByRole("button", { name: "Come in" }).click();
  await tester.getByRole("heading", { name: "Your puzzles" }).waitFor();
  await tester.goBack().catch(() => {});
  await tester.goto(base);
  assert.equal(tester.url(), `${base}yours`);
  await tester.getByRole("link", { name: "First light" }).click();
  await tester.getByRole("button", { name: "Begin" }).click();
  const free = await tester.locator('.cell:not([aria-readonly="true"])').first();
  const at = await free.getAttribute("data-cell");
  await free.click();
  await Promise.all([tester.waitForResponse(/\/events$/), tester.keyboard.press("5")]);
  assert.match(await cell(tester, at).textContent(), /5/);
  for (const path of ["puzzles/first-light", "solves", "people", "puzzles/low-wick/solve", "api/1/pack"]) {
    assert.equal((await tester.goto(base + path)).status(), 404, path);
  }

  // The same person at another machine.
  const elsewhere = await person();
  await elsewhere.goto(link);
  await elsewhere.getByRole("button", { name: "Come in" }).click();
  await elsewhere.getByText("Begun.").waitFor();
  await elsewhere.getByRole("link", { name: "First light" }).click();
  // What was written there stands here.
  await cell(elsewhere, at).filter({ hasText: "5" }).waitFor();
  await elsewhere.getByRole("button", { name: "Give up" }).click();
  await elsewhere.getByText("Given up. What you wrote is kept.").waitFor();

  // Somebody else in the same browser has a sheet of their own.
  const second = await invited(editor, base, "Sorrel", ["First light"]);
  await elsewhere.goto(second);
  await elsewhere.getByRole("button", { name: "Come in" }).click();
  await elsewhere.getByText("Not begun yet.").waitFor();
  await elsewhere.getByRole("link", { name: "First light" }).click();
  await elsewhere.getByRole("button", { name: "Begin" }).waitFor();

  await editor.goto(`${base}solves`);
  await editor.getByRole("link", { name: /^Tansy/ }).click();
  await editor.getByText(/^pencil in r/).waitFor();

  // Revoked, the link leads nowhere, and whoever came in by it is out.
  await editor.goto(`${base}people`);
  await editor.getByRole("button", { name: "Revoke it: the invitation of Tansy" }).click();
  await editor.getByText("Revoked. Whoever came in by it is out.").waitFor();
  await tester.goto(`${base}yours`);
  await tester.getByRole("heading", { name: "Sign in" }).waitFor();
  await tester.goto(link);
  await tester.getByRole("button", { name: "Come in" }).click();
  await tester.getByText(/invitation is over, or there is none such/).waitFor();
  await editor.getByRole("button", { name: "Sign out" }).click();
  await editor.getByRole("heading", { name: "Sign in" }).waitFor();
});

test("a setter reads about their own puzzles", LONG, async (t) => {
  const { base, person } = await opened(t);
  const editor = await person();
  await signedIn(editor, `${base}people`);
  await editor.getByLabel("To read what was found out about their own puzzles").check();
  assert.equal(await editor.getByLabel("Who solves").isVisible(), false);
  const setter = await editor.getByLabel("Which setter").inputValue();
  await editor.getByRole("button", { name: "Make a link" }).click();
  await editor.getByText(`${setter} can come in by the link below`).waitFor();
  const link = await editor.getByLabel(/^The link/).inputValue();
  const page = await person();
  await page.goto(link);
  await page.getByRole("button", { name: "Come in" }).click();
  await page.getByText(`Welcome, ${setter}.`).waitFor();
  for (let tries = 0; (await page.getByText("Expected minutes").count()) === 0 && tries < 40; tries++) {
    await page.waitForTimeout(500);
    await page.reload();
  }
  await page.getByText("Expected minutes").first().waitFor();
  assert.deepEqual(await found(page), []);
});

for (const width of [320, 900, 1600]) {
  for (const colorScheme of ["light", "dark"]) {
    test(`at ${width} pixels, ${colorScheme}: nothing for axe to find at the door, nothing cut off`, LONG, async (t) => {
      const { base, person } = await opened(t);
      const shown = async (page, what) => {
        await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
        assert.deepEqual(await found(page), [], what);
        assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), `${what} is cut off`);
        const folder = process.env.PICTURES;
        if (folder) await page.screenshot({ path: `${folder}/${what}-${width}-${colorScheme}.png`, fullPage: true });
      };
      const seen = async () => {
        const page = await person();
        await page.setViewportSize({ width, height: 900 });
        await page.emulateMedia({ colorScheme });
        return page;
      };
      const editor = await seen();
      await editor.goto(base);
      await shown(editor, "sign-in");
      await signedIn(editor, base);
      await editor.goto(`${base}people`);
      await shown(editor, "people-empty");
      const link = await invited(editor, base, LONG_NAME, ["First light", "Low wick"]);
      await shown(editor, "people");
      const tester = await seen();
      await tester.goto(link);
      await tester.getByRole("button", { name: "Come in" }).waitFor();
      await shown(tester, "invited");
      await tester.getByRole("button", { name: "Come in" }).click();
      await tester.getByRole("heading", { name: "Your puzzles" }).waitFor();
      await shown(tester, "yours");
      await tester.getByRole("link", { name: "First light" }).click();
      await shown(tester, "invited-begin");
      await tester.getByRole("button", { name: "Begin" }).click();
      await tester.locator('.cell:not([aria-readonly="true"])').first().click();
      await shown(tester, "invited-sheet");
    });
  }
}
