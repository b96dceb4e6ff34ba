// A test solve: the playing sheet of the site, and everything that is written on it told to the desk.

import { ask, say, told } from "./api.js";
import { Helper } from "./helper.js";
import { Log, begun, remember } from "./log.js";
import { Board, element } from "/play/sheet/board.js";
import { Clock } from "/play/sheet/clock.js";
import { footLine, keyList } from "/play/sheet/footline.js";
import { Help } from "/play/sheet/help.js";
import * as store from "/play/sheet/store.js";
import * as words from "/play/sheet/words.js";

/** @typedef {import("/play/sheet/puzzle.js").Puzzle} Puzzle */
/** @typedef {import("/play/sheet/sheet.js").Sheet} Sheet */
/** @typedef {import("/play/sheet/sheet.js").Change} Change */

/** What each layer of a sheet is called in the log. */
const HAPPENING = { ink: "ink", pencil: "pencil", marks: "mark", struck: "clue" };

const text = document.getElementById("puzzle-data")?.textContent;
const figure = /** @type {HTMLElement | null} */ (document.querySelector("figure.board"));
const form = document.getElementById("begin");
if (text && figure && form instanceof HTMLFormElement) prepare(JSON.parse(text), figure, form);

/**
 * @param {Puzzle} puzzle
 * @param {HTMLElement} figure
 * @param {HTMLFormElement} form
 */
function prepare(puzzle, figure, form) {
  const before = begun(puzzle.fingerprint);
  // An invited tester's page knows which solve is theirs; what this browser remembers may be another's.
  const theirs = form.dataset.solve;
  if (theirs && theirs !== before) return takeUp(puzzle, figure, form, theirs);
  if (before && theirs !== "") return solve(puzzle, figure, form, before);
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const given = new FormData(form);
    const id = crypto.randomUUID();
    const solver = String(given.get("solver")).trim();
    const { id: of, fingerprint } = puzzle;
    const { refused } = await ask("POST", "/solves", { id, puzzle: of, fingerprint, solver, kind: given.get("kind") });
    if (refused) return say(told(refused));
    say("");
    // A sheet from before is somebody else's.
    store.keep(puzzle, store.fresh(puzzle));
    remember(fingerprint, id);
    solve(puzzle, figure, form, id);
  });
}

/**
 * Goes on with a solve that was begun in another browser, as the desk knows it.
 * @param {Puzzle} puzzle
 * @param {HTMLElement} figure
 * @param {HTMLFormElement} form
 * @param {string} id
 */
async function takeUp(puzzle, figure, form, id) {
  form.hidden = true;
  /** @type {import("./api.js").Answer<{solve: {begun_at: string}, events: import("./log.js").Happened[]}>} */
  const { value, refused } = await ask("GET", `/solves/${id}`);
  if (refused) return say(told(refused));
  const progress = store.fresh(puzzle);
  const { written } = progress.sheet;
  for (const { what, cell, value: now } of value.events) {
    for (const layer of /** @type {const} */ (["ink", "pencil", "marks", "struck"])) {
      if (HAPPENING[layer] === what && cell !== null && now !== null && cell < written[layer].length) written[layer][cell] = now;
    }
  }
  const last = value.events.at(-1);
  progress.spent = last?.after_ms ?? 0;
  progress.started = last ? `${value.solve.begun_at.replace(" ", "T")}Z` : progress.started;
  progress.isDone = value.events.some((it) => it.what === "solved" || it.what === "gave-up");
  store.keep(puzzle, progress);
  remember(puzzle.fingerprint, id);
  solve(puzzle, figure, form, id);
}

/**
 * @param {Puzzle} puzzle
 * @param {HTMLElement} figure
 * @param {HTMLFormElement} form
 * @param {string} id
 */
