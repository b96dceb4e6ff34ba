// The page of the pack: puzzles are moved by drag or by keys, each move is weighed, and an order is kept only when asked.

import { ask, listen, madeAnew, say, told } from "./api.js";
import { beginGaps, isDeciding, showMade } from "./gaps.js";
import { follow } from "./jobs.js";
import { beginPlaces, isChoosing } from "./places.js";

/** @typedef {{title: string, says: string}} Flaw */
/** @typedef {{says: string, cost: number | null, cost_before: number | null, worse: Flaw[], better: Flaw[]}} Weighed */

let isMoved = false;
/** The page as the desk made it. */
let asMade = document.querySelector("main")?.innerHTML ?? "";
begin();
listen(async (word) => {
  if (word === "end") return say("The desk has ended. What stands here is not lost.");
  const main = await madeAnew();
  const now = document.querySelector("main");
  if (!main || !now || main.innerHTML === asMade) return;
  if (isMoved || isBeginning() || isChoosing() || isDeciding()) return say(isMoved ? "Files have changed. Keep your order or put it back to see them." : "Files have changed. Load the page again to see them.");
  take(main);
});
follow((job) => {
  if (job.kind === "set" && job.state === "done") void showMade(job.id);
});

/** @param {Element} main */
function take(main) {
  const focused = document.activeElement?.closest("[data-id]")?.getAttribute("data-id");
  const by = document.activeElement?.getAttribute("data-by");
  asMade = main.innerHTML;
  document.querySelector("main")?.replaceChildren(...main.childNodes);
  begin();
  const again = focused && by && document.querySelector(`[data-id="${focused}"] [data-by="${by}"]`);
  if (again instanceof HTMLElement) again.focus();
}

/** Whether somebody types in the form of a new puzzle. */
function isBeginning() {
  const fields = /** @type {HTMLInputElement[]} */ ([...document.querySelectorAll("#new input")]);
  return fields.some((it) => it.value !== "");
}

/** @param {SubmitEvent} event */
async function beginPuzzle(event) {
  event.preventDefault();
  const given = new FormData(/** @type {HTMLFormElement} */ (event.target));
  const asked = { title: given.get("title"), setter: given.get("setter"), side: Number(given.get("side")) };
  /** @type {import("./api.js").Answer<{id: string}>} */
  const { value, refused } = await ask("POST", "/puzzles", asked);
  if (refused) return say(told(refused));
  location.assign(`/puzzles/${value.id}`);
}

