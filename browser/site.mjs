// A pressed site, served to a browser that is watched: nothing may go wrong in its console, and no request may leave.

import { createReadStream, existsSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";
import { chromium } from "playwright-core";

/** Where `galley press demo/lantern-room --issued …` has put the site. */
export const FOLDER = new URL("../out/site/", import.meta.url).pathname;

/** The folder of the pack's `base_url`. */
const ROOT = "/lantern-room/";

/** What hosts say a file is, by its ending. */
export const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".css": "text/css",
  ".js": "text/javascript",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
  ".png": "image/png",
  ".xml": "application/xml",
};

const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** A browser without a display. */
export const launched = () =>
  chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: FLAGS });

/** Serves the site, and closes everything again. */
export async function opened() {
  const server = createServer((request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url, "http://localhost").pathname));
    const within = path.startsWith(ROOT) ? path.slice(ROOT.length) : null;
    const file = join(FOLDER, within === "" || within?.endsWith("/") ? `${within}index.html` : within ?? "none");
    if (!existsSync(file)) return response.writeHead(404).end();
    response.writeHead(200, { "content-type": TYPES[extname(file)] ?? "application/octet-stream" });
    createReadStream(file).pipe(response);
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  const base = `http://127.0.0.1:${server.address().port}${ROOT}`;
  const browser = await launched();
  /** What went wrong in any page. */
  const faults = [];
  return {
    base,
    browser,
    faults,
    /** A visitor with a browser of their own. */
    async visitor(options = {}) {
      const context = await browser.newContext(options);
      context.setDefaultTimeout(5_000);
      context.on("page", (page) => watch(page, base, faults));
      return context;
    },
    async close() {
      await browser.close();
      server.close();
    },
  };
}

function watch(page, base, faults) {
  page.on("pageerror", (fault) => faults.push(`${page.url()}: ${fault.message}`));
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) faults.push(`${page.url()}: ${message.text()}`);
  });
  page.on("request", (request) => {
    const url = request.url();
    const isOwn = [base, `file://${FOLDER}`, "blob:", "data:"].some((it) => url.startsWith(it));
    if (!isOwn) faults.push(`${page.url()} asked for ${url}`);
  });
}

/** The puzzle that the page embeds, with its solution, read from the board that is folded away at its end. */
export async function puzzleOf(page) {
  const puzzle = JSON.parse(await page.locator("#puzzle-data").textContent());
  const said = await page.locator(".solution desc").textContent();
  const solution = Array(puzzle.side ** 2).fill(0);
  for (const [, row, rest] of said.matchAll(/Row (\d+): ([^.]*)\./g)) {
    for (const [, column, digit] of rest.matchAll(/column (\d+) is (\d+)/g)) {
      solution[(row - 1) * puzzle.side + (column - 1)] = Number(digit);
    }
  }
  return { ...puzzle, solution };
}

/** The label of a cell, as it is read out. */
export const label = (page, cell) => page.locator(`[data-cell="${cell}"] .said`).textContent();
