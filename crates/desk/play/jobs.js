// The jobs of the desk as they go on: a list that follows, with a way to break each off.

import { ask, hear, say, told } from "./api.js";

/**
 * @typedef {object} Job
 * @property {number} id
 * @property {"press" | "set"} kind
 * @property {string} title
 * @property {"waiting" | "running" | "done" | "failed" | "cancelled"} state
 * @property {string} says
 * @property {string | null} help
 * @property {number | null} done
 * @property {number | null} of
 */

/**
 * @typedef {object} Made
 * @property {string} title
 * @property {"open" | "kept" | "discarded"} fate
 * @property {string | null} id
 * @property {number} givens
 * @property {number} clues
 * @property {number} steps
 * @property {string} minutes
 * @property {string} picture
 * @property {number | null} moment_step
 * @property {string | null} moment_says
 * @property {string | null} moment_picture
 */

/** @typedef {{job: Job, problems: string | null, note: string | null, seed: string | null, made: Made[]}} Whole */

const WORDS = { waiting: "waiting", running: "at work", done: "done", failed: "failed", cancelled: "broken off" };

/** @type {Job[]} */ let all = [];
/** @type {Map<number, string>} What each was when it was last heard of. */ const before = new Map();
/** @type {Map<number, Whole>} */ const wholes = new Map();

/**
 * Keeps the list as it is, on this page and on what is made anew of it, and calls back with each job that is over, once for
 * each time that anything of it changes.
 * @param {(job: Job) => void} over
 */
export function follow(over) {
  hear("jobs", (text) => {
    all = JSON.parse(text);
    show();
    for (const it of all) {
      const now = JSON.stringify(it);
      const was = before.get(it.id);
      before.set(it.id, now);
      if (was !== now && it.state !== "waiting" && it.state !== "running") over(it);
    }
  });
}

/** Shows the list as it was last heard. */
export function show() {
  const list = document.querySelector("#jobs ul");
  const none = document.querySelector("#jobs .none");
  if (!list) return;
  none?.toggleAttribute("hidden", all.length > 0);
  const items = new Map(/** @type {HTMLElement[]} */ ([...list.children]).map((it) => [it.dataset.job, it]));
  const kept = all.map((job) => drawn(items.get(String(job.id)) ?? document.createElement("li"), job));
  if (kept.some((it, at) => list.children[at] !== it) || list.children.length !== kept.length) list.replaceChildren(...kept);
}

/**
 * What came of a job; asked once.
 * @param {number} id
 */
export async function whole(id) {
  const known = wholes.get(id);
  if (known) return known;
  /** @type {import("./api.js").Answer<Whole>} */
  const { value } = await ask("GET", `/jobs/${id}`);
  if (value) wholes.set(id, value);
  return value;
}

/**
 * Changes as little as it can, so that the keyboard stays where it is.
 * @param {HTMLElement} item
 * @param {Job} job
 */
function drawn(item, job) {
  item.dataset.job = String(job.id);
  const isOn = job.state === "waiting" || job.state === "running";
  const line = made(item, "p");
  const title = document.createElement("strong");
  title.textContent = job.title;
  line.replaceChildren(title, `: ${WORDS[job.state]}. ${job.says} ${job.help ?? ""}`);
  const bar = item.querySelector("progress");
  if (!isOn || job.of === null) bar?.remove();
  else {
    const progress = /** @type {HTMLProgressElement} */ (bar ?? made(item, "progress"));
    progress.setAttribute("aria-label", `How far: ${job.title}`);
    progress.max = job.of;
    progress.value = job.done ?? 0;
  }
  const button = item.querySelector("button");
  if (!isOn) button?.remove();
  else if (!button) {
    const cancel = made(item, "button");
    cancel.setAttribute("type", "button");
    cancel.setAttribute("aria-label", `Break it off: ${job.title}`);
    cancel.textContent = "Break it off";
    cancel.addEventListener("click", async () => {
      const { refused } = await ask("POST", `/jobs/${job.id}/cancelled`);
      if (refused) say(told(refused));
    });
  }
  if (item.dataset.state !== job.state && isOn === false && job.kind === "press" && job.state === "done") tell(item, job);
  item.dataset.state = job.state;
  return item;
}

/**
 * What pressing had to say, in the words of the command line.
 * @param {HTMLElement} item
 * @param {Job} job
 */
async function tell(item, job) {
  const said = await whole(job.id);
  for (const text of [said?.problems, said?.note]) {
    if (!text) continue;
    const told = made(item, "pre");
    told.className = "told";
    told.tabIndex = 0;
    told.textContent = text;
  }
}

/**
 * @param {HTMLElement} item
 * @param {string} name
 */
function made(item, name) {
  const found = name === "p" ? item.querySelector(name) : null;
  return /** @type {HTMLElement} */ (found ?? item.appendChild(document.createElement(name)));
}