function solve(puzzle, figure, form, id) {
  form.hidden = true;
  const { progress } = store.kept(puzzle);
  const { sheet } = progress;
  const clock = new Clock(progress.spent, () => {});
  const log = new Log(id, () => Math.round(clock.spent));
  const status = element("p", "status");
  status.setAttribute("role", "status");
  const board = new Board(puzzle, figure, {
    press: (cells, digit) => write(cells, (it) => it.press(cells, digit)),
    strike: (cells, digit) => write(cells, (it) => it.strike(cells, digit)),
    mark: (cells, mark) => write(cells, (it) => it.mark(cells, mark)),
    rubOut: (cells) => write(cells, (it) => it.rubOut(cells)),
    strikeClue: (line) => {
      write([], (it) => it.strikeClue(line));
      status.textContent = words.clueLabel(puzzle, sheet, line);
    },
    undo: () => write([], (it) => it.undo(), words.NOTHING_TO_UNDO, "undo"),
    redo: () => write([], (it) => it.redo(), words.NOTHING_TO_REDO, "redo"),
    hint: () => help.ask(),
  });
  const chosen = (/** @type {(sheet: Sheet, cells: number[]) => Change[]} */ how) => {
    write(board.chosen, (it) => how(it, board.chosen));
    board.focus();
  };
  figure.append(
    footLine(puzzle, {
      press: (digit) => chosen((it, cells) => it.press(cells, digit)),
      mark: (mark) => chosen((it, cells) => it.mark(cells, mark)),
      rubOut: () => chosen((it, cells) => it.rubOut(cells)),
      undo: () => {
        board.asked.undo();
        board.focus();
      },
      redo: () => {
        board.asked.redo();
        board.focus();
      },
    }),
    status,
    keyList(puzzle),
  );
  const help = new Help(new Helper(puzzle, id), {
    sheet: () => sheet,
    cell: () => (board.chosen.length === 1 && sheet.written.ink[board.chosen[0]] ? board.chosen[0] : null),
    pointAt: (cells, how) => board.pointAt(cells, how),
    noteHint: () => log.note("hint"),
    write: (settles) => {
      const marks = settles.marks.map(([cell, mark]) => /** @type {[number, number]} */ ([cell, 1 + puzzle.marks.findIndex((it) => it.id === mark)]));
      const { ink, pencil } = settles;
      chosen((it) => it.write({ ink, pencil, marks: marks.filter((one) => one[1] > 0) }));
    },
    pencilIn: (allowed) => write([], (it) => it.pencilIn(allowed)),
    say,
    failed: (fault) => (fault instanceof Error ? fault.message : String(fault)),
  });
  form.after(help.section);
  help.section.hidden = progress.isDone;
  const giveUp = document.getElementById("give-up");
  if (giveUp) giveUp.hidden = progress.isDone;
  giveUp?.addEventListener("click", () => end("gave-up", "Given up. What you wrote is kept."));
  document.addEventListener("visibilitychange", () => {
    if (progress.isDone || !progress.started) return;
    log.note(document.hidden ? "pause" : "resume");
    keep();
  });
  addEventListener("pagehide", keep);
  board.show(sheet);
  log.send();
  if (progress.started && !progress.isDone) clock.start();

  /**
   * Changes the sheet, and tells what has changed.
   * @param {number[]} cells What is said of.
   * @param {(sheet: Sheet) => Change[]} how
   * @param {string} [orElse] What is said if nothing changes.
   * @param {string} [as] What it is called in the log, if the changes alone do not say it.
   */
  function write(cells, how, orElse = "", as = "") {
    if (progress.isDone) return (status.textContent = "This test solve has ended.");
    const changes = how(sheet);
    if (changes.length === 0) return orElse && (status.textContent = orElse);
    progress.started ??= new Date().toISOString();
    clock.start();
    if (as) log.note(as);
    const seen = new Set();
    for (const [layer, at] of changes) {
      if (seen.has(`${layer} ${at}`)) continue;
      seen.add(`${layer} ${at}`);
      log.note(HAPPENING[layer], at, sheet.written[layer][at]);
    }
    board.show(sheet);
    help.changed();
    keep();
    const said = cells.length ? cells : changes.filter((it) => it[0] !== "struck").map((it) => it[1]);
    if (said.length) status.textContent = words.changed(puzzle, sheet, [...new Set(said)]);
    finish();
  }

  /** The desk knows whether a full board is right; the page does not. */
  async function finish() {
    const { ink } = sheet.written;
    if (ink.includes(0)) return;
    /** @type {import("./api.js").Answer<{is_solved: boolean}>} */
    const { value, refused } = await ask("POST", `/solves/${id}/judged`, { digits: ink });
    if (refused) return say(told(refused));
    if (!value.is_solved) return (status.textContent = words.FULL_BUT_WRONG);
    end("solved", words.finished(puzzle, clock.spent, 0));
  }

  /**
   * @param {string} how
   * @param {string} what
   */
  function end(how, what) {
    if (progress.isDone) return;
    clock.stop();
    progress.isDone = true;
    log.note(how);
    keep();
    status.textContent = what;
    if (giveUp) giveUp.hidden = true;
    help.section.hidden = true;
  }

  function keep() {
    if (!store.keep(puzzle, { ...progress, spent: clock.spent })) say(words.NOT_KEPT);
  }
}
