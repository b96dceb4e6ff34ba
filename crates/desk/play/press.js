// The page of the outputs: what to press is chosen, pressed as a job, and shown when it is done.

import { ask, listen, madeAnew, say, told } from "./api.js";
import { follow, show } from "./jobs.js";

/** @type {string[]} */ const forms = [];
const form = document.getElementById("press");
const list = document.getElementById("forms");
const words = document.getElementById("form-words");
const said = document.getElementById("said");

if (form instanceof HTMLFormElement && list && words && said) {
  form.addEventListener("change", () => {
    const isOwn = new FormData(form).get("which") === "own";
    list.hidden = words.hidden = !isOwn;
  });
  document.getElementById("add-form")?.addEventListener("click", () => {
    const selects = /** @type {HTMLSelectElement[]} */ ([...words.querySelectorAll("select[data-form]")]);
    const chosen = selects.map((it) => it.value).filter((it) => it !== "").join("+");
    if (!forms.includes(chosen)) forms.push(chosen);
    said.textContent = `${chosen.replaceAll("+", ", ")}: added.`;
    listed();
  });
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const given = new FormData(form);
    const isOwn = given.get("which") === "own";
    if (isOwn && forms.length === 0) return (said.textContent = "Add a booklet first, or take the one that is usual.");
    const asked = {
      issued: given.get("issued") || null,
      forms: isOwn ? forms : [],
      print_cues: given.has("print_cues"),
      strict: given.has("strict"),
      unseal: given.has("unseal"),
    };
    const { refused } = await ask("POST", "/press", asked);
    said.textContent = refused ? told(refused) : "It is begun; it stands below how far it is.";
  });
}

/** Shows which booklets are asked for. */
function listed() {
  const items = forms.map((it) => {
    const item = document.createElement("li");
    const away = document.createElement("button");
    away.type = "button";
    away.textContent = "Take it away";
    away.setAttribute("aria-label", `Take it away: ${it.replaceAll("+", ", ")}`);
    away.addEventListener("click", () => {
      forms.splice(forms.indexOf(it), 1);
      listed();
      document.getElementById("add-form")?.focus();
    });
    item.append(`${it.replaceAll("+", ", ")} `, away);
    return item;
  });
  list?.replaceChildren(...items);
}

listen((word) => {
  if (word === "end") say("The desk has ended.");
});
show();
let isFirst = true;
follow(async (job) => {
  if (job.kind !== "press" || job.state !== "done") return;
  const outputs = (await madeAnew())?.querySelector("#outputs");
  const now = document.getElementById("outputs");
  if (outputs && now && outputs.innerHTML !== now.innerHTML) now.replaceWith(outputs);
  if (!isFirst) say("The pack is pressed.");
});
// What was over when the page was opened is no news.
setTimeout(() => (isFirst = false), 500);
