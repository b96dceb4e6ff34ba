// The season: days and setters are kept, and the page follows what happens.

import { ask, listen, madeAnew, say, told } from "./api.js";

/** Whether something is typed that is not kept yet. */
let isTyping = false;

document.addEventListener("input", () => (isTyping = true));
document.addEventListener("submit", async (event) => {
  event.preventDefault();
  const form = event.target;
  if (!(form instanceof HTMLFormElement)) return;
  const given = new FormData(form);
  const text = (/** @type {string} */ name) => String(given.get(name) ?? "").trim() || null;
  const began_from = form.dataset.digest;
  const { puzzle, setter } = form.dataset;
  const { refused } = puzzle
    ? await ask("PUT", `/puzzles/${puzzle}/days`, { received: text("received"), record: text("record"), release: text("release"), began_from })
    : await ask("PUT", "/setters", { name: setter, credit: text("credit"), link: text("link"), wishes: text("wishes"), began_from });
  if (refused) return tell(told(refused));
  isTyping = false;
  await take();
  tell(puzzle ? "The days are kept." : "Kept for all of the setter's puzzles.");
});

listen(async (word) => {
  if (word === "end") return say("The desk has ended. What stands here is not lost.");
  if (word !== "files" && word !== "studied" && word !== "solves") return;
  if (isTyping) return say("Files have changed. Keep what you type, or load the page again to see them.");
  await take();
});

/** Takes over the page as the desk makes it now; what was unfolded stays so, and the keyboard where it was. */
async function take() {
  const main = await madeAnew();
  const now = document.querySelector("main");
  if (!main || !now || isTyping) return;
  const open = [...now.querySelectorAll("details")].map((it) => it.open);
  const unfold = [...main.querySelectorAll("details")];
  if (unfold.length === open.length) unfold.forEach((it, at) => (it.open = open[at] ?? false));
  const said = main.querySelector("#said");
  if (said) said.textContent = document.getElementById("said")?.textContent ?? "";
  if (main.innerHTML === now.innerHTML) return;
  const focused = document.activeElement;
  const buttons = [...now.querySelectorAll("a, button, input, summary, textarea")];
  const at = focused ? buttons.indexOf(focused) : -1;
  now.replaceChildren(...main.childNodes);
  const again = now.querySelectorAll("a, button, input, summary, textarea")[at];
  if (again instanceof HTMLElement) again.focus();
}

/** @param {string} what */
function tell(what) {
  const line = document.getElementById("said");
  if (line) line.textContent = what;
}
