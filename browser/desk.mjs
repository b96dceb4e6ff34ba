// A desk that a browser works at, for its tests.

import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const ROOT = new URL("..", import.meta.url).pathname;
/** `cargo build -p desk --example desk` makes it. */
const DESK = join(ROOT, "target/debug/examples/desk");

/** A desk on a copy of the demo, and a page of it that is watched. `alter` changes the copy before. */
export async function opened(browser, t, alter = () => {}) {
  const pack = mkdtempSync(join(tmpdir(), "galley-desk-test-"));
  cpSync(join(ROOT, "demo/lantern-room"), pack, { recursive: true });
  rmSync(join(pack, ".galley"), { recursive: true, force: true });
  alter(pack);
  let desk;
  const start = (port) => {
    desk = spawn(DESK, [pack, port]);
    return new Promise((resolve, reject) => {
      desk.stdout.on("data", (it) => resolve(String(it).trim()));
      desk.stderr.on("data", (it) => reject(new Error(String(it))));
    });
  };
  const base = await start("0");
  /** The desk is killed, and after `then` started again where it was. */
  const killed = async (then) => {
    const ended = new Promise((resolve) => desk.on("exit", resolve));
    desk.kill("SIGKILL");
    await ended;
    await then();
    await start(new URL(base).port);
  };
  const context = await browser.newContext();
  context.setDefaultTimeout(10_000);
  const page = await context.newPage();
  const faults = [];
  page.on("pageerror", (it) => faults.push(it.message));
  // A refusal that is meant shows in the console too.
  page.on("console", (it) => it.type() === "error" && !/status of 4(03|04|09|22)|ERR_CONNECTION_REFUSED|ERR_INCOMPLETE/.test(it.text()) && faults.push(it.text()));
  page.on("request", (it) => it.url().startsWith(base) || faults.push(`asked for ${it.url()}`));
  t.after(async () => {
    await context.close();
    const ended = new Promise((resolve) => desk.on("exit", resolve));
    desk.kill("SIGINT");
    assert.equal(await ended, 0, "the desk ends when it is asked to");
    rmSync(pack, { recursive: true, force: true });
    assert.deepEqual(faults, []);
  });
  const file = (name) => readFileSync(join(pack, name), "utf8");
  return { base, page, pack, file, context, killed };
}
