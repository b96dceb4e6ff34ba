// What stands around the small board on the presenter's page.

import { element } from "../../site/play/board.js";
import { save } from "../../site/play/files.js";
import { button } from "../../site/play/footline.js";
import { capital } from "../../site/play/words.js";
import { closeOf, due, passageOf } from "./plan.js";
import * as takes from "./take.js";
import * as words from "./words.js";

/** @typedef {import("./controls.js").Controls} Controls */
/** @typedef {import("./watch.js").Open} Open */

/** @type {[command: import("./keys.js").Command, text: string][]} What buttons say that do what keys do. */
const BUTTONS = [
  ["record", "Open a recording"],
  ["rehearse", "Open a rehearsal"],
  ["pause", "Stop the time, or go on"],
  ["end", "End it"],
  ["back", "Back by one step"],
  ["next", "Next step"],
  ["title", "Title"],
  ["rules", "Rules"],
  ["sheet", "Sheet"],
  ["dark", "Light or dark"],
  ["window", "The stage’s window"],
];

export class Margin {
  /** @type {Open | null} */ #open = null;

  /**
   * @param {Controls} controls
   * @param {(selector: string) => HTMLElement} part
   */
  constructor(controls, part) {
    this.controls = controls;
    this.part = part;
    this.doing = element("p", "state");
    const line = element("div", "line");
    line.setAttribute("role", "group");
    line.setAttribute("aria-label", "What keys do");
    line.append(...BUTTONS.map(([command, text]) => button(text, command, () => controls.do(command))));
    part(".doing").append(this.doing, line);
    const { plan } = controls.session;
    this.passages = plan.passages.map((it) => {
      const jump = button("", "", () => {
        controls.session.go(it.first, Date.now());
        controls.changed();
      });
      jump.append(element("span", "name", it.title), element("span", "starts", words.time(it.starts)));
      const item = element("li", "");
      item.append(jump);
      return item;
    });
    part(".passages ol").append(...this.passages);
  }

  show() {
    const { state, plan } = this.controls.session;
    this.part(".now .said").replaceChildren(...this.#step(state.step));
    this.part(".next .said").replaceChildren(...this.#step(state.step + 1));
    const here = passageOf(plan, state.step);
    this.passages.forEach((it, at) => {
      if (at === here && state.step > 0 && state.step < closeOf(plan)) it.setAttribute("aria-current", "step");
      else it.removeAttribute("aria-current");
    });
    this.#showTold();
    this.#showLogs();
    this.showTime();
  }

  /** The clock, which runs by itself. */
  showTime() {
    const { session, link } = this.controls;
    const { plan, state } = session;
    const take = state.takes.at(-1);
    const now = Date.now();
    const talked = take ? takes.talked(take, now) : 0;
    put(this.part(".clock"), words.time(talked));
    const stands = take ? words.against(talked, due(plan, state.step)) : "";
    put(this.part(".against"), [stands, words.length(plan)].filter(Boolean).join("; "));
    const doing = words.doing(take, take !== undefined && takes.isPaused(take));
    put(this.doing, link.isHeard ? doing : `${doing} ${words.ALONE}`);
  }

  /**
   * What is open from the board as it is.
   * @param {Open | null} open
   */
  showOpen(open) {
    this.#open = open;
    this.#showTold();
  }

  /**
   * What is said at that number, with what is to be kept in mind.
   * @param {number} number
   * @returns {Node[]}
   */
  #step(number) {
    const { plan } = this.controls.session;
    if (number > closeOf(plan)) return [element("p", "head", words.NO_MORE)];
    const step = plan.steps[number - 1];
    if (!step) {
      const [name, it] = number === 0 ? [words.OPENING, plan.opening] : [words.CLOSE, plan.close];
      return [head([["number", name], ["takes", words.time(it.takes)]]), ...paragraphs("", it.lines)];
    }
    /** @type {[string, string][]} */
    const parts = [["number", `Step ${number}`], ["technique", step.name], ["is-new", step.introduces.length > 0 ? words.NEW : ""]];
    return [
      head([...parts, ["takes", words.time(step.takes)]]),
      ...paragraphs("introduces", step.introduces),
      ...paragraphs("asks", step.asks.map((it) => `${words.ASK} ${it}`)),
      ...paragraphs("", step.says.split("\n").map((it) => it.trim())),
      ...paragraphs("stumbles", step.stumbles.map((it) => `${words.STUMBLE} ${it}`)),
      ...paragraphs("note", step.note === null ? [] : step.note.split("\n")),
    ];
  }

  #showTold() {
    const { told } = this.controls.session.state;
    const open = this.#open;
    /** @type {Node[]} */
    const all = [];
    if (open) {
      const more = element("details", "");
      more.append(element("summary", "", "Which?"), ...open.more.map((it) => element("p", "", it)));
      all.push(element("p", "open", open.text), more);
    }
    for (const it of told.toReversed()) {
      const line = element("p", "early");
      line.append(element("span", "at", words.time(it.at)), element("span", "", it.text));
      all.push(line);
    }
    const place = this.part(".told");
    // What is read already is not to be read out again.
    if (place.textContent !== all.map((it) => it.textContent).join("")) place.replaceChildren(...all);
    this.part(".watch").hidden = all.length === 0;
  }

  #showLogs() {
    const { session } = this.controls;
    const { puzzle, state } = session;
    const items = state.takes.toReversed().map((take) => {
      const item = element("div", "log");
      const text = () => `${JSON.stringify(takes.log(puzzle, take, Date.now()), null, 2)}\n`;
      item.append(
        element("p", "", `${words.takeName(take)}${take.closed === null ? ", open" : `, ${words.time(takes.at(take, 0))}`}`),
        button("Save the log", "save", () => save(takes.fileName(puzzle, take), text())),
      );
      if (take.closed !== null) {
        item.append(
          button("Throw it away", "forget", () => {
            session.forget(take);
            this.controls.changed();
          }),
        );
      }
      return item;
    });
    const place = this.part(".logs .all");
    if (items.length === 0) return place.replaceChildren(element("p", "", words.NO_LOGS));
    // A button that is being pressed stays where it is.
    if (place.textContent !== items.map((it) => it.textContent).join("")) place.replaceChildren(...items);
  }
}

/** @param {[kind: string, text: string][]} parts */
function head(parts) {
  const line = element("p", "head");
  line.append(...parts.filter((it) => it[1]).map(([kind, text]) => element("span", kind, text)));
  return line;
}

/**
 * @param {string} kind
 * @param {string[]} lines
 */
const paragraphs = (kind, lines) => lines.map((it) => element("p", kind, it));

/**
 * @param {HTMLElement} place
 * @param {string} text
 */
function put(place, text) {
  const said = capital(text);
  if (place.textContent !== said) place.textContent = said;
}
