// What the puzzle's file was before each change, at the desk or by another program, and going back to it.

import { ask, say, told } from "./api.js";

/** @typedef {{id: string, at: string, made_by: string, lines: string[], board_before: import("./typed.js").Typed | null, was_there: boolean}} Change */

/**
 * @param {string} id
 * @param {() => string} digest Of the file as this page knows it.
 * @param {(board: import("./typed.js").Typed) => void} take
 */
export async function showHistory(id, digest, take) {
  const part = document.querySelector("#history .changes");
  if (!part) return;
  const list = document.createElement("ol");
  const more = button("Show earlier changes", () => show(more.dataset.before ?? ""));

  /** @param {string} [before] */
  async function show(before) {
    const which = before ? `?before=${before}` : "";
    /** @type {import("./api.js").Answer<{changes: Change[], has_more: boolean}>} */
    const { value, refused } = await ask("GET", `/puzzles/${id}/history${which}`);
    if (refused) return before ? say(told(refused)) : part?.replaceChildren(paragraph(told(refused)));
    const items = value.changes.map(itemOf);
    const first = before ? items[0] : null;
    list.append(...items);
    more.dataset.before = value.changes.at(-1)?.id ?? "";
    more.hidden = !value.has_more;
    if (list.children.length > 0) part?.replaceChildren(list, more);
    // Whoever asked for more reads on there.
    first?.setAttribute("tabindex", "-1");
    first?.focus();
  }

  /** @param {Change} change */
  function itemOf({ id: change, at, made_by, lines, board_before, was_there }) {
    const item = document.createElement("li");
    const text = document.createElement("pre");
    text.textContent = lines.join("\n");
    item.append(paragraph(made_by === "desk" ? `${at} (Greenwich)` : `Seen at ${at} (Greenwich), changed by another program`), text);
    const actions = paragraph("");
    actions.className = "actions";
    if (board_before) actions.append(button("Go back to the board before this", () => take(board_before)));
    if (was_there) actions.append(button("Put the whole file back to before this", () => goBack(change)));
    if (actions.children.length > 0) item.append(actions);
    return item;
  }

  /** @param {string} change */
  async function goBack(change) {
    const { refused } = await ask("PUT", `/puzzles/${id}/history/${change}`, { began_from: digest() });
    say(refused ? told(refused) : "The file is as it was before that change; this change stands first in its history.");
    if (!refused) showHistory(id, digest, take);
  }

  await show();
}

/**
 * @param {string} text
 * @param {() => void} then
 */
function button(text, then) {
  const it = document.createElement("button");
  it.type = "button";
  it.textContent = text;
  it.addEventListener("click", then);
  return it;
}

/** @param {string} text */
function paragraph(text) {
  const it = document.createElement("p");
  it.textContent = text;
  return it;
}
