// The page of one test solve: it is looked back on, and can be written into the pack's `solves`.

import { ask, told } from "./api.js";

/**
 * @typedef {object} LookedBack Times are milliseconds of solving.
 * @property {{after_ms: number, digit: string, n_known: number, says: string}[]} leaps
 * @property {{after_ms: number, digit: string}[]} slips
 * @property {{technique: string, open_ms: number, used_ms: number}[]} late
 * @property {number} n_unjudged
 */

const button = document.getElementById("write");
button?.addEventListener("click", async () => {
  /** @type {import("./api.js").Answer<{file: string}>} */
  const { value, refused } = await ask("PUT", `/solves/${button.dataset.solve}/file`);
  const said = document.getElementById("said");
  if (said) said.textContent = refused ? told(refused) : `Written: ${value.file}. galley calibrate learns from it.`;
});

const section = document.getElementById("hindsight");
if (section) lookBack(section);

/** @param {HTMLElement} section */
async function lookBack(section) {
  const line = section.querySelector("p");
  /** @type {import("./api.js").Answer<LookedBack>} */
  const { value, refused } = await ask("GET", `/solves/${section.dataset.solve}/hindsight`);
  if (!line) return;
  if (refused) return (line.textContent = told(refused));
  const { leaps, slips, late, n_unjudged } = value;
  const said = [leaps.length ? "" : "Every right digit that could be judged followed from what stood on the sheet."];
  if (n_unjudged) said.push(`${n_unjudged} right ${n_unjudged === 1 ? "digit was" : "digits were"} written while something wrong stood there; from that, nothing can be judged.`);
  line.textContent = said.filter(Boolean).join(" ");
  line.hidden = line.textContent === "";
  const leapt = leaps.map((it) => [time(it.after_ms), it.digit, String(it.n_known), it.says]);
  if (leaps.length) section.append(table("Leaps: digits that would have taken more steps from what stood on the sheet than the walkthrough ever takes to one", ["Time", "Digit", "Digits on the board", "What would have justified it"], leapt));
  if (slips.length) section.append(table("Digits that were wrong", ["Time", "Digit"], slips.map((it) => [time(it.after_ms), it.digit])));
  const came = late.map((it) => [it.technique, time(it.open_ms), time(it.used_ms), time(it.used_ms - it.open_ms)]);
  if (late.length) section.append(table("Techniques of the walkthrough that had a place for a minute or more before a digit took them", ["Technique", "A place since", "Used at", "Later by"], came));
}

/**
 * @param {string} caption
 * @param {string[]} names Of the columns.
 * @param {string[][]} rows
 */
function table(caption, names, rows) {
  const table = document.createElement("table");
  table.createCaption().textContent = caption;
  const head = table.createTHead().insertRow();
  for (const name of names) {
    const cell = document.createElement("th");
    cell.scope = "col";
    cell.textContent = name;
    head.append(cell);
  }
  const body = table.createTBody();
  for (const row of rows) {
    const line = body.insertRow();
    for (const text of row) line.insertCell().textContent = text;
  }
  // On a narrow page it is moved sideways by itself.
  const wide = document.createElement("div");
  wide.className = "wide";
  wide.tabIndex = 0;
  wide.setAttribute("role", "region");
  wide.setAttribute("aria-label", caption);
  wide.append(table);
  return wide;
}

/** @param {number} ms */
function time(ms) {
  const seconds = Math.floor(ms / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}
