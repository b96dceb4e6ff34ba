// The presenter's page: the words, the clock, what the plan says, and the stage in small.

import { element } from "../../site/play/board.js";
import { embedded } from "../../site/play/puzzle.js";
import { Controls } from "./controls.js";
import { Engine } from "./engine.js";
import { keys } from "./keys.js";
import { Margin } from "./margin.js";
import { embeddedPlan } from "./plan.js";
import { Watch } from "./watch.js";
import * as words from "./words.js";

const found = embedded();
const plan = embeddedPlan();
const figure = /** @type {HTMLElement | null} */ (document.querySelector("figure.board"));
if (found && plan && figure) begin(found.puzzle, found.text, plan, figure);

/**
 * @param {import("../../site/play/puzzle.js").Puzzle} puzzle
 * @param {string} text
 * @param {import("./plan.js").Plan} plan
 * @param {HTMLElement} figure
 */
function begin(puzzle, text, plan, figure) {
  const status = part(".status");
  const notice = part("[role=alert]");
  const engine = new Engine(puzzle, text);
  const controls = new Controls(puzzle, plan, figure, {
    other: `${puzzle.id}.html`,
    show,
    say: (what) => (status.textContent = what),
    kept: (isKept) => {
      if (!isKept) notice.textContent = words.NOT_KEPT;
    },
    ask: () => watch.ask(),
  });
  const watch = new Watch(engine, controls.session, {
    tell: (told) => {
      controls.session.tell(told);
      controls.changed();
    },
    say: (open) => margin.showOpen(open),
    failed: () => (notice.textContent = words.NO_ENGINE),
  });
  const margin = new Margin(controls, part);
  for (const [key, meaning] of keys(puzzle)) {
    part(".keys dl").append(element("dt", "", key), element("dd", "", meaning));
  }
  if (controls.wasUnreadable) notice.textContent = words.ASIDE;
  show();
  setInterval(() => margin.showTime(), 250);

  function show() {
    const { ground } = controls.session.state;
    document.documentElement.dataset.ground = ground;
    status.textContent = "";
    controls.view.show(controls.session);
    margin.show();
    watch.look();
  }
}

/** @param {string} selector */
function part(selector) {
  return /** @type {HTMLElement} */ (document.querySelector(selector));
}
