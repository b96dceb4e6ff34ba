// Questions about one cell: why it is so, and whether it is so and follows from a board.

import { ask, told } from "./api.js";

/** @typedef {{answer: string, says: string, steps: {technique: string, says: string}[], counterexample: [string, string] | null}} Answer */

/**
 * Lets the form ask.
 * @param {string} id The puzzle's.
 */
export function attendQuestions(id) {
  const form = document.getElementById("question");
  const place = document.getElementById("answer");
  if (!(form instanceof HTMLFormElement) || !place || form.dataset.isAttended) return;
  form.dataset.isAttended = "yes";
  const side = Number(form.dataset.side);
  const [cell, digit, after, within] = ["cell", "digit", "after", "within"].map((name) => field(`asked-${name}`));
  const says = /** @type {HTMLSelectElement} */ (document.getElementById("asked-says"));
  /** The question that is asked now. */ let asking = new AbortController();

  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const button = /** @type {SubmitEvent} */ (event).submitter;
    const how = button instanceof HTMLButtonElement ? button.value : "why";
    const at = numberOf(cell.value, side);
    if (at === null) return tell(place, "The board has no such cell.");
    const needsDigit = says.value === "is-not" || (says.value === "is" && how === "judge");
    if (needsDigit && !digit.value) {
      tell(place, "A digit is missing.");
      return digit.focus();
    }
    const hasDigit = says.value.startsWith("is") && digit.value !== "";
    const claim = { cell: at, says: says.value, digit: hasDigit ? Number(digit.value) : null };
    const judged = { claim, after: Number(after.value) || null, within: Number(within.value) };
    asking.abort();
    asking = new AbortController();
    tell(place, "Looking for an answer.");
    /** @type {import("./api.js").Answer<Answer>} */
    const { value, refused } = await ask("POST", `/puzzles/${id}/${how}`, how === "why" ? claim : judged, asking.signal);
    if (refused) return tell(place, told(refused));
    tell(place, value.says);
    const list = document.createElement("ol");
    for (const it of value.steps) {
      const item = document.createElement("li");
      const technique = document.createElement("p");
      technique.className = "technique";
      technique.textContent = it.technique;
      const text = document.createElement("p");
      text.textContent = it.says;
      item.append(technique, text);
      list.append(item);
    }
    if (value.steps.length) place.append(list);
    if (value.counterexample) place.append(shown(...value.counterexample));
    place.focus();
  });

  document.querySelector(".reading figure")?.addEventListener("click", (event) => {
    const figure = /** @type {HTMLElement} */ (event.currentTarget);
    const at = pressed(figure, /** @type {MouseEvent} */ (event), side);
    if (!at) return;
    cell.value = at;
    after.value = figure.querySelector("[data-shown]")?.getAttribute("data-shown") ?? "0";
    cell.focus();
  });
}

/**
 * A picture of a board, folded away: it gives the solution.
 * @param {string} what
 * @param {string} picture
 */
function shown(what, picture) {
  const folded = document.createElement("details");
  const summary = document.createElement("summary");
  summary.textContent = what;
  folded.append(summary, new DOMParser().parseFromString(picture, "image/svg+xml").documentElement);
  return folded;
}

/**
 * @param {HTMLElement} place
 * @param {string} what
 */
function tell(place, what) {
  const line = document.createElement("p");
  line.setAttribute("role", "status");
  line.textContent = what;
  place.replaceChildren(line);
}

/**
 * @param {string} name
 * @returns {HTMLInputElement}
 */
function field(name) {
  const it = document.getElementById(name);
  if (!(it instanceof HTMLInputElement)) throw new Error(`no ${name}`);
  return it;
}

/**
 * `r4c7`, counted row by row from 0; null if the board has no such cell.
 * @param {string} text
 * @param {number} side
 */
export function numberOf(text, side) {
  const [, row, column] = /^r(\d+)c(\d+)$/i.exec(text.trim()) ?? [];
  const isThere = [row, column].every((it) => Number(it) >= 1 && Number(it) <= side);
  return isThere ? (Number(row) - 1) * side + Number(column) - 1 : null;
}

/**
 * The cell of a drawn board under the pointer, by its name.
 * @param {HTMLElement} figure Says where on the picture the frame is.
 * @param {MouseEvent} event
 * @param {number} side
 */
function pressed(figure, event, side) {
  const picture = figure.querySelector("svg");
  const [left, top, length, paper] = (figure.dataset.frame ?? "").split(" ").map(Number);
  const box = picture?.getBoundingClientRect();
  if (!box || !paper) return null;
  const place = (/** @type {number} */ at, /** @type {number} */ from) => Math.floor((((at * paper) / box.width - from) / length) * side) + 1;
  const [row, column] = [place(event.clientY - box.top, top), place(event.clientX - box.left, left)];
  const isThere = [row, column].every((it) => it >= 1 && it <= side);
  return isThere ? `r${row}c${column}` : null;
}
