// The page that is recorded: it shows, and says nothing of itself.

import { embedded } from "../../site/play/puzzle.js";
import { Controls } from "./controls.js";
import { embeddedPlan } from "./plan.js";

/** After so many milliseconds without a move the pointer is not seen. */
const POINTER_RESTS = 1_500;

const found = embedded();
const plan = embeddedPlan();
const figure = /** @type {HTMLElement | null} */ (document.querySelector("figure.board"));
if (found && plan && figure) begin(found.puzzle, plan, figure);

/**
 * @param {import("../../site/play/puzzle.js").Puzzle} puzzle
 * @param {import("./plan.js").Plan} plan
 * @param {HTMLElement} figure
 */
function begin(puzzle, plan, figure) {
  const { dataset } = document.body;
  // What would be said is for the presenter, and never seen here.
  const controls = new Controls(puzzle, plan, figure, {
    other: `${puzzle.id}.presenter.html`,
    show,
    say: () => {},
    kept: () => {},
    ask: () => {},
  });
  show();
  let rest = 0;
  document.addEventListener("pointermove", () => {
    delete dataset.resting;
    clearTimeout(rest);
    rest = setTimeout(() => (dataset.resting = ""), POINTER_RESTS);
  });

  function show() {
    const { shown, isPointing, ground } = controls.session.state;
    dataset.shown = shown;
    document.documentElement.dataset.ground = ground;
    figure.toggleAttribute("data-pointing", isPointing);
    controls.view.show(controls.session);
  }
}
