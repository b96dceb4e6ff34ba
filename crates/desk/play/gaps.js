// What the pack lacks: a puzzle is set as a job, and what was set is kept or let go.

import { ask, say, told } from "./api.js";
import { show, whole } from "./jobs.js";

/** @type {Set<number>} Jobs whose puzzles are to be shown. */
const wanted = new Set();

/** Whether somebody is deciding about a puzzle. */
export const isDeciding = () => document.activeElement?.closest("#made form, #how") != null;

/** Puts the buttons of the page to work; again for each page that is made anew. */
export function beginGaps() {
  const how = document.getElementById("how");
  const said = document.getElementById("set-said");
  how?.addEventListener("submit", (event) => event.preventDefault());
  document.getElementById("gaps")?.addEventListener("click", async (event) => {
    const button = event.target instanceof Element ? event.target.closest("[data-technique]") : null;
    if (!button || !(how instanceof HTMLFormElement) || !said) return;
    if (!how.reportValidity()) return;
    const given = new FormData(how);
    const seed = String(given.get("seed") ?? "").trim();
    const asked = { seed: seed === "" ? null : seed, count: Number(given.get("count")), tries: Number(given.get("tries")) };
    /** @type {import("./api.js").Answer<import("./jobs.js").Job>} */
    const { value, refused } = await ask("POST", `/gaps/${button.getAttribute("data-technique")}`, asked);
    said.textContent = refused ? told(refused) : `${value.title}: it is begun, and stands below.`;
  });
  show();
  for (const it of wanted) void showMade(it);
}

/**
 * Shows the puzzles that a job has set.
 * @param {number} id
 */
export async function showMade(id) {
  wanted.add(id);
  const set = await whole(id);
  const section = document.getElementById("made");
  const list = section?.querySelector(".list");
  if (!set || !section || !list || set.made.length === 0 || list.querySelector(`[data-job="${id}"]`)) return;
  set.made.forEach((it, at) => list.prepend(puzzle(id, at, it, set.job.title)));
  section.hidden = false;
}

/**
 * @param {number} id
 * @param {number} at
 * @param {import("./jobs.js").Made} it
 * @param {string} job
 */
function puzzle(id, at, it, job) {
  const article = document.createElement("article");
  article.className = "made";
  article.dataset.job = String(id);
  const head = document.createElement("h3");
  head.textContent = it.title;
  const says = document.createElement("p");
  says.textContent = `${job}. ${it.givens} givens, ${it.clues} clues, ${it.steps} steps, ${it.minutes} minutes.`;
  const boards = document.createElement("div");
  boards.className = "boards";
  boards.append(figure(it.picture, "As it would be handed out."));
  if (it.moment_picture) boards.append(figure(it.moment_picture, `Step ${it.moment_step}, where it turns on the technique: ${it.moment_says}`));
  if (!it.moment_picture) says.append(" No one step of its walkthrough is the technique's alone, though it cannot be finished without it.");
  const fate = document.createElement("div");
  article.append(head, says, boards, fate);
  if (it.fate !== "open") decided(fate, it.fate, it.id);
  else fate.append(...choices(id, at, it, fate));
  return article;
}

/**
 * @param {number} id
 * @param {number} at
 * @param {import("./jobs.js").Made} it
 * @param {HTMLElement} fate
 */
function choices(id, at, it, fate) {
  const form = document.createElement("form");
  const name = `made-${id}-${at}`;
  const label = Object.assign(document.createElement("label"), { textContent: "Title", htmlFor: name });
  const title = Object.assign(document.createElement("input"), { id: name, value: it.title, maxLength: 120, required: true, autocomplete: "off" });
  const place = Object.assign(document.createElement("input"), { type: "checkbox" });
  const placed = Object.assign(document.createElement("label"), { className: "plain" });
  placed.append(place, " Give it a place at once, instead of the pool");
  const keep = Object.assign(document.createElement("button"), { textContent: "Keep it" });
  const away = Object.assign(document.createElement("button"), { type: "button", textContent: "Let it go" });
  const actions = Object.assign(document.createElement("p"), { className: "actions" });
  actions.append(keep, away);
  const said = Object.assign(document.createElement("p"), { className: "said" });
  said.setAttribute("role", "status");
  form.append(label, title, placed, actions, said);
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    /** @type {import("./api.js").Answer<{id: string}>} */
    const { value, refused } = await ask("POST", `/jobs/${id}/made/${at + 1}/file`, { title: title.value, has_place: place.checked });
    if (refused) return (said.textContent = told(refused));
    [it.fate, it.id] = ["kept", value.id];
    decided(fate, "kept", value.id);
    say(`${title.value} is kept.`);
  });
  away.addEventListener("click", async () => {
    const { refused } = await ask("POST", `/jobs/${id}/made/${at + 1}/discarded`);
    if (refused) return (said.textContent = told(refused));
    it.fate = "discarded";
    decided(fate, "discarded", null);
    document.getElementById("made-head")?.focus();
    say(`${it.title} is let go.`);
  });
  return [form];
}

/**
 * @param {HTMLElement} fate
 * @param {"kept" | "discarded"} what
 * @param {string | null} id
 */
function decided(fate, what, id) {
  const line = document.createElement("p");
  if (what === "kept" && id) {
    const link = Object.assign(document.createElement("a"), { href: `/puzzles/${id}`, textContent: `puzzles/${id}.toml` });
    line.append("Kept as ", link, ".");
    fate.replaceChildren(line);
    link.focus();
    return;
  }
  line.textContent = "Let go.";
  fate.replaceChildren(line);
}

/**
 * @param {string} picture Drawn by the desk.
 * @param {string} caption
 */
function figure(picture, caption) {
  const figure = document.createElement("figure");
  const drawn = new DOMParser().parseFromString(picture, "image/svg+xml").documentElement;
  const text = document.createElement("figcaption");
  text.textContent = caption;
  figure.append(document.importNode(drawn, true), text);
  return figure;
}
