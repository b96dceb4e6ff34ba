// The site without a network, on hosts of different habits: what a visitor has once seen stays whole.

import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join } from "node:path";
import { after, before, test } from "node:test";
import { FOLDER, TYPES, launched } from "./site.mjs";

const PUZZLE = "puzzles/low-wick.html";

let browser;
before(async () => (browser = await launched()));
after(() => browser.close());

/** A host that answers for each folder as the function of that name says: bytes of a file, an address, or nothing. */
async function hosted(folders) {
  const server = createServer((request, response) => {
    const [, name, path] = /^\/(\w+)\/(.*)$/.exec(new URL(request.url, "http://localhost").pathname) ?? [];
    const { file, status = 200, to } = folders[name]?.(path) ?? {};
    if (to !== undefined) return response.writeHead(301, { location: to }).end();
    const kept = file && join(FOLDER, file);
    if (!kept || !existsSync(kept)) return response.writeHead(404).end();
    response.writeHead(status, { "content-type": TYPES[extname(file)] ?? "application/octet-stream" });
    response.end(file === "sw.js" ? folders.worker?.(name, readFileSync(kept, "utf8")) ?? readFileSync(kept) : readFileSync(kept));
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  return { base: `http://127.0.0.1:${server.address().port}/`, close: () => server.close() };
}

const plainly = (path) => ({ file: path === "" ? "index.html" : path });

/** A page of a new visitor who has been there once. */
async function visited(t, host, folders) {
  const context = await browser.newContext();
  context.setDefaultTimeout(5_000);
  t.after(async () => {
    await context.close();
    host.close();
  });
  const page = await context.newPage();
  for (const folder of folders) {
    await page.goto(host.base + folder);
    await page.evaluate(() => navigator.serviceWorker.ready);
  }
  return { context, page };
}

const title = (page) => page.locator("h1").textContent();

test("an address at which there is nothing leads to the page that says so, at any depth", { timeout: 60_000 }, async (t) => {
  const host = await hosted({ pack: plainly });
  const { context, page } = await visited(t, host, ["pack/"]);
  await context.setOffline(true);
  for (const path of ["none.html", "puzzles/none.html", "a/b/c/none"]) {
    await page.goto(`${host.base}pack/${path}`);
    assert.equal(await title(page), "There is no such page");
    assert.equal(page.url(), `${host.base}pack/404.html`);
  }
});

test("packs on one host keep to themselves, and a new version takes the place of the old one", { timeout: 60_000 }, async (t) => {
  let version = "0";
  // Sites that differ have versions that differ.
  const worker = (name, text) => text.replace(/VERSION = "/, `$&${name === "two" ? version : ""}`);
  const host = await hosted({ one: plainly, two: plainly, worker });
  const { context, page } = await visited(t, host, ["one/", "two/"]);
  const caches = () => page.evaluate(() => globalThis.caches.keys());
  const before = await caches();
  assert.equal(before.length, 2);
  version = "1";
  await page.evaluate(async () => {
    const changed = new Promise((resolve) => navigator.serviceWorker.addEventListener("controllerchange", resolve));
    await (await navigator.serviceWorker.ready).update();
    await changed;
  });
  await page.waitForFunction((old) => globalThis.caches.keys().then((it) => it.length === 2 && !it.includes(old)), before.find((it) => it.includes("/two/")));
  await context.setOffline(true);
  for (const folder of ["one/", "two/"]) {
    await page.goto(host.base + folder + PUZZLE);
    assert.equal(await title(page), "Low wick");
  }
});

test("a host that shortens addresses, and sends the page for nothing as not found", { timeout: 60_000 }, async (t) => {
  const shortly = (path) => {
    if (path === "404.html") return { file: path, status: 404 };
    if (path.endsWith("index.html")) return { to: `/short/${path.slice(0, -"index.html".length)}` };
    if (path.endsWith(".html")) return { to: `/short/${path.slice(0, -".html".length)}` };
    if (path === "" || path.endsWith("/")) return { file: `${path}index.html` };
    return { file: extname(path) === "" ? `${path}.html` : path };
  };
  const host = await hosted({ short: shortly });
  const { context, page } = await visited(t, host, ["short/"]);
  await context.setOffline(true);
  for (const path of [PUZZLE, PUZZLE.replace(".html", "")]) {
    await page.goto(`${host.base}short/${path}`);
    assert.equal(await title(page), "Low wick");
  }
  await page.goto(`${host.base}short/`);
  assert.ok((await page.locator(".entry").count()) > 1);
  await page.goto(`${host.base}short/none`);
  assert.equal(await title(page), "There is no such page");
});
