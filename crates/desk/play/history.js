// What the puzzle's file was before each change that was made at the desk.

import { ask, told } from "./api.js";

/**
 * @param {string} id
 * @param {(board: import("./typed.js").Typed) => void} take
 */
export async function showHistory(id, take) {
  const part = document.querySelector("#history .changes");
  /** @type {import("./api.js").Answer<{at: string, lines: string[], board_before: import("./typed.js").Typed | null}[]>} */
  const { value, refused } = await ask("GET", `/puzzles/${id}/history`);
  if (!part) return;
  if (refused) return part.replaceChildren(paragraph(told(refused)));
  if (value.length === 0) return;
  const list = document.createElement("ol");
  for (const { at, lines, board_before } of value) {
    const item = document.createElement("li");
    const text = document.createElement("pre");
    text.textContent = lines.join("\n");
    item.append(paragraph(`${at} (Greenwich)`), text);
    if (board_before) {
      const back = document.createElement("button");
      back.type = "button";
      back.textContent = "Go back to the board before this";
      back.addEventListener("click", () => take(board_before));
      item.append(back);
    }
    list.append(item);
  }
  part.replaceChildren(list);
}

/** @param {string} text */
function paragraph(text) {
  const it = document.createElement("p");
  it.textContent = text;
  return it;
}
