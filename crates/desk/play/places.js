// Pins, shelves and states by hand: each change is weighed when asked, and kept when asked.

import { ask, say, told } from "./api.js";

/** @typedef {{title: string, says: string}} Flaw */
/** @typedef {{says: string, worse: Flaw[], better: Flaw[]}} Weighed */

/** @type {Set<string | undefined>} Puzzles whose places are unfolded, on whatever page is made anew. */
const unfolded = new Set();

/** Whether something is chosen here and not kept. */
export const isChoosing = () => document.querySelector("#places form[data-touched]") !== null;

/** Puts the forms of the page to work; again for each page that is made anew. */
export function beginPlaces() {
  const section = document.getElementById("places");
  if (!section) return;
  for (const place of /** @type {HTMLElement[]} */ ([...section.querySelectorAll("details.place")])) {
    const id = place.dataset.id;
    place.toggleAttribute("open", unfolded.has(id));
    place.addEventListener("toggle", () => {
      // One that is taken off the page is not folded by anybody.
      if (!place.isConnected) return;
      if (place.hasAttribute("open")) unfolded.add(id);
      else unfolded.delete(id);
    });
    const said = place.querySelector(".said");
    const flaws = place.querySelector(".flaws");
    if (!said || !flaws) continue;
    for (const form of place.querySelectorAll("form")) {
      form.addEventListener("input", () => form.toggleAttribute("data-touched", true));
      form.querySelector("[data-do='weigh']")?.addEventListener("click", async () => {
        said.textContent = "Weighing it.";
        flaws.replaceChildren();
        const { path, body } = asked(section, place, form);
        /** @type {import("./api.js").Answer<Weighed>} */
        const { value, refused } = await ask("POST", `${path}/weighed`, body);
        if (refused) return (said.textContent = told(refused));
        said.textContent = value.says;
        flaws.replaceChildren(...list("What gets worse", value.worse), ...list("What gets better", value.better));
      });
      form.addEventListener("submit", async (event) => {
        event.preventDefault();
        const { path, body } = asked(section, place, form);
        const { refused } = await ask("PUT", path, body);
        if (refused) return (said.textContent = told(refused));
        form.toggleAttribute("data-touched", false);
        said.textContent = "Kept.";
        say(`${place.dataset.title}: kept.`);
      });
    }
  }
}

/**
 * What a form asks for, and where.
 * @param {HTMLElement} section
 * @param {HTMLElement} place
 * @param {HTMLFormElement} form
 */
function asked(section, place, form) {
  const given = new FormData(form);
  const text = (/** @type {string} */ it) => String(given.get(it) ?? "").trim() || null;
  const id = place.dataset.id;
  if (form.classList.contains("pin")) {
    const at = text("place");
    return { path: `/pack/pins/${id}`, body: { place: at === null ? null : Number(at), began_from: section.dataset.digest } };
  }
  const body = { shelf: text("shelf"), state: text("state"), reason: text("reason"), began_from: place.dataset.digest };
  return { path: `/puzzles/${id}/standing`, body };
}

/**
 * @param {string} head
 * @param {Flaw[]} flaws
 */
function list(head, flaws) {
  if (flaws.length === 0) return [];
  const title = document.createElement("h3");
  title.textContent = head;
  const items = flaws.map((it) => Object.assign(document.createElement("li"), { textContent: `${it.title}: ${it.says}` }));
  const list = document.createElement("ul");
  list.append(...items);
  return [title, list];
}
