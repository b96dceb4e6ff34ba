// A desk that a browser works at, for its tests.

import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

export const ROOT = new URL("..", import.meta.url).pathname;
/** `cargo build -p desk --example desk` makes it. */
export const DESK = join(ROOT, "target/debug/examples/desk");

/** A refusal that is meant shows in the console too, and so does a desk that is away. */
const MEANT = /status of 4(03|04|09|22)|ERR_CONNECTION_REFUSED|ERR_INCOMPLETE/;

/**
 * A desk on a copy of the demo, which `alter` changes before. `person` opens a browser of somebody's own, in which everything
 * that goes wrong is noted, but for errors in the console that are meant (`isMeant`) and those thrown (`isThrown`); so is every
 * address asked for that is neither the desk's nor its own.
 */
export async function begun(browser, t, { alter = () => {}, more = [], patience = 10_000, isMeant = MEANT, isThrown, isOwn = () => false } = {}) {
  const pack = mkdtempSync(join(tmpdir(), "galley-desk-test-"));
  cpSync(join(ROOT, "demo/lantern-room"), pack, { recursive: true });
  rmSync(join(pack, ".galley"), { recursive: true, force: true });
  alter(pack);
  let desk;
  const start = (port) => {
    desk = spawn(DESK, [pack, port, ...more]);
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
  const contexts = [];
  const faults = [];
  const watch = (page) => {
    page.on("pageerror", (it) => isThrown?.test(it.message) || faults.push(it.message));
    page.on("console", (it) => it.type() === "error" && !isMeant.test(it.text()) && faults.push(it.text()));
    page.on("request", (it) => it.url().startsWith(base) || isOwn(it.url()) || faults.push(`asked for ${it.url()}`));
  };
  const person = async (options = {}) => {
    const context = await browser.newContext(options);
    contexts.push(context);
    context.setDefaultTimeout(patience);
    context.on("page", watch);
    return { context, page: await context.newPage() };
  };
  t.after(async () => {
    for (const it of contexts) await it.close();
    const ended = new Promise((resolve) => desk.on("exit", resolve));
    desk.kill("SIGINT");
    assert.equal(await ended, 0, "the desk ends when it is asked to");
    rmSync(pack, { recursive: true, force: true });
    assert.deepEqual(faults, []);
  });
  const file = (name) => readFileSync(join(pack, name), "utf8");
  return { base, pack, file, killed, person };
}

/** The same with somebody who works at it. */
export async function opened(browser, t, options = {}, ofBrowser = {}) {
  const desk = await begun(browser, t, options);
  return { ...desk, ...(await desk.person(ofBrowser)) };
}
