// What a window does with keys and pointer: the same in both.

import * as keysOf from "./keys.js";
import * as kept from "./kept.js";
import { Link } from "./link.js";
import { Session } from "./session.js";
import { View } from "./view.js";
import * as words from "./words.js";

/** @typedef {import("../../site/play/puzzle.js").Puzzle} Puzzle */
/** @typedef {import("./plan.js").Plan} Plan */
/** @typedef {import("./keys.js").Command} Command */

/**
 * @typedef {object} Here A window, as its own page sees it.
 * @property {string} other Where the other window's page is.
 * @property {() => void} show Shows everything as it is.
 * @property {(what: string) => void} say
 * @property {(isKept: boolean) => void} kept Whether the browser has kept what was changed.
 * @property {() => void} ask What is open from here?
 */

export class Controls {
  /** @type {globalThis.Window | null} The other window, if it was opened from here. */ #other = null;

  /**
   * @param {Puzzle} puzzle
   * @param {Plan} plan
   * @param {HTMLElement} figure
   * @param {Here} here
   */
  constructor(puzzle, plan, figure, here) {
    this.here = here;
    this.session = new Session(puzzle, plan, crypto.randomUUID?.() ?? String(Math.random()));
    const { session } = this;
    const now = () => Date.now();
    this.wasUnreadable = kept.takeUp(session);
    /** @type {Record<Command, () => boolean>} */
    this.commands = {
      next: () => session.go(session.state.step + 1, now()) || this.#say(words.NO_NEXT),
      back: () => session.go(session.state.step - 1, now()) || this.#say(words.NO_BEFORE),
      "next-passage": () => session.goPassage(1, now()) || this.#say(words.NO_NEXT),
      "back-passage": () => session.goPassage(-1, now()) || this.#say(words.NO_BEFORE),
      title: () => session.show("title"),
      rules: () => session.show("rules"),
      sheet: () => session.show("board"),
      dark: () => session.turnGround(),
      record: () => session.begin("recording", now()) || this.#say(words.IS_OPEN),
      rehearse: () => session.begin("rehearsal", now()) || this.#say(words.IS_OPEN),
      pause: () => session.pause(now()) || this.#say(words.NONE_OPEN),
      end: () => session.end(now()) || this.#say(words.NONE_OPEN),
      window: () => this.#openOther(),
    };
    const hand = (/** @type {boolean} */ isChanged) => this.#done(isChanged || this.#say(words.NOT_CHANGED));
    this.view = new View(puzzle, figure, {
      press: (cells, digit) => hand(session.write(cells, digit, now())),
      strike: (cells, digit) => hand(session.pencil(cells, digit, now())),
      mark: (cells, mark) => hand(session.change(now(), (it) => it.mark(cells, mark))),
      rubOut: (cells) => hand(session.change(now(), (it) => it.rubOut(cells))),
      strikeClue: (line) => hand(session.change(now(), (it) => it.strikeClue(line))),
      undo: () => this.#done(session.undo(now()) || this.#say(words.NOTHING_TO_UNDO)),
      redo: () => this.#done(session.redo(now()) || this.#say(words.NOTHING_TO_REDO)),
      hint: () => here.ask(),
      choose: (cells) => this.#done(this.link !== undefined && session.choose(cells)),
    });
    const shown = () => here.show();
    this.link = new Link(session, shown);
    kept.watch(session, shown);
    document.addEventListener("keydown", (event) => this.#onKey(event));
  }

  /**
   * Does what a key or button says.
   * @param {Command} command
   */
  do(command) {
    this.#done(this.commands[command]());
  }

  /** Something was changed by other means: it is shown, kept and handed on. */
  changed() {
    this.#done(true);
  }

  /** @param {KeyboardEvent} event */
  #onKey(event) {
    const command = keysOf.commandOf(event);
    if (command) {
      event.preventDefault();
      return this.do(command);
    }
    const target = event.target instanceof Element ? event.target : document.body;
    // On the board itself it has heard the key already; a button keeps those that press it.
    if (this.view.board.grid.contains(target)) return;
    if (target.closest("button, summary, a") && ["Enter", " "].includes(event.key)) return;
    this.view.board.key(event);
  }

  /** @param {boolean} isChanged */
  #done(isChanged) {
    if (!isChanged) return;
    this.here.kept(kept.keep(this.session));
    this.link.send();
    this.here.show();
  }

  #openOther() {
    if (this.#other && !this.#other.closed) {
      this.#other.focus();
      return false;
    }
    this.#other = window.open(this.here.other, "", "popup,width=1280,height=800");
    if (!this.#other) return this.#say(words.BLOCKED);
    this.link.meet(this.#other);
    return false;
  }

  /**
   * @param {string} what
   * @returns {false} So that nothing counts as changed.
   */
  #say(what) {
    this.here.say(what);
    return false;
  }
}