function begin() {
  beginGaps();
  beginPlaces();
  const form = document.getElementById("new");
  if (form instanceof HTMLFormElement) form.addEventListener("submit", beginPuzzle);
  const order = document.getElementById("order");
  const list = order?.querySelector("ol.order");
  const weighed = document.getElementById("weighed");
  const [says, flaws] = [weighed?.querySelector(".says"), weighed?.querySelector(".flaws")];
  const keepButton = /** @type {HTMLButtonElement | null} */ (document.getElementById("keep"));
  const backButton = /** @type {HTMLButtonElement | null} */ (document.getElementById("put-back"));
  if (!order || !(list instanceof HTMLElement) || !says || !flaws || !keepButton || !backButton) return;
  const rows = () => /** @type {HTMLElement[]} */ ([...list.children]);
  const ids = () => rows().map((it) => it.dataset.id ?? "");
  const before = rows();
  let asking = new AbortController();

  list.addEventListener("click", (event) => {
    const [row, by] = asked(event);
    if (row && by) move(row, rows().indexOf(row) + by, event.target);
  });
  list.addEventListener("keydown", (event) => {
    const [row] = asked(event);
    const at = row ? rows().indexOf(row) : -1;
    const to = /** @type {Record<string, number>} */ ({ ArrowUp: at - 1, ArrowDown: at + 1, Home: 0, End: before.length - 1 });
    if (!row || !Object.hasOwn(to, event.key)) return;
    event.preventDefault();
    move(row, to[event.key], event.target);
  });
  drag(list, () => weigh());
  keepButton.addEventListener("click", keep);
  backButton.addEventListener("click", () => {
    list.replaceChildren(...before);
    weigh();
  });

  /**
   * @param {HTMLElement} row
   * @param {number} to
   * @param {EventTarget | null} focused
   */
  function move(row, to, focused) {
    const others = rows().filter((it) => it !== row);
    if (to < 0 || to > others.length || !list || rows().indexOf(row) === to) return;
    list.insertBefore(row, others[to] ?? null);
    // A button that is moved loses the keyboard.
    if (focused instanceof HTMLElement) focused.focus();
    row.scrollIntoView({ block: "nearest" });
    weigh(`${row.dataset.title} is now number ${to + 1}.`);
  }

  /** @param {string} [what] */
  async function weigh(what = "") {
    if (!says || !flaws || !keepButton || !backButton) return;
    rows().forEach((it, at) => {
      const number = it.querySelector(".number");
      if (number) number.textContent = String(at + 1);
      it.toggleAttribute("data-moved", before.indexOf(it) !== at);
    });
    isMoved = rows().some((it, at) => before[at] !== it);
    keepButton.disabled = backButton.disabled = !isMoved;
    flaws.replaceChildren();
    asking.abort();
    asking = new AbortController();
    if (!isMoved) return (says.textContent = `${what} Everything stands where it stood.`);
    says.textContent = `${what} Weighing it.`;
    /** @type {import("./api.js").Answer<Weighed>} */
    const { value, refused } = await ask("POST", "/pack/order/weighed", { order: ids() }, asking.signal);
    if (refused) return (says.textContent = told(refused));
    says.textContent = `${what} ${value.says}`;
    flaws.replaceChildren(...told_flaws("What gets worse", value.worse), ...told_flaws("What gets better", value.better));
    if (value.worse.length + value.better.length === 0) flaws.textContent = "Nothing that is told gets worse or better.";
  }

  async function keep() {
    if (!order || !says) return;
    /** @type {import("./api.js").Answer<{digest: string}>} */
    const { value, refused } = await ask("PUT", "/pack/order", { order: ids(), began_from: order.dataset.digest });
    if (refused) return (says.textContent = told(refused));
    order.dataset.digest = value.digest;
    isMoved = false;
    say("The order is kept.");
    const main = await madeAnew();
    if (main) take(main);
  }
}

/**
 * The row that a press in one of its buttons is about, and by how many places it moves it.
 * @param {Event} event
 * @returns {[HTMLElement | null, number]}
 */
function asked(event) {
  const button = event.target instanceof Element ? event.target.closest("[data-by]") : null;
  const row = button?.closest("li");
  return [row ?? null, Number(button?.getAttribute("data-by") ?? 0)];
}

/**
 * Rows that follow a pressed pointer. A finger scrolls the page; it moves a row by its arrows.
 * @param {HTMLElement} list
 * @param {() => void} then
 */
function drag(list, then) {
  /** @type {HTMLElement | null} */ let row = null;
  let isMoving = false;
  list.addEventListener("pointerdown", (event) => {
    const target = event.target instanceof Element ? event.target : null;
    if (event.button !== 0 || event.pointerType === "touch" || target?.closest("a, button")) return;
    row = target?.closest("li") ?? null;
    isMoving = false;
  });
  list.addEventListener("pointermove", (event) => {
    if (!row || (event.buttons & 1) === 0) return;
    if (!isMoving) list.setPointerCapture(event.pointerId);
    isMoving = true;
    row.toggleAttribute("data-dragged", true);
    const others = /** @type {HTMLElement[]} */ ([...list.children]).filter((it) => it !== row);
    const under = others.find((it) => {
      const box = it.getBoundingClientRect();
      return event.clientY < box.top + box.height / 2;
    });
    if (row.nextElementSibling !== (under ?? null)) list.insertBefore(row, under ?? null);
  });
  const end = () => {
    row?.toggleAttribute("data-dragged", false);
    if (row && isMoving) then();
    row = null;
  };
  list.addEventListener("pointerup", end);
  list.addEventListener("pointercancel", end);
}

/**
 * @param {string} head
 * @param {Flaw[]} flaws
 */
function told_flaws(head, flaws) {
  if (flaws.length === 0) return [];
  const title = document.createElement("h3");
  title.textContent = head;
  const list = document.createElement("ul");
  for (const it of flaws) {
    const item = document.createElement("li");
    item.textContent = `${it.title}: ${it.says}`;
    list.append(item);
  }
  return [title, list];
}
