// A puzzle's page becomes a sheet to write on. Without this script it is a sheet to print, with folded hints.

import { Board, element } from "./board.js";
import { Clock } from "./clock.js";
import { Engine } from "./engine.js";
import { Files } from "./files.js";
import { button, footLine, keyList } from "./footline.js";
import { Help } from "./help.js";
import { embedded, isSolved } from "./puzzle.js";
import { Sheet } from "./sheet.js";
import * as store from "./store.js";
import * as words from "./words.js";

/** @typedef {import("./sheet.js").Change} Change */

const found = embedded();
const figure = /** @type {HTMLElement | null} */ (document.querySelector("figure.board"));
if (found && figure) begin(found.puzzle, found.text, figure);

/**
 * @param {import("./puzzle.js").Puzzle} puzzle
 * @param {string} text
 * @param {HTMLElement} figure
 */
function begin(puzzle, text, figure) {
  const { progress: before, wasUnreadable } = store.kept(puzzle);
  let progress = before;
  const clock = new Clock(progress.spent, showTime);
  const seconds = () => Math.round(clock.spent / 100) / 10;

  const status = element("p", "status");
  status.setAttribute("role", "status");
  const notice = element("p", "notice");
  notice.setAttribute("role", "alert");
  const time = element("p", "time");
  const board = new Board(puzzle, figure, {
    press: (cells, digit) => write(cells, (it) => it.press(cells, digit)),
    strike: (cells, digit) => write(cells, (it) => it.strike(cells, digit)),
    mark: (cells, mark) => write(cells, (it) => it.mark(cells, mark)),
    rubOut: (cells) => write(cells, (it) => it.rubOut(cells)),
    strikeClue: (line) => {
      write([], (it) => it.strikeClue(line));
      say(words.clueLabel(puzzle, progress.sheet, line));
    },
    undo: () => move((it) => it.undo(), words.NOTHING_TO_UNDO),
    redo: () => move((it) => it.redo(), words.NOTHING_TO_REDO),
    hint: () => help.ask(),
  });
  const onBoard = (/** @type {() => void} */ then) => () => {
    then();
    board.focus();
  };
  const line = footLine(puzzle, {
    press: (digit) => onBoard(() => write(board.chosen, (it) => it.press(board.chosen, digit)))(),
    mark: (mark) => onBoard(() => write(board.chosen, (it) => it.mark(board.chosen, mark)))(),
    rubOut: onBoard(() => write(board.chosen, (it) => it.rubOut(board.chosen))),
    undo: onBoard(() => move((it) => it.undo(), words.NOTHING_TO_UNDO)),
    redo: onBoard(() => move((it) => it.redo(), words.NOTHING_TO_REDO)),
  });
  const engine = new Engine(puzzle, text);
  const help = new Help(engine, {
    sheet: () => progress.sheet,
    cell: () => (board.chosen.length === 1 && progress.sheet.written.ink[board.chosen[0]] ? board.chosen[0] : null),
    pointAt: (cells, how) => board.pointAt(cells, how),
    noteHint: () => {
      progress.hints.push(seconds());
      keep();
    },
    write: (settles) => {
      const marks = settles.marks.map(([cell, id]) => /** @type {[number, number]} */ ([cell, 1 + puzzle.marks.findIndex((it) => it.id === id)]));
      const { ink, pencil } = settles;
      const cells = [...new Set([...ink, ...pencil, ...marks].map(([cell]) => cell))];
      write(cells, (it) => it.write({ ink, pencil, marks: marks.filter((one) => one[1] > 0) }));
      board.focus();
    },
    pencilIn: (allowed) => write([], (it) => it.pencilIn(allowed)),
    say,
    failed: () => {
      document.querySelector(".hints")?.removeAttribute("hidden");
      return words.NO_ENGINE;
    },
  });
  const files = new Files(puzzle, {
    progress: () => ({ ...progress, spent: clock.spent }),
    open: (opened) => {
      take(opened);
      keep();
      say(words.OPENED);
    },
    refuse: say,
    clear: () => write([], (it) => it.clear()),
  });

  figure.append(line, status, keyList(puzzle));
  figure.prepend(notice);
  const hints = document.querySelector(".hints");
  hints?.before(help.section);
  hints?.setAttribute("hidden", "");
  help.section.append(files.part, timePart());
  if (wasUnreadable) notice.textContent = words.ASIDE;
  store.watch(puzzle, (other) => {
    take(other);
    say(words.CHANGED_ELSEWHERE);
  });
  // The last seconds before the page goes.
  document.addEventListener("visibilitychange", () => document.hidden && progress.started && keep());
  addEventListener("pagehide", () => progress.started && keep());
  show();
  if (!progress.sheet.isBlank && !progress.isDone) clock.start();
  whenIdle(() => engine.load().catch(help.asked.failed));

  /**
   * Changes the sheet, and everything that follows from it.
   * @param {number[]} cells What is said of.
   * @param {(sheet: Sheet) => Change[]} how
   */
  function write(cells, how) {
    const changes = how(progress.sheet);
    if (changes.length === 0) {
      const isPrinted = cells.length > 0 && cells.every((it) => progress.sheet.isGiven(it));
      return isPrinted ? say(words.PRINTED) : undefined;
    }
    note(changes);
    if (cells.length > 0) say(words.changed(puzzle, progress.sheet, cells));
  }

  /**
   * Goes back or forth.
   * @param {(sheet: Sheet) => Change[]} how
   * @param {string} orElse What is said if there is nowhere to go.
   */
  function move(how, orElse) {
    const changes = how(progress.sheet);
    if (changes.length === 0) return say(orElse);
    note(changes);
    const cells = [...new Set(changes.filter((it) => it[0] !== "struck").map((it) => it[1]))];
    const [[, place]] = changes;
    say(cells.length > 0 ? words.changed(puzzle, progress.sheet, cells) : words.clueLabel(puzzle, progress.sheet, place));
  }

  /** @param {Change[]} changes */
  function note(changes) {
    progress.started ??= new Date().toISOString();
    clock.start();
    for (const [layer, cell] of changes) {
      if (layer === "ink") progress.entries.push({ at: seconds(), cell, digit: progress.sheet.written.ink[cell] });
    }
    help.changed();
    finish();
    show();
    keep();
  }

  /** Says that it is done, or that it is full and not done. */
  function finish() {
    const { ink } = progress.sheet.written;
    if (ink.includes(0)) return (notice.textContent = "");
    const isDone = isSolved(puzzle, ink);
    if (isDone) {
      clock.stop();
      progress.isDone = true;
    }
    notice.textContent = isDone ? words.finished(puzzle, clock.spent, progress.hints.length) : words.FULL_BUT_WRONG;
  }

  function keep() {
    const isKept = store.keep(puzzle, { ...progress, spent: clock.spent });
    if (!isKept) notice.textContent = words.NOT_KEPT;
  }

  /** @param {store.Progress} other */
  function take(other) {
    progress = other;
    clock.spent = other.spent;
    help.changed();
    show();
  }

  function show() {
    board.show(progress.sheet);
    if (isSolved(puzzle, progress.sheet.written.ink)) help.finished();
    files.show();
    showTime();
  }

  function showTime() {
    time.textContent = words.minutes(clock.spent);
  }

  function timePart() {
    const part = element("div", "clock");
    const toggle = button("Hide the time", "", () => {
      time.hidden = !time.hidden;
      toggle.textContent = time.hidden ? "Show the time" : "Hide the time";
    });
    part.append(time, toggle);
    return part;
  }

  /** @param {string} what */
  function say(what) {
    status.textContent = what;
  }
}

/** @param {() => void} work */
function whenIdle(work) {
  if ("requestIdleCallback" in globalThis) requestIdleCallback(work, { timeout: 2_000 });
  else setTimeout(work, 500);
}
