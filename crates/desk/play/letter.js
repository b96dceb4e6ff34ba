// The part of a puzzle's page that is about its setter. It listens on the document, because the part is made anew.

import { ask, madeAnew, told } from "./api.js";

document.addEventListener("click", (event) => {
  const button = event.target instanceof Element ? event.target.closest("button") : null;
  if (button?.dataset.approve) approve(button.dataset.approve === "yes");
  if (button?.dataset.copy === "letter") copy();
});
// A part that unfolds does not tell those around it.
document.addEventListener("toggle", (event) => event.target instanceof HTMLDetailsElement && event.target.matches(".letter[open]") && fill(), true);

/** @param {boolean} approved */
async function approve(approved) {
  const part = document.getElementById("letter");
  const { puzzle, fingerprint } = part?.dataset ?? {};
  const { refused } = await ask("PUT", `/puzzles/${puzzle}/approval`, { approved, fingerprint });
  if (refused) return say(told(refused));
  renewLetter(await madeAnew());
  // The button that was pressed is gone; the keyboard goes on from the one in its place.
  /** @type {HTMLElement | null} */ (document.querySelector("#letter [data-approve]"))?.focus();
  say(approved ? "Noted in the puzzle's file." : "Taken back from the puzzle's file.");
}

/**
 * Takes over the part as the desk makes it now, if anything of it is another; an unfolded letter is written anew.
 * @param {Element | null} main
 */
export function renewLetter(main) {
  const [now, then] = [document.getElementById("letter"), main?.querySelector("#letter")];
  if (!now || !(then instanceof HTMLElement) || now.dataset.state === then.dataset.state) return;
  const isOpen = now.querySelector(".letter[open]") !== null;
  now.replaceWith(then);
  if (isOpen) then.querySelector(".letter")?.toggleAttribute("open", true);
}

async function fill() {
  const part = document.getElementById("letter");
  const [subject, text] = [document.getElementById("letter-subject"), document.getElementById("letter-text")];
  if (!part || !(subject instanceof HTMLInputElement) || !(text instanceof HTMLTextAreaElement) || text.value !== "") return;
  say("The letter is being written.");
  /** @type {import("./api.js").Answer<{subject: string, text: string}>} */
  const { value, refused } = await ask("GET", `/puzzles/${part.dataset.puzzle}/letter`);
  if (refused) return say(told(refused));
  subject.value = value.subject;
  text.value = value.text;
  /** @type {HTMLButtonElement | null} */ const button = part.querySelector("[data-copy]");
  if (button) button.disabled = false;
  say("");
}

async function copy() {
  const text = document.getElementById("letter-text");
  if (!(text instanceof HTMLTextAreaElement)) return;
  try {
    await navigator.clipboard.writeText(text.value);
    say("Copied.");
  } catch {
    text.focus();
    text.select();
    say("This browser keeps its clipboard to itself: the letter is selected, copy it with the keyboard.");
  }
}

/** @param {string} what */
function say(what) {
  const line = document.querySelector("#letter .said");
  if (line) line.textContent = what;
}
