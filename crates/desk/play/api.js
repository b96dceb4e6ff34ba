// The interface of the desk, `/api/1`, as the pages use it.

/**
 * @template T
 * @typedef {{value: T, refused: null} | {value: null, refused: Refused}} Answer
 */

/**
 * @typedef {object} Refused
 * @property {number} status 0 if the desk did not answer.
 * @property {string} message
 * @property {string} help
 */

/** @param {Document} page */
const tokenOf = (page) => page.querySelector('meta[name="desk-token"]')?.getAttribute("content") ?? "";

let token = tokenOf(document);

/**
 * Asks the desk. A question that was broken off is never answered.
 * @template T
 * @param {"GET" | "POST" | "PUT" | "DELETE"} method
 * @param {string} path Below `/api/1`.
 * @param {unknown} [body]
 * @param {AbortSignal} [signal]
 * @returns {Promise<Answer<T>>}
 */
export async function ask(method, path, body, signal) {
  const answer = await askOnce(method, path, body, signal);
  // A desk that was started anew has another token, which its pages tell.
  const isRefused = method !== "GET" && answer.refused?.status === 403;
  return isRefused && (await renewToken()) ? askOnce(method, path, body, signal) : answer;
}

/**
 * @template T
 * @param {"GET" | "POST" | "PUT" | "DELETE"} method
 * @param {string} path
 * @param {unknown} [body]
 * @param {AbortSignal} [signal]
 * @returns {Promise<Answer<T>>}
 */
async function askOnce(method, path, body, signal) {
  const headers = /** @type {Record<string, string>} */ ({ "x-desk-token": token });
  if (body !== undefined) headers["content-type"] = "application/json";
  try {
    const answer = await fetch(`/api/1${path}`, { method, headers, body: JSON.stringify(body), signal });
    const text = await answer.text();
    const isJson = answer.headers.get("content-type")?.startsWith("application/json");
    const value = isJson ? JSON.parse(text) : text;
    return answer.ok ? { value, refused: null } : { value: null, refused: { status: answer.status, ...value } };
  } catch (error) {
    if (signal?.aborted) return new Promise(() => {});
    const help = "look whether it still runs; what stands here is not lost";
    return { value: null, refused: { status: 0, message: "the desk does not answer", help } };
  }
}

/** @returns {Promise<boolean>} Whether it is another now. */
async function renewToken() {
  const page = await pageNow();
  const now = page ? tokenOf(page) : "";
  if (now === "" || now === token) return false;
  token = now;
  return true;
}

/**
 * Whether the same may be done later: the desk is away or full, or somebody must sign in first. What it can never take it
 * refuses for good.
 * @param {Refused} it
 */
export const isPassing = (it) => ![400, 409, 413, 422].includes(it.status);

/** @param {Refused} it */
export const told = (it) => `${sentence(it.message)} ${sentence(it.help)}`;

/** @param {string} it */
const sentence = (it) => `${it.charAt(0).toUpperCase()}${it.slice(1)}${/[.?!]$/.test(it) ? "" : "."}`;

/** @type {EventSource | null} What happens; one line to the desk for all of a page. */
let news = null;

/**
 * Calls back with what is told under that name beside the words.
 * @param {string} name
 * @param {(text: string) => void} then
 */
export function hear(name, then) {
  news ??= new EventSource("/api/1/news");
  news.addEventListener(name, (it) => then(it.data));
}

/**
 * Calls back with each word of what happens. The first word comes at once, and again after the desk was away.
 * @param {(word: string) => void} then
 */
export function listen(then) {
  news ??= new EventSource("/api/1/news");
  news.addEventListener("message", (it) => then(it.data));
  news.addEventListener("error", () => say("The desk does not answer. What stands here is not lost; this page looks again by itself."));
  news.addEventListener("open", () => say(""));
}

/**
 * Says something in the line above the page.
 * @param {string} what
 */
export function say(what) {
  const line = document.getElementById("news");
  if (line && line.textContent !== what) line.textContent = what;
}

/** The main part of this page as the desk would make it now; null if there is none. */
export const madeAnew = async () => (await pageNow())?.querySelector("main") ?? null;

async function pageNow() {
  try {
    const answer = await fetch(location.href);
    return answer.ok ? new DOMParser().parseFromString(await answer.text(), "text/html") : null;
  } catch {
    return null;
  }
}
