// Coming in and going out: an editor signs in, an invitation is followed, anybody leaves.

import { ask, told } from "./api.js";

const said = document.getElementById("said");
/** @param {string} what */
const tell = (what) => said && (said.textContent = what);

const signIn = document.getElementById("sign-in");
if (signIn instanceof HTMLFormElement) {
  signIn.addEventListener("submit", async (event) => {
    event.preventDefault();
    const given = new FormData(signIn);
    tell("");
    const asked = { name: String(given.get("name")).trim(), password: String(given.get("password")) };
    const { refused } = await ask("POST", "/session", asked);
    if (!refused) return location.replace(location.href);
    tell(told(refused));
    const password = signIn.elements.namedItem("password");
    if (password instanceof HTMLInputElement) password.select();
  });
}

const comeIn = document.getElementById("come-in");
if (comeIn instanceof HTMLFormElement) {
  const token = location.hash.slice(1);
  history.replaceState(null, "", location.pathname);
  const button = comeIn.querySelector("button");
  if (!token) tell("There is no invitation in this address. Follow the link that you were sent, the whole of it.");
  else if (button) button.disabled = false;
  comeIn.addEventListener("submit", async (event) => {
    event.preventDefault();
    if (!token) return;
    const { refused } = await ask("POST", "/invited", { token });
    if (refused) return tell(told(refused));
    location.replace("/yours");
  });
}

document.getElementById("sign-out")?.addEventListener("click", async () => {
  const { refused } = await ask("DELETE", "/session");
  if (refused) return tell(told(refused));
  location.replace("/");
});
