// Who may come in: invitations are made and revoked.

import { ask, madeAnew, told } from "./api.js";
import "./signing.js";

const said = document.getElementById("said");
/** @param {string} what */
const tell = (what) => said && (said.textContent = what);

const form = document.getElementById("invite");
if (form instanceof HTMLFormElement) {
  form.addEventListener("change", () => show(form));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    invite(form);
  });
  show(form);
}
document.getElementById("copy")?.addEventListener("click", copy);
listenToRevoke();

/**
 * Shows what belongs to the role that is chosen.
 * @param {HTMLFormElement} form
 */
function show(form) {
  const role = new FormData(form).get("role");
  for (const it of form.querySelectorAll("[data-for]")) {
    if (it instanceof HTMLElement) it.hidden = it.dataset.for !== role;
  }
}

/** @param {HTMLFormElement} form */
async function invite(form) {
  const given = new FormData(form);
  const role = String(given.get("role"));
  const person = String(given.get(role)).trim();
  const puzzles = role === "tester" ? given.getAll("puzzle") : [];
  /** @type {import("./api.js").Answer<{id: string, link: string}>} */
  const { value, refused } = await ask("POST", "/invitations", { role, person, puzzles, days: Number(given.get("days")) });
  if (refused) return tell(told(refused));
  const link = document.getElementById("link");
  const made = document.getElementById("made");
  if (!(link instanceof HTMLInputElement) || !made) return;
  link.value = new URL(value.link, location.origin).href;
  made.hidden = false;
  tell(`${person} can come in by the link below.`);
  link.focus();
  link.select();
  await renew();
}

async function copy() {
  const link = document.getElementById("link");
  if (!(link instanceof HTMLInputElement)) return;
  try {
    await navigator.clipboard.writeText(link.value);
    tell("Copied.");
  } catch {
    link.select();
    tell("The browser does not let this page copy: the link is selected, copy it from there.");
  }
}

function listenToRevoke() {
  for (const it of document.querySelectorAll("[data-revoke]")) {
    it.addEventListener("click", async () => {
      const { refused } = await ask("DELETE", `/invitations/${it.getAttribute("data-revoke")}`);
      if (refused) return tell(told(refused));
      await renew();
      tell("Revoked. Whoever came in by it is out.");
      document.getElementById("main")?.focus();
    });
  }
}

/** What the desk tells is told anew; what stands in the form stays. */
async function renew() {
  const now = await madeAnew();
  for (const id of ["invitations", "door"]) {
    const part = now?.querySelector(`#${id}`);
    if (part) document.getElementById(id)?.replaceWith(part);
  }
  listenToRevoke();
}
