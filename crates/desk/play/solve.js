// A test solve: the playing sheet of the site, and everything that is written on it told to the desk.

import { ask, isPassing, say, told } from "./api.js";
import { Helper } from "./helper.js";
import { HAPPENING, asKnown, isSame } from "./known.js";
import { Log, NOT_KEPT, begun, forget, remember } from "./log.js";
import { Board, element } from "/play/sheet/board.js";
import { Clock } from "/play/sheet/clock.js";
import { footLine, keyList } from "/play/sheet/footline.js";
import { Help } from "/play/sheet/help.js";
import * as store from "/play/sheet/store.js";
import * as words from "/play/sheet/words.js";

/** @typedef {import("/play/sheet/puzzle.js").Puzzle} Puzzle */
/** @typedef {import("/play/sheet/sheet.js").Sheet} Sheet */
/** @typedef {import("/play/sheet/sheet.js").Change} Change */

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
  // An invited tester's page knows which solve is theirs, or that there is none; what this browser remembers may be another's.
  const id = form.dataset.solve ?? before;
  if (id) return goOn(puzzle, figure, form, id, id === before);
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
    solve(puzzle, figure, form, id, new Log(id));
  });
}

/**
 * Goes on with a solve that was begun before. What it was in another browser meanwhile is taken over from the desk, once that
 * has everything that was written in this one.
 * @param {Puzzle} puzzle
 * @param {HTMLElement} figure
 * @param {HTMLFormElement} form
 * @param {string} id
 * @param {boolean} isHere Whether this browser has its sheet.
 */
async function goOn(puzzle, figure, form, id, isHere) {
  form.hidden = true;
  const log = new Log(id);
  if (!isHere || (await log.send())) {
    const { known, refused } = await asKnown(puzzle, id);
    if (refused && !isHere) return say(told(refused));
    const here = isHere ? store.kept(puzzle).progress : null;
    if (known && log.isTold) store.keep(puzzle, here && isSame(here, known) ? { ...here, spent: Math.max(here.spent, known.spent) } : known);
  }
  remember(puzzle.fingerprint, id);
  solve(puzzle, figure, form, id, log);
}

/**
 * @param {Puzzle} puzzle
 * @param {HTMLElement} figure
 * @param {HTMLFormElement} form
 * @param {string} id
 * @param {Log} log
 */
function solve(puzzle, figure, form, id, log) {
  form.hidden = true;
  const { progress } = store.kept(puzzle);
  const { sheet } = progress;
  const clock = new Clock(progress.spent, () => {});
  /** The full board that was judged last. */ let judged = "";
  log.spent = () => Math.round(clock.spent);
  log.caughtUp = finish;
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
  const help = new Help(new Helper(puzzle, id, log), {
    sheet: () => sheet,
    cell: () => (board.chosen.length === 1 && sheet.written.ink[board.chosen[0]] ? board.chosen[0] : null),
    pointAt: (cells, how) => board.pointAt(cells, how),
    // For what is said at the end: in the log, the desk notes what it has told.
    noteHint: () => {
      progress.hints.push(log.spent() / 1000);
      keep();
    },
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
  const giveUp = document.getElementById("give-up");
  giveUp?.addEventListener("click", () => {
    log.note("gave-up");
    end("Given up. What you wrote is kept.");
  });
  const another = document.getElementById("another");
  another?.addEventListener("click", beginAnother);
  document.addEventListener("visibilitychange", async () => {
    if (progress.isDone) return;
    if (progress.started) log.note(document.hidden ? "pause" : "resume");
    keep();
    if (!document.hidden && (await isBehind())) location.reload();
  });
  addEventListener("pagehide", keep);
  board.show(sheet);
  showEnd();
  if (progress.started && !progress.isDone) clock.start();
  log.send();
  finish();

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
    const changed = new Map(changes.map(([layer, at]) => [`${layer} ${at}`, /** @type {const} */ ([layer, at])]));
    // With it stands how many of the changes that follow are its own: nobody wrote those.
    if (as) log.note(as, null, changed.size);
    for (const [layer, at] of changed.values()) log.note(HAPPENING[layer], at, sheet.written[layer][at]);
    board.show(sheet);
    help.changed();
    keep();
    const said = cells.length ? cells : changes.filter((it) => it[0] !== "struck").map((it) => it[1]);
    if (said.length) status.textContent = words.changed(puzzle, sheet, [...new Set(said)]);
    finish();
  }

  /** The desk knows whether a full board is right; the page does not. If the desk is away, it is asked once it is back. */
  async function finish() {
    const ink = [...sheet.written.ink];
    const full = ink.join();
    if (progress.isDone || ink.includes(0) || judged === full) return;
    // Nobody solves while the desk is waited for.
    clock.stop();
    // What is written meanwhile is judged by itself.
    if (!(await log.send()) || full !== sheet.written.ink.join()) return;
    judged = full;
    /** @type {import("./api.js").Answer<{is_solved: boolean}>} */
    const { value, refused } = await ask("POST", `/solves/${id}/judged`, { digits: ink });
    if (refused) {
      judged = "";
      if (isPassing(refused)) log.later();
      return say(told(refused));
    }
    if (!value.is_solved) {
      clock.start();
      return (status.textContent = words.FULL_BUT_WRONG);
    }
    // For the desk it has ended with that board, whatever was pressed since.
    sheet.written.ink = ink;
    board.show(sheet);
    end(words.finished(puzzle, clock.spent, progress.hints.length));
  }

  /** @param {string} what */
  function end(what) {
    if (progress.isDone) return;
    clock.stop();
    progress.isDone = true;
    keep();
    status.textContent = what;
    showEnd();
  }

  function showEnd() {
    const { isDone } = progress;
    help.section.hidden = isDone;
    if (giveUp) giveUp.hidden = isDone;
    if (another) another.hidden = !isDone;
  }

  /** Makes room for whoever solves next; what the desk was not told of this solve must not be left behind. */
  async function beginAnother() {
    if (!(await log.send())) return;
    forget(puzzle.fingerprint);
    location.reload();
  }

  /** Whether this solve has gone on in another browser. */
  async function isBehind() {
    if (!(await log.send())) return false;
    const { known } = await asKnown(puzzle, id);
    return known !== null && log.isTold && !isSame(progress, known);
  }

  function keep() {
    if (!store.keep(puzzle, { ...progress, spent: clock.spent })) say(NOT_KEPT);
  }
}
