// What a recording gives, as others read it: captions and chapters by the parser that the W3C's own validator is made of, and by
// Chromium's <track>.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { createRequire } from "node:module";
import { launched } from "./site.mjs";

const { WebVTTParser } = createRequire(import.meta.url)("webvtt-parser");

let folder;
let browser;
let page;

before(async () => {
  folder = mkdtempSync(join(tmpdir(), "galley-recording-"));
  const root = new URL("..", import.meta.url).pathname;
  const puzzle = "demo/lantern-room/puzzles/first-light.toml";
  execFileSync("cargo", ["run", "-q", "-p", "rehearse", "--example", "recorded", "--", puzzle, folder], { cwd: root });
  browser = await launched();
  page = await browser.newPage();
});

after(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

const files = ["before", "after"].flatMap((when) => ["captions", "chapters"].map((kind) => ({ when, kind })));
const read = ({ when, kind }) => readFileSync(join(folder, when, `${kind}.vtt`), "utf8");
const seconds = (when) => Number(readFileSync(join(folder, when, "seconds.txt"), "utf8"));

/** The cues as Chromium reads them from a <track>. */
const tracked = (text, kind) =>
  page.evaluate(
    ([text, kind]) =>
      new Promise((resolve, reject) => {
        const video = document.createElement("video");
        const track = document.createElement("track");
        track.kind = kind;
        track.src = URL.createObjectURL(new Blob([text], { type: "text/vtt" }));
        track.onerror = () => reject(new Error("the track was refused"));
        track.onload = () =>
          resolve([...track.track.cues].map(({ startTime, endTime, text }) => ({ startTime, endTime, text })));
        video.append(track);
        document.body.append(video);
        track.track.mode = "hidden";
      }),
    [text, kind],
  );

for (const file of files) {
  test(`${file.kind} ${file.when} cutting are read alike by a parser and by the browser`, async () => {
    const text = read(file);
    const parsed = new WebVTTParser().parse(text, file.kind === "chapters" ? "chapters" : "subtitles/captions/descriptions");
    assert.deepEqual(parsed.errors, []);
    const cues = await tracked(text, file.kind);
    assert.ok(cues.length > 1);
    assert.equal(parsed.cues.length, cues.length);
    parsed.cues.forEach((it, at) => {
      assert.ok(Math.abs(it.startTime - cues[at].startTime) < 1e-6 && Math.abs(it.endTime - cues[at].endTime) < 1e-6);
      assert.equal(it.text, cues[at].text);
    });
    // Nothing ends after the recording, and nothing overlaps.
    let last = 0;
    for (const it of cues) {
      assert.ok(last <= it.startTime + 1e-6 && it.startTime < it.endTime);
      last = it.endTime;
    }
    assert.ok(last <= seconds(file.when) + 1e-6);
    if (file.kind === "chapters") {
      // Common practice: from the beginning, none shorter than ten seconds.
      assert.equal(cues[0].startTime, 0);
      assert.ok(cues.every((it) => it.endTime - it.startTime >= 10));
    } else {
      // BBC subtitle guidelines: at most 180 words a minute, two lines.
      for (const it of cues) {
        const words = it.text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
        assert.ok((words * 60) / (it.endTime - it.startTime) <= 180.001, it.text);
        assert.ok(it.text.split("\n").length <= 2);
      }
    }
  });
}

test("a text of the pack with signs of markup is read as it is", () => {
  const tree = new WebVTTParser().parse(read(files[0]), "metadata");
  assert.ok(tree.cues.some((it) => it.text.includes("&lt;lantern&gt; &amp; room")));
});

test("a log that the stage saves is read by the program, and every step of it is known", { timeout: 120_000 }, async () => {
  const root = new URL("..", import.meta.url).pathname;
  const context = await browser.newContext();
  const presenter = await context.newPage();
  await presenter.goto(`file://${join(root, "out/stage/first-light.presenter.html")}`);
  await presenter.keyboard.press("o");
  for (let step = 0; step < 12; step += 1) {
    await presenter.keyboard.press("n");
    await presenter.waitForTimeout(50);
  }
  await presenter.keyboard.press("p");
  await presenter.keyboard.press("p");
  await presenter.keyboard.press("x");
  const [download] = await Promise.all([
    presenter.waitForEvent("download"),
    presenter.locator(".logs .save").first().click(),
  ]);
  const log = join(folder, "log.json");
  await download.saveAs(log);
  const args = ["run", "-q", "--", "recording", "demo/lantern-room", "first-light", log, "--out", join(folder, "made"), "--json"];
  const made = JSON.parse(execFileSync("cargo", args, { cwd: root, encoding: "utf8" }));
  assert.deepEqual(made.steps_gone, []);
  assert.equal(made.reached.filter((it) => it.step !== null).length, 12);
  assert.equal(made.chapters[0].at, 0);
  await context.close();
});
