// The board beside a walkthrough shows the paragraph that is being read: the one in focus, or else the one at the reading line.

import { ask } from "./api.js";

/** Pictures that were fetched, by their place. @type {Map<string, string>} */
const pictures = new Map();

/** How far down the window one reads. */
const READING_LINE = 0.35;

export function follow() {
  pictures.clear();
  const part = /** @type {HTMLElement | null} */ (document.querySelector(".reading"));
  const picture = part?.querySelector(".picture");
  const caption = part?.querySelector("figcaption");
  if (!part || !picture || !caption || part.dataset.isFollowed) return;
  part.dataset.isFollowed = "yes";
  const steps = /** @type {HTMLElement[]} */ ([...part.querySelectorAll(".step")]);
  let shown = "";

  /** @param {HTMLElement | undefined} step */
  async function show(step) {
    const number = step?.dataset.step;
    if (!part || !picture || !caption || !number || number === shown) return;
    shown = number;
    for (const it of steps) it.toggleAttribute("data-read", it === step);
    const place = `/puzzles/${part.dataset.puzzle}/steps/${number}/board`;
    if (!pictures.has(place)) {
      /** @type {import("./api.js").Answer<string>} */
      const { value } = await ask("GET", place);
      if (value) pictures.set(place, value);
    }
    const text = pictures.get(place);
    const found = text ? new DOMParser().parseFromString(text, "text/html").querySelector("svg") : null;
    if (shown !== number || !found) return;
    picture.replaceChildren(found);
    caption.textContent = `After step ${number}`;
    caption.dataset.shown = number;
  }

  part.addEventListener("focusin", (event) => {
    const step = event.target instanceof Element ? event.target.closest(".step") : null;
    if (step instanceof HTMLElement) show(step);
  });
  let isWaiting = false;
  addEventListener("scroll", () => {
    if (isWaiting) return;
    isWaiting = true;
    requestAnimationFrame(() => {
      isWaiting = false;
      const line = innerHeight * READING_LINE;
      const box = part.getBoundingClientRect();
      if (!part.isConnected || box.bottom < 0 || box.top > line) return;
      // Where the keyboard is one reads, as long as that can be seen.
      const focused = document.activeElement?.closest(".step");
      const [top, bottom] = [focused?.getBoundingClientRect().top ?? -1, focused?.getBoundingClientRect().bottom ?? -1];
      const isSeen = focused instanceof HTMLElement && bottom > 0 && top < innerHeight;
      show(isSeen ? focused : steps.findLast((it) => it.getBoundingClientRect().top <= line));
    });
  }, { passive: true });
}
